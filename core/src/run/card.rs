//! The gun held still before a large card at the job's distance: pattern, large-panel efficiency, overspray.

use super::{CardMap, Tally};
use crate::course::Outcome;
use crate::part::CARD_HALF;
use crate::tally::{Digest, Fate, Fates, GROUPS, Sizes};

/// Droplets flown to the large card, of their own streams.
pub const CARD_DROPLETS: u64 = 200_000;
/// Bin of a profile [m].
pub const PROFILE_BIN: f64 = 1e-3;
const BINS: usize = 1200;

/// Counts of the card.
#[derive(Debug, Clone, PartialEq)]
pub struct CardTally {
    /// Fates.
    pub fates: Fates,
    /// Landed parcels along the fan (the long way), group by group.
    pub along: Vec<u64>,
    /// Landed parcels across it.
    pub across: Vec<u64>,
    /// Where they landed and how wet. Not in the digest: `along` and `across` hold the same places.
    pub map: CardMap,
    /// All droplets by their first diameter.
    pub sprayed: Sizes,
    /// Landed ones by their first diameter.
    pub landed: Sizes,
    /// Those that did not land by their last diameter, by group.
    pub overspray: Vec<Sizes>,
    /// The same by aerodynamic diameter: that of a water-density sphere that settles as fast.
    pub overspray_aerodynamic: Vec<Sizes>,
}

impl Default for CardTally {
    fn default() -> Self {
        Self {
            fates: Fates::default(),
            along: vec![0; BINS * GROUPS],
            across: vec![0; BINS * GROUPS],
            map: CardMap::default(),
            sprayed: Sizes::default(),
            landed: Sizes::default(),
            overspray: vec![Sizes::default(); GROUPS],
            overspray_aerodynamic: vec![Sizes::default(); GROUPS],
        }
    }
}

impl CardTally {
    /// Profile of parcels by 1 mm bins from -0.6 m on, along or across the fan, without one group where asked.
    #[must_use]
    pub fn profile(&self, along: bool, without: Option<usize>) -> Vec<f64> {
        let counts = if along { &self.along } else { &self.across };
        let mut sum = vec![0.0; BINS];
        for group in (0..GROUPS).filter(|&g| Some(g) != without) {
            for (s, &n) in sum.iter_mut().zip(&counts[group * BINS..(group + 1) * BINS]) {
                *s += n as f64;
            }
        }
        sum
    }

    /// Overspray by diameter, without one group where asked.
    #[must_use]
    pub fn overspray(&self, aerodynamic: bool, without: Option<usize>) -> Sizes {
        let groups = if aerodynamic { &self.overspray_aerodynamic } else { &self.overspray };
        let mut sum = Sizes::default();
        for (_, sizes) in groups.iter().enumerate().filter(|(g, _)| Some(*g) != without) {
            sum.merge(sizes);
        }
        sum
    }

    /// Takes all counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.fates.digest(digest);
        self.along.iter().chain(&self.across).for_each(|&n| digest.count(n));
        self.overspray.iter().for_each(|s| s.digest(digest));
    }
}

fn bin(place: f64) -> Option<usize> {
    let at = (place + CARD_HALF) / PROFILE_BIN;
    (at >= 0.0 && at < BINS as f64).then(|| (at as usize).min(BINS - 1))
}

impl Tally for CardTally {
    fn count(&mut self, o: &Outcome) {
        self.fates.count(o.fate, o.group());
        self.sprayed.count(o.start_diameter);
        if o.fate == Fate::Landed {
            self.landed.count(o.start_diameter);
            self.map.count(o.place[0], o.place[1], o.wet);
            if let Some(b) = bin(o.place[1]) {
                self.along[o.group() * BINS + b] += 1;
            }
            if let Some(b) = bin(o.place[0]) {
                self.across[o.group() * BINS + b] += 1;
            }
        } else {
            self.overspray[o.group()].count(o.diameter);
            self.overspray_aerodynamic[o.group()].count(o.diameter * (o.density / 1000.0).max(0.0).sqrt());
        }
    }

    fn merge(&mut self, other: &Self) {
        self.fates.merge(&other.fates);
        for (mine, theirs) in self.along.iter_mut().zip(&other.along) {
            *mine += theirs;
        }
        for (mine, theirs) in self.across.iter_mut().zip(&other.across) {
            *mine += theirs;
        }
        self.map.merge(&other.map);
        self.sprayed.merge(&other.sprayed);
        self.landed.merge(&other.landed);
        for (mine, theirs) in self.overspray.iter_mut().zip(&other.overspray) {
            mine.merge(theirs);
        }
        for (mine, theirs) in self.overspray_aerodynamic.iter_mut().zip(&other.overspray_aerodynamic) {
            mine.merge(theirs);
        }
    }
}
