//! The kits. Effective areas are chosen so that air use, cap and inlet pressure of the class come out; a user's own gun is
//! matched by its box or its card instead.

use super::{Figure, KitData};
use crate::gun::{Class, Feed};

const MM: f64 = 1e-3;
const MM2: f64 = 1e-6;
const ML: f64 = 1e-6;
const BAR: f64 = 1e5;
const DEGREE: f64 = std::f64::consts::PI / 180.0;

const BORE: &str = "the kit's own size: the number in its name";
const LAND: &str = "ours: straight part of a turned tip, 0.5-1.2 mm";
const CONE: &str = "ours: cone and travel together give the rated flow and half of it at half the knob";
const AREAS: &str = "ours: chosen for the class's air use, cap and inlet pressure (common practice)";
const SHARE: &str =
    "ours: horns take about 0.4 of the air at full fan (no published share found; inferred 0.3-0.6)";
const ANGLE: &str = "ours: 60 degrees, no published figure";
const HEAD: &str = "ours: cup half full, surface 80 mm over the tip (50-120 mm)";
const CUP: &str = "common practice for this size of gun";
const REST: &str = "ours: film on the walls of cup and passages";
const RATED: &str = "common practice for the class";
const FLUID: &str = "ours: the last turn adds little, so the design point leaves it free";
const HIGHEST: &str = "common practice: body's limit is far higher, sprays are not made beyond";
const TURNS: &str = "ours: typical count of turns";

const fn f(value: f64, origin: &'static str) -> Figure {
    Figure { value, origin }
}

/// The kits, by class.
pub(super) const ALL: &[KitData] = &[
    KitData {
        id: "hvlp-gravity-1.3",
        name: "HVLP gun, gravity cup, 1.3 mm",
        class: Class::Hvlp,
        feed: Feed::Gravity,
        tip_bore: f(1.3 * MM, BORE),
        tip_land: f(0.8 * MM, LAND),
        needle_half_angle: f(10.0 * DEGREE, CONE),
        needle_travel: f(3.6 * MM, CONE),
        inlet_area: f(10.2 * MM2, AREAS),
        annulus_area: f(10.5 * MM2, AREAS),
        fan_valve_area: f(12.0 * MM2, SHARE),
        horn_area: f(9.5 * MM2, SHARE),
        horn_angle: f(60.0 * DEGREE, ANGLE),
        cup_head: f(80.0 * MM, HEAD),
        cup_volume: f(600.0 * ML, CUP),
        residue: f(15.0 * ML, REST),
        rated_pressure: f(2.0 * BAR, "common practice, no source: 1.8-2 bar at the inlet"),
        rated_fluid: f(0.8, FLUID),
        highest_pressure: f(5.0 * BAR, HIGHEST),
        fan_turns: f(1.5, TURNS),
        fluid_turns: f(3.0, TURNS),
    },
    KitData {
        id: "lvlp-gravity-1.2",
        name: "LVLP gun, gravity cup, 1.2 mm",
        class: Class::Lvlp,
        feed: Feed::Gravity,
        tip_bore: f(1.2 * MM, BORE),
        tip_land: f(0.8 * MM, LAND),
        needle_half_angle: f(10.0 * DEGREE, CONE),
        needle_travel: f(3.6 * MM, CONE),
        inlet_area: f(6.0 * MM2, AREAS),
        annulus_area: f(5.6 * MM2, AREAS),
        fan_valve_area: f(4.6 * MM2, SHARE),
        horn_area: f(3.8 * MM2, SHARE),
        horn_angle: f(60.0 * DEGREE, ANGLE),
        cup_head: f(80.0 * MM, HEAD),
        cup_volume: f(600.0 * ML, CUP),
        residue: f(15.0 * ML, REST),
        rated_pressure: f(1.5 * BAR, "common practice, no source: 1-2 bar at the inlet"),
        rated_fluid: f(0.8, FLUID),
        highest_pressure: f(4.0 * BAR, HIGHEST),
        fan_turns: f(1.5, TURNS),
        fluid_turns: f(3.0, TURNS),
    },
    KitData {
        id: "conventional-gravity-1.4",
        name: "conventional gun, gravity cup, 1.4 mm",
        class: Class::Conventional,
        feed: Feed::Gravity,
        tip_bore: f(1.4 * MM, BORE),
        tip_land: f(0.8 * MM, LAND),
        needle_half_angle: f(10.0 * DEGREE, CONE),
        needle_travel: f(3.3 * MM, CONE),
        inlet_area: f(6.4 * MM2, AREAS),
        annulus_area: f(4.9 * MM2, AREAS),
        fan_valve_area: f(6.0 * MM2, SHARE),
        horn_area: f(3.9 * MM2, SHARE),
        horn_angle: f(60.0 * DEGREE, ANGLE),
        cup_head: f(80.0 * MM, HEAD),
        cup_volume: f(600.0 * ML, CUP),
        residue: f(15.0 * ML, REST),
        rated_pressure: f(3.5 * BAR, "common practice, no source: 3-4.5 bar at the inlet"),
        rated_fluid: f(0.8, FLUID),
        highest_pressure: f(6.0 * BAR, HIGHEST),
        fan_turns: f(1.5, TURNS),
        fluid_turns: f(3.0, TURNS),
    },
    KitData {
        id: "touchup-gravity-0.8",
        name: "touch-up gun, gravity cup, 0.8 mm",
        class: Class::Touchup,
        feed: Feed::Gravity,
        tip_bore: f(0.8 * MM, BORE),
        tip_land: f(0.5 * MM, LAND),
        needle_half_angle: f(10.0 * DEGREE, CONE),
        needle_travel: f(2.5 * MM, CONE),
        inlet_area: f(4.0 * MM2, AREAS),
        annulus_area: f(2.6 * MM2, AREAS),
        fan_valve_area: f(2.3 * MM2, SHARE),
        horn_area: f(1.9 * MM2, SHARE),
        horn_angle: f(60.0 * DEGREE, ANGLE),
        cup_head: f(60.0 * MM, HEAD),
        cup_volume: f(125.0 * ML, CUP),
        residue: f(5.0 * ML, REST),
        rated_pressure: f(1.8 * BAR, RATED),
        rated_fluid: f(0.8, FLUID),
        highest_pressure: f(4.0 * BAR, HIGHEST),
        fan_turns: f(1.0, TURNS),
        fluid_turns: f(3.0, TURNS),
    },
];
