//! The kits, by class. Effective areas are chosen so that air use, cap and inlet pressure of the class come out; a user's own gun is
//! matched by its box or its card instead.
//!
//! How the areas are chosen: free air, inlet, cap and horn pressure and the horns' share of the air are set, each orifice is then
//! what lets that through (`docs/methods/gun.md`). A kit names only what differs from the first of its class.

mod airbrush;
mod conventional;
mod hvlp;
mod reduced;
mod touchup;

use super::{Figure, KitData};

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
const DEPTH: &str = "ours: a cup of this volume is about as deep as it is wide";
const BELOW: &str = "ours: cup half full, surface 110 mm below the tip";
const POT_HEAD: &str = "the pot stands beside the gun: its level is not followed";
const CUP: &str = "common practice for this size of gun";
const REST: &str = "ours: film on the walls of cup and passages";
const HOSE_REST: &str = "computed: what the paint hose holds, and the pot's walls";
const RATED: &str = "common practice for the class";
const FLUID: &str = "ours: the last turn adds little, so the design point leaves it free";
const METERED: &str = "ours: a tip this wide for its air is metered by the needle, fully open it floods";
const HIGHEST: &str = "common practice: body's limit is far higher, sprays are not made beyond";
const TURNS: &str = "ours: typical count of turns";
const NO_POT: &str = "a cup has none";
const POT: &str = "ours: gives the flow of the class (common practice 0.3-1.5 bar at the pot)";
const NO_TUBE: &str = "a cup on top has none";
const TUBE: &str = "ours: usual suction tube";
const HOSE: &str = "common practice: 8 mm paint hose, 6-8 m";
const CLEAR: (&str, &str) = ("two-pack-clear", "common practice: tip of clears and top coats");

const BASECOAT: (&str, &str) = ("solvent-basecoat", "common practice: tip of basecoats");
const SURFACER: (&str, &str) = ("primer-surfacer", "common practice: tip of filler primers");
const EPOXY: (&str, &str) = ("epoxy-primer", "common practice: tip of epoxy primers");
const ENAMEL: (&str, &str) = ("single-stage-enamel", "common practice: suction guns spray enamels");

const fn f(value: f64, origin: &'static str) -> Figure {
    Figure { value, origin }
}

/// Needle and bore.
const fn tip(kit: KitData, bore: f64, land: f64, travel: f64, fluid: f64) -> KitData {
    KitData {
        tip_bore: f(bore * MM, BORE),
        tip_land: f(land * MM, LAND),
        needle_travel: f(travel * MM, CONE),
        rated_fluid: f(fluid, if fluid < 0.6 { METERED } else { FLUID }),
        ..kit
    }
}

/// Effective areas: inlet, annulus, fan valve, horn holes [mm2].
const fn areas(kit: KitData, [inlet, annulus, fan, horn]: [f64; 4]) -> KitData {
    KitData {
        inlet_area: f(inlet * MM2, AREAS),
        annulus_area: f(annulus * MM2, AREAS),
        fan_valve_area: f(fan * MM2, SHARE),
        horn_area: f(horn * MM2, SHARE),
        ..kit
    }
}

/// A cup below, of a volume [mL].
const fn suction(kit: KitData, volume: f64, head: f64) -> KitData {
    KitData {
        feed: crate::gun::Feed::Suction,
        cup_head: f(head * MM, BELOW),
        cup_depth: f(-head * MM, DEPTH),
        cup_volume: f(volume * ML, CUP),
        paint_tube_bore: f(8.0 * MM, TUBE),
        paint_tube_length: f(150.0 * MM, TUBE),
        ..kit
    }
}

/// A pot of a volume [mL] at a pressure [bar], its hose of a length [m].
const fn pot(kit: KitData, volume: f64, bar: f64, hose: f64) -> KitData {
    KitData {
        feed: crate::gun::Feed::Pressure,
        cup_head: f(0.0, POT_HEAD),
        cup_depth: f(0.0, POT_HEAD),
        cup_volume: f(volume * ML, CUP),
        // 8 mm hose holds 50 mL a metre.
        residue: f((50.0 + 50.0 * hose) * ML, HOSE_REST),
        rated_pot_pressure: f(bar * BAR, POT),
        paint_tube_bore: f(8.0 * MM, HOSE),
        paint_tube_length: f(hose, HOSE),
        ..kit
    }
}

const PARTS: [&[KitData]; 5] = [hvlp::KITS, reduced::KITS, conventional::KITS, touchup::KITS, airbrush::KITS];

const COUNT: usize = {
    let (mut n, mut i) = (0, 0);
    while i < PARTS.len() {
        n += PARTS[i].len();
        i += 1;
    }
    n
};

const fn joined() -> [KitData; COUNT] {
    let mut all = [hvlp::KITS[0]; COUNT];
    let (mut n, mut part) = (0, 0);
    while part < PARTS.len() {
        let mut i = 0;
        while i < PARTS[part].len() {
            all[n] = PARTS[part][i];
            n += 1;
            i += 1;
        }
        part += 1;
    }
    all
}

/// The kits, by class.
pub(super) static ALL: [KitData; COUNT] = joined();
