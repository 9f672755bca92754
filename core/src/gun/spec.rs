//! A kit (gun and nozzle set) as geometry, and the knobs as set.

use super::class::{Class, Feed};
use super::faults::Faults;
use super::matched::Matched;
use crate::error::{ParameterError, within};

/// A gun with its nozzle set. Areas are effective (discharge coefficient times area).
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    /// Catalogue id, "class-feed-tip".
    pub id: String,
    /// Plain name for the screen.
    pub name: String,
    /// Class.
    pub class: Class,
    /// Feed.
    pub feed: Feed,
    /// Fluid tip bore [m], 0.2e-3..=3e-3.
    pub tip_bore: f64,
    /// Length of the bore's straight land [m].
    pub tip_land: f64,
    /// Needle cone's half angle [rad].
    pub needle_half_angle: f64,
    /// Needle travel at full opening [m].
    pub needle_travel: f64,
    /// Gun body between gauge and plenum, air knob open: effective area [m2].
    pub inlet_area: f64,
    /// Annulus round the tip: effective area [m2].
    pub annulus_area: f64,
    /// Fan valve fully open: effective area [m2].
    pub fan_valve_area: f64,
    /// All horn holes together: effective area [m2].
    pub horn_area: f64,
    /// Angle of the horn jets to the gun's axis [rad].
    pub horn_angle: f64,
    /// Height of the paint's surface over the tip, cup half full [m]; negative for suction.
    pub cup_head: f64,
    /// How much that height falls from full to empty [m]; 0 for a pot, whose level the hose does not feel.
    pub cup_depth: f64,
    /// Cup volume [m3]; the pot's for pressure feed.
    pub cup_volume: f64,
    /// Paint that stays in the gun and cup after the last drop is sprayed [m3].
    pub residue: f64,
    /// Inlet pressure it is rated at, trigger open [Pa gauge].
    pub rated_pressure: f64,
    /// Fluid knob it is rated at, 0..=1.
    pub rated_fluid: f64,
    /// Pot pressure it is rated at [Pa gauge]; 0 without a pot.
    pub rated_pot_pressure: f64,
    /// Bore of the suction cup's tube, or of the paint hose from the pot [m].
    pub paint_tube_bore: f64,
    /// Its length [m]; 0 for gravity feed, which has none.
    pub paint_tube_length: f64,
    /// Catalogue id of the paint it is made for: its design point is balanced with that.
    pub rated_paint: String,
    /// Highest inlet pressure [Pa gauge].
    pub highest_pressure: f64,
    /// Fan knob: turns from shut to open.
    pub fan_turns: f64,
    /// Fluid knob: turns from shut to open.
    pub fluid_turns: f64,
    /// Air knob: turns from shut to open; 0 for a gun without one.
    pub air_turns: f64,
    /// What a card has told of this very gun; all 1 in the catalogue.
    pub matched: Matched,
}

/// The knobs and the air as set.
#[derive(Debug, Clone, PartialEq)]
pub struct GunSetting {
    /// Pressure at the gun's inlet, trigger open [Pa gauge].
    pub inlet_pressure: f64,
    /// Fan knob, 0 shut..=1 open.
    pub fan: f64,
    /// Fluid knob (the trigger's stop), 0 shut..=1 open.
    pub fluid: f64,
    /// Trigger pull, 0..=1.
    pub trigger: f64,
    /// Air knob at the foot of the handle, behind the gauge, 0 shut..=1 open.
    pub air_knob: f64,
    /// How full the cup is, 0..=1.
    pub cup_level: f64,
    /// Pressure in the pot [Pa gauge]; not used without pressure feed.
    pub pot_pressure: f64,
    /// What is wrong with the gun.
    pub faults: Faults,
    /// Cap turned from horns left and right, clockwise as the painter sees it from behind the gun [rad], 0..=2 pi.
    pub cap_turn: f64,
    /// Trigger held so far [s]: felt by a cup whose vent is blocked alone.
    pub held: f64,
}

impl Kit {
    /// Checks every figure.
    ///
    /// # Errors
    /// The first figure out of range, by its key.
    pub fn check(&self) -> Result<(), ParameterError> {
        let mm2 = |key, area: f64, low, high| within(key, area * 1e6, low, high, "mm2");
        let mm = |key, length: f64, low, high| within(key, length * 1e3, low, high, "mm");
        let degrees = |key, angle: f64, low, high| within(key, angle.to_degrees(), low, high, "deg");
        mm("gun.tip_bore", self.tip_bore, 0.2, 3.0)?;
        mm("gun.tip_land", self.tip_land, 0.1, 10.0)?;
        degrees("gun.needle_half_angle", self.needle_half_angle, 2.0, 45.0)?;
        mm("gun.needle_travel", self.needle_travel, 0.1, 15.0)?;
        mm2("gun.inlet_area", self.inlet_area, 0.1, 200.0)?;
        mm2("gun.annulus_area", self.annulus_area, 0.05, 100.0)?;
        mm2("gun.fan_valve_area", self.fan_valve_area, 0.0, 100.0)?;
        mm2("gun.horn_area", self.horn_area, 0.01, 100.0)?;
        degrees("gun.horn_angle", self.horn_angle, 20.0, 90.0)?;
        mm("gun.cup_head", self.cup_head, -500.0, 500.0)?;
        mm("gun.cup_depth", self.cup_depth, 0.0, 500.0)?;
        within("gun.cup_volume", self.cup_volume * 1e6, 0.5, 100_000.0, "mL")?;
        within("gun.residue", self.residue * 1e6, 0.0, 1000.0, "mL")?;
        within("gun.highest_pressure", self.highest_pressure * 1e-5, 0.2, 10.0, "bar")?;
        within(
            "gun.rated_pressure",
            self.rated_pressure * 1e-5,
            LOWEST_BAR,
            self.highest_pressure * 1e-5,
            "bar",
        )?;
        within("gun.rated_pot_pressure", self.rated_pot_pressure * 1e-5, 0.0, HIGHEST_POT_BAR, "bar")?;
        mm("gun.paint_tube_bore", self.paint_tube_bore, 2.0, 25.0)?;
        within("gun.paint_tube_length", self.paint_tube_length, 0.0, 50.0, "m")?;
        within("gun.rated_fluid", self.rated_fluid, 0.05, 1.0, "")?;
        within("gun.fan_turns", self.fan_turns, 0.1, 20.0, "turns")?;
        within("gun.fluid_turns", self.fluid_turns, 0.1, 20.0, "turns")?;
        within("gun.air_turns", self.air_turns, 0.0, 20.0, "turns")?;
        self.matched.check()
    }

    /// The setting the kit is rated at: its design point. Full fan, trigger pulled home, air knob open, cup half full.
    #[must_use]
    pub fn rated(&self) -> GunSetting {
        GunSetting {
            inlet_pressure: self.rated_pressure,
            fan: 1.0,
            fluid: self.rated_fluid,
            trigger: 1.0,
            air_knob: 1.0,
            cup_level: 0.5,
            pot_pressure: self.rated_pot_pressure,
            faults: Faults::NONE,
            cap_turn: 0.0,
            held: HELD,
        }
    }

    /// Whether the cap makes a fan; an airbrush's sprays a round spot.
    #[must_use]
    pub fn has_fan(&self) -> bool {
        self.fan_valve_area > 0.0
    }

    /// Height of the paint's surface over the tip [m] at a level 0..=1; falls in proportion to what has left.
    #[must_use]
    pub fn head_at(&self, level: f64) -> f64 {
        self.cup_head + (level - 0.5) * self.cup_depth
    }
}

/// Trigger time after which a gun with a blocked vent is looked at, where nothing else is said [s]: a pass or two across a
/// panel and back (ours).
pub const HELD: f64 = 10.0;

/// Lowest inlet pressure that is taken [bar gauge].
const LOWEST_BAR: f64 = 0.1;
/// Highest pot pressure that is taken [bar gauge]: what small pots are stamped with (common practice).
const HIGHEST_POT_BAR: f64 = 4.0;
/// Open, the air knob has this many times the effective area of the whole gun between gauge and plenum. Ours.
const KNOB_OVER_BODY: f64 = 2.0;

impl GunSetting {
    /// Quarters of a turn that the cap is turned, 0..=3; none where it stands between.
    #[must_use]
    pub fn quarters(&self) -> Option<u32> {
        let quarters = self.cap_turn / core::f64::consts::FRAC_PI_2;
        let whole = quarters.round();
        ((quarters - whole).abs() < 1e-9 && (0.0..=4.0).contains(&whole)).then_some(whole as u32 % 4)
    }

    /// Checks the knobs and the pressure against the kit's highest.
    ///
    /// # Errors
    /// The first figure out of range, by its key.
    pub fn check(&self, kit: &Kit) -> Result<(), ParameterError> {
        within(
            "gun.inlet_pressure",
            self.inlet_pressure * 1e-5,
            LOWEST_BAR,
            kit.highest_pressure * 1e-5,
            "bar",
        )?;
        within("gun.fan", self.fan, 0.0, 1.0, "")?;
        within("gun.fluid", self.fluid, 0.0, 1.0, "")?;
        within("gun.trigger", self.trigger, 0.0, 1.0, "")?;
        within("gun.air_knob", self.air_knob, 0.0, 1.0, "")?;
        within("gun.cup_level", self.cup_level, 0.0, 1.0, "")?;
        within("gun.pot_pressure", self.pot_pressure * 1e-5, 0.0, HIGHEST_POT_BAR, "bar")?;
        within("gun.cap_turn", self.cap_turn.to_degrees(), 0.0, 360.0, "deg")?;
        within("stroke.burst", self.held, 0.0, 3600.0, "s")?;
        self.faults.check(kit)
    }

    /// Share of `Kit::inlet_area` that is open: air valve (the trigger's first stage) and air knob.
    ///
    /// The knob is a passage in series with the rest of the body, its area in proportion to its turns; passages in series add as
    /// 1/A^2 (exact for small pressure drops, docs/methods/gun.md says how far off it is at large ones).
    #[must_use]
    pub fn inlet_opening(&self, air_stage: f64) -> f64 {
        let valve = (self.trigger / air_stage).min(1.0);
        let body = 1.0 - 1.0 / (KNOB_OVER_BODY * KNOB_OVER_BODY);
        let k = KNOB_OVER_BODY * self.air_knob;
        valve * k / (1.0 + body * k * k).sqrt()
    }
}
