//! Scenes of a real gun: the rated kit with full fan, 190 mm from a panel or from a 22 mm tube.

use fearless_simd::Level;
use mistcoat::airflow::{FanJet, JetSpec, PanelFlow, SPREAD, TubeFlow};
use mistcoat::catalogue;
use mistcoat::emission::Emission;
use mistcoat::error::ParameterError;
use mistcoat::flight::{Batch, FlightSettings, Scene, Start};
use mistcoat::job::Booth;
use mistcoat::part::{CARD_HALF, PanelPart, TubePart};
use mistcoat::set_up;
use mistcoat::stream::Purpose;

/// Tip to part [m].
const DISTANCE: f64 = 0.19;
/// Radius of the tube [m].
const RADIUS: f64 = 0.011;
/// Air of the booth, density [kg/m3] and viscosity [Pa s].
const AIR: (f64, f64) = (1.2, 1.81e-5);

/// Which part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Target {
    /// A large card.
    Panel,
    /// A tube of 22 mm, the fan across it.
    Tube,
}

/// A scene with its emission.
#[derive(Debug, Clone)]
pub struct Booked {
    /// Air and part.
    pub scene: Scene<f64>,
    /// Settings of the flight.
    pub set: FlightSettings<f64>,
    emission: Emission,
}

/// The scene of a gun as rated, full fan.
///
/// # Errors
/// None while the catalogue is sound.
pub fn rated(target: Target) -> Result<Booked, ParameterError> {
    with_turbulence(target, 1.0)
}

/// The same with its turbulence multiplied [-].
///
/// # Errors
/// None while the catalogue is sound and the factor is 0..=2.
pub fn with_turbulence(target: Target, turbulence: f64) -> Result<Booked, ParameterError> {
    let (kit, paint) = (catalogue::kit("hvlp-gravity-1.3")?, catalogue::paint("two-pack-clear")?);
    let booth = Booth::at(293.15, 0.5);
    let spray = set_up::spray(&kit, &kit.rated(), &paint, &booth)?;
    let jet = FanJet::new(&JetSpec {
        momentum: spray.axial_momentum / AIR.0,
        exit_speed: spray.exit_speed,
        slope_x: 0.0,
        slope_y: spray.fan_slope,
        spread: SPREAD,
        turbulence,
    })?;
    let scene = match target {
        Target::Panel => {
            let flow = PanelFlow::new(jet, DISTANCE)?;
            let part = PanelPart { distance: DISTANCE, half: CARD_HALF, layer: 1.0 / flow.inverse_layer };
            Scene::Panel(flow, part)
        }
        Target::Tube => {
            let flow = TubeFlow::new(jet, DISTANCE, RADIUS, 0.0)?;
            let part = TubePart {
                radius: RADIUS,
                axis_y: flow.axis_y,
                axis_z: flow.axis_z,
                behind: 3.0 * RADIUS,
                half: CARD_HALF,
            };
            Scene::Tube(flow, part)
        }
    };
    Ok(Booked {
        scene,
        set: FlightSettings::plain(AIR.0, AIR.1, spray.density),
        emission: Emission::new(&spray, &jet, false),
    })
}

impl Booked {
    /// The start of a droplet.
    #[must_use]
    pub fn start(&self, droplet: u64) -> Start {
        self.emission.start(1, droplet, Purpose::CardEmission, Purpose::CardFlight)
    }

    /// Fills a batch with droplets `0..count`.
    pub fn fill(&self, count: u64, batch: &mut Batch<f32>) {
        self.emission.fill(Level::new(), 1, 0..count, [Purpose::CardEmission, Purpose::CardFlight], batch);
    }
}
