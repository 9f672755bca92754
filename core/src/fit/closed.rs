//! What needs no droplets: paint flow, fan slope, ray spread and droplet size of a gun, at the price of a few roots.

use super::unknown::{Unknown, matched};
use crate::air::Jet;
use crate::atomizer;
use crate::error::ParameterError;
use crate::gun::{State, paint_flow};
use crate::job::Job;
use crate::set_up::Model;

/// The gun of a job whose air is worked out once: no unknown changes it.
#[derive(Debug, Clone)]
pub(super) struct Closed {
    pub job: Job,
    pub unknowns: [Unknown; 4],
    model: Model,
    state: State,
    at_reference: f64,
}

/// Values of a gun with given factors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Values {
    /// Paint flow [m3/s].
    pub flow: f64,
    /// The same with the air shut [m3/s].
    pub flow_without_air: f64,
    /// Logarithms of fan slope, ray spread, flow and Sauter mean diameter; of a fan that does not open 0.
    pub logs: [f64; 4],
}

impl Closed {
    /// The job's gun as in the catalogue, whatever was matched before.
    pub fn new(mut job: Job) -> Result<Self, ParameterError> {
        job.kit.matched = crate::gun::Matched::default();
        // A card is measured along the fan, however the cap is turned.
        job.gun.cap_turn = 0.0;
        let model = Model::default();
        let state = model.state(&job.kit, &job.gun, &job.paint, &job.booth)?;
        Ok(Self {
            unknowns: Unknown::of(&job.kit),
            at_reference: model.sauter_at_reference()?,
            model,
            state,
            job,
        })
    }

    /// The job with a gun of these factors (logarithms).
    pub fn job_with(&self, logs: [f64; 4]) -> Job {
        let mut job = self.job.clone();
        job.kit.matched = matched(self.unknowns, logs);
        job
    }

    /// Values of a gun of these factors (logarithms).
    pub fn values(&self, logs: [f64; 4]) -> Values {
        let mut kit = self.job.kit.clone();
        kit.matched = matched(self.unknowns, logs);
        let c = self.model.own(&kit);
        let (setting, paint) = (&self.job.gun, &self.job.paint);
        let air = &self.state.air;
        let slope = atomizer::fan_slope(&air.annulus, &air.horns, kit.horn_angle, 1.0, &c);
        let flow = paint_flow(&kit, setting, paint, &air.annulus, &c);
        let still = Jet { mass_flow: 0.0, speed: 0.0, density: air.annulus.density };
        let state = State { paint_flow: flow, paint_mass_flow: flow * paint.density, ..self.state.clone() };
        let sauter = self.model.sauter_from(self.at_reference, &kit, setting, &state, paint);
        let ln = |x: f64| if x > 0.0 { crate::math::ln(x) } else { 0.0 };
        Values {
            flow,
            flow_without_air: paint_flow(&kit, setting, paint, &still, &c),
            logs: [ln(slope), ln(atomizer::ray_spread(slope, &c)), ln(flow * 1e6), ln(sauter * 1e6)],
        }
    }
}
