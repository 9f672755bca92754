//! The net that a search goes over: knobs in eighths of a turn, pressure in twentieths of a bar, distance in 5 mm.
//!
//! First a coarse net over fan, fluid and distance, then steps to better neighbours, halved until they are the finest.
//! Pressure is counted from the lowest at which fan and fluid give fine enough droplets, since the best setting tends to
//! lie there. It asks for points and is told what came out, so that flying can be cut at will.

use crate::in_order::InOrder;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

use super::limits::Limits;
use super::point::{Ask, NetSpec, Point, Rank};
use super::span::{CHECKS, Probe, STRIDE, Span};
use crate::gun::{GunSetting, Kit};
use crate::job::{FanAxis, Job};

/// Step of the inlet pressure [Pa].
const PRESSURE_STEP: f64 = 0.05e5;
/// Lowest inlet pressure tried, over the rated one [-]. Ours: below half of it a gun is far from what its cap was made for.
const LOWEST: f64 = 0.5;
/// The net of one kit.
pub(crate) struct Net {
    kit: Kit,
    rest: GunSetting,
    limits: Limits,
    /// Lowest and highest pressure [steps].
    pressures: (i32, i32),
    turns: (i32, i32),
    axes: Vec<bool>,
    waiting: VecDeque<Point>,
    tried: BTreeMap<Point, Rank>,
    /// Points that may not be used.
    closed: BTreeSet<Point>,
    spans: BTreeMap<(i32, i32), Span>,
    probe: Option<Probe>,
    best: Option<(Point, Rank)>,
    step: (i32, i32, i32, i32),
    reach: [i32; 2],
    most: usize,
    refines: bool,
}

impl Net {
    /// A net over a kit; `rest` gives what no knob sets.
    pub fn new(job: &Job, kit: &Kit, rest: GunSetting, limits: Limits, spec: &NetSpec) -> Self {
        let eighths = |turns: f64| ((turns * 8.0 + 0.5) as i32).max(1);
        let turns = (eighths(kit.fan_turns), eighths(kit.fluid_turns));
        let round = matches!(job.part, crate::job::PartShape::Tube { .. });
        let axes = if round { vec![false, true] } else { vec![job.stroke.fan_axis == FanAxis::Along] };
        let mut fans: Vec<i32> = if kit.has_fan() {
            spec.fans.iter().map(|f| (f * f64::from(turns.0) + 0.5) as i32).collect()
        } else {
            vec![turns.0]
        };
        fans.dedup();
        let mut fluids: Vec<i32> =
            spec.fluids.iter().map(|f| ((f * f64::from(turns.1) + 0.5) as i32).max(1)).collect();
        fluids.dedup();
        let mut waiting = VecDeque::new();
        for &distance in &spec.distances {
            for &fan in &fans {
                for &fluid in &fluids {
                    // Upwards of the lowest pressure a second look, well above it.
                    for over in [0, 2 * STRIDE] {
                        waiting.extend(axes.iter().map(|&along| Point { fan, fluid, over, along, distance }));
                    }
                }
            }
        }
        // A data sheet's window is for guns of one class.
        let window = job.sheet.pressure.filter(|_| kit.class == job.kit.class);
        let [lowest, highest] = window.unwrap_or([LOWEST * kit.rated_pressure, kit.highest_pressure]);
        let pressures = (
            ((lowest / PRESSURE_STEP + 1.0 - 1e-9) as i32).max(STRIDE),
            (highest.min(kit.highest_pressure) / PRESSURE_STEP + 1e-9) as i32,
        );
        let step = ((turns.0 / 6).max(1), (turns.1 / 6).max(1), STRIDE, 4);
        Self {
            kit: kit.clone(),
            rest,
            limits,
            pressures,
            turns,
            axes,
            waiting,
            tried: BTreeMap::new(),
            closed: BTreeSet::new(),
            spans: BTreeMap::new(),
            probe: None,
            best: None,
            step,
            reach: spec.reach,
            most: spec.most,
            refines: spec.refines,
        }
    }

    /// The same net, what is known of its pressures kept, from other points on: flown first, then better neighbours of the
    /// best of them where `refines`.
    pub fn reseeded(mut self, points: Vec<Point>, most: usize, refines: bool) -> Self {
        self.waiting = points.into();
        self.tried.clear();
        self.closed.clear();
        (self.best, self.most, self.refines) = (None, most, refines);
        self.step = ((self.turns.0 / 10).max(1), (self.turns.1 / 10).max(1), 2, 4);
        self
    }

    /// What to do next: short, so that one can stop in between.
    pub fn ask(&mut self, job: &Job) -> Ask {
        while let Some(&point) = self.waiting.front() {
            if self.tried.len() >= self.most {
                return Ask::Over;
            }
            if !self.known(&point) {
                match self.span_of(job, point) {
                    None => return Ask::Wait,
                    Some(Ok((low, high))) if point.over >= 0 && low + point.over <= high => {
                        self.waiting.pop_front();
                        return Ask::Fly(point);
                    }
                    Some(_) => {
                        self.closed.insert(point);
                    }
                }
            }
            self.waiting.pop_front();
        }
        if self.refines && self.best.is_some() && self.refine() { Ask::Wait } else { Ask::Over }
    }

    /// Takes in how good a point is.
    pub fn tell(&mut self, point: Point, rank: Rank) {
        self.tried.insert(point, rank);
        if self.best.is_none_or(|(_, best)| rank.beats(best)) {
            self.best = Some((point, rank));
        }
    }

    /// Points that were flown, best first; equal ones in the order of the net.
    pub fn ranking(&self) -> Vec<(Point, Rank)> {
        let mut all: Vec<_> = self.tried.iter().map(|(&p, &r)| (p, r)).collect();
        all.in_order(|a, b| a.1.0.cmp(&b.1.0).then(a.1.1.total_cmp(&b.1.1)));
        all
    }

    /// Rank of the best so far.
    pub fn best(&self) -> Option<Rank> {
        self.best.map(|(_, rank)| rank)
    }

    /// Trials at most.
    pub fn most(&self) -> usize {
        self.most
    }

    /// What a setting must keep to before it is flown.
    pub fn limits(&self) -> Limits {
        self.limits
    }

    /// Eighths of a turn of the fluid knob, wide open.
    pub fn fluid_turns(&self) -> i32 {
        self.turns.1
    }

    /// Points that wait.
    pub fn left(&self) -> usize {
        self.waiting.len()
    }

    /// Trials flown.
    pub fn flown(&self) -> usize {
        self.tried.len()
    }

    /// The knobs of a point.
    pub fn setting(&self, point: Point) -> GunSetting {
        let low = self.spans.get(&(point.fan, point.fluid)).and_then(|s| s.as_ref().ok()).map_or(0, |s| s.0);
        self.knobs(point.fan, point.fluid, low + point.over)
    }

    /// Why no setting was flown: the reason at the least fluid and the widest choice of pressure.
    pub fn why_none(&self) -> String {
        let none = || "no setting of this gun sprays this paint".to_string();
        self.spans.values().find_map(|s| s.as_ref().err().cloned()).unwrap_or_else(none)
    }

    fn knobs(&self, fan: i32, fluid: i32, pressure: i32) -> GunSetting {
        GunSetting {
            inlet_pressure: f64::from(pressure) * PRESSURE_STEP,
            fan: f64::from(fan) / f64::from(self.turns.0),
            fluid: f64::from(fluid) / f64::from(self.turns.1),
            trigger: 1.0,
            air_knob: 1.0,
            ..self.rest.clone()
        }
    }

    fn known(&self, point: &Point) -> bool {
        self.tried.contains_key(point) || self.closed.contains(point)
    }

    /// The pressures of a point's fan and fluid; none while they are still being looked at.
    fn span_of(&mut self, job: &Job, point: Point) -> Option<Span> {
        let key = (point.fan, point.fluid);
        if let Some(span) = self.spans.get(&key) {
            return Some(span.clone());
        }
        let mut probe =
            self.probe.take().filter(|p| p.knobs == key).unwrap_or_else(|| Probe::new(key, self.pressures));
        let admit = |pressure: i32| self.limits.admit(job, &self.kit, &self.knobs(key.0, key.1, pressure));
        for _ in 0..CHECKS {
            if let Some(span) = probe.look(&admit) {
                self.spans.insert(key, span.clone());
                return Some(span);
            }
        }
        self.probe = Some(probe);
        None
    }

    /// Queues the neighbours of the best at the present step, or halves it; false when there is nothing left to try.
    fn refine(&mut self) -> bool {
        let Some((best, _)) = self.best else { return false };
        loop {
            let (df, du, dp, dd) = self.step;
            let moves = [
                (-df, 0, 0, 0),
                (df, 0, 0, 0),
                (0, -du, 0, 0),
                (0, du, 0, 0),
                (0, 0, -dp, 0),
                (0, 0, dp, 0),
                (0, 0, 0, -dd),
                (0, 0, 0, dd),
            ];
            for (fan, fluid, over, distance) in moves {
                let fan = if self.kit.has_fan() { best.fan + fan } else { best.fan };
                let point = Point {
                    fan: fan.clamp(0, self.turns.0),
                    fluid: (best.fluid + fluid).clamp(1, self.turns.1),
                    over: (best.over + over).max(0),
                    along: best.along,
                    distance: (best.distance + distance).clamp(self.reach[0], self.reach[1]),
                };
                if !self.known(&point) && !self.waiting.contains(&point) {
                    self.waiting.push_back(point);
                }
            }
            for &along in &self.axes {
                let turned = Point { along, ..best };
                if !self.known(&turned) && !self.waiting.contains(&turned) {
                    self.waiting.push_back(turned);
                }
            }
            if !self.waiting.is_empty() {
                return true;
            }
            if self.step == (1, 1, 1, 1) {
                return false;
            }
            self.step = ((df / 2).max(1), (du / 2).max(1), (dp / 2).max(1), (dd / 2).max(1));
        }
    }
}
