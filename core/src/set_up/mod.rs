//! From a kit, the knobs, a paint and the booth's air to the spray that leaves the gun.
//!
//! Here gun and atomizer meet. Equation of the whole: `docs/methods/drop-size.md`, `pattern.md`.

mod air_fixes;
mod air_supply;
mod flow_range;
mod from_box;
mod size_range;
mod window;

pub use air_fixes::{Change, Fix, Short, air_fixes};
pub use air_supply::{
    AIR_SPREAD, air_answer, air_answer_of, air_range, gun_air, one_minute, supplied, trigger_times,
};
pub use flow_range::{KINETIC_LOSS_ENDS, NEEDLE_GAP_ENDS, TIP_SUCTION_ENDS};
pub use from_box::{BoxFigures, BoxKit, Neighbour, from_box};
pub use size_range::SizeVariant;

use crate::air::{self, free_density};
use crate::atomizer::{self, Breakup, Correlation, Push};
use crate::catalogue;
use crate::constants::Constants;
use crate::emission::EDGE;
use crate::error::ParameterError;
use crate::evaporation::{Drying, DryingAir, EvaporationCurve, Volatile};
use crate::gun::{GunAir, GunSetting, Kit, State, Warning};
use crate::job::Booth;
use crate::paint::Paint;
use crate::spray::{SizeDistribution, Slugs, Spray};

/// Kit and paint, at the kit's rated setting, whose droplets have the reference Sauter mean diameter.
pub const REFERENCE_KIT: &str = "hvlp-gravity-1.3";
/// See `REFERENCE_KIT`.
pub const REFERENCE_PAINT: &str = "two-pack-clear";

/// Share of the cap pressure at its rated inlet pressure below which a coarse spray is put down to the pressure.
const WEAK: f64 = 0.7;
/// Share of it below which the pressure is too low to atomise whatever the correlations say. Ours.
const STARVED: f64 = 0.15;

/// Which constants and which correlation.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Model {
    /// Constants of gun and atomizer.
    pub constants: Constants,
    /// Drop-size correlation.
    pub correlation: Correlation,
}

impl Model {
    /// The constants of this gun: the model's, with what a card has told.
    #[must_use]
    pub fn own(&self, kit: &Kit) -> Constants {
        kit.matched.applied(&self.constants)
    }

    /// The gun as set, with its paint.
    ///
    /// # Errors
    /// The first value out of range, by its key.
    pub fn state(
        &self,
        kit: &Kit,
        setting: &GunSetting,
        paint: &Paint,
        booth: &Booth,
    ) -> Result<State, ParameterError> {
        let mut state = State::new(kit, setting, paint, booth.temperature, &self.own(kit))?;
        let sauter = self.sauter(kit, setting, &state, paint)?;
        let cap = state.air.cap_pressure;
        let rated = GunAir::through(kit, kit.rated_pressure, setting.fan, 1.0, booth.temperature);
        // Correlations reach down to less air than breaks paint up in practice.
        let starved = cap > 0.0 && cap < STARVED * rated.cap_pressure;
        if state.paint_flow > 0.0 && (starved || sauter > self.constants.coarse) {
            let weak = cap < WEAK * rated.cap_pressure;
            state.warnings.push(if weak { Warning::WeakAir(cap, sauter) } else { Warning::Coarse(sauter) });
        }
        Ok(state)
    }

    /// The spray that leaves the gun. With the needle shut its paint flow is 0, all else stays finite.
    ///
    /// # Errors
    /// The first value out of range, by its key.
    pub fn spray(
        &self,
        kit: &Kit,
        setting: &GunSetting,
        paint: &Paint,
        booth: &Booth,
    ) -> Result<Spray, ParameterError> {
        let c = &self.own(kit);
        let state = self.state(kit, setting, paint, booth)?;
        let (annulus, horns) = (&state.air.annulus, &state.air.horns);
        let unanswered = setting.faults.unanswered();
        let slope = atomizer::fan_slope(annulus, horns, kit.horn_angle, 1.0 - unanswered.abs(), c);
        let rated = self.rated_spreading_power(kit)?;
        // A cap without horn air sprays a round spot however it is set.
        let sauter = self.sauter(kit, setting, &state, paint)?;
        let power = |sauter| self.spreading_power(kit, setting, &state, sauter);
        let ratio = |sauter| if rated > 0.0 { power(sauter) / rated } else { 1.0 };
        let (along, spread) = (atomizer::along(ratio(sauter), c), atomizer::ray_spread(slope, c));
        let push = Push {
            edge: EDGE * slope,
            spread,
            along,
            horn_angle: kit.horn_angle,
            unanswered,
            ring: setting.faults.ring_push(),
            off_middle: setting.faults.off_middle(),
            cap_turn: setting.cap_turn,
        };
        // A plug takes up the horns' push as little as its coarse drops do.
        let slugs = atomizer::slugs(state.air_in_paint, setting.faults.leave(kit).tip_bore, along)
            .map(|s| Slugs { along: atomizer::along(ratio(s.sizes.sauter_uncut()), c), ..s });
        let air = DryingAir { temperature: booth.temperature, humidity: booth.humidity };
        let (volatile_density, schmidt) = volatiles(paint, booth.temperature)?;
        let evaporation = Drying::new(paint, air)?.curve();
        solids_weigh(paint, volatile_density, &evaporation)?;
        Ok(Spray {
            axial_momentum: state.axial_momentum,
            exit_speed: state.air.annulus.speed,
            fan_slope: slope,
            ray_spread: spread,
            along,
            askew: atomizer::askew(&push, annulus, horns),
            slugs,
            sizes: self.sizes(kit, setting, &state, paint)?,
            volume_flow: state.paint_flow,
            density: paint.density,
            viscosity: paint.viscosity,
            surface_tension: paint.surface_tension,
            volume_solids: paint.volume_solids,
            volatile_density,
            schmidt,
            evaporation,
        })
    }

    /// Sauter mean diameter before the cut [m].
    ///
    /// # Errors
    /// None but those of the reference set-up with these constants.
    pub fn sauter(
        &self,
        kit: &Kit,
        setting: &GunSetting,
        state: &State,
        paint: &Paint,
    ) -> Result<f64, ParameterError> {
        Ok(self.sauter_from(self.sauter_at_reference()?, kit, setting, state, paint))
    }

    /// What the correlation alone gives at the reference set-up [m]: the catalogue's gun, whatever a card has told of another.
    ///
    /// # Errors
    /// As `Model::sauter`.
    pub fn sauter_at_reference(&self) -> Result<f64, ParameterError> {
        let (reference, clear) = (catalogue::kit(REFERENCE_KIT)?, catalogue::paint(REFERENCE_PAINT)?);
        let rated = State::new(&reference, &reference.rated(), &clear, clear.temperature, &self.constants)?;
        Ok(self.correlation.sauter(&breakup(&reference, &rated, &clear)))
    }

    /// `Model::sauter` where `Model::sauter_at_reference` is at hand already.
    #[must_use]
    pub fn sauter_from(
        &self,
        at_reference: f64,
        kit: &Kit,
        setting: &GunSetting,
        state: &State,
        paint: &Paint,
    ) -> f64 {
        let c = &self.own(kit);
        let scale = c.sauter_reference / at_reference;
        let sauter = scale * self.correlation.sauter(&breakup(&setting.faults.leave(kit), state, paint));
        sauter.clamp(2.5 * c.smallest_droplet, c.sauter_limit)
    }

    fn sizes(
        &self,
        kit: &Kit,
        setting: &GunSetting,
        state: &State,
        paint: &Paint,
    ) -> Result<SizeDistribution, ParameterError> {
        let c = &self.constants;
        SizeDistribution::from_sauter(
            self.sauter(kit, setting, state, paint)?,
            c.sigma_g,
            c.smallest_droplet,
            c.largest_droplet,
        )
    }

    fn spreading_power(&self, kit: &Kit, setting: &GunSetting, state: &State, sauter: f64) -> f64 {
        let (air, paint_flow) = (&state.air, state.paint_mass_flow);
        let answered = 1.0 - setting.faults.unanswered().abs();
        atomizer::spreading_power(&air.annulus, &air.horns, kit.horn_angle, answered, paint_flow, sauter)
    }

    /// Spreading power at the kit's own design point, with the paint it is made for [1/s].
    fn rated_spreading_power(&self, kit: &Kit) -> Result<f64, ParameterError> {
        let (rated, paint) = self.rated(kit)?;
        let sauter = self.sauter(kit, &kit.rated(), &rated, &paint)?;
        Ok(self.spreading_power(kit, &kit.rated(), &rated, sauter))
    }

    /// Sauter mean diameter there [m].
    fn rated_sauter(&self, kit: &Kit) -> Result<f64, ParameterError> {
        let (rated, paint) = self.rated(kit)?;
        self.sauter(kit, &kit.rated(), &rated, &paint)
    }

    /// The kit's own design point with the paint it is made for.
    fn rated(&self, kit: &Kit) -> Result<(State, Paint), ParameterError> {
        let paint = catalogue::paint(&kit.rated_paint)?;
        let rated = State::new(kit, &kit.rated(), &paint, paint.temperature, &self.own(kit))?;
        Ok((rated, paint))
    }
}

/// Density [kg/m3] and Schmidt number of a paint's volatiles, weighted by volume; water's where it has none.
fn volatiles(paint: &Paint, temperature: f64) -> Result<(f64, f64), ParameterError> {
    let air = air::viscosity(temperature) / air::density(air::ROOM_PRESSURE, temperature);
    let (mut share, mut density, mut diffusivity) = (0.0, 0.0, 0.0);
    for solvent in &paint.solvents {
        let volatile = Volatile::named(&solvent.name)?;
        share += solvent.volume_share;
        density += solvent.volume_share * volatile.density;
        diffusivity += solvent.volume_share * volatile.diffusivity(temperature);
    }
    if share <= 0.0 {
        let water = Volatile::named("water")?;
        (share, density, diffusivity) = (1.0, water.density, water.diffusivity(temperature));
    }
    Ok((density / share, air * share / diffusivity))
}

/// Least density of what stays of a paint [kg/m3]; ours: well below a binder's, so that light fillers have their room.
const LIGHTEST_SOLIDS: f64 = 400.0;

/// A droplet that dries must weigh more than nothing to the end: when its solvents have gone, and at the smallest that the flight's form of
/// drying lets it become, which for fine droplets in warm air is less than its solids.
fn solids_weigh(
    paint: &Paint,
    volatile_density: f64,
    drying: &EvaporationCurve,
) -> Result<(), ParameterError> {
    let left = 1.0 - drying.shrinking().0;
    let smallest = paint.volume_solids.min(left * left * left);
    let solvents = volatile_density * (1.0 - smallest);
    let least = solvents + LIGHTEST_SOLIDS * smallest;
    if paint.density >= least {
        return Ok(());
    }
    let allowed = format!(
        "at least {least:.0} kg/m3 at {:.1} % volume solids in this air: what dries away alone weighs {solvents:.0} kg/m3 of it",
        100.0 * paint.volume_solids,
    );
    Err(ParameterError::new("paint.density", format!("{:.0} kg/m3", paint.density), allowed))
}

fn breakup(kit: &Kit, state: &State, paint: &Paint) -> Breakup {
    let annulus = state.annulus();
    let bore_area = 0.25 * std::f64::consts::PI * kit.tip_bore * kit.tip_bore;
    Breakup {
        surface_tension: paint.surface_tension,
        relative_speed: (annulus.speed - state.paint_flow / bore_area).max(0.0),
        bore: kit.tip_bore,
        viscosity: paint.viscosity_high_shear,
        liquid_density: paint.density,
        liquid_flow: state.paint_mass_flow,
        air_flow: annulus.mass_flow,
        air_density: annulus.density,
        free_density: free_density(),
        air_area: kit.annulus_area,
    }
}

/// The gun as set, with the standard model.
///
/// # Errors
/// The first value out of range, by its key.
pub fn state(kit: &Kit, setting: &GunSetting, paint: &Paint, booth: &Booth) -> Result<State, ParameterError> {
    Model::default().state(kit, setting, paint, booth)
}

/// The spray that leaves the gun, with the standard model.
///
/// # Errors
/// The first value out of range, by its key.
pub fn spray(kit: &Kit, setting: &GunSetting, paint: &Paint, booth: &Booth) -> Result<Spray, ParameterError> {
    Model::default().spray(kit, setting, paint, booth)
}

#[cfg(test)]
mod kit_tests;
#[cfg(test)]
mod tests;
