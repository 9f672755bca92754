//! The job's gun at other poses before its part: the flights of a shelf.

use super::Prepared;
use crate::course::{Course, jet_of, panel_scene, round_scene, settings, tilted_scene};
use crate::emission::EDGE;
use crate::error::{ParameterError, within};
use crate::job::{PartShape, PassOrder};
use crate::stream::Purpose;
use crate::stroke::{FARTHEST_SWING, Frame, Lay, Levels, NodePose, Shelf, ShelfSpec};
use core::f64::consts::FRAC_PI_2;
use glam::DVec3;

/// Largest tilt that a flight is worth [rad]: 45 degrees.
const STEEPEST: f64 = 0.786;
/// Tilt below which a face counts as square on [rad].
const SQUARE: f64 = 1e-9;

/// Which poses a shelf is flown at besides the job's own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PoseRange {
    /// Tip to face, lowest and highest [m].
    pub distance: [f64; 2],
    /// Tipped up, lowest and highest [rad].
    pub heel: [f64; 2],
    /// Swung along x [rad].
    pub swing: [f64; 2],
    /// Tubes: the axis beside the gun's [m].
    pub aside: [f64; 2],
}

/// Poses are flown as far out as so many standard deviations of a hand.
const FARTHEST: f64 = 2.2;
/// Distances of neighbouring poses differ at most by this factor.
const STEP_DISTANCE: f64 = 1.25;
/// Distances nearer to the job's than by this share are it.
const SAME_DISTANCE: f64 = 0.02;
/// Tilts below this are none: geometry alone serves [rad].
const NO_TILT: f64 = 0.05;
/// Step of the tilts [rad]: 20 degrees.
const STEP_TILT: f64 = 0.35;
/// Step of the aim beside a tube, and what counts as none, in half-widths of the jet there.
const STEP_ASIDE: f64 = 0.6;
const NO_ASIDE: f64 = 0.15;
/// Farthest that the gun's axis may pass the axis of a curve [m]: what the air round it is asked for.
const MOST_ASIDE: f64 = 1.0;

/// Departures from 0 up to `most`, in equal steps of at most `step`; none below `least`.
fn steps(most: f64, step: f64, least: f64) -> impl Iterator<Item = f64> {
    let count = if most.abs() < least { 0 } else { (most.abs() / step - 1e-6).ceil().max(1.0) as u32 };
    (1..=count).map(move |i| most * f64::from(i) / f64::from(count))
}

impl Prepared {
    /// The job's own pose, the middle of its shelf.
    #[must_use]
    pub fn pose(&self) -> NodePose {
        let stroke = &self.job.stroke;
        // Before a tube a swing is told by geometry alone.
        let swing = if self.radius().is_some() { 0.0 } else { stroke.swing };
        NodePose { distance: stroke.distance, heel: stroke.heel, swing, aside: 0.0 }
    }

    /// Radius of the job's tube or curved face [m]; none of other parts.
    #[must_use]
    pub fn radius(&self) -> Option<f64> {
        match self.job.part {
            PartShape::Tube { diameter, .. } => Some(0.5 * diameter),
            PartShape::Curved { radius, .. } => Some(radius),
            PartShape::Panel { .. } | PartShape::Frame(_) => None,
        }
    }

    /// Poses that the job's hand or track takes the gun to; none where the exact sweep serves.
    pub(super) fn pose_range(&self) -> Option<PoseRange> {
        let (stroke, part) = (&self.job.stroke, &self.job.part);
        if matches!(part, PartShape::Frame(_)) {
            return None;
        }
        let (d, hand) = (stroke.distance, &stroke.hand);
        let mut range = PoseRange {
            distance: [d, d],
            heel: [stroke.heel; 2],
            swing: [self.pose().swing; 2],
            aside: [0.0; 2],
        };
        if let Some(track) = &self.job.track {
            for moment in track.moments().iter().filter(|m| m.trigger > 0.0) {
                let pose = NodePose::of(moment, self.radius());
                let grow = |ends: &mut [f64; 2], v: f64| *ends = [ends[0].min(v), ends[1].max(v)];
                grow(&mut range.distance, pose.distance);
                grow(&mut range.heel, pose.heel);
                grow(&mut range.swing, pose.swing);
                grow(&mut range.aside, pose.aside);
            }
            range.distance = range.distance.map(|d| d.clamp(0.05, 1.0));
            return Some(range);
        }
        if stroke.is_swept() {
            return None;
        }
        let off = FARTHEST * hand.distance + 0.5 * hand.drift.abs();
        let mut arc = 0.0;
        if let Some(pivot) = hand.pivot {
            let length = match *part {
                PartShape::Panel { width, height } if stroke.order != PassOrder::Raster => width.max(height),
                PartShape::Panel { width, .. } | PartShape::Curved { width, .. } => width,
                PartShape::Tube { length, .. } => length,
                PartShape::Frame(_) => 0.0,
            };
            arc = crate::math::atan2(0.5 * length + stroke.lead, pivot + d).min(FARTHEST_SWING);
            range.distance[1] += pivot * (1.0 - crate::math::cos(arc));
        }
        range.distance = [(range.distance[0] - off).max(0.4 * d), range.distance[1] + off];
        let wrist = FARTHEST * hand.heel;
        let heel = wrist + if stroke.order == PassOrder::Raster { 0.0 } else { arc };
        range.heel = [range.heel[0] - heel, range.heel[1] + heel];
        range.swing = [range.swing[0] - arc, range.swing[1] + arc];
        let reach = d + self.radius().unwrap_or(0.0);
        let aside = FARTHEST * hand.aim + reach * crate::math::sin(wrist.min(STEEPEST));
        range.aside = [-aside, aside];
        Some(range)
    }

    /// How the fan is held: turned clockwise from upright [rad]; 0 before a tube.
    #[must_use]
    pub fn fan_turn(&self) -> f64 {
        match self.lay {
            Lay::Across => self.job.gun.cap_turn,
            Lay::Along => self.job.gun.cap_turn + FRAC_PI_2,
            Lay::Round => 0.0,
        }
    }

    /// The job's gun at another pose before its part; the same droplets.
    ///
    /// # Errors
    /// Distance or tilt out of range.
    pub fn course_at(&self, pose: &NodePose) -> Result<Course, ParameterError> {
        let (spray, booth) = (&self.course.spray, &self.job.booth);
        within("stroke.heel", pose.heel.to_degrees(), -45.0, 45.0, "deg")?;
        within("stroke.swing", pose.swing.to_degrees(), -45.0, 45.0, "deg")?;
        let purposes = [Purpose::Emission, Purpose::Flight, Purpose::Wall];
        let along_x = self.course.emission.fan_along_x();
        let jet = jet_of(spray, booth, pose.distance, along_x)?;
        let emission = self.course.emission.clone();
        let build = |scene, settings, turn| {
            Course::new(scene, settings, emission, spray.clone(), self.job.run.seed, purposes).turned(turn)
        };
        if let Some(radius) = self.radius() {
            let off = self.tube_offset(pose.distance) + pose.aside;
            let scene = round_scene(jet, pose.distance, radius, off, &self.job.part)?;
            return Ok(build(scene, self.course.settings, 0.0));
        }
        let (sin, cos) = (crate::math::sin(self.job.lean), crate::math::cos(self.job.lean));
        let frame = Frame::tilted(pose.heel, pose.swing).turned(self.fan_turn());
        let down = frame.of(DVec3::new(0.0, -sin, -cos)).to_array();
        let scene = if pose.heel.abs().max(pose.swing.abs()) < SQUARE {
            panel_scene(jet, pose.distance)?
        } else {
            tilted_scene(jet, pose.distance, frame.of(-DVec3::Z).to_array())?
        };
        Ok(build(scene, settings(spray, booth, down), self.job.gun.cap_turn))
    }

    /// A shelf over a range of poses about the job's own: `middle` droplets there, `outer` at each other pose.
    ///
    /// # Errors
    /// A pose out of range.
    pub fn shelf(&self, range: &PoseRange, middle: u64, outer: u64) -> Result<Shelf, ParameterError> {
        let own = self.pose();
        let mut poses = Vec::new();
        for end in range.distance {
            let most = crate::math::ln(end / own.distance);
            let steps = steps(most, crate::math::ln(STEP_DISTANCE), SAME_DISTANCE);
            poses.extend(steps.map(|s| NodePose { distance: own.distance * crate::math::exp(s), ..own }));
        }
        match self.radius() {
            None => {
                let tilts = |ends: [f64; 2], own: f64| {
                    let off = move |end: f64| end.clamp(-STEEPEST, STEEPEST) - own;
                    ends.into_iter()
                        .flat_map(move |end| steps(off(end), STEP_TILT, NO_TILT))
                        .map(move |s| own + s)
                };
                poses.extend(tilts(range.heel, own.heel).map(|heel| NodePose { heel, ..own }));
                poses.extend(tilts(range.swing, own.swing).map(|swing| NodePose { swing, ..own }));
            }
            Some(radius) => {
                self.near_enough(range)?;
                let jet =
                    jet_of(&self.spray, &self.job.booth, own.distance, self.course.emission.fan_along_x())?;
                let width = jet.section(own.distance + radius).by;
                for end in range.aside {
                    let steps = steps(end, STEP_ASIDE * width, NO_ASIDE * width);
                    poses.extend(steps.map(|aside| NodePose { aside, ..own }));
                }
            }
        }
        let mut nodes = vec![(own, self.course.clone(), middle)];
        for pose in poses {
            nodes.push((pose, self.course_at(&pose)?, outer));
        }
        Ok(Shelf::new(self.shelf_spec(), nodes))
    }

    /// Before a wide curve a small tilt already turns the gun's axis far past the curve's: told by the key that tilts it.
    fn near_enough(&self, range: &PoseRange) -> Result<(), ParameterError> {
        let off = range.distance.map(|d| self.tube_offset(d).abs()).into_iter().fold(0.0, f64::max);
        let farthest = range.aside.into_iter().fold(0.0, |far: f64, a| far.max(a.abs())) + off;
        if farthest <= MOST_ASIDE {
            return Ok(());
        }
        let key = if self.job.track.is_some() { "stroke.track" } else { "stroke.hand" };
        let value = format!("a gun that points {farthest:.2} m past the middle of the curve");
        let allowed =
            format!("up to {MOST_ASIDE} m: a gun that is tilted less, or a smaller part.curved.radius");
        Err(ParameterError::new(key, value, allowed))
    }

    fn shelf_spec(&self) -> ShelfSpec {
        // A bin is a cell of the film at the job's distance.
        let cell = self.bare_film().face().cell_x;
        let bin = (cell / self.job.stroke.distance).clamp(0.01, 0.05);
        let levels = match self.radius() {
            Some(_) => {
                let grid = self.grid();
                Levels::round(grid.ny, -grid.y0, bin)
            }
            None => {
                let spread = self.spray.ray_spread;
                let long = EDGE * self.spray.fan_slope + 2.0 * spread + self.spray.askew.lean.abs();
                Levels::flat([2.5 * spread + 0.06, long + 0.04], bin, self.job.gun.cap_turn)
            }
        };
        ShelfSpec {
            levels,
            radius: self.radius(),
            turn: self.fan_turn(),
            flow: self.spray.volume_flow,
            solids: self.spray.volume_solids,
        }
    }

    /// How far the tube's axis is moved for a fan along it that is pushed aside as a whole [m].
    fn tube_offset(&self, distance: f64) -> f64 {
        match &self.course.scene {
            crate::flight::Scene::Tube(flow, _) => flow.axis_y * distance / self.job.stroke.distance,
            crate::flight::Scene::Curved(flow, _) => flow.axis_y * distance / self.job.stroke.distance,
            _ => 0.0,
        }
    }
}
