//! The air line from the tank to the gun: regulator, couplings, hose.
//!
//! Marched by pressure at one mass flow. Regulator: the tank's air through its own passage (ISO 6358), and at most what it
//! is set to, less a droop in proportion to the flow. Half of the couplings (the odd one too) stand before the hose, the
//! rest behind it. What the gun draws at a pressure comes as a function, so that this model knows no gun.

use super::hose::Hose;
use super::passage::{DM3_PER_S_BAR, Passage};
use crate::air::{ROOM_PRESSURE, free_density};
use crate::error::{ParameterError, within};
use crate::root;

/// Way through a filter-regulator of a quarter-inch thread. Common practice, no source: 1500-2000 L/min at 6 bar.
pub const REGULATOR: Passage = Passage { conductance: 5.0 * DM3_PER_S_BAR, critical: 0.3 };
/// Droop of that regulator [Pa per m3/s of free air]: 0.3 bar at 425 L/min. Ours: under half of the most that a shop
/// manual allows (10 psi at 15 cfm: seen).
pub const REGULATOR_DROOP: f64 = 0.3e5 / (425.0 / 60_000.0);

/// Kind of quick coupling, plug and socket together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Coupling {
    /// Usual small profile.
    Standard,
    /// Full bore.
    FullBore,
}

impl Coupling {
    /// Standard: C 4.5 dm3/(s bar); a trade article's 8 psi lost at 25 cfm from 75 and from 36 psi (seen) ask for 4.0 and
    /// 5.4. Full bore: C 8.0; common practice, no source: 1300 to 1900 L/min at 6 bar with 0.5 bar lost (C 7 to 10).
    #[must_use]
    pub fn passage(self) -> Passage {
        let c = match self {
            Self::Standard => 4.5,
            Self::FullBore => 8.0,
        };
        Passage { conductance: c * DM3_PER_S_BAR, critical: 0.3 }
    }
}

/// Regulator, couplings and hose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// What the wall regulator is set to, as its gauge shows at rest [Pa gauge]; none: set as the job needs it.
    pub regulator: Option<f64>,
    /// Hose.
    pub hose: Hose,
    /// Quick couplings, plug and socket counted as one.
    pub couplings: u32,
    /// Their kind.
    pub coupling: Coupling,
    /// Temperature of the air in it [K].
    pub temperature: f64,
}

/// Pressures along the line at one flow [Pa absolute, kg/s].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pressures {
    /// Behind the regulator: the wall gauge.
    pub wall: f64,
    /// At the hose's near end.
    pub hose_in: f64,
    /// At the hose's far end.
    pub hose_out: f64,
    /// At the gun's inlet.
    pub gun: f64,
    /// Air.
    pub mass_flow: f64,
}

impl Pressures {
    /// Lost in the hose [Pa].
    #[must_use]
    pub fn hose_drop(&self) -> f64 {
        self.hose_in - self.hose_out
    }

    /// Lost in all couplings [Pa].
    #[must_use]
    pub fn coupling_drop(&self) -> f64 {
        (self.wall - self.hose_in) + (self.hose_out - self.gun)
    }

    /// Droop of the regulator at this flow [Pa].
    #[must_use]
    pub fn droop(&self) -> f64 {
        REGULATOR_DROOP * self.mass_flow / free_density()
    }

    /// What the wall gauge shows at rest [Pa absolute].
    #[must_use]
    pub fn wall_at_rest(&self) -> f64 {
        self.wall + self.droop()
    }
}

/// Air a gun draws [m3/s free air] at a pressure at its inlet [Pa gauge]; rises with pressure.
pub type Demand<'a> = &'a dyn Fn(f64) -> f64;

impl Line {
    /// Checks every figure.
    ///
    /// # Errors
    /// The first figure out of range, by its key.
    pub fn check(&self) -> Result<(), ParameterError> {
        self.hose.check()?;
        if let Some(set) = self.regulator {
            within("supply.regulator", set * 1e-5, 0.2, 16.0, "bar")?;
        }
        within("supply.couplings", f64::from(self.couplings), 0.0, 20.0, "")?;
        within("booth.temperature", self.temperature - 273.15, -10.0, 60.0, "C")?;
        Ok(())
    }

    fn before_hose(&self) -> u32 {
        self.couplings.div_ceil(2)
    }

    /// Pressures for what the gun must have [Pa gauge] at a flow [m3/s free air], whatever the tank holds.
    #[must_use]
    pub fn needed(&self, gun: f64, free_air: f64) -> Pressures {
        let (mass_flow, t) = (free_air * free_density(), self.temperature);
        let passage = self.coupling.passage();
        let through = |p: f64, count: u32| (0..count).fold(p, |p, _| passage.inlet(p, mass_flow, t));
        let gun = ROOM_PRESSURE + gun;
        let hose_out = through(gun, self.couplings - self.before_hose());
        let hose_in = self.hose.inlet(hose_out, mass_flow, t);
        Pressures { wall: through(hose_in, self.before_hose()), hose_in, hose_out, gun, mass_flow }
    }

    /// Pressures behind a wall gauge [Pa absolute] at a mass flow [kg/s]; none when hose or couplings choke.
    #[must_use]
    pub fn down(&self, wall: f64, mass_flow: f64) -> Option<Pressures> {
        let t = self.temperature;
        let passage = self.coupling.passage();
        let through = |p: f64, count: u32| (0..count).try_fold(p, |p, _| passage.outlet(p, mass_flow, t));
        let hose_in = through(wall, self.before_hose())?;
        let hose_out = self.hose.outlet(hose_in, mass_flow, t)?;
        let gun = through(hose_out, self.couplings - self.before_hose())?;
        Some(Pressures { wall, hose_in, hose_out, gun, mass_flow })
    }

    /// Wall gauge [Pa absolute] at a mass flow [kg/s] with the tank at a pressure [Pa absolute] and the regulator set to
    /// `set` [Pa gauge]; none when the regulator's way is too narrow.
    #[must_use]
    pub fn wall(&self, tank: f64, set: f64, mass_flow: f64) -> Option<f64> {
        let open = REGULATOR.outlet(tank, mass_flow, self.temperature)?;
        let held = ROOM_PRESSURE + set - REGULATOR_DROOP * mass_flow / free_density();
        Some(open.min(held)).filter(|wall| *wall > ROOM_PRESSURE)
    }

    /// Tank pressure [Pa gauge] below which a wall gauge no longer holds.
    #[must_use]
    pub fn tank_for(&self, at: &Pressures) -> f64 {
        REGULATOR.inlet(at.wall, at.mass_flow, self.temperature) - ROOM_PRESSURE
    }

    /// Pressure at the gun's inlet [Pa gauge], trigger open, with the tank at a pressure [Pa gauge] and the regulator at
    /// `set` [Pa gauge]. Where the line chokes it is the pressure at which the gun draws just the choked flow.
    #[must_use]
    pub fn at_gun(&self, tank: f64, set: f64, demand: Demand<'_>) -> f64 {
        let tank = ROOM_PRESSURE + tank.max(0.0);
        let top = tank.min(ROOM_PRESSURE + set.max(0.0));
        if top <= ROOM_PRESSURE {
            return 0.0;
        }
        let gun = root::falling(ROOM_PRESSURE, top, |gun| {
            let mass_flow = demand(gun - ROOM_PRESSURE) * free_density();
            self.wall(tank, set, mass_flow)
                .and_then(|wall| self.down(wall, mass_flow))
                // Too much for the line: as far off as nothing at all behind it.
                .map_or(-gun, |p| p.gun - gun)
        });
        gun - ROOM_PRESSURE
    }
}
