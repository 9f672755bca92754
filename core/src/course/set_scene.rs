//! Air, part and flight settings from what leaves the gun.

use crate::air;
use crate::airflow::{CurvedFlow, FanJet, JetSpec, PanelFlow, SPREAD, TiltedFlow, TubeFlow};
use crate::error::ParameterError;
use crate::flight::{ALOFT, FlightSettings, GRAVITY, STEP, Scene};
use crate::job::{Booth, PartShape};
use crate::part::{CARD_HALF, CurvedPart, PanelPart, TiltedPart, TubePart};
use crate::spray::Spray;

/// Droplet speed over the axis speed half way to the part, for the droplets' share of the momentum [-]. Ours: near the
/// tip they hold 13-20 %, at the part 3 %.
const CARRIED: f64 = 0.8;
/// A droplet this many half-widths of the jet behind a tube has passed it.
const BEHIND: f64 = 3.0;
const HALF_WIDTH: f64 = 0.832_554_611;

/// The gun's free jet, `distance` [m] from the part; `fan_along_x` where its long way is x.
///
/// # Errors
/// A spray without air.
pub fn jet_of(
    spray: &Spray,
    booth: &Booth,
    distance: f64,
    fan_along_x: bool,
) -> Result<FanJet<f64>, ParameterError> {
    let density = air::density(air::ROOM_PRESSURE, booth.temperature);
    let (slope_x, slope_y) = if fan_along_x { (spray.fan_slope, 0.0) } else { (0.0, spray.fan_slope) };
    let mut spec = JetSpec {
        momentum: spray.axial_momentum / density,
        exit_speed: spray.exit_speed,
        slope_x,
        slope_y,
        spread: SPREAD,
        turbulence: 1.0,
    };
    if spec.momentum <= 1e-6 {
        return Err(ParameterError::new(
            "gun.trigger",
            "no air",
            "a trigger pulled far enough to let air through",
        ));
    }
    let free = FanJet::new(&spec)?;
    let carried = spray.volume_flow * spray.density * CARRIED * free.section(0.5 * distance).centre;
    spec.momentum = (spray.axial_momentum - carried).max(0.2 * spray.axial_momentum) / density;
    FanJet::new(&spec)
}

/// The gun square on to a flat face; droplets past the large card's edge have missed.
///
/// # Errors
/// Distance out of range.
pub fn panel_scene(jet: FanJet<f64>, distance: f64) -> Result<Scene<f64>, ParameterError> {
    let flow = PanelFlow::new(jet, distance)?;
    Ok(Scene::Panel(flow, PanelPart { distance, half: CARD_HALF, layer: 1.0 / flow.inverse_layer }))
}

/// The gun aslant to a flat face, `distance` [m] square from its tip; `normal` into the face, in the gun's frame.
///
/// # Errors
/// Distance or tilt out of range.
pub fn tilted_scene(jet: FanJet<f64>, distance: f64, normal: [f64; 3]) -> Result<Scene<f64>, ParameterError> {
    let flow = TiltedFlow::new(jet, distance, normal)?;
    let layer = 1.0 / flow.inverse_layer;
    Ok(Scene::Tilted(flow, TiltedPart { normal, distance, half: CARD_HALF, layer }))
}

/// The gun square on to a tube along x of `diameter` [m], its axis `off` [m] to the side of the gun's.
///
/// # Errors
/// Distance or diameter out of range.
pub fn tube_scene(
    jet: FanJet<f64>,
    distance: f64,
    diameter: f64,
    off: f64,
) -> Result<Scene<f64>, ParameterError> {
    let radius = 0.5 * diameter;
    let flow = TubeFlow::new(jet, distance, radius, off)?;
    let section = jet.section(flow.axis_z);
    let behind = radius + BEHIND * HALF_WIDTH * section.bx.min(section.by);
    let part = TubePart { radius, axis_y: flow.axis_y, axis_z: flow.axis_z, behind, half: CARD_HALF };
    Ok(Scene::Tube(flow, part))
}

/// The gun square on to a tube or a curved face along x of `radius` [m], its axis `off` [m] to the side of the gun's.
///
/// # Errors
/// Distance or radius out of range.
pub fn round_scene(
    jet: FanJet<f64>,
    distance: f64,
    radius: f64,
    off: f64,
    part: &PartShape,
) -> Result<Scene<f64>, ParameterError> {
    let scene = tube_scene(jet, distance, 2.0 * radius, off)?;
    match (scene, part) {
        (Scene::Tube(_, tube), PartShape::Curved { .. }) => {
            let flow = CurvedFlow::new(jet, distance, radius, off)?;
            let layer = 1.0 / flow.inverse_layer;
            Ok(Scene::Curved(flow, CurvedPart { tube, layer }))
        }
        _ => Ok(scene),
    }
}

/// Flight settings of a spray in the booth's air; `down` the direction of gravity in the gun's frame [-].
#[must_use]
pub fn settings(spray: &Spray, booth: &Booth, down: [f64; 3]) -> FlightSettings<f64> {
    let viscosity = air::viscosity(booth.temperature);
    let density = air::density(air::ROOM_PRESSURE, booth.temperature);
    let (shrink, half_exposure) = spray.evaporation.shrinking();
    FlightSettings {
        step: STEP,
        relaxation: spray.density / (18.0 * viscosity),
        inverse_viscosity: density / viscosity,
        gravity: down.map(|g| g * GRAVITY),
        ventilation: 0.3 * crate::math::cbrt(spray.schmidt),
        shrink,
        half_exposure,
        volatile_density: spray.volatile_density / spray.density,
        aloft: ALOFT,
    }
}
