//! HVLP kits.

use super::{
    ANGLE, AREAS, BAR, BASECOAT, BORE, CLEAR, CONE, CUP, DEGREE, DEPTH, FLUID, HEAD, HIGHEST, LAND, ML, MM,
    MM2,
};
use super::{KitData, NO_POT, NO_TUBE, REST, SHARE, SURFACER, TURNS, areas, f, pot, suction, tip};
use crate::gun::{Class, Feed};

const FIRST: KitData = KitData {
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
    cup_depth: f(90.0 * MM, DEPTH),
    cup_volume: f(600.0 * ML, CUP),
    residue: f(15.0 * ML, REST),
    rated_pressure: f(2.0 * BAR, "common practice, no source: 1.8-2 bar at the inlet"),
    rated_fluid: f(0.8, FLUID),
    rated_pot_pressure: f(0.0, NO_POT),
    paint_tube_bore: f(8.0 * MM, NO_TUBE),
    paint_tube_length: f(0.0, NO_TUBE),
    rated_paint: CLEAR,
    highest_pressure: f(5.0 * BAR, HIGHEST),
    fan_turns: f(1.5, TURNS),
    fluid_turns: f(3.0, TURNS),
    air_turns: f(2.0, TURNS),
};

pub(super) const KITS: &[KitData] = &[
    KitData {
        id: "hvlp-gravity-1.0",
        name: "HVLP gun, gravity cup, 1.0 mm",
        rated_pressure: f(1.8 * BAR, "common practice, no source: 1.8-2 bar at the inlet"),
        ..areas(tip(FIRST, 1.0, 0.7, 2.4, 0.8), [7.60, 7.56, 8.57, 6.78])
    },
    KitData {
        id: "hvlp-gravity-1.2",
        name: "HVLP gun, gravity cup, 1.2 mm",
        rated_paint: BASECOAT,
        ..areas(tip(FIRST, 1.2, 0.8, 3.1, 0.8), [9.32, 9.76, 10.97, 8.74])
    },
    FIRST,
    KitData {
        id: "hvlp-gravity-1.4",
        name: "HVLP gun, gravity cup, 1.4 mm",
        ..areas(tip(FIRST, 1.4, 0.8, 3.7, 0.8), [10.45, 10.94, 12.30, 9.80])
    },
    KitData {
        id: "hvlp-gravity-1.8",
        name: "HVLP gun, gravity cup, 1.8 mm",
        rated_paint: SURFACER,
        ..areas(tip(FIRST, 1.8, 0.9, 4.2, 0.8), [11.30, 11.74, 13.56, 10.37])
    },
    KitData {
        id: "hvlp-gravity-2.2",
        name: "HVLP gun, gravity cup, 2.2 mm",
        rated_paint: SURFACER,
        ..areas(tip(FIRST, 2.2, 1.0, 4.8, 0.6), [13.56, 14.09, 16.28, 12.45])
    },
    KitData {
        id: "hvlp-gravity-2.5",
        name: "HVLP gun, gravity cup, 2.5 mm",
        rated_paint: SURFACER,
        ..areas(tip(FIRST, 2.5, 1.0, 5.4, 0.45), [15.54, 16.14, 18.64, 14.26])
    },
    KitData {
        id: "hvlp-suction-1.8",
        name: "HVLP gun, suction cup, 1.8 mm",
        rated_paint: SURFACER,
        ..suction(areas(tip(FIRST, 1.8, 0.9, 4.2, 0.8), [11.30, 11.74, 13.56, 10.37]), 1000.0, -110.0)
    },
    KitData {
        id: "hvlp-pressure-1.0",
        name: "HVLP gun, pressure pot, 1.0 mm",
        ..pot(areas(tip(FIRST, 1.0, 0.7, 2.0, 0.8), [11.30, 11.83, 13.30, 10.59]), 2000.0, 0.5, 6.0)
    },
    KitData {
        id: "hvlp-pressure-1.4",
        name: "HVLP gun, pressure pot, 1.4 mm",
        ..pot(areas(tip(FIRST, 1.4, 0.8, 2.6, 0.8), [12.71, 13.31, 14.96, 11.92]), 10_000.0, 0.3, 6.0)
    },
];
