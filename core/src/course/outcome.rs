//! How a droplet ended, with its fate.

use super::Course;
use crate::flight::{Batch, END_DRIFTED, END_HIT, END_PASSED, Scene};
use crate::lanes::Real;
use crate::math;
use crate::part::CurvedPart;
use crate::stream::Stream;
use crate::tally::{Fate, GROUPS};
use crate::wall::Impact;
use glam::{DVec2, DVec3};

/// Solids by volume from which a landing droplet counts as dry [-]. Ours: it no longer wets out.
pub const DRY_SOLIDS: f64 = 0.9;

/// The end of one droplet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// Its number.
    pub droplet: u64,
    /// Pass of a coat that it was sprayed in; told of a frame alone, 0 elsewhere.
    pub pass: usize,
    /// Member of a frame that it ended at, or that was aimed at; 0 elsewhere.
    pub member: usize,
    /// Its fate.
    pub fate: Fate,
    /// Position at the end, gun frame [m].
    pub position: DVec3,
    /// Place on the face: x [m], and y [m] or the angle round the tube from its front [rad]. Of a face aslant to the gun:
    /// where the ray would meet it square on.
    pub place: DVec2,
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
        self.outcome_before(&self.scene, batch, k, droplet)
    }

    /// The same before another scene than its own.
    pub(super) fn outcome_before<T: Real>(
        &self,
        scene: &Scene<f64>,
        batch: &Batch<T>,
        k: usize,
        droplet: u64,
    ) -> Outcome {
        let at = |v: &[Vec<T>; 3]| DVec3::new(v[0][k].to_f64(), v[1][k].to_f64(), v[2][k].to_f64());
        let (position, velocity) = (at(&batch.end_position), at(&batch.end_velocity));
        let spray = &self.spray;
        let wet = spray.evaporation.volume_at(batch.end_exposure[k].to_f64());
        let start_diameter = batch.diameter[k].to_f64();
        let diameter = start_diameter * math::cbrt(wet);
        let density = (spray.density - spray.volatile_density * (1.0 - wet)) / wet;
        let position = self.held.place(scene, position);
        let (place, normal_speed) = place(scene, position, velocity);
        let mut fate = match batch.end[k] {
            END_HIT => Fate::Landed,
            END_PASSED => Fate::Missed,
            END_DRIFTED => Fate::Drifted,
            _ => Fate::Lost,
        };
        if !(position.is_finite() && velocity.is_finite() && diameter.is_finite()) {
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
        Outcome {
            droplet,
            pass: 0,
            member: 0,
            fate,
            position,
            place,
            start_diameter,
            diameter,
            density,
            wet,
            normal_speed,
            time,
        }
    }
}

/// Place on the face and speed towards it.
fn place(scene: &Scene<f64>, position: DVec3, velocity: DVec3) -> (DVec2, f64) {
    match scene {
        Scene::Panel(..) => (position.truncate(), velocity.z),
        Scene::Tilted(_, face) => {
            let inward = DVec3::from_array(face.normal).dot(velocity);
            (position.truncate() * (face.distance / position.z.max(1e-6)), inward)
        }
        Scene::Tube(_, tube) | Scene::Curved(_, CurvedPart { tube, .. }) => {
            let out = DVec2::new(position.y - tube.axis_y, position.z - tube.axis_z);
            let inward = -out.dot(DVec2::new(velocity.y, velocity.z)) / out.length().max(1e-9);
            (DVec2::new(position.x, math::atan2(out.x, -out.y)), inward)
        }
        Scene::Among(flow, part) => {
            let out = DVec3::from_array(part.nearest(position.to_array()).1);
            let inward = -out.dot(velocity) / out.length().max(1e-9);
            let aimed = DVec2::new(position.y - flow.aimed.axis_y, position.z - flow.aimed.axis_z);
            (DVec2::new(position.x, math::atan2(aimed.x, -aimed.y)), inward)
        }
    }
}
