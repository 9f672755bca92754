//! A track: where the gun was, how it was held and whether it sprayed, moment by moment.
//!
//! What happens between two moments depends on these two alone, so a track laid as it comes and a track laid at the end
//! are the same, to the bit, whatever the picture rate.

use crate::error::ParameterError;
use core::ops::Range;

/// Most moments of a track: eleven minutes at 60 a second.
pub const MOST_MOMENTS: usize = 40_000;

/// The gun at one moment.
///
/// The tip's place is told by its foot: the nearest point of the face, square below the tip.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moment {
    /// Time [s], 0..=1e5; never less than the moment's before.
    pub time: f64,
    /// Tip's foot along the face, from its middle [m], -10..=10.
    pub x: f64,
    /// Panel: tip's foot up the face, from its middle, over the face [m]. Tube: how far the tip stands beside the tube's
    /// axis, up as the face has it [m]. -10..=10.
    pub y: f64,
    /// Tip to the face, square on [m], 0.02..=2.
    pub distance: f64,
    /// Gun tipped up (positive: it points up the face) [rad], -1..=1.
    pub heel: f64,
    /// Gun swung (positive: it points along x) [rad], -1..=1.
    pub swing: f64,
    /// Panel: gun or cap turned about its own axis, clockwise as seen from behind it, from how the job holds the fan.
    /// Tube: the side the gun stands at, turned from the first [rad], -10..=10.
    pub turn: f64,
    /// Share of the job's paint flow that leaves from this moment to the next, 0..=1. Air and droplet sizes stay those of
    /// the job's own trigger.
    pub trigger: f64,
    /// Tube of a frame that the gun goes along; 0 elsewhere.
    pub member: usize,
}

impl Moment {
    /// The pose a share 0..=1 of the time on the way to the next moment; the trigger stays as it is.
    #[must_use]
    pub fn towards(&self, next: &Self, share: f64) -> Self {
        let between = |a: f64, b: f64| a + (b - a) * share;
        Self {
            time: between(self.time, next.time),
            x: between(self.x, next.x),
            y: between(self.y, next.y),
            distance: between(self.distance, next.distance),
            heel: between(self.heel, next.heel),
            swing: between(self.swing, next.swing),
            turn: between(self.turn, next.turn),
            trigger: self.trigger,
            member: self.member,
        }
    }

    /// Names, values and ranges of the fields, angles in degrees, lengths in mm: as the job file has them.
    fn fields(&self) -> [(&'static str, f64, [f64; 2], &'static str); 8] {
        let mm = |v: f64| v * 1e3;
        let turned = [-572.957_795, 572.957_795];
        let tilted = [-57.295_780, 57.295_780];
        [
            ("time", self.time, [0.0, 1e5], "s"),
            ("x", mm(self.x), [-10_000.0, 10_000.0], "mm"),
            ("y", mm(self.y), [-10_000.0, 10_000.0], "mm"),
            ("distance", mm(self.distance), [20.0, 2000.0], "mm"),
            ("heel", self.heel.to_degrees(), tilted, "deg"),
            ("swing", self.swing.to_degrees(), tilted, "deg"),
            ("trigger", self.trigger, [0.0, 1.0], ""),
            ("turn", self.turn.to_degrees(), turned, "deg"),
        ]
    }

    fn checked(&self, index: usize) -> Result<(), ParameterError> {
        for (name, value, [low, high], unit) in self.fields() {
            let slack = 1e-9 * high;
            if !(value.is_finite() && value >= low - slack && value <= high + slack) {
                let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
                return Err(ParameterError::new(
                    format!("stroke.track: moment {}, {name}", index + 1),
                    format!("{value}{unit}"),
                    format!("{:.0} to {:.0}{unit}", low, high),
                ));
            }
        }
        Ok(())
    }
}

/// A stretch of a track with the trigger pulled.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its segments, by their first moments.
    pub segments: Range<usize>,
    /// Begin [s].
    pub from: f64,
    /// End [s].
    pub to: f64,
}

/// Moments in order, checked.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    moments: Vec<Moment>,
}

impl Track {
    /// Checks moments and keeps them.
    ///
    /// # Errors
    /// Fewer than two or more than [`MOST_MOMENTS`] moments, a field out of its range or not finite, a time before the
    /// moment's before, a trigger that is never pulled: by number and field.
    pub fn new(moments: Vec<Moment>) -> Result<Self, ParameterError> {
        if !(2..=MOST_MOMENTS).contains(&moments.len()) {
            return Err(ParameterError::new(
                "stroke.track",
                format!("{} moments", moments.len()),
                format!("2 to {MOST_MOMENTS} moments"),
            ));
        }
        let mut before = 0.0;
        for (i, moment) in moments.iter().enumerate() {
            moment.checked(i)?;
            if moment.time < before {
                return Err(ParameterError::new(
                    format!("stroke.track: moment {}, time", i + 1),
                    format!("{} s", moment.time),
                    format!("at least the {before} s of the moment before it"),
                ));
            }
            before = moment.time;
        }
        let track = Self { moments };
        if track.open_seconds() <= 0.0 {
            let allowed = "at least one moment with the trigger pulled, and a later one";
            return Err(ParameterError::new("stroke.track: trigger", "never pulled", allowed));
        }
        Ok(track)
    }

    /// Moments that are in order and in range by the way they were made.
    pub(super) fn moved(moments: Vec<Moment>) -> Self {
        Self { moments }
    }

    /// A gun held from one moment to the next.
    pub(crate) fn held(from: Moment, to: Moment) -> Self {
        Self { moments: vec![from, to] }
    }

    /// The moments.
    #[must_use]
    pub fn moments(&self) -> &[Moment] {
        &self.moments
    }

    /// Segments between consecutive moments, in order.
    pub fn segments(&self) -> impl Iterator<Item = (&Moment, &Moment)> {
        self.moments.windows(2).map(|pair| (&pair[0], &pair[1]))
    }

    /// Trigger-on time, however far it is pulled [s].
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.segments().filter(|(a, _)| a.trigger > 0.0).map(|(a, b)| b.time - a.time).sum()
    }

    /// Time at the job's full paint flow that sprays as much [s].
    #[must_use]
    pub fn open_seconds(&self) -> f64 {
        self.segments().map(|(a, b)| a.trigger * (b.time - a.time)).sum()
    }

    /// Way of the tip with the trigger pulled [m].
    #[must_use]
    pub fn way(&self) -> f64 {
        let step = |a: &Moment, b: &Moment| ((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y)).sqrt();
        self.segments().filter(|(a, _)| a.trigger > 0.0).map(|(a, b)| step(a, b)).sum()
    }

    /// That way over trigger-on time [m/s].
    #[must_use]
    pub fn mean_speed(&self) -> f64 {
        self.way() / self.seconds()
    }

    /// Stretches with the trigger pulled, in order of time: the passes.
    #[must_use]
    pub fn pieces(&self) -> Vec<Piece> {
        let mut pieces: Vec<Piece> = Vec::new();
        for (i, (a, b)) in self.segments().enumerate() {
            if a.trigger <= 0.0 {
                continue;
            }
            match pieces.last_mut().filter(|piece| piece.segments.end == i) {
                Some(piece) => {
                    piece.segments.end = i + 1;
                    piece.to = b.time;
                }
                None => pieces.push(Piece { segments: i..i + 1, from: a.time, to: b.time }),
            }
        }
        pieces
    }

    /// One stretch alone.
    #[must_use]
    pub fn part(&self, piece: &Piece) -> Self {
        let last = piece.segments.end.min(self.moments.len() - 1);
        Self { moments: self.moments[piece.segments.start.min(last)..=last].to_vec() }
    }

    /// The gun `time` [s] of trigger-on time into the job.
    #[must_use]
    pub fn pose(&self, time: f64) -> Moment {
        let mut left = time.max(0.0);
        let mut last = self.moments[0];
        for (a, b) in self.segments().filter(|(a, _)| a.trigger > 0.0) {
            let took = b.time - a.time;
            if left < took {
                return a.towards(b, left / took);
            }
            left -= took;
            last = Moment { trigger: a.trigger, ..*b };
        }
        last
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(time: f64, x: f64, trigger: f64) -> Moment {
        Moment { time, x, distance: 0.18, trigger, ..Moment::default() }
    }

    #[test]
    fn passes_are_the_stretches_with_the_trigger_pulled() {
        let moments = vec![
            at(0.0, -0.4, 0.0),
            at(0.1, -0.3, 1.0),
            at(1.0, 0.0, 0.5),
            at(2.0, 0.3, 0.0),
            at(3.0, 0.3, 1.0),
            at(4.0, 0.0, 0.0),
        ];
        let track = Track::new(moments).expect("a good track");
        let pieces = track.pieces();
        assert_eq!(pieces.len(), 2);
        assert_eq!((pieces[0].segments.clone(), pieces[1].segments.clone()), (1..3, 4..5));
        assert!((track.seconds() - 2.9).abs() < 1e-12 && (track.open_seconds() - 2.4).abs() < 1e-12);
        assert!((track.pose(1.9).x - 0.3).abs() < 1e-12, "{:?}", track.pose(1.9));
        assert!((track.pose(2.4).x - 0.15).abs() < 1e-12);
    }

    #[test]
    fn a_bad_moment_is_told_by_its_number_and_field() {
        let good = [at(0.0, 0.0, 1.0), at(1.0, 0.1, 0.0)];
        let with = |change: &dyn Fn(&mut Moment)| {
            let mut moments = good.to_vec();
            change(&mut moments[1]);
            Track::new(moments).expect_err("refused").to_string()
        };
        assert!(with(&|m| m.distance = 0.01).contains("moment 2, distance: 10 mm"));
        assert!(with(&|m| m.heel = f64::NAN).contains("moment 2, heel"));
        assert!(with(&|m| m.time = -1.0).contains("moment 2, time"));
        assert!(with(&|m| m.trigger = 1.5).contains("moment 2, trigger: 1.5"));
        let back = vec![at(1.0, 0.0, 1.0), at(0.5, 0.1, 0.0)];
        assert!(Track::new(back).expect_err("refused").to_string().contains("the moment before it"));
        assert!(
            Track::new(vec![at(0.0, 0.0, 0.0); 3]).expect_err("refused").to_string().contains("never pulled")
        );
        assert!(Track::new(good[..1].to_vec()).is_err());
    }
}
