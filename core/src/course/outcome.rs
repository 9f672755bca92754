//! How a droplet ended, with its fate.

use super::Course;
use crate::flight::{Batch, END_DRIFTED, END_HIT, END_PASSED, Scene};
use crate::lanes::Real;
use crate::math;
use crate::stream::Stream;
use crate::tally::{Fate, GROUPS};
use crate::wall::Impact;

/// Solids by volume from which a landing droplet counts as dry [-]. Ours: it no longer wets out.
pub const DRY_SOLIDS: f64 = 0.9;

/// The end of one droplet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// Its number.
    pub droplet: u64,
    /// Its fate.
    pub fate: Fate,
    /// Position at the end, gun frame [m].
    pub position: [f64; 3],
    /// Place on the face: x [m], and y [m] or the angle round the tube from its front [rad].
    pub place: [f64; 2],
    /// Diameter at the start [m].
    pub start_diameter: f64,
    /// Diameter at the end [m].
    pub diameter: f64,
    /// Density at the end [kg/m3].
    pub density: f64,
    /// Volume at the end over volume at the tip [-].
    pub wet: f64,
    /// Speed towards the face at the end [m/s].
    pub normal_speed: f64,
    /// Time aloft [s].
    pub time: f64,
}

impl Outcome {
    /// Replicate group.
    #[must_use]
    pub fn group(&self) -> usize {
        (self.droplet % GROUPS as u64) as usize
    }
}

impl Course {
    pub(super) fn outcome<T: Real>(&self, batch: &Batch<T>, k: usize, droplet: u64) -> Outcome {
        let at = |v: &[Vec<T>; 3]| [v[0][k].to_f64(), v[1][k].to_f64(), v[2][k].to_f64()];
        let (position, velocity) = (at(&batch.end_position), at(&batch.end_velocity));
        let spray = &self.spray;
        let wet = spray.evaporation.volume_at(batch.end_exposure[k].to_f64());
        let start_diameter = batch.diameter[k].to_f64();
        let diameter = start_diameter * math::cbrt(wet);
        let density = (spray.density - spray.volatile_density * (1.0 - wet)) / wet;
        let (place, normal_speed) = self.place(position, velocity);
        let mut fate = match batch.end[k] {
            END_HIT => Fate::Landed,
            END_PASSED => Fate::Missed,
            END_DRIFTED => Fate::Drifted,
            _ => Fate::Lost,
        };
        if !(position.iter().chain(&velocity).all(|v| v.is_finite()) && diameter.is_finite()) {
            fate = Fate::Lost;
        }
        if fate == Fate::Landed {
            let impact = Impact {
                density,
                diameter,
                normal_speed,
                viscosity: spray.viscosity,
                surface_tension: spray.surface_tension,
            };
            if spray.volume_solids / wet > DRY_SOLIDS {
                fate = Fate::Dried;
            } else if impact.splashes() {
                let mut draw = Stream::new(self.seed, droplet, self.purposes[2]);
                if impact.bounces(draw.open01(), draw.open01()) {
                    fate = Fate::Bounced;
                }
            }
        }
        let time = batch.end_time[k].to_f64();
        Outcome { droplet, fate, position, place, start_diameter, diameter, density, wet, normal_speed, time }
    }

    fn place(&self, p: [f64; 3], v: [f64; 3]) -> ([f64; 2], f64) {
        match &self.scene {
            Scene::Panel(..) => ([p[0], p[1]], v[2]),
            Scene::Tube(_, tube) => {
                let (dy, dz) = (p[1] - tube.axis_y, p[2] - tube.axis_z);
                let distance = (dy * dy + dz * dz).sqrt().max(1e-9);
                let inward = -(v[1] * dy + v[2] * dz) / distance;
                ([p[0], math::atan2(dy, -dz)], inward)
            }
        }
    }
}
