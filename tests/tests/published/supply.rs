//! Air supply: hose, couplings, states of free air, tank. Orifices stand in `air.rs`.

use crate::table::{close, held, known_miss, number, numbers, rows};
use mistcoat::air::{ROOM_PRESSURE, TWENTY_C, free_density, orifice};
use mistcoat::catalogue;
use mistcoat::supply::{
    ANR_DENSITY, Compressor, Coupling, DM3_PER_S_BAR, Draw, Hose, Line, Passage, ReferenceState, Span,
    TankRun, friction_factor,
};

const SEEN: &str = "trade article (seen)";

/// Free air [kg/s].
fn mass(l_min: f64) -> f64 {
    l_min / 60_000.0 * free_density()
}

fn hose(bore_mm: f64, length: f64) -> Hose {
    Hose { bore: bore_mm * 1e-3, length }
}

/// The same exact equation and the same friction factor by a general-purpose library. `P2 = isothermal_gas(rho=P1/(R*T),
/// fd=friction_factor(Re, eD), P1, L, D, m)`, rho the inlet's.
#[test]
fn pressure_at_the_end_of_a_hose() {
    let table = numbers("fluids-hose/drops.csv");
    assert!(table.len() > 80);
    for row in table {
        let [p1, bore, length, l_min, _, fd, p2] = row[..] else { panic!("{row:?}") };
        let hose = hose(bore, length);
        let out = hose.outlet(p1, mass(l_min), TWENTY_C).expect("below the choke");
        // The drop, not the pressure: that would hide the error.
        close(&format!("{row:?}"), p1 - out, p1 - p2, 2e-5);
        close(&format!("{row:?}, backward"), hose.inlet(p2, mass(l_min), TWENTY_C), p1, 1e-6);
        let re = row[4];
        close("friction", friction_factor(re, 1.5e-3 / bore), fd, 1e-9);
    }
    let out = hose(6.0, 10.0).outlet(601_325.0, mass(200.0), TWENTY_C).unwrap();
    held("hose 6 mm, 10 m, 200 L/min, drop bar", (601_325.0 - out) * 1e-5, 0.544_98, 2e-5, "fluids (PyPI)");
}

/// `P_isothermal_critical_flow(P, fd, D, L)`, the friction factor that of the choked flow.
#[test]
fn choking_hoses() {
    for row in numbers("fluids-hose/chokes.csv") {
        let choke = hose(row[1], row[2]).choke(row[0], TWENTY_C);
        close(&format!("{row:?}"), choke, mass(row[3]), 1e-6);
    }
}

/// Between Re 2040 and 4000 the library jumps and this crate draws a line: not compared there.
#[test]
fn friction_laminar_and_turbulent() {
    for row in numbers("fluids-hose/friction.csv") {
        close(&format!("{row:?}"), friction_factor(row[0], row[1]), row[2], 1e-9);
    }
}

/// 450 q^1.85 L/(d^5 p), a compressor makers' rule for steel pipe (from memory): 1.4 to 1.7 times a smooth hose.
#[test]
fn the_rule_for_steel_pipe_is_larger_as_told() {
    for (bore, length, l_min, rule) in [
        (6.0, 5.0, 200.0, 0.446_32),
        (8.0, 10.0, 200.0, 0.211_83),
        (8.0, 10.0, 400.0, 0.763_63),
        (10.0, 10.0, 200.0, 0.069_41),
    ] {
        let drop = 601_325.0 - hose(bore, length).outlet(601_325.0, mass(l_min), TWENTY_C).unwrap();
        let ratio = rule / (drop * 1e-5);
        assert!((1.4..1.7).contains(&ratio), "{bore} {length} {l_min}: {ratio}");
    }
}

#[test]
fn flow_through_a_coupling() {
    let passage = Passage { conductance: 2.0 * DM3_PER_S_BAR, critical: 0.35 };
    for row in numbers("iso-6358/c2_b035.csv") {
        let l_min = passage.flow(7e5, row[0] * 1e5, TWENTY_C) / ANR_DENSITY * 60_000.0;
        close(&format!("{row:?}"), l_min, row[1], 1e-5);
    }
}

/// An ideal hole of 1 mm2: C = 0.199192 dm3/(s bar) (computed with the moist ideal gas; 0.3 % apart in density).
#[test]
fn an_ideal_hole_as_a_conductance() {
    let choked = orifice(1e-6, 7e5, 1e5, TWENTY_C);
    close("C of 1 mm2", choked / ANR_DENSITY / 7e5 / DM3_PER_S_BAR, 0.199_192, 1e-5);
}

/// A trade article (seen): about 8 psi lost in one quick connector at 25 cfm, from 75 and from 36 psi. No one coupling does
/// both; ours must lie between the two that do.
#[test]
fn a_standard_coupling_is_what_the_trade_says() {
    let (psi, flow) = (6_894.757_293_168_361, mass(25.0 * 28.316_846_592));
    let lost = |from: f64| {
        let p1 = ROOM_PRESSURE + from * psi;
        (p1 - Coupling::Standard.passage().outlet(p1, flow, TWENTY_C).unwrap()) / psi
    };
    assert!(lost(75.0) < 8.0 && lost(36.0) > 8.0, "{} {}", lost(75.0), lost(36.0));
    known_miss("coupling, 25 cfm from 75 psi, psi lost", lost(75.0), 8.0, -0.234, 0.01, SEEN);
    known_miss("coupling, 25 cfm from 36 psi, psi lost", lost(36.0), 8.0, 0.565, 0.01, SEEN);
}

#[test]
fn states_of_free_air() {
    let base = ReferenceState::find("iso-1217").unwrap();
    for row in rows("reference-states/dry_factors.csv") {
        let state = ReferenceState::find(&row[0]).unwrap_or_else(|| panic!("{}", row[0]));
        close(&row[0], state.factor_to(base), number(&row[1]), 5e-6);
        close(&row[0], base.factor_to(state), 1.0 / number(&row[1]), 5e-6);
    }
    let anr = ReferenceState::find("anr").unwrap();
    // The standard's own 1.185 kg/m3 is 0.3 % above the moist ideal gas.
    close("density of ANR air", anr.density(), ANR_DENSITY, 3.5e-3);
    close("ANR, its vapour taken off", anr.factor_to(base), 1.0 - 0.65 * 0.023_393, 1e-4);
}

const BAR: f64 = 1e5;

fn compressor(delivered_l_min: f64, litres: f64, cut_in: f64, cut_out: f64) -> Compressor {
    Compressor {
        delivered_air: delivered_l_min / 60_000.0,
        tank: litres * 1e-3,
        cut_in: cut_in * BAR,
        cut_out: cut_out * BAR,
    }
}

/// Draw-down of a tank (computed apart): p_ref 1.01325 bar.
#[test]
fn draw_down() {
    for (litres, from, to, used, delivered, minutes) in [
        (50.0, 8.0, 6.0, 250.0, 180.0, 1.409_89),
        (100.0, 10.0, 7.0, 350.0, 250.0, 2.9608),
        (100.0, 10.0, 7.0, 400.0, 150.0, 1.1843),
    ] {
        let c = compressor(delivered, litres, to, from);
        let net = (delivered - used) / 60_000.0;
        let seconds = c.seconds(from * BAR, to * BAR, net).unwrap();
        close("draw-down", seconds, minutes * 60.0, 2e-5);
        // Refilled by as much as ran out, it takes as long.
        close("refill", c.seconds(to * BAR, from * BAR, -net).unwrap(), seconds, 1e-12);
        assert_eq!(c.seconds(from * BAR, to * BAR, -net), None);
    }
}

/// The same through the run in time: the compressor starts at once because the cut-in is just below the cut-out.
#[test]
fn draw_down_in_time() {
    let c = compressor(180.0, 50.0, 7.999_999, 8.0);
    let never = |_: f64| (0.0, 0.0);
    let draw = Draw {
        gun: 250.0 / 60_000.0,
        also: 0.0,
        needed: 6.0 * BAR,
        held: 2.0 * BAR,
        rest: 3.0 * BAR,
        below: &never,
    };
    let (_, lost) = TankRun::new(&c, draw).through(&[Span { on: 500.0, off: 0.0 }], true);
    close("8 to 6 bar", lost.expect("it runs down").time, 84.593, 2e-5);
}

/// Emptying a receiver: 500 L, 9 to 7 bar in 3 min leak 333.33 L/min of 1 bar air (seen). Filling one: 25 US gal, 85 to 102
/// psig in 35 s take 6.63 cfm at 14.7 psia (inputs seen, figure computed).
#[test]
fn receivers() {
    let one_bar = 1e5 / ROOM_PRESSURE;
    let c = compressor(100.0, 500.0, 7.0, 9.0);
    close("leak", c.seconds(9.0 * BAR, 7.0 * BAR, -333.33 / 60_000.0 * one_bar).unwrap(), 180.0, 2e-5);
    let (psi, cfm) = (6_894.757_293_168_361, 28.316_846_592 / 60_000.0);
    let c = Compressor { tank: 25.0 * 3.785_411_784e-3, ..c };
    let air = 6.63 * cfm * (14.7 * psi / ROOM_PRESSURE);
    close("filling", c.seconds(85.0 * psi, 102.0 * psi, air).unwrap(), 35.0, 1e-3);
}

/// Common practice, no source: a 2 kW direct drive that claims 250 L/min delivers 150 to 180. Data sheets (seen): 5 to 7 kW
/// for 1 m3/min at 7 bar; small pistons are worse, never better than isothermal compression (3.47 kW, computed).
#[test]
fn compressors_of_the_catalogue_deliver_what_such_machines_do() {
    for data in catalogue::compressors() {
        data.compressor().check().unwrap();
        let delivered = data.delivered_air.value * 60_000.0;
        if let Some(claimed) = data.displacement {
            let share = data.delivered_air.value / claimed.value;
            assert!((0.55..=0.8).contains(&share), "{}: {share}", data.id);
        }
        let power = data.motor.value / delivered;
        assert!((5.0..15.0).contains(&power), "{}: {power} kW per m3/min", data.id);
        for (key, figure) in data.figures() {
            assert!(figure.origin.len() > 3, "{} {key}", data.id);
        }
    }
    let small = catalogue::compressors().iter().find(|c| c.id == "workshop-2kW").unwrap();
    assert!((150.0..=180.0).contains(&(small.delivered_air.value * 60_000.0)));
    assert!((small.displacement.unwrap().value * 60_000.0 - 250.0).abs() < 1e-9);
}

/// At most 10 psi lost in a regulator at 15 cfm from 80 psi (a shop manual's rule: seen).
#[test]
fn the_regulator_is_within_the_shop_rule() {
    let psi = 6_894.757_293_168_361;
    let line = Line {
        regulator: None,
        hose: hose(10.0, 5.0),
        couplings: 0,
        coupling: Coupling::Standard,
        temperature: TWENTY_C,
    };
    let flow = mass(15.0 * 28.316_846_592);
    let wall = line.wall(ROOM_PRESSURE + 120.0 * psi, 80.0 * psi, flow).unwrap() - ROOM_PRESSURE;
    let lost = 80.0 - wall / psi;
    assert!((2.0..10.0).contains(&lost), "{lost}");
}
