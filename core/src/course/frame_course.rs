//! The gun along all tubes of a frame: at every place of it a scene of its own, with the neighbours it has there.
//!
//! The way of one coat, of a hand all coats, is divided into even steps, a visit each; the droplets of a visit have numbers that follow
//! one another, and leave the gun at the middle of its step. Visits go to and fro over the way by a golden stride, so that any number
//! of them covers it evenly. A droplet depends on its number alone.

use super::frame_way::FrameWay;
use super::stand::{Stand, Visit};
use super::{Course, Outcome};
use crate::airflow::FanJet;
use crate::error::ParameterError;
use crate::film::Place;
use crate::flight::{Batch, FlightSettings, Noise, Scene, fly};
use crate::job::Booth;
use crate::part::Frame;
use crate::rod::Rod;
use crate::stroke::{FramePlan, Pass, Track, member_place};
use crate::tally::Fate;
use fearless_simd::Level;
use glam::{DVec2, DVec3};
use std::sync::Arc;

/// A gun along a frame, ready to fly.
#[derive(Debug, Clone)]
pub struct FrameCourse {
    /// The gun before one tube alone: emission, spray, seed.
    base: Course,
    pub(super) jet: FanJet<f64>,
    pub(super) frame: Arc<Frame>,
    places: Vec<Place>,
    pub(super) way: FrameWay,
    /// Members along which the gun has not room everywhere.
    tight: Vec<usize>,
    /// Flight settings of each pass of a coat: gravity lies otherwise in each.
    settings: Vec<FlightSettings<f64>>,
    booth: Booth,
    distance: f64,
    /// The tube's axis beside the gun's, for a fan along it that is pushed aside, at `distance` [m].
    off: f64,
}

impl FrameCourse {
    /// The gun of `base` along the passes of a frame, as a machine's, or along a hand's track; `droplets` in all. `jet` is that of
    /// `base`, `off` [m] how far a tube's axis passes beside the gun's.
    ///
    /// # Errors
    /// A distance or a diameter out of the model's range, by key; no pass at all.
    pub fn new(
        base: Course,
        jet: FanJet<f64>,
        frame: Arc<Frame>,
        plan: FramePlan,
        booth: &Booth,
        (distance, off): (f64, f64),
        droplets: u64,
    ) -> Result<Self, ParameterError> {
        let FramePlan { passes, tight, track } = plan;
        let way = FrameWay::new(&frame, passes, track, distance, droplets).ok_or_else(|| {
            ParameterError::new("stroke.members", "no strokes", "at least one tube to spray")
        })?;
        let places: Vec<Place> = frame.members.iter().map(member_place).collect();
        let mut course =
            Self { base, jet, frame, places, way, tight, settings: Vec::new(), booth: *booth, distance, off };
        for pass in 0..course.passes().len() {
            let visit = course.way.planned(pass, 0.0);
            let down = course.stand(&visit).turned(-DVec3::Y);
            course.settings.push(super::settings(&course.base.spray, booth, down));
            // The model's range, once for every tube.
            course.tube(&visit)?;
        }
        if course.way.track().is_some() {
            // A hand goes elsewhere each time.
            for number in 0..course.way.visits {
                course.tube(&course.way.visit(number))?;
            }
        }
        Ok(course)
    }

    /// The way between two visits that follow one another on it [m].
    #[must_use]
    pub fn step(&self) -> f64 {
        self.way.step()
    }

    /// Members along which the gun has not room everywhere it should stand.
    #[must_use]
    pub fn tight(&self) -> &[usize] {
        &self.tight
    }

    /// The passes of a coat.
    #[must_use]
    pub fn passes(&self) -> &[Pass] {
        self.way.passes()
    }

    /// A hand's way, all coats; none of a machine.
    #[must_use]
    pub fn track(&self) -> Option<&Track> {
        self.way.track()
    }

    /// The place of a visit.
    #[must_use]
    pub fn visit(&self, number: u64) -> Visit {
        self.way.visit(number)
    }

    pub(super) fn stand(&self, visit: &Visit) -> Stand {
        Stand::new(visit, &self.places[visit.member])
    }

    /// The jet at the gun's distance there.
    pub(super) fn jet(&self, visit: &Visit) -> Result<FanJet<f64>, ParameterError> {
        if visit.reach() == self.distance {
            return Ok(self.jet);
        }
        super::jet_of(&self.base.spray, &self.booth, visit.reach(), self.base.emission.fan_along_x())
    }

    /// How far a tube's axis passes beside the middle of the spray there, a fan that is pushed aside as a whole told apart [m].
    pub(super) fn beside_axis(&self, visit: &Visit) -> [f64; 2] {
        if visit.reach() == self.distance {
            return [visit.aside, self.off];
        }
        [visit.aside, self.off * visit.reach() / self.distance]
    }

    /// The tube aimed at alone.
    pub(super) fn tube(&self, visit: &Visit) -> Result<Scene<f64>, ParameterError> {
        let [aside, off] = self.beside_axis(visit);
        let diameter = self.frame.members[visit.member].diameter;
        super::tube_scene(self.jet(visit)?, visit.reach(), diameter, aside + off)
    }

    /// Flight settings there: what a pass has, with gravity as it lies for this gun.
    fn settings(&self, visit: &Visit, stand: &Stand) -> FlightSettings<f64> {
        let own = self.settings[visit.pass % self.settings.len()];
        if self.way.track().is_none() { own } else { own.pulled(stand.turned(-DVec3::Y)) }
    }

    pub(super) fn rod(&self, member: usize, stand: &Stand) -> Rod<f64> {
        let m = &self.frame.members[member];
        stand.rod(m.from, m.to, m.radius())
    }

    /// Flies droplets `from..to` in the f32 lanes and gives each one's outcome, in order.
    pub fn fly(
        &self,
        level: Level,
        from: u64,
        to: u64,
        batch: &mut Batch<f32>,
        mut each: impl FnMut(&Outcome),
    ) {
        let mut first = from;
        while first < to {
            let number = first / self.way.chunk;
            let next = to.min((number + 1) * self.way.chunk);
            let visit = self.visit(number);
            let stand = self.stand(&visit);
            // A course that was made has a scene everywhere.
            let (scene, members) = self.scene(&visit).unwrap_or((self.base.scene, Vec::new()));
            self.base.fill(level, first..next, batch);
            fly(level, &scene.narrow(), &self.settings(&visit, &stand).cast(), Noise::Sum2, batch);
            for droplet in first..next {
                let mut outcome =
                    self.base.outcome_before(&scene, batch, (droplet - first) as usize, droplet);
                self.book(&mut outcome, &visit, &stand, &scene, &members);
                each(&outcome);
            }
            first = next;
        }
    }

    /// Books an outcome on the tube it ended at: member and pass, and its place on that tube's face.
    fn book(&self, o: &mut Outcome, visit: &Visit, stand: &Stand, scene: &Scene<f64>, members: &[usize]) {
        (o.pass, o.member) = (visit.pass, visit.member);
        if o.fate == Fate::Missed || o.fate == Fate::Drifted || o.fate == Fate::Lost {
            return;
        }
        let beside = match scene {
            Scene::Among(_, part) => part.nearest(o.position.to_array()).0,
            _ => None,
        };
        match beside.and_then(|i| members.get(i)) {
            None => {
                // The same turn round it as the gun has; what a push moved is moved along the tube alone.
                let tau = core::f64::consts::TAU;
                let share = (o.place.y + visit.turn) / tau + 0.5;
                let along = visit.x + stand.along(o.place.x, o.position.z);
                o.place = DVec2::new(along, (share - share.floor() - 0.5) * tau);
            }
            Some(&member) => {
                let place = &self.places[member];
                let from = stand.booth(o.position) - place.middle;
                let angle = crate::math::atan2(from.dot(place.up()), from.dot(place.front));
                (o.member, o.place) = (member, DVec2::new(from.dot(place.along), angle));
            }
        }
        if o.fate == Fate::Landed && o.place.x.abs() > 0.5 * self.frame.members[o.member].length() {
            // On the rounded end, or past it on a tube that stands alone: no film of the part.
            o.fate = Fate::Missed;
        }
    }
}
