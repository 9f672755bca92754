//! Conventional kits.

use super::{
    ANGLE, AREAS, BAR, BORE, CLEAR, CONE, CUP, DEGREE, DEPTH, ENAMEL, EPOXY, FLUID, HEAD, HIGHEST, LAND, ML,
    MM, MM2,
};
use super::{KitData, NO_POT, NO_TUBE, REST, SHARE, SURFACER, TURNS, areas, f, pot, suction, tip};
use crate::gun::{Class, Feed};

const FIRST: KitData = KitData {
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
    cup_depth: f(90.0 * MM, DEPTH),
    cup_volume: f(600.0 * ML, CUP),
    residue: f(15.0 * ML, REST),
    rated_pressure: f(3.5 * BAR, "common practice, no source: 3-4.5 bar at the inlet"),
    rated_fluid: f(0.8, FLUID),
    rated_pot_pressure: f(0.0, NO_POT),
    paint_tube_bore: f(8.0 * MM, NO_TUBE),
    paint_tube_length: f(0.0, NO_TUBE),
    rated_paint: CLEAR,
    highest_pressure: f(6.0 * BAR, HIGHEST),
    fan_turns: f(1.5, TURNS),
    fluid_turns: f(3.0, TURNS),
    air_turns: f(2.0, TURNS),
};

pub(super) const KITS: &[KitData] = &[
    FIRST,
    KitData {
        id: "conventional-gravity-1.7",
        name: "conventional gun, gravity cup, 1.7 mm",
        rated_paint: EPOXY,
        ..areas(tip(FIRST, 1.7, 0.9, 4.0, 0.75), [6.90, 5.73, 6.73, 4.61])
    },
    KitData {
        id: "conventional-gravity-3.0",
        name: "conventional gun, gravity cup, 3.0 mm",
        rated_paint: SURFACER,
        cup_volume: f(1000.0 * ML, CUP),
        rated_pressure: f(4.0 * BAR, "common practice, no source: 3-4.5 bar at the inlet"),
        ..areas(tip(FIRST, 3.0, 1.2, 6.5, 0.23), [7.33, 6.39, 6.99, 4.72])
    },
    KitData {
        id: "conventional-suction-1.8",
        name: "conventional gun, suction cup, 1.8 mm",
        rated_paint: ENAMEL,
        ..suction(areas(tip(FIRST, 1.8, 0.9, 4.2, 0.7), [6.50, 5.40, 6.35, 4.34]), 1000.0, -110.0)
    },
    KitData {
        id: "conventional-pressure-1.1",
        name: "conventional gun, pressure pot, 1.1 mm",
        ..pot(areas(tip(FIRST, 1.1, 0.8, 2.3, 0.8), [7.49, 6.22, 7.31, 5.00]), 10_000.0, 0.6, 8.0)
    },
];
