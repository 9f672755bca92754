//! Reduced pressure ("compliant") and low-volume-low-pressure kits.

use super::{
    ANGLE, AREAS, BAR, BASECOAT, BORE, CLEAR, CONE, CUP, DEGREE, DEPTH, EPOXY, FLUID, HEAD, HIGHEST, LAND,
    ML, MM, MM2,
};
use super::{KitData, NO_POT, NO_TUBE, REST, SHARE, SURFACER, TURNS, areas, f, tip};
use crate::gun::{Class, Feed};

const COMPLIANT: KitData = KitData {
    id: "compliant-gravity-1.3",
    name: "reduced-pressure gun, gravity cup, 1.3 mm",
    class: Class::Compliant,
    inlet_area: f(7.78 * MM2, AREAS),
    annulus_area: f(6.38 * MM2, AREAS),
    fan_valve_area: f(7.00 * MM2, SHARE),
    horn_area: f(5.23 * MM2, SHARE),
    rated_pressure: f(2.2 * BAR, "common practice, no source: 2-2.5 bar at the inlet"),
    highest_pressure: f(5.0 * BAR, HIGHEST),
    ..tip(LVLP, 1.3, 0.8, 3.6, 0.8)
};

const LVLP: KitData = KitData {
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
    cup_depth: f(90.0 * MM, DEPTH),
    cup_volume: f(600.0 * ML, CUP),
    residue: f(15.0 * ML, REST),
    rated_pressure: f(1.5 * BAR, "common practice, no source: 1-2 bar at the inlet"),
    rated_fluid: f(0.8, FLUID),
    rated_pot_pressure: f(0.0, NO_POT),
    paint_tube_bore: f(8.0 * MM, NO_TUBE),
    paint_tube_length: f(0.0, NO_TUBE),
    rated_paint: CLEAR,
    highest_pressure: f(4.0 * BAR, HIGHEST),
    fan_turns: f(1.5, TURNS),
    fluid_turns: f(3.0, TURNS),
    air_turns: f(2.0, TURNS),
};

pub(super) const KITS: &[KitData] = &[
    KitData {
        id: "compliant-gravity-1.2",
        name: "reduced-pressure gun, gravity cup, 1.2 mm",
        rated_paint: BASECOAT,
        rated_pressure: f(2.0 * BAR, "common practice, no source: 2-2.5 bar at the inlet"),
        ..areas(tip(COMPLIANT, 1.2, 0.8, 3.2, 0.8), [8.18, 6.30, 6.97, 5.15])
    },
    COMPLIANT,
    KitData {
        id: "compliant-gravity-1.8",
        name: "reduced-pressure gun, gravity cup, 1.8 mm",
        rated_paint: SURFACER,
        rated_pressure: f(2.4 * BAR, "common practice, no source: 2-2.5 bar at the inlet"),
        ..areas(tip(COMPLIANT, 1.8, 0.9, 4.2, 0.7), [7.98, 6.91, 7.51, 5.68])
    },
    LVLP,
    KitData {
        id: "lvlp-gravity-1.4",
        name: "LVLP gun, gravity cup, 1.4 mm",
        rated_pressure: f(1.6 * BAR, "common practice, no source: 1-2 bar at the inlet"),
        ..areas(tip(LVLP, 1.4, 0.8, 3.9, 0.7), [6.00, 5.93, 5.20, 4.13])
    },
    KitData {
        id: "lvlp-gravity-1.7",
        name: "LVLP gun, gravity cup, 1.7 mm",
        rated_paint: EPOXY,
        rated_pressure: f(1.8 * BAR, "common practice, no source: 1-2 bar at the inlet"),
        ..areas(tip(LVLP, 1.7, 0.9, 4.2, 0.4), [5.95, 6.23, 5.67, 4.53])
    },
];
