//! Touch-up kits.

use super::{
    ANGLE, AREAS, BAR, BORE, CLEAR, CONE, CUP, DEGREE, DEPTH, FLUID, HEAD, HIGHEST, LAND, ML, MM, MM2,
};
use super::{KitData, NO_POT, NO_TUBE, RATED, REST, SHARE, TURNS, areas, f, tip};
use crate::gun::{Class, Feed};

const FIRST: KitData = KitData {
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
    cup_depth: f(50.0 * MM, DEPTH),
    cup_volume: f(125.0 * ML, CUP),
    residue: f(5.0 * ML, REST),
    rated_pressure: f(1.8 * BAR, RATED),
    rated_fluid: f(0.8, FLUID),
    rated_pot_pressure: f(0.0, NO_POT),
    paint_tube_bore: f(8.0 * MM, NO_TUBE),
    paint_tube_length: f(0.0, NO_TUBE),
    rated_paint: CLEAR,
    highest_pressure: f(4.0 * BAR, HIGHEST),
    fan_turns: f(1.0, TURNS),
    fluid_turns: f(3.0, TURNS),
    air_turns: f(1.5, TURNS),
};

pub(super) const KITS: &[KitData] = &[
    FIRST,
    KitData {
        id: "touchup-gravity-1.0",
        name: "touch-up gun, gravity cup, 1.0 mm",
        ..areas(tip(FIRST, 1.0, 0.6, 2.8, 0.8), [4.28, 3.07, 2.84, 2.26])
    },
];
