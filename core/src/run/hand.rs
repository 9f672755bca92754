//! What a run needs where the gun is not a machine's: a shelf of imprints, and a layer made of it.

use super::{CardTally, PartTally, Prepared, Run, Tally};
use crate::course::Outcome;
use crate::error::ParameterError;
use crate::film::{Deposit, FilmMap};
use crate::stroke::{Imprint, Layer, Levels, Moment, Shelf, Strokes, Track};
use crate::tally::{FateMix, Fates};
use std::borrow::Cow;

/// Segments laid in one step: about a second of a hand.
const SEGMENTS: usize = 20;

/// Shelf, track and layer of a run.
pub(super) struct ByHand {
    pub shelf: Shelf,
    track: Option<Track>,
    /// With all groups, and without.
    layers: Option<[Layer; 2]>,
}

/// Droplets of each outer pose, for so many at the job's own.
fn outer(middle: u64) -> u64 {
    (middle / 2).max(1)
}

impl ByHand {
    /// None where the exact sweep serves.
    pub fn new(prepared: &Prepared) -> Result<Option<Self>, ParameterError> {
        let Some(range) = prepared.pose_range() else { return Ok(None) };
        let droplets = prepared.job.run.droplets;
        let shelf = prepared.shelf(&range, droplets, outer(droplets))?;
        Ok(Some(Self { shelf, track: None, layers: None }))
    }

    /// The middle has flown its last droplet.
    pub fn middle_is_flown(&mut self, droplets: u64) {
        self.shelf.set_wanted(|node| if node == 0 { droplets } else { outer(droplets) });
    }

    /// The gun goes elsewhere now.
    pub fn relay(&mut self) {
        self.track = None;
    }

    /// Steps in which the film is laid.
    pub fn steps(&self) -> usize {
        self.track.as_ref().map_or(usize::MAX, |track| (track.moments().len() - 1).div_ceil(SEGMENTS))
    }

    /// Lays one step of the film.
    pub fn step(&mut self, prepared: &Prepared, card: &CardTally, step: usize, film: &mut FilmMap) {
        let track = self.track.get_or_insert_with(|| prepared.track(card));
        let [layer, _] =
            self.layers.get_or_insert_with(|| [Layer::full(&self.shelf), Layer::plain(&self.shelf)]);
        let last = ((step + 1) * SEGMENTS).min(track.moments().len() - 1);
        layer.lay_segments(track, (step * SEGMENTS).min(last)..last, 0, film);
    }
}

impl ByHand {
    /// What lands in one stretch with the trigger pulled, by number; none past the last.
    pub fn deposit(&self, prepared: &Prepared, card: &CardTally, number: usize) -> Option<Deposit> {
        let track = self.track.as_ref().map_or_else(|| Cow::Owned(prepared.track(card)), Cow::Borrowed);
        let pieces = track.pieces();
        let (start, piece) = (pieces.first()?.from, pieces.get(number)?);
        let mut film = prepared.bare_film();
        let lay = |layer: &Layer, film: &mut FilmMap| {
            layer.lay_segments(&track, piece.segments.clone(), 0, film);
        };
        match &self.layers {
            Some([_, plain]) => lay(plain, &mut film),
            None => lay(&Layer::plain(&self.shelf), &mut film),
        }
        Some(Deposit { from: piece.from - start, to: piece.to - start, dry: film.dry, wet: film.wet })
    }
}

/// Counts of a job and, beside them, its imprint where it has a shelf.
pub(super) struct Both {
    pub part: PartTally,
    pub imprint: Option<Imprint>,
}

impl Both {
    /// Nothing yet, of the kind of `part`.
    pub fn new(part: &PartTally, levels: Option<&Levels>) -> Self {
        Self { part: part.emptied(), imprint: levels.map(Imprint::new) }
    }
}

impl Tally for Both {
    fn count(&mut self, outcome: &Outcome) {
        self.part.count(outcome);
        if let Some(imprint) = &mut self.imprint {
            imprint.count(outcome);
        }
    }

    fn merge(&mut self, other: &Self) {
        self.part.merge(&other.part);
        if let (Some(mine), Some(theirs)) = (&mut self.imprint, &other.imprint) {
            mine.merge(theirs);
        }
    }
}

/// Lays a whole track.
pub(super) fn lay_all(layer: &Layer, track: &Track, film: &mut FilmMap) {
    layer.lay_segments(track, 0..track.moments().len() - 1, 0, film);
}

impl Prepared {
    /// The track of a job that is not swept; of one that is, its burst.
    pub(super) fn track(&self, card: &CardTally) -> Track {
        match self.strokes(card) {
            Strokes::Track(track) => track,
            other => self.held(other.seconds()),
        }
    }

    /// The gun held still over the middle.
    pub(super) fn held(&self, seconds: f64) -> Track {
        let stroke = &self.job.stroke;
        let tan = |angle: f64| crate::math::sin(angle) / crate::math::cos(angle);
        let at = |time, trigger| Moment {
            time,
            x: -stroke.distance * tan(stroke.swing),
            y: -stroke.distance * tan(stroke.heel),
            distance: stroke.distance,
            heel: stroke.heel,
            swing: stroke.swing,
            turn: 0.0,
            trigger,
            member: 0,
        };
        Track::held(at(0.0, 1.0), at(seconds, 0.0))
    }
}

impl Run {
    /// What became of the droplets, of all poses of the gun by their time.
    #[must_use]
    pub fn fates(&self) -> FateMix {
        let own = FateMix::new([(1.0, &self.part.fates)]);
        let Some(by_hand) = self.by_hand.as_ref().filter(|_| self.is_flown()) else { return own };
        let (track, blend) = (self.prepared.track(&self.card), by_hand.shelf.blend());
        let imprints: Vec<&Fates> = by_hand.shelf.imprints().map(|(_, imprint)| imprint.fates()).collect();
        let mut sums = vec![0.0; imprints.len()];
        for (from, to) in track.segments() {
            let open = from.trigger * (to.time - from.time);
            let weights = blend.weights(&from.towards(to, 0.5));
            let all: f64 = weights.iter().map(|w| w.1).sum();
            for (node, weight) in weights {
                sums[node] += open * weight / all;
            }
        }
        let all: f64 = sums.iter().sum();
        if all > 0.0 { FateMix::new(sums.iter().map(|s| s / all).zip(imprints)) } else { own }
    }

    /// Shelf of a run whose gun is not a machine's.
    #[must_use]
    pub fn shelf(&self) -> Option<&Shelf> {
        self.by_hand.as_ref().map(|by_hand| &by_hand.shelf)
    }
}
