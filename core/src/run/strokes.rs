//! Where the gun of a prepared job goes, and what its counts stand for along that.

use super::{CardTally, PartTally, Prepared};
use crate::error::ParameterError;
use crate::job::FanAxis;
use crate::report::pattern_sizes;
use crate::set_up;
use crate::stroke::{Deposits, Hand, Strokes, Swept, Track, legs, moved};
use crate::supply::Answer;

impl Prepared {
    /// Strokes, once the card has told the fan's size.
    #[must_use]
    pub fn strokes(&self, card: &CardTally) -> Strokes {
        let stroke = &self.job.stroke;
        if let Some(track) = &self.job.track {
            return Strokes::Track((**track).clone());
        }
        if let Some(frame) = &self.frame {
            return match frame.track() {
                Some(track) => Strokes::Track(track.clone()),
                None => Strokes::Passes {
                    passes: frame.passes().to_vec(),
                    speed: stroke.speed,
                    coats: stroke.coats,
                },
            };
        }
        if let (Some(seconds), false) = (stroke.burst, stroke.is_swept()) {
            return Strokes::Track(self.held(seconds));
        }
        let moved = if stroke.is_swept() { None } else { self.moved(&stroke.hand, card) };
        moved.map_or_else(|| Strokes::plan(stroke, &self.job.part, self.fan_across(card)), Strokes::Track)
    }

    /// The fan's size across the passes [m].
    #[must_use]
    pub fn fan_across(&self, card: &CardTally) -> f64 {
        let sizes = pattern_sizes(card, None);
        match self.job.stroke.fan_axis {
            FanAxis::Across if self.job.gun.cap_turn == 0.0 => sizes.length,
            FanAxis::Along => sizes.width,
            FanAxis::Across => {
                // Height of an ellipse turned with the cap.
                let turn = self.job.gun.cap_turn;
                let (up, side) =
                    (sizes.length * crate::math::cos(turn), sizes.width * crate::math::sin(turn));
                (up * up + side * side).sqrt()
            }
        }
    }

    /// The job's passes as a hand moves them; of a frame `FramePlan` has them.
    pub(super) fn moved(&self, hand: &Hand, card: &CardTally) -> Option<Track> {
        let stroke = &self.job.stroke;
        let legs = legs(stroke, &self.job.part, self.fan_across(card));
        moved(stroke, &legs, hand, self.radius().is_some(), self.job.run.seed)
    }

    /// Will the air do, over these strokes? None where the job has no supply.
    ///
    /// # Errors
    /// A figure of the supply out of range, by its key.
    pub fn air_answer(&self, strokes: &Strokes) -> Result<Option<Answer>, ParameterError> {
        let mut asked = self.job.clone();
        asked.gun.inlet_pressure = self.wanted_pressure;
        set_up::air_answer(&asked, &set_up::trigger_times(strokes, &self.job.stroke))
    }

    /// What the counts stand for, to be swept along `strokes`.
    #[must_use]
    pub fn swept<'a>(&self, part: &'a PartTally, strokes: &'a Strokes) -> Swept<'a> {
        Swept {
            footprint: &part.footprint,
            fates: &part.fates,
            lay: self.lay,
            strokes,
            flow: self.spray.volume_flow,
            solids: self.spray.volume_solids,
            members: part.members.as_ref(),
        }
    }

    /// What the counts stand for, pass by pass in order of time.
    #[must_use]
    pub fn deposits<'a>(&self, part: &'a PartTally, strokes: &'a Strokes) -> Deposits<'a> {
        let times = set_up::trigger_times(strokes, &self.job.stroke);
        Deposits::new(self.swept(part, strokes), &times)
    }
}
