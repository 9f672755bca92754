//! What a gun held still leaves, by the slopes of the rays from its tip to where droplets landed.
//!
//! A slope is the place beside the gun's axis over the way along it: x/z and y/z in the frame of the cap, the fan's narrow
//! way x. So one imprint stands for all distances and tilts by geometry alone. Before a tube y is the angle round it.

use crate::course::{Outcome, Tally};
use crate::math::{cos, sin};
use crate::tally::{Digest, Fate, Fates, GROUPS, WET_UNIT};

/// Bins of one level of an imprint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bins {
    /// Bins along x.
    pub nx: usize,
    /// Bins along y.
    pub ny: usize,
    /// Lower edge, x [-].
    pub x0: f64,
    /// Lower edge, y [- or rad].
    pub y0: f64,
    /// Bin, x [-].
    pub dx: f64,
    /// Bin, y [- or rad].
    pub dy: f64,
    /// y is an angle: its last bin lies beside its first.
    pub round: bool,
}

/// A coarse bin is so many fine ones wide, each way.
const COARSE: f64 = 8.0;
/// Slope that the coarse level reaches to: a droplet further out has left the large card at any usual distance.
const REACH: f64 = 4.0;
/// Slope along a tube that its level reaches to.
const TUBE_REACH: f64 = 2.0;

impl Bins {
    /// About (0, 0), at least so far each way.
    fn about(half: [f64; 2], step: f64) -> Self {
        let count = |half: f64| 2 * ((half / step).ceil().max(1.0) as usize);
        let (nx, ny) = (count(half[0]), count(half[1]));
        let from = |n: usize| -0.5 * step * n as f64;
        Self { nx, ny, x0: from(nx), y0: from(ny), dx: step, dy: step, round: false }
    }

    fn bin(&self, x: f64, y: f64) -> Option<usize> {
        let (i, j) = ((x - self.x0) / self.dx, (y - self.y0) / self.dy);
        let inside = i >= 0.0 && j >= 0.0 && i < self.nx as f64 && j < self.ny as f64;
        inside.then(|| (j as usize).min(self.ny - 1) * self.nx + (i as usize).min(self.nx - 1))
    }

    /// Number of bins.
    #[must_use]
    pub fn len(&self) -> usize {
        self.nx * self.ny
    }

    /// No bins.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

/// Levels of bins that all imprints of one shelf share: fine where the fan is, coarse beyond.
#[derive(Debug, Clone, PartialEq)]
pub struct Levels {
    bins: Vec<Bins>,
    /// Cosine and sine of the cap's turn in the flights' outcomes, which the imprint takes back.
    cap: [f64; 2],
    /// y is an angle round a tube.
    tube: bool,
}

impl Levels {
    /// Before a flat face: fine bins of the slope `bin` as far as `half` each way, coarse ones beyond; the flights' cap
    /// turned by `cap_turn` [rad].
    #[must_use]
    pub fn flat(half: [f64; 2], bin: f64, cap_turn: f64) -> Self {
        let bins = vec![Bins::about(half, bin), Bins::about([REACH; 2], COARSE * bin)];
        Self { bins, cap: [cos(cap_turn), sin(cap_turn)], tube: false }
    }

    /// Before a tube or a curved face: `count` bins as far round as `reach` each way [rad].
    #[must_use]
    pub fn round(count: usize, reach: f64, bin: f64) -> Self {
        let along = Bins::about([TUBE_REACH, bin], bin);
        let closed = reach > core::f64::consts::PI - 1e-9;
        let bins =
            vec![Bins { ny: count, y0: -reach, dy: 2.0 * reach / count as f64, round: closed, ..along }];
        Self { bins, cap: [1.0, 0.0], tube: true }
    }

    /// The levels, finest first.
    #[must_use]
    pub fn bins(&self) -> &[Bins] {
        &self.bins
    }
}

/// Landed parcels by slope, level and replicate group.
#[derive(Debug, Clone, PartialEq)]
pub struct Imprint {
    levels: Levels,
    /// By level: parcels, bin by bin, the groups of a bin side by side.
    solids: Vec<Vec<[u32; GROUPS]>>,
    /// By level: wet volume, in [`WET_UNIT`] of a parcel.
    wet: Vec<Vec<u64>>,
    outside: u64,
    fates: Fates,
}

impl Imprint {
    /// Nothing landed.
    #[must_use]
    pub fn new(levels: &Levels) -> Self {
        Self {
            solids: levels.bins.iter().map(|bins| vec![[0; GROUPS]; bins.len()]).collect(),
            wet: levels.bins.iter().map(|bins| vec![0; bins.len()]).collect(),
            levels: levels.clone(),
            outside: 0,
            fates: Fates::default(),
        }
    }

    fn landed(&mut self, x: f64, y: f64, wet: f64, group: usize) {
        for (level, bins) in self.levels.bins.iter().enumerate() {
            if let Some(bin) = bins.bin(x, y) {
                self.solids[level][bin][group] += 1;
                self.wet[level][bin] += (wet * WET_UNIT + 0.5) as u64;
                return;
            }
        }
        self.outside += 1;
    }

    /// What became of the parcels.
    #[must_use]
    pub fn fates(&self) -> &Fates {
        &self.fates
    }

    /// Takes all counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.fates.digest(digest);
        self.solids.iter().flatten().flatten().for_each(|&n| digest.count(u64::from(n)));
        self.wet.iter().flatten().for_each(|&n| digest.count(n));
        digest.count(self.outside);
    }

    /// Parcels that left the gun.
    #[must_use]
    pub fn flown(&self) -> u64 {
        self.fates.total()
    }

    /// Share of them of each group [-].
    #[must_use]
    pub fn group_shares(&self) -> [f64; GROUPS] {
        let all = self.flown().max(1) as f64;
        core::array::from_fn(|g| self.fates.group_total(g) as f64 / all)
    }

    /// Share of the parcels that lies in the bins [-].
    #[must_use]
    pub fn share(&self) -> f64 {
        let landed: u64 = self.solids.iter().flatten().flatten().map(|&n| u64::from(n)).sum();
        landed as f64 / self.flown().max(1) as f64
    }

    /// The levels.
    #[must_use]
    pub fn levels(&self) -> &Levels {
        &self.levels
    }

    /// Share of the parcels flown in each bin of a level, as a table with a border to be read between bins: with `L` at least
    /// 17 the groups, then the wet volume; else all groups together, then the wet volume.
    pub(super) fn table<const L: usize>(&self, level: usize) -> Vec<[f32; L]> {
        let bins = &self.levels.bins[level];
        let (width, height) = (bins.nx + 2, bins.ny + 2);
        let mut table = vec![[0.0f32; L]; width * height];
        let all = self.flown().max(1) as f64;
        let flown: [f64; GROUPS] = core::array::from_fn(|g| self.fates.group_total(g).max(1) as f64);
        for j in 0..height {
            let row = match (j, bins.round) {
                (0, true) => bins.ny - 1,
                (0, false) => continue,
                (j, true) => (j - 1) % bins.ny,
                (j, false) if j > bins.ny => continue,
                (j, false) => j - 1,
            };
            for i in 0..bins.nx {
                let bin = row * bins.nx + i;
                let out = &mut table[j * width + i + 1];
                let wet = self.wet[level][bin] as f64 / (WET_UNIT * all);
                if L > GROUPS {
                    for (g, &n) in self.solids[level][bin].iter().enumerate() {
                        out[g] = (f64::from(n) / flown[g]) as f32;
                    }
                    out[GROUPS] = wet as f32;
                } else {
                    let n: u64 = self.solids[level][bin].iter().map(|&n| u64::from(n)).sum();
                    out[0] = (n as f64 / all) as f32;
                    out[1] = wet as f32;
                }
            }
        }
        table
    }
}

impl Tally for Imprint {
    fn count(&mut self, o: &Outcome) {
        self.fates.count(o.fate, o.group());
        if o.fate != Fate::Landed || o.position.z <= 0.0 {
            return;
        }
        let (x, y) = (o.position.x / o.position.z, o.position.y / o.position.z);
        if self.levels.tube {
            self.landed(x, o.place[1], o.wet, o.group());
        } else {
            let [c, s] = self.levels.cap;
            self.landed(x * c - y * s, x * s + y * c, o.wet, o.group());
        }
    }

    fn merge(&mut self, other: &Self) {
        for (mine, theirs) in self.solids.iter_mut().flatten().zip(other.solids.iter().flatten()) {
            for (sum, &n) in mine.iter_mut().zip(theirs) {
                *sum += n;
            }
        }
        for (mine, theirs) in self.wet.iter_mut().flatten().zip(other.wet.iter().flatten()) {
            *mine += theirs;
        }
        self.fates.merge(&other.fates);
        self.outside += other.outside;
    }
}
