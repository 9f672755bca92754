//! The gun's way over the part: where it is at each moment, and what has landed by then.

use glam::{DMat4, DVec3};
use mistcoat::film::Face;
use mistcoat::job::{FanAxis, StrokePlan};
use mistcoat::set_up::trigger_times;
use mistcoat::stroke::Strokes;

/// Longest wait between two passes that is played [s]; a longer one (flash between coats) is cut to it.
const WAIT: f64 = 1.2;

/// Where the gun is: over a face, from its middle.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Spot {
    /// Number of the face.
    pub face: usize,
    /// Along its x [m].
    pub x: f64,
    /// Along its y, over the face [m].
    pub y: f64,
}

/// One straight piece of the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    /// When it begins, as played [s].
    pub start: f64,
    /// How long it takes, as played [s].
    pub seconds: f64,
    /// Its ends.
    pub ends: [Spot; 2],
    /// Number of the deposit that lands meanwhile; none with the trigger off.
    pub deposit: Option<usize>,
    /// The wait it stands for, where that is longer than is played [s].
    pub wait: Option<f64>,
}

/// The whole way.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Way {
    /// Its legs, in order of time.
    pub legs: Vec<Leg>,
    /// Deposits in all.
    pub deposits: usize,
}

/// The gun at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// When it is, as played [s].
    pub time: f64,
    /// Where it is.
    pub spot: Spot,
    /// Deposits that have landed wholly.
    pub landed: usize,
    /// The trigger is pulled.
    pub spraying: bool,
    /// Which way it goes along x: -1, 0 or 1.
    pub heading: f64,
    /// Share of the stretch under way that is gone, 0..=1.
    pub share: f64,
    /// The wait under way [s], where it is cut short.
    pub wait: Option<f64>,
}

impl Way {
    /// The way of some strokes.
    #[must_use]
    pub fn of(strokes: &Strokes, plan: &StrokePlan, faces: &[Face]) -> Self {
        let Some(face) = faces.first() else { return Self::default() };
        let middle = Spot { face: 0, x: 0.0, y: 0.0 };
        let spans = trigger_times(strokes, plan);
        let mut legs: Vec<Leg> = Vec::new();
        let mut time = 0.0;
        let mut add = |ends: [Spot; 2], seconds: f64, deposit: Option<usize>, legs: &mut Vec<Leg>| {
            let wait = (deposit.is_none() && seconds > WAIT).then_some(seconds);
            let seconds = wait.map_or(seconds, |_| WAIT);
            legs.push(Leg { start: time, seconds, ends, deposit, wait });
            time += seconds;
        };
        match strokes {
            Strokes::Passes { passes, .. } => {
                let spot = |x: f64, pass: &mistcoat::stroke::Pass| {
                    let radius = faces.get(pass.member).map_or(0.0, |f| f.place.radius);
                    let y = if radius > 0.0 { pass.turn * radius } else { pass.offset };
                    Spot { face: pass.member, x, y }
                };
                for (i, span) in spans.iter().enumerate() {
                    let Some(pass) = passes.get(i % passes.len().max(1)) else { break };
                    let ends = [spot(pass.from, pass), spot(pass.to, pass)];
                    add(ends, span.on, Some(i), &mut legs);
                    if i + 1 < spans.len() && span.off > 0.0 {
                        let next = &passes[(i + 1) % passes.len()];
                        add([ends[1], spot(next.from, next)], span.off, None, &mut legs);
                    }
                }
            }
            Strokes::Track(track) => {
                // One deposit a stretch with the trigger pulled.
                let (mut stretch, mut pulled) = (0, false);
                for pair in track.moments().windows(2) {
                    let spot = |m: &mistcoat::stroke::Moment| {
                        let face = faces.get(m.member).unwrap_or(face);
                        let y = if face.closed { m.turn * face.place.radius } else { m.y };
                        Spot { face: m.member, x: m.x, y }
                    };
                    let now = pair[0].trigger > 0.0;
                    stretch += usize::from(pulled && !now);
                    pulled = now;
                    let deposit = now.then_some(stretch);
                    add([spot(&pair[0]), spot(&pair[1])], pair[1].time - pair[0].time, deposit, &mut legs);
                }
            }
            Strokes::Burst(_) => {
                for (i, span) in spans.iter().enumerate() {
                    add([middle; 2], span.on, Some(i), &mut legs);
                }
            }
        }
        Self { legs, deposits: spans.len() }
    }

    /// Time as played [s].
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.legs.last().map_or(0.0, |l| l.start + l.seconds)
    }

    /// The gun at a moment as played [s]; after the end it stands where it ended.
    #[must_use]
    pub fn at(&self, time: f64) -> Option<Moment> {
        let number = self.legs.partition_point(|l| l.start <= time).saturating_sub(1);
        let leg = self.legs.get(number)?;
        let over = time >= leg.start + leg.seconds;
        let share = if leg.seconds > 0.0 { ((time - leg.start) / leg.seconds).clamp(0.0, 1.0) } else { 1.0 };
        let [a, b] = leg.ends;
        let mix = |a: f64, b: f64| a + (b - a) * share;
        let under_way = leg.deposit.is_some() && !over;
        let landed = match leg.deposit {
            Some(deposit) => deposit + usize::from(over),
            None => self.legs[..number].iter().rev().find_map(|l| l.deposit).map_or(0, |d| d + 1),
        };
        Some(Moment {
            time,
            spot: Spot {
                face: if share < 0.5 { a.face } else { b.face },
                x: mix(a.x, b.x),
                y: mix(a.y, b.y),
            },
            landed,
            spraying: under_way,
            heading: if under_way && a.x != b.x { (b.x - a.x).signum() } else { 0.0 },
            share,
            wait: leg.wait.filter(|_| !over),
        })
    }
}

/// Long axis of the fan over a spot, in the booth, of length 1.
#[must_use]
pub fn fan_axis(face: &Face, y: f64, axis: FanAxis) -> DVec3 {
    if axis == FanAxis::Along { face.place.along } else { face.place.rising(y) }
}

/// From the spray's frame (short axis of the fan, its long axis, the way the spray goes; origin at the tip) to the booth.
#[must_use]
pub fn spray_frame(face: &Face, spot: &Spot, distance: f64, axis: FanAxis) -> DMat4 {
    let normal = face.place.normal(spot.y);
    let tip = face.point(spot.x, spot.y) + normal * distance;
    let long = fan_axis(face, spot.y, axis);
    let short = if axis == FanAxis::Along { -face.place.rising(spot.y) } else { face.place.along };
    DMat4::from_cols(short.extend(0.0), long.extend(0.0), (-normal).extend(0.0), tip.extend(1.0))
}

/// From the gun's frame (y up, z the way the spray goes; origin at the tip) to the booth.
#[must_use]
pub fn gun_frame(face: &Face, spot: &Spot, distance: f64) -> DMat4 {
    let normal = face.place.normal(spot.y);
    let tip = face.point(spot.x, spot.y) + normal * distance;
    let forward = -normal;
    // Held upright; before a level face with its handle towards the painter.
    let up = if forward.y.abs() < 0.8 { DVec3::Y } else { DVec3::NEG_Z * -forward.y.signum() };
    let up = (up - forward * up.dot(forward)).normalize_or(DVec3::Y);
    let side = up.cross(forward);
    DMat4::from_cols(side.extend(0.0), up.extend(0.0), forward.extend(0.0), tip.extend(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use mistcoat::job::Job;
    use mistcoat::run::faces;

    fn job(text: &str) -> Job {
        Job::from_toml(text).unwrap()
    }

    fn way(job: &Job) -> Way {
        Way::of(&Strokes::plan(&job.stroke, &job.part, 0.25), &job.stroke, &faces(job))
    }

    #[test]
    fn a_leg_is_gone_down_on_each_side_at_the_jobs_pace() {
        let job = job(crate::state::CHAIR_LEG);
        let way = way(&job);
        assert_eq!(way.deposits, 4);
        let start = way.at(0.0).unwrap();
        assert!(start.spraying && start.landed == 0 && start.spot.y == 0.0);
        assert!((start.spot.x.abs() - 0.34).abs() < 1e-9, "{start:?}");
        let moment = way.at(0.5).unwrap();
        assert!((moment.spot.x - start.spot.x - start.heading * 0.5 * job.stroke.speed).abs() < 1e-9);
        // Between two passes the trigger is off and the first has landed.
        let on = 0.68 / job.stroke.speed;
        let turn = way.at(on + 0.01).unwrap();
        assert!(!turn.spraying && turn.landed == 1, "{turn:?}");
        let end = way.at(1e9).unwrap();
        assert!(!end.spraying && end.landed == 4);
    }

    #[test]
    fn flash_is_cut_short_and_said() {
        let text = crate::state::TABLE_TOP.replace("coats = 1", "coats = 2\nflash = \"10 min\"");
        let way = way(&job(&text));
        let waits: Vec<f64> = way.legs.iter().filter_map(|l| l.wait).collect();
        assert_eq!(waits.len(), 1, "{waits:?}");
        assert!((waits[0] - 600.0).abs() < 1.0 && way.seconds() < 120.0, "{waits:?} {}", way.seconds());
    }

    #[test]
    fn the_gun_points_at_the_part_from_its_distance_and_its_cup_is_up() {
        let job = job(crate::state::CHAIR_LEG);
        let faces = faces(&job);
        let spot = Spot { face: 0, x: 0.1, y: 0.0 };
        let frame = gun_frame(&faces[0], &spot, 0.15);
        let tip = frame.transform_point3(DVec3::ZERO);
        assert!((tip - DVec3::new(0.0, 0.1, 0.161)).length() < 1e-9, "{tip}");
        assert!((frame.transform_vector3(DVec3::Z) + DVec3::Z).length() < 1e-9);
        assert!((frame.transform_vector3(DVec3::Y) - DVec3::Y).length() < 1e-9);
        assert!((frame.determinant() - 1.0).abs() < 1e-9);
        // Where the spray ends is the part.
        let spray = spray_frame(&faces[0], &spot, 0.15, FanAxis::Across);
        assert!((spray.transform_point3(DVec3::Z * 0.15) - DVec3::new(0.0, 0.1, 0.011)).length() < 1e-9);
    }

    #[test]
    fn over_a_level_panel_the_gun_points_down_with_its_handle_to_the_painter() {
        let job = job(crate::state::TABLE_TOP);
        let frame = gun_frame(&faces(&job)[0], &Spot { face: 0, x: 0.0, y: 0.0 }, 0.18);
        assert!((frame.transform_vector3(DVec3::Z) + DVec3::Y).length() < 1e-9);
        assert!(frame.transform_vector3(DVec3::NEG_Y).z > 0.99);
    }
}
