//! A plan as a hand moves it: from lines on the part to the moments of a track.

use super::hand::{Hand, Wander};
use super::route::Leg;
use super::{Moment, Track};
use crate::job::StrokePlan;
use crate::math::{atan2, cos, sin};

/// Longest time between two moments of a hand [s].
const TICK: f64 = 0.05;
/// Moments that a moved plan aims to stay below.
const MOMENTS: f64 = 30_000.0;
/// Slowest a hand gets, share of the planned speed [-].
pub(super) const SLOWEST: f64 = 0.4;
/// Nearest and farthest a hand gets, share of the planned distance [-].
pub(super) const DISTANCES: [f64; 2] = [0.4, 2.0];
/// Largest angle a gun swings to about its pivot [rad], 40 degrees: beyond, the painter steps along.
pub const FARTHEST_SWING: f64 = 0.698;
/// Moments of an eased trigger, each way.
const EASE: u32 = 5;

/// The errors of one pass.
struct Errors {
    aim: Wander,
    speed: Wander,
    distance: Wander,
    heel: Wander,
}

/// Where a swinging arm is.
#[derive(Clone, Copy)]
struct Arm {
    /// Pivot along the pass [m].
    stands: f64,
    /// Angle about it [rad].
    angle: f64,
}

/// How far a pass is.
struct Now {
    /// Time along it [s].
    along: f64,
    /// Where the gun aims along it [m].
    aim: f64,
    arm: Arm,
    /// Share of the job done.
    job: f64,
    trigger: f64,
}

/// One plan under one hand.
struct Mover<'a> {
    plan: &'a StrokePlan,
    hand: &'a Hand,
    tube: bool,
    tick: f64,
    moments: Vec<Moment>,
    time: f64,
}

/// The plan's passes as a hand of a seed moves them; none without passes.
#[must_use]
pub fn moved(plan: &StrokePlan, legs: &[Leg], hand: &Hand, tube: bool, seed: u64) -> Option<Track> {
    let way: f64 = legs.iter().map(|leg| (leg.ends[1] - leg.ends[0]).abs()).sum();
    let tick = TICK.max(way / plan.speed.max(1e-3) / MOMENTS);
    let mut mover = Mover { plan, hand, tube, tick, moments: Vec::new(), time: 0.0 };
    let count = legs.len() as f64;
    for (i, leg) in legs.iter().enumerate() {
        let wander = |kind| Wander::new(seed, i as u64, kind);
        let errors = Errors { aim: wander(0), speed: wander(1), distance: wander(2), heel: wander(3) };
        mover.pass(leg, &errors, [i as f64 / count, (i as f64 + 1.0) / count]);
        if let Some(next) = legs.get(i + 1) {
            mover.time += if next.coat > leg.coat { plan.flash } else { plan.turn };
        }
    }
    (mover.moments.len() >= 2).then(|| Track::moved(mover.moments))
}

impl Mover<'_> {
    /// `done`: shares of the job before and after this pass.
    fn pass(&mut self, leg: &Leg, errors: &Errors, done: [f64; 2]) {
        let [from, to] = leg.ends;
        let (length, sign) = ((to - from).abs(), if to > from { 1.0 } else { -1.0 });
        let nominal = length / self.plan.speed;
        let reach = self.hand.pivot.map(|pivot| pivot + self.plan.distance);
        let mut arm = Arm { stands: 0.0, angle: 0.0 };
        let mut aim = from;
        if let Some(reach) = reach {
            arm = Arm::at(from, reach);
        }
        // Without any error along the pass its two ends tell it all.
        let straight = self.hand.is_machine() && self.plan.feather <= 0.0;
        let feather = self.plan.feather.min(0.5 * length);
        let mut along = 0.0;
        loop {
            let share = if length > 0.0 { (aim - from).abs() / length } else { 1.0 };
            let over = share >= 1.0 - 1e-12;
            let travelled = share * length;
            let trigger = if over {
                0.0
            } else if feather > 0.0 {
                // Held from here on: at the middle of the step to come.
                let ahead = travelled + 0.5 * self.step(travelled, feather, length);
                (ahead / feather).min((length - ahead) / feather).clamp(0.0, 1.0)
            } else {
                1.0
            };
            let job = done[0] + (done[1] - done[0]) * share;
            self.moment(leg, errors, &Now { along, aim, arm, job, trigger });
            if over {
                break;
            }
            let drift = self.hand.drift / self.plan.distance * (job - 0.5);
            let factor = (1.0 + self.hand.speed * errors.speed.at(along) + drift).max(SLOWEST);
            let speed = self.plan.speed * factor;
            let mut tick = if straight { nominal } else { self.tick };
            if feather > 0.0 {
                tick = tick.min(self.step(travelled, feather, length) / speed);
            }
            let before = aim;
            match (reach, self.hand.pivot) {
                (Some(reach), Some(pivot)) => aim = arm.swing(sign * speed * tick, reach, pivot),
                _ => aim += sign * speed * tick,
            }
            // The last step ends at the pass's end.
            let rest = (to - before) * sign;
            let went = (aim - before) * sign;
            if went >= rest - 1e-12 {
                tick *= if went > 0.0 { rest / went } else { 1.0 };
                aim = to;
                if let Some(reach) = reach {
                    arm = Arm::at(to, reach);
                }
            }
            along += tick;
            self.time += tick;
        }
    }

    /// Way to the next moment where the trigger is eased over `feather` [m].
    fn step(&self, travelled: f64, feather: f64, length: f64) -> f64 {
        let eased = feather / f64::from(EASE);
        if travelled < feather - 1e-9 {
            eased.min(feather - travelled)
        } else if travelled < length - feather - 1e-9 {
            (self.plan.speed * self.tick).min(length - feather - travelled)
        } else {
            eased.min(length - travelled)
        }
    }

    fn moment(&mut self, leg: &Leg, errors: &Errors, now: &Now) {
        let Now { along, aim, arm, job, trigger } = *now;
        let (plan, hand) = (self.plan, self.hand);
        let error = hand.distance * errors.distance.at(along) + hand.drift * (0.5 - job);
        let wanted = [plan.distance * DISTANCES[0], plan.distance * DISTANCES[1]];
        let mut distance = (plan.distance + error).clamp(wanted[0].max(0.02), wanted[1].max(0.02));
        let (mut place, mut tilt) = (aim, 0.0);
        if let Some(pivot) = hand.pivot {
            place = arm.stands + pivot * sin(arm.angle);
            distance += pivot * (1.0 - cos(arm.angle));
            tilt = arm.angle;
        }
        let across = leg.offset + hand.aim * errors.aim.at(along);
        let (mut x, mut y) = if leg.upright { (across, place) } else { (place, across) };
        let mut heel = plan.heel + hand.heel * errors.heel.at(along);
        let mut swing = plan.swing;
        if leg.upright {
            heel += tilt;
        } else {
            swing += tilt;
        }
        // A gun held aslant by the plan keeps its aim on the line.
        let tan = |angle: f64| sin(angle) / cos(angle);
        x -= plan.distance * tan(plan.swing);
        if !self.tube {
            y -= plan.distance * tan(plan.heel);
        }
        let (heel, swing) = (heel.clamp(-1.0, 1.0), swing.clamp(-1.0, 1.0));
        let turn = leg.turn;
        self.moments.push(Moment {
            time: self.time,
            x,
            y,
            distance: distance.min(2.0),
            heel,
            swing,
            turn,
            trigger,
            member: leg.member,
        });
    }
}

impl Arm {
    /// Aiming at a place; stood so that it can be reached.
    fn at(aim: f64, reach: f64) -> Self {
        let farthest = reach * sin(FARTHEST_SWING) / cos(FARTHEST_SWING);
        let stands = aim - aim.clamp(-farthest, farthest);
        Self { stands, angle: atan2(aim - stands, reach) }
    }

    /// Moves the tip by `way` [m] along its arc; where it then aims. At the farthest swing the painter steps along.
    fn swing(&mut self, way: f64, reach: f64, pivot: f64) -> f64 {
        let next = self.angle + way / pivot;
        // A stand beside the middle is walked back before the arm swings.
        if self.stands * way < 0.0 {
            let back = way.abs().min(self.stands.abs());
            self.stands += back * way.signum();
        } else if next.abs() > FARTHEST_SWING && next * way > 0.0 {
            self.stands += way;
        } else {
            self.angle = next;
        }
        self.stands + reach * sin(self.angle) / cos(self.angle)
    }
}
