//! From a job to what can be flown.

use crate::course::{Course, FrameCourse, in_cap_frame, jet_of, panel_scene, round_scene, settings};
use crate::emission::Emission;
use crate::error::ParameterError;
use crate::flight::Scene;
use crate::gun::{GunSetting, State, Warning};
use crate::job::{FanAxis, Job, PartShape};
use crate::set_up;
use crate::spray::Spray;
use crate::stream::Purpose;
use crate::stroke::{FramePlan, Lay};
use std::sync::Arc;

/// Place along the fan where a push is at its mean over a balanced fan: s^2 = 1/6 [share of half fan].
const BALANCED: f64 = 0.408_248_290_463_863;
/// Cap pressure below which the air carries no spray: paint dribbles [Pa gauge]. Ours: a fifth of the least inlet pressure a job
/// may name.
const DRIBBLE: f64 = 2e3;

/// The key and value that keep the gun from spraying, if something does.
fn no_spray(job: &Job, state: &State) -> Option<(&'static str, String)> {
    let gun = &job.gun;
    let dribbles = state.air.cap_pressure < DRIBBLE;
    if state.paint_flow > 0.0 && !dribbles {
        return None;
    }
    Some(if gun.fluid <= 0.0 {
        ("gun.fluid", gun.fluid.to_string())
    } else if state.warnings.contains(&Warning::CupDry) {
        ("gun.cup_level", gun.cup_level.to_string())
    } else if gun.air_knob < 1.0 && dribbles {
        ("gun.air_knob", gun.air_knob.to_string())
    } else if state.warnings.contains(&Warning::NoPaint) {
        ("gun.inlet_pressure", format!("{} bar", state.inlet_bar()))
    } else {
        ("gun.trigger", gun.trigger.to_string())
    })
}

/// A job ready to fly.
#[derive(Debug, Clone)]
pub struct Prepared {
    /// The job, its inlet pressure as the air supply gives it.
    pub job: Job,
    /// Inlet pressure that the job asks for [Pa gauge].
    pub wanted_pressure: f64,
    /// The gun as set.
    pub state: State,
    /// What leaves it.
    pub spray: Spray,
    /// Gun before the large card.
    pub card: Course,
    /// Gun before the part.
    pub course: Course,
    /// Gun along a frame, whose droplets fly among its tubes; none before other parts.
    pub frame: Option<FrameCourse>,
    /// How the footprint lies on the part.
    pub lay: Lay,
}

impl Prepared {
    /// Works out gun, spray, air and emission.
    ///
    /// # Errors
    /// No paint flows, or a value out of a model's range, by its key.
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let wanted_pressure = job.gun.inlet_pressure;
        let job = set_up::supplied(job)?;
        let state = set_up::state(&job.kit, &job.gun, &job.paint, &job.booth)?;
        // On a tube the fan is laid along it by turning the cap, too.
        let gun = GunSetting {
            cap_turn: if job.part.is_flat() { job.gun.cap_turn } else { quarter_turn(quarters(&job)?) },
            ..job.gun.clone()
        };
        let spray = set_up::spray(&job.kit, &gun, &job.paint, &job.booth)?;
        if let Some((key, value)) = no_spray(&job, &state) {
            let mut why: Vec<_> = state.warnings.iter().map(ToString::to_string).collect();
            if why.is_empty() {
                why.push("too little air to carry paint".into());
            }
            let why = why.join("; ");
            return Err(ParameterError::new(
                key,
                format!("{value} ({why})"),
                "a setting at which the gun sprays",
            ));
        }
        Self::with_spray(job, wanted_pressure, state, spray)
    }

    /// The same of another spray than the job's own gun makes: what is swapped to find out why. `wanted_pressure` and `state` as in
    /// the fields.
    ///
    /// # Errors
    /// A value out of a model's range, by its key.
    pub fn with_spray(
        job: Job,
        wanted_pressure: f64,
        state: State,
        spray: Spray,
    ) -> Result<Self, ParameterError> {
        let tube = !job.part.is_flat();
        let quarters = quarters(&job)?;
        let distance = job.stroke.distance;
        let turned = job.stroke.fan_axis == FanAxis::Along;
        let along = if tube { quarters % 2 == 1 } else { turned };
        let lay = match (tube, along) {
            (true, _) => Lay::Round,
            (false, true) => Lay::Along,
            (false, false) => Lay::Across,
        };
        let down = down(&job, lay);
        let flat = panel_scene(jet_of(&spray, &job.booth, distance, false)?, distance)?;
        let turn = if tube { 0.0 } else { job.gun.cap_turn };
        let flight = |down| settings(&spray, &job.booth, in_cap_frame(down, turn));
        let jet = jet_of(&spray, &job.booth, distance, false)?;
        let card = Course::new(
            flat,
            flight(upright(&job)),
            Emission::new(&spray, &jet, false),
            spray.clone(),
            job.run.seed,
            [Purpose::CardEmission, Purpose::CardFlight, Purpose::CardWall],
        );
        // A cap turned half round mirrors what pushes its spray.
        let askew = if tube && quarters >= 2 { spray.askew.half_round() } else { spray.askew };
        let on_tube = Spray { askew, ..spray.clone() };
        let scene = match diameter(&job.part) {
            None => flat,
            Some(diameter) => {
                let off = if along {
                    on_tube.askew.sideways(BALANCED * on_tube.askew.reach) * distance
                } else {
                    0.0
                };
                round_scene(
                    jet_of(&spray, &job.booth, distance, along)?,
                    distance,
                    0.5 * diameter,
                    off,
                    &job.part,
                )?
            }
        };
        let course = Course::new(
            scene,
            flight(down),
            Emission::new(&on_tube, &jet, tube && along),
            on_tube,
            job.run.seed,
            [Purpose::Emission, Purpose::Flight, Purpose::Wall],
        )
        .turned(turn);
        let frame = match &job.part {
            PartShape::Frame(frame) => {
                let jet = jet_of(&spray, &job.booth, distance, along)?;
                let off = match &course.scene {
                    Scene::Tube(flow, _) => flow.axis_y,
                    _ => 0.0,
                };
                Some(FrameCourse::new(
                    course.clone(),
                    jet,
                    Arc::clone(frame),
                    FramePlan::new(frame, &job.stroke, job.run.seed),
                    &job.booth,
                    (distance, off),
                    job.run.droplets,
                )?)
            }
            _ => None,
        };
        let mut prepared = Self { job, wanted_pressure, state, spray, card, course, frame, lay };
        let own = prepared.pose();
        // Along a frame the gun is tilted tube by tube: before the one that pictures show it stands square.
        if prepared.frame.is_none() && (own.heel != 0.0 || own.swing != 0.0) {
            prepared.course = prepared.course_at(&own)?;
        }
        Ok(prepared)
    }

    /// Where the passes lie depends on the fan's height, so the film waits for the card.
    #[must_use]
    pub fn spaced_by_fan(&self) -> bool {
        !self.job.part.is_of_tubes() && self.job.stroke.burst.is_none()
    }

    /// Whether the droplets of another job would fly as this one's do: it differs in nothing but where the gun goes.
    #[must_use]
    pub fn flies_like(&self, other: &Self) -> bool {
        let (a, b) = (&self.job, &other.job);
        let (s, t) = (&a.stroke, &b.stroke);
        // Gravity pulls along the spray where a leaning tube is sprayed from one side alone.
        let pull = |job: &Job| matches!(job.part, PartShape::Tube { .. }) && job.stroke.sides <= 1;
        let level = crate::math::cos(a.lean).abs() < 1e-9;
        (&a.kit, &a.gun, &a.paint, &a.booth, &a.part) == (&b.kit, &b.gun, &b.paint, &b.booth, &b.part)
            && a.lean == b.lean
            && (a.run.seed, a.run.droplets) == (b.run.seed, b.run.droplets)
            && (s.distance, s.fan_axis, s.burst) == (t.distance, t.fan_axis, t.burst)
            && (level || pull(a) == pull(b))
            // What a hand does tells at which poses it flies.
            && (s.hand, s.order, s.heel, s.swing, s.is_swept()) == (t.hand, t.order, t.heel, t.swing, t.is_swept())
            && (s.is_swept() || s.lead == t.lead)
            && a.track == b.track
            // Along a frame every place of the gun has its own neighbours.
            && (!matches!(a.part, PartShape::Frame(_)) || s == t)
    }
}

/// Where gravity pulls in the gun's frame, the part's y upwards.
fn upright(job: &Job) -> [f64; 3] {
    [0.0, -crate::math::sin(job.lean), crate::math::cos(job.lean)]
}

/// The same as the footprint lies: on a panel "down" is -y of the part; on a tube the part leans along its own length.
fn down(job: &Job, lay: Lay) -> [f64; 3] {
    let [x, minus, cos] = upright(job);
    match (lay, &job.part) {
        (Lay::Across, _) | (Lay::Round, PartShape::Curved { .. }) => [x, minus, cos],
        (Lay::Along, _) => [-minus, 0.0, cos],
        (Lay::Round, _) => [minus, 0.0, if job.stroke.sides <= 1 { cos } else { 0.0 }],
    }
}

/// Diameter of what is round about the strokes [m]; of a frame that of one of its tubes alone, which pictures and patterns show.
fn diameter(part: &PartShape) -> Option<f64> {
    match part {
        PartShape::Panel { .. } => None,
        PartShape::Tube { diameter, .. } => Some(*diameter),
        PartShape::Curved { radius, .. } => Some(2.0 * radius),
        PartShape::Frame(frame) => {
            frame.members.iter().find(|m| m.sprayed).or(frame.members.first()).map(|m| m.diameter)
        }
    }
}

/// Quarters of a turn from the fan across the strokes, 0..=3; on a panel it does not matter.
fn quarters(job: &Job) -> Result<u32, ParameterError> {
    if job.part.is_flat() {
        return Ok(0);
    }
    let own = u32::from(job.stroke.fan_axis == FanAxis::Along);
    match job.gun.quarters() {
        Some(turned) => Ok((turned + own) % 4),
        None => Err(ParameterError::new(
            "gun.cap_turn",
            format!("{} deg", job.gun.cap_turn.to_degrees()),
            "0, 90, 180, 270 or 360 deg before a tube or a curved face",
        )),
    }
}

fn quarter_turn(quarters: u32) -> f64 {
    f64::from(quarters) * core::f64::consts::FRAC_PI_2
}
