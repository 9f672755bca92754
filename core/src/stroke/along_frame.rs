//! Passes along the tubes of a frame.
//!
//! Each tube takes one pass a side, its sides spread evenly from the one that faces the painter. A side on which the gun has no
//! room, or from which another tube hides this one, is turned in steps of 15 degrees to the nearest that is better, at most half the way
//! to its neighbour side. The side hardest to see comes first: that which faces most inward, downward and away
//! (common practice, no source; how the three are weighed, evenly, is ours).

use super::{Hand, Leg, Pass, Track, moved};
use crate::film::Place;
use crate::job::StrokePlan;
use crate::part::{Frame, Member};
use glam::DVec3;

/// Step in which a side is turned [rad], and the most it is.
const STEP: f64 = core::f64::consts::PI / 12.0;
const MOST: f64 = core::f64::consts::FRAC_PI_3;
/// The gun's cap needs this much room round the tip [m]. Ours.
const ROOM: f64 = 0.04;
/// Places along a tube that are looked at [m], and this far from its ends, where others join it.
const LOOK: f64 = 0.03;

/// The tube's face in the booth: its middle line faces the painter, or upwards where the tube points at them.
#[must_use]
pub fn member_place(member: &Member) -> Place {
    let along = member.axis();
    let towards = |d: DVec3| d - along * d.dot(along);
    let facing = towards(DVec3::Z);
    let front = if facing.length() > 0.2 { facing } else { towards(DVec3::Y) };
    Place { middle: member.middle(), along, front: front.normalize(), radius: member.radius() }
}

/// How far a tube's surface is from a straight line between two points [m].
fn clear_of(member: &Member, from: DVec3, to: DVec3) -> f64 {
    // The nearest points of two segments: by alternating, which converges at once for lines that are not parallel.
    let (a, b) = (to - from, member.to - member.from);
    let (mut s, mut t) = (0.5, 0.5);
    for _ in 0..24 {
        let on = member.from + b * t;
        s = ((on - from).dot(a) / a.length_squared()).clamp(0.0, 1.0);
        let on = from + a * s;
        t = ((on - member.from).dot(b) / b.length_squared()).clamp(0.0, 1.0);
    }
    (from + a * s - member.from - b * t).length() - member.radius()
}

/// Places along a tube at which the gun has no room, and at which it does not see the tube.
fn blocked(frame: &Frame, index: usize, place: &Place, turn: f64, distance: f64) -> (usize, usize) {
    let member = &frame.members[index];
    let normal = place.normal(turn * place.radius);
    let length = member.length();
    let count = ((length - 2.0 * LOOK) / LOOK).ceil().max(1.0) as usize;
    let (mut no_room, mut unseen) = (0, 0);
    for i in 0..count {
        let x = (i as f64 + 0.5) / count as f64 - 0.5;
        let on = place.middle + place.along * (x * (length - 2.0 * LOOK).max(0.0)) + normal * place.radius;
        let tip = on + normal * distance;
        let others = || frame.members.iter().enumerate().filter(|(i, _)| *i != index).map(|(_, m)| m);
        no_room += usize::from(others().any(|m| m.distance(tip) - m.radius() < ROOM));
        unseen += usize::from(others().any(|m| clear_of(m, on + normal * 1e-3, tip) < 0.0));
    }
    (no_room, unseen)
}

/// A side of a tube, and how much of the way along it the gun has no room.
struct Side {
    turn: f64,
    no_room: usize,
}

fn side(frame: &Frame, index: usize, place: &Place, wanted: f64, sides: u32, distance: f64) -> Side {
    let most = MOST.min(core::f64::consts::PI / f64::from(sides));
    let mut best: Option<(usize, Side)> = None;
    for k in 0..=(most / STEP + 1e-9) as u32 {
        for sign in [1.0, -1.0] {
            let turn = wanted + sign * STEP * f64::from(k);
            let (no_room, unseen) = blocked(frame, index, place, turn, distance);
            let score = 3 * no_room + unseen;
            if best.as_ref().is_none_or(|(least, _)| score < *least) {
                best = Some((score, Side { turn, no_room }));
            }
        }
        if matches!(best, Some((0, _))) {
            break;
        }
    }
    best.map_or(Side { turn: wanted, no_room: 0 }, |(_, side)| side)
}

/// How easily the painter sees a side of a tube: it faces outward, upward and towards them.
fn seen(normal: DVec3, middle: DVec3) -> f64 {
    let outward = middle.try_normalize().unwrap_or(DVec3::Z);
    normal.dot(outward) + normal.y + normal.z
}

/// The passes of one coat, in order, and the tubes along which the gun has not room everywhere.
#[must_use]
pub fn frame_passes(frame: &Frame, plan: &StrokePlan) -> (Vec<Pass>, Vec<usize>) {
    let sides = plan.sides.max(1);
    let (mut passes, mut tight): (Vec<Pass>, Vec<usize>) = (Vec::new(), Vec::new());
    for (member, tube) in frame.members.iter().enumerate().filter(|(_, m)| m.sprayed) {
        let place = member_place(tube);
        let even = core::f64::consts::TAU / f64::from(sides);
        let mut turns: Vec<(f64, f64)> = (0..sides)
            .map(|i| {
                let side = side(frame, member, &place, even * f64::from(i), sides, plan.distance);
                if side.no_room > 0 && tight.last() != Some(&member) {
                    tight.push(member);
                }
                (seen(place.normal(side.turn * place.radius), place.middle), side.turn)
            })
            .collect();
        // Hardest to see first; sides seen alike in their order round the tube.
        turns.sort_by(|a, b| a.0.total_cmp(&b.0));
        let reach = 0.5 * tube.length() + plan.lead;
        for (_, turn) in turns {
            let (from, to) = if passes.len() % 2 == 0 { (-reach, reach) } else { (reach, -reach) };
            passes.push(Pass { from, to, offset: 0.0, turn, member });
        }
    }
    (passes, tight)
}

/// How a gun goes along a frame.
#[derive(Debug, Clone, PartialEq)]
pub struct FramePlan {
    /// Passes of one coat, as a machine goes.
    pub passes: Vec<Pass>,
    /// Tubes along which the gun has not room everywhere.
    pub tight: Vec<usize>,
    /// All coats as a hand goes; none of a machine's plain passes.
    pub track: Option<Track>,
}

impl FramePlan {
    /// The plan's passes along a frame, moved by the plan's hand.
    #[must_use]
    pub fn new(frame: &Frame, plan: &StrokePlan, seed: u64) -> Self {
        let (passes, tight) = frame_passes(frame, plan);
        let track = if plan.is_swept() { None } else { moved_along(&passes, plan, &plan.hand, seed) };
        Self { passes, tight, track }
    }
}

/// Passes of a coat, as many coats as planned, as a hand moves them; none without passes.
fn moved_along(passes: &[Pass], plan: &StrokePlan, hand: &Hand, seed: u64) -> Option<Track> {
    let leg = |coat| {
        move |p: &Pass| Leg {
            upright: false,
            ends: [p.from, p.to],
            offset: 0.0,
            turn: p.turn,
            coat,
            member: p.member,
        }
    };
    let legs: Vec<Leg> = (0..plan.coats).flat_map(|coat| passes.iter().map(leg(coat))).collect();
    moved(plan, &legs, hand, true, seed)
}
