//! Airbrushes: no horns, a round spot.

use super::{BAR, BASECOAT, BORE, CONE, CUP, DEGREE, DEPTH, FLUID, HIGHEST, LAND, ML, MM, MM2};
use super::{KitData, NO_POT, NO_TUBE, TURNS, f, suction, tip};
use crate::gun::{Class, Feed};

const NO_FAN: &str = "no fan valve: the cap has no horns";
const NO_HORNS: &str = "no horns: the least the model takes, never fed";
const AIR: &str = "ours: chosen for 10-30 L/min (common practice)";
const NO_KNOB: &str = "no air knob on an airbrush: its trigger meters the air";
const SMALL: &str = "ours: film on the walls of a small cup";

const FIRST: KitData = KitData {
    id: "airbrush-gravity-0.3",
    name: "airbrush, gravity cup, 0.3 mm",
    class: Class::Airbrush,
    feed: Feed::Gravity,
    tip_bore: f(0.3 * MM, BORE),
    tip_land: f(0.4 * MM, LAND),
    needle_half_angle: f(10.0 * DEGREE, CONE),
    needle_travel: f(2.0 * MM, CONE),
    inlet_area: f(0.67 * MM2, AIR),
    annulus_area: f(0.56 * MM2, AIR),
    fan_valve_area: f(0.0, NO_FAN),
    horn_area: f(0.01 * MM2, NO_HORNS),
    horn_angle: f(60.0 * DEGREE, NO_HORNS),
    cup_head: f(20.0 * MM, "ours: a small cup close to the tip"),
    cup_depth: f(20.0 * MM, DEPTH),
    cup_volume: f(7.0 * ML, CUP),
    residue: f(0.5 * ML, SMALL),
    rated_pressure: f(1.8 * BAR, "common practice, no source: 1-2.5 bar"),
    rated_fluid: f(0.8, FLUID),
    rated_pot_pressure: f(0.0, NO_POT),
    paint_tube_bore: f(3.0 * MM, NO_TUBE),
    paint_tube_length: f(0.0, NO_TUBE),
    rated_paint: BASECOAT,
    highest_pressure: f(4.0 * BAR, HIGHEST),
    fan_turns: f(1.0, NO_FAN),
    fluid_turns: f(4.0, TURNS),
    air_turns: f(0.0, NO_KNOB),
};

pub(super) const KITS: &[KitData] = &[
    KitData {
        id: "airbrush-gravity-0.2",
        name: "airbrush, gravity cup, 0.2 mm",
        rated_pressure: f(1.5 * BAR, "common practice, no source: 1-2.5 bar"),
        cup_volume: f(2.0 * ML, CUP),
        residue: f(0.2 * ML, SMALL),
        ..round(tip(FIRST, 0.2, 0.3, 1.8, 0.8), 0.61, 0.46)
    },
    FIRST,
    KitData {
        id: "airbrush-gravity-0.5",
        name: "airbrush, gravity cup, 0.5 mm",
        rated_pressure: f(2.0 * BAR, "common practice, no source: 1-2.5 bar"),
        ..round(tip(FIRST, 0.5, 0.4, 2.2, 0.8), 1.05, 0.85)
    },
    KitData {
        id: "airbrush-suction-0.5",
        name: "airbrush, bottle below, 0.5 mm",
        rated_pressure: f(2.0 * BAR, "common practice, no source: 1-2.5 bar"),
        paint_tube_bore: f(2.5 * MM, "ours: usual bottle tube"),
        paint_tube_length: f(60.0 * MM, "ours: usual bottle tube"),
        ..suction(round(tip(FIRST, 0.5, 0.4, 2.2, 0.8), 1.05, 0.85), 22.0, -50.0)
    },
];

/// Inlet and annulus alone [mm2].
const fn round(kit: KitData, inlet: f64, annulus: f64) -> KitData {
    KitData { inlet_area: f(inlet * MM2, AIR), annulus_area: f(annulus * MM2, AIR), ..kit }
}
