//! The gun along all tubes of a frame: at every place of it a scene of its own, with the neighbours it has there.
//!
//! The way of one coat is divided into even steps, a visit each; the droplets of a visit have numbers that follow one another, and leave
//! the gun at the middle of its step. Visits go to and fro over the way by a golden stride, so that any number of them covers it
//! evenly. A droplet depends on its number alone.

use super::{Course, Outcome};
use crate::error::ParameterError;
use crate::film::Place;
use crate::flight::{Batch, FlightSettings, Noise, Scene, fly};
use crate::job::Booth;
use crate::part::{AmongPart, CARD_HALF, Frame};
use crate::rod::{MOST_RODS, Rod};
use crate::stroke::{Pass, member_place};
use crate::tally::{Fate, GROUPS};
use fearless_simd::Level;
use glam::{DVec2, DVec3};
use std::sync::Arc;

/// Step of the way that is wanted [m], finer than the spray is wide.
const STEP: f64 = 5e-3;
/// Most droplets of a visit; a multiple of the groups, so that every place has as many of each.
const MOST: u64 = 256;
/// Tubes further behind the one aimed at than this are left out [m]: few droplets reach so far.
const BEHIND: f64 = 0.6;
/// Tubes in thinner spray than this share of that at the tube aimed at are left out [-].
const FAINT: f64 = 0.01;
/// A tube is looked at in so many places for how much spray it stands in.
const LOOKS: usize = 16;
/// A droplet this far past the last tube has passed it [m].
const PAST: f64 = 0.05;

/// A visit's place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Visit {
    /// Number of the pass.
    pub pass: usize,
    /// Gun's place along it, from the tube's middle [m].
    pub x: f64,
}

/// The gun's frame in the booth: where its tip is, and its directions.
struct Stand {
    tip: DVec3,
    along: DVec3,
    up: DVec3,
    out: DVec3,
}

impl Stand {
    /// A direction of the booth in the gun's frame.
    fn turned(&self, v: DVec3) -> [f64; 3] {
        [v.dot(self.along), v.dot(self.up), -v.dot(self.out)]
    }

    fn seen(&self, point: DVec3) -> [f64; 3] {
        self.turned(point - self.tip)
    }

    /// A place of the gun's frame in the booth.
    fn booth(&self, at: DVec3) -> DVec3 {
        self.tip + self.along * at.x + self.up * at.y - self.out * at.z
    }
}

/// A gun along a frame, ready to fly.
#[derive(Debug, Clone)]
pub struct FrameCourse {
    /// The gun before one tube alone: emission, spray, seed.
    base: Course,
    jet: crate::airflow::FanJet<f64>,
    frame: Arc<Frame>,
    places: Vec<Place>,
    passes: Vec<Pass>,
    /// Members along which the gun has not room everywhere.
    tight: Vec<usize>,
    /// Where each pass begins on the way, and the way's length at last [m].
    starts: Vec<f64>,
    /// Flight settings of each pass: gravity lies otherwise in each.
    settings: Vec<FlightSettings<f64>>,
    distance: f64,
    /// The tube's axis beside the gun's, for a fan along it that is pushed aside [m].
    off: f64,
    chunk: u64,
    visits: u64,
    stride: u64,
}

fn common(mut a: u64, mut b: u64) -> u64 {
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a
}

impl FrameCourse {
    /// The gun of `base` along the passes of a frame, `droplets` in all. `jet` is that of `base`, `off` [m] how far a tube's axis
    /// passes beside the gun's.
    ///
    /// # Errors
    /// A distance or a diameter out of the model's range, by key; no pass at all.
    pub fn new(
        base: Course,
        jet: crate::airflow::FanJet<f64>,
        frame: Arc<Frame>,
        (passes, tight): (Vec<Pass>, Vec<usize>),
        booth: &Booth,
        (distance, off): (f64, f64),
        droplets: u64,
    ) -> Result<Self, ParameterError> {
        let mut starts = vec![0.0];
        for pass in &passes {
            starts.push(starts.last().copied().unwrap_or(0.0) + pass.length());
        }
        let way = starts.last().copied().unwrap_or(0.0);
        if way <= 0.0 {
            return Err(ParameterError::new("stroke.members", "no strokes", "at least one tube to spray"));
        }
        let wanted = (way / STEP).ceil().max(1.0) as u64;
        let groups = GROUPS as u64;
        let chunk = (droplets / (wanted * groups) * groups).clamp(groups, MOST);
        let visits = droplets.div_ceil(chunk).max(1);
        let mut stride = ((visits as f64 * 0.618_033_988_749_895) as u64).max(1);
        while common(stride, visits) != 1 {
            stride += 1;
        }
        let places: Vec<Place> = frame.members.iter().map(member_place).collect();
        let mut course = Self {
            base,
            jet,
            frame,
            places,
            passes,
            tight,
            starts,
            settings: Vec::new(),
            distance,
            off,
            chunk,
            visits,
            stride,
        };
        for pass in 0..course.passes.len() {
            let stand = course.stand(&Visit { pass, x: 0.0 });
            course.settings.push(super::settings(&course.base.spray, booth, stand.turned(-DVec3::Y)));
            // The model's range, once for every tube.
            let member = &course.frame.members[course.passes[pass].member];
            super::tube_scene(course.jet, distance, member.diameter, off)?;
        }
        Ok(course)
    }

    /// The way between two visits that follow one another on it [m].
    #[must_use]
    pub fn step(&self) -> f64 {
        self.starts.last().copied().unwrap_or(0.0) / self.visits as f64
    }

    /// Members along which the gun has not room everywhere it should stand.
    #[must_use]
    pub fn tight(&self) -> &[usize] {
        &self.tight
    }

    /// The passes of a coat.
    #[must_use]
    pub fn passes(&self) -> &[Pass] {
        &self.passes
    }

    /// The place of a visit.
    #[must_use]
    pub fn visit(&self, number: u64) -> Visit {
        let place = (u128::from(number) * u128::from(self.stride) % u128::from(self.visits)) as u64;
        let way = (place as f64 + 0.5) * self.step();
        let pass = self.starts.partition_point(|&s| s <= way).clamp(1, self.passes.len()) - 1;
        let p = &self.passes[pass];
        let on = way - self.starts[pass];
        Visit { pass, x: p.from + if p.to > p.from { on } else { -on } }
    }

    fn stand(&self, visit: &Visit) -> Stand {
        let pass = &self.passes[visit.pass];
        let place = &self.places[pass.member];
        let out = place.normal(pass.turn * place.radius);
        let on = place.middle + place.along * visit.x + out * place.radius;
        Stand { tip: on + out * self.distance, along: place.along, up: out.cross(place.along), out }
    }

    fn rod(&self, member: usize, stand: &Stand) -> Rod<f64> {
        let m = &self.frame.members[member];
        Rod { end: stand.seen(m.from), axis: stand.turned(m.axis()), length: m.length(), radius: m.radius() }
    }

    /// How much spray a tube stands in, against the tube aimed at: by the free jet, twice as wide as its air.
    fn stands_in(&self, rod: &Rod<f64>) -> f64 {
        let own = self.jet.section(self.distance);
        let mut most: f64 = 0.0;
        for i in 0..=LOOKS {
            let t = rod.length * i as f64 / LOOKS as f64;
            let [x, y, z] = core::array::from_fn(|k| rod.end[k] + rod.axis[k] * t);
            if z < 1e-3 || z > self.distance + BEHIND {
                continue;
            }
            let s = self.jet.section(z);
            // The nearest the tube itself comes to the gun's axis.
            let near = (x * x + y * y).sqrt();
            let nearer = if near > 1e-9 { (near - rod.radius).max(0.0) / near } else { 0.0 };
            let (xi, eta) = (0.5 * x * nearer * s.ix, 0.5 * y * nearer * s.iy);
            let q = xi * xi + eta * eta;
            most = most.max(crate::math::exp(-q) * (own.bx * own.by * s.ix * s.iy).min(4.0));
        }
        most
    }

    /// The tubes beside the one aimed at that stand in the spray, those in the thickest first.
    fn beside(&self, visit: &Visit, stand: &Stand) -> Vec<(usize, Rod<f64>)> {
        let aimed = self.passes[visit.pass].member;
        let mut all: Vec<(f64, usize, Rod<f64>)> = (0..self.frame.members.len())
            .filter(|&member| member != aimed)
            .map(|member| {
                let rod = self.rod(member, stand);
                (self.stands_in(&rod), member, rod)
            })
            .filter(|(share, ..)| *share > FAINT)
            .collect();
        all.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        all.into_iter().map(|(_, member, rod)| (member, rod)).collect()
    }

    /// Share of the way along which more tubes stand in the spray than are flown past [-], from a look every 30 mm.
    #[must_use]
    pub fn crowded(&self) -> f64 {
        let (mut all, mut crowded) = (0u32, 0u32);
        for (pass, p) in self.passes.iter().enumerate() {
            let count = (p.length() / 0.03).ceil().max(1.0) as usize;
            for i in 0..count {
                let visit = Visit { pass, x: p.from + (p.to - p.from) * (i as f64 + 0.5) / count as f64 };
                all += 1;
                crowded += u32::from(self.beside(&visit, &self.stand(&visit)).len() > MOST_RODS);
            }
        }
        f64::from(crowded) / f64::from(all.max(1))
    }

    /// The scene of a visit, and which tubes its neighbours are.
    ///
    /// # Errors
    /// Never for a course that was made.
    pub fn scene(&self, visit: &Visit) -> Result<(Scene<f64>, Vec<usize>), ParameterError> {
        let stand = self.stand(visit);
        let member = self.passes[visit.pass].member;
        let diameter = self.frame.members[member].diameter;
        let scene = super::tube_scene(self.jet, self.distance, diameter, self.off)?;
        let mut beside = self.beside(visit, &stand);
        beside.truncate(MOST_RODS);
        let Scene::Tube(flow, part) = scene else { return Ok((scene, Vec::new())) };
        if beside.is_empty() {
            return Ok((scene, Vec::new()));
        }
        let (members, rods): (Vec<usize>, Vec<Rod<f64>>) = beside.into_iter().unzip();
        let own = self.rod(member, &stand);
        // Pushed aside, the tube stands there for the flow and for the droplets alike.
        let own = Rod { end: [own.end[0], own.end[1] + self.off, own.end[2]], ..own };
        let far = rods.iter().fold(part.axis_z + part.behind, |far, rod| {
            let ends = [rod.end[2], rod.end[2] + rod.axis[2] * rod.length];
            far.max(ends[0].max(ends[1]).min(self.distance + BEHIND) + rod.radius + PAST)
        });
        let among = AmongPart::new(own, &rods, far, CARD_HALF);
        Ok((Scene::Among(crate::airflow::AmongFlow::new(flow, &rods), among), members))
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
            let number = first / self.chunk;
            let next = to.min((number + 1) * self.chunk);
            let visit = self.visit(number);
            let stand = self.stand(&visit);
            // A course that was made has a scene everywhere.
            let (scene, members) = self.scene(&visit).unwrap_or((self.base.scene, Vec::new()));
            batch.clear();
            for droplet in first..next {
                batch.push(&self.base.start(droplet));
            }
            fly(level, &scene.narrow(), &self.settings[visit.pass].cast(), Noise::Sum2, batch);
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
        let pass = &self.passes[visit.pass];
        (o.pass, o.member) = (visit.pass, pass.member);
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
                let share = (o.place.y + pass.turn) / tau + 0.5;
                o.place = DVec2::new(visit.x + o.place.x, (share - share.floor() - 0.5) * tau);
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
