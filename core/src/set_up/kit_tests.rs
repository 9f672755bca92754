//! Every kit of the catalogue against what its class does in practice, and what cup, pot and air knob do.

use super::*;
use crate::gun::{Class, ClosedCup, Feed, HVLP_LIMIT, underpressure};

const BOOTH: Booth = Booth::at(293.15, 0.5);

fn kits() -> Vec<Kit> {
    catalogue::kits().iter().map(catalogue::KitData::kit).collect()
}

fn own_paint(kit: &Kit) -> Paint {
    catalogue::paint(&kit.rated_paint).unwrap()
}

fn of(id: &str) -> Kit {
    catalogue::kit(id).unwrap()
}

/// State at a setting, with the paint the kit is made for.
fn at(kit: &Kit, setting: &GunSetting) -> State {
    state(kit, setting, &own_paint(kit), &BOOTH).unwrap()
}

#[test]
fn every_class_and_feed_is_there_from_the_smallest_tip_to_the_largest() {
    let kits = kits();
    assert!(kits.len() >= 18);
    for class in Class::ALL {
        assert!(kits.iter().any(|k| k.class == class && k.feed == Feed::Gravity), "{class:?}");
        assert_eq!(Class::of(class.id()), Some(class));
    }
    for feed in Feed::ALL {
        assert!(kits.iter().any(|k| k.feed == feed && k.class == Class::Hvlp), "{feed:?}");
        assert_eq!(Feed::of(feed.id()), Some(feed));
    }
    let least = kits.iter().map(|k| k.tip_bore).fold(1.0, f64::min);
    assert!((least - 0.2e-3).abs() < 1e-9);
}

#[test]
fn every_kit_as_rated_is_in_its_class_and_has_nothing_to_warn_of() {
    for kit in kits() {
        let s = at(&kit, &kit.rated());
        let usual = kit.class.usual();
        let inside = |value: f64, [low, high]: [f64; 2], what: &str| {
            assert!((low..=high).contains(&value), "{}: {what} {value}, usual {low} to {high}", kit.id);
        };
        inside(s.air.free_air(), usual.air, "free air [m3/s]");
        inside(kit.rated_pressure, usual.inlet_pressure, "inlet pressure [Pa]");
        inside(kit.tip_bore, usual.tip, "tip [m]");
        if matches!(kit.class, Class::Hvlp | Class::Lvlp) {
            inside(s.air.cap_pressure, [0.3e5, HVLP_LIMIT], "cap pressure [Pa]");
        } else {
            assert!(s.air.cap_pressure > HVLP_LIMIT, "{}: no HVLP gun", kit.id);
        }
        assert!(s.warnings.is_empty(), "{}: {:?}", kit.id, s.warnings);
        assert!(kit.highest_pressure >= 1.5 * kit.rated_pressure, "{}", kit.id);
    }
}

#[test]
fn a_half_shut_air_knob_is_a_lower_pressure_and_an_open_one_is_none() {
    for kit in kits() {
        let open = at(&kit, &kit.rated());
        let mut last = -1.0;
        for i in 0..=10 {
            let air_knob = f64::from(i) / 10.0;
            let s = at(&kit, &GunSetting { air_knob, ..kit.rated() });
            assert!(s.air.cap_pressure > last, "{} {air_knob}", kit.id);
            last = s.air.cap_pressure;
        }
        assert_eq!(last, open.air.cap_pressure);
        let shut = at(&kit, &GunSetting { air_knob: 0.0, ..kit.rated() });
        assert_eq!(shut.air.free_air(), 0.0);
        assert!(shut.warnings.contains(&Warning::AirShut));
    }
}

#[test]
fn a_suction_cup_needs_the_air_to_lift_its_paint_and_a_full_one_gives_more() {
    for id in ["hvlp-suction-1.8", "conventional-suction-1.8", "airbrush-suction-0.5"] {
        let kit = of(id);
        let flow =
            |air_knob, cup_level| at(&kit, &GunSetting { air_knob, cup_level, ..kit.rated() }).paint_flow;
        assert!(flow(1.0, 0.9) > flow(1.0, 0.2), "{id}");
        let none = at(&kit, &GunSetting { air_knob: 0.02, ..kit.rated() });
        assert!(none.paint_flow == 0.0 && none.warnings.contains(&Warning::NoPaint), "{id}: {none:?}");
    }
    // The same gun with its cup on top flows more by the head alone.
    let (below, mut above) = (of("hvlp-suction-1.8"), of("hvlp-suction-1.8"));
    catalogue::refeed(&mut above, Feed::Gravity);
    assert!(above.cup_head > 0.0 && above.paint_tube_length == 0.0);
    assert!(at(&above, &above.rated()).paint_flow > 1.1 * at(&below, &below.rated()).paint_flow);
}

#[test]
fn pot_pressure_sets_the_flow_of_a_pressure_gun() {
    for id in ["hvlp-pressure-1.0", "hvlp-pressure-1.4", "conventional-pressure-1.1"] {
        let kit = of(id);
        let flow = |pot_pressure| at(&kit, &GunSetting { pot_pressure, ..kit.rated() }).paint_flow;
        let rated = flow(kit.rated_pot_pressure);
        assert!(flow(2.0 * kit.rated_pot_pressure) > 1.25 * rated, "{id}");
        assert!(flow(0.5 * kit.rated_pot_pressure) < 0.8 * rated, "{id}");
        // Part of the pot's pressure stays in the hose.
        let mut short = kit.clone();
        short.paint_tube_length = 0.0;
        assert!(at(&short, &short.rated()).paint_flow > 1.02 * rated, "{id}");
        // The level of a pot is not felt until it is dry.
        let level = |cup_level| at(&kit, &GunSetting { cup_level, ..kit.rated() }).paint_flow;
        assert_eq!(level(0.9), level(0.3));
    }
}

#[test]
fn a_cup_runs_dry_and_says_when() {
    for kit in kits() {
        let dry = at(&kit, &GunSetting { cup_level: 0.0, ..kit.rated() });
        assert!(dry.paint_flow == 0.0 && dry.warnings == [Warning::CupDry], "{}: {dry:?}", kit.id);
    }
    let kit = of(REFERENCE_KIT);
    // 300 mL in the cup less 15 that stay, at 150 mL/min.
    let flow = 150e-6 / 60.0;
    assert!((kit.seconds_to_dry(0.5, flow).unwrap() - 114.0).abs() < 1e-9);
    assert_eq!(kit.seconds_to_dry(0.5, 0.0), None);
    assert_eq!(kit.fills(0.5, 285e-6), Some(1));
    assert_eq!(kit.fills(0.5, 286e-6), Some(2));
    assert_eq!(kit.fills(0.5, (285.0 + 2.0 * 585.0 + 1.0) * 1e-6), Some(4));
    let mut none = kit.clone();
    none.residue = none.cup_volume;
    assert_eq!(none.fills(1.0, 1e-6), None);
    assert_eq!(Warning::runs_dry(&kit, 0.5, flow, 113.9), None);
    let said = Warning::runs_dry(&kit, 0.5, flow, 300.0).unwrap().to_string();
    assert_eq!(said, "the cup runs dry after 114 s of pulled trigger: 2 fills for this job");
}

#[test]
fn overhead_only_a_pot_is_right() {
    for kit in kits() {
        assert_eq!(Warning::overhead(&kit, 99f64.to_radians()), None);
        assert_eq!(Warning::overhead(&kit, 101f64.to_radians()).is_some(), kit.feed != Feed::Pressure);
    }
}

#[test]
fn a_blocked_vent_starves_the_gun_within_seconds() {
    let (kit, c) = (of(REFERENCE_KIT), Constants::STANDARD);
    let paint = own_paint(&kit);
    let setting = kit.rated();
    let annulus = at(&kit, &setting).air.annulus;
    let after = |seconds| ClosedCup::after(seconds, &kit, &setting, &paint, &annulus, &c);
    let open = at(&kit, &setting).paint_flow;
    assert_eq!(after(0.0).flow, open);
    let mut last = open;
    for seconds in [1.0, 3.0, 10.0, 30.0, 120.0] {
        let now = after(seconds);
        assert!(now.flow < last && now.left < open * seconds, "{seconds} s {now:?}");
        last = now.flow;
    }
    // It stops where the underpressure has eaten up the drive: 6 kPa is a sixteenth of the 300 mL of air above.
    let end = after(300.0);
    let drive = crate::gun::drive(&kit, &setting, &paint, &annulus, &c);
    assert!(end.flow < 0.02 * open && (end.underpressure / drive - 1.0).abs() < 0.05, "{end:?} {drive}");
    assert!((end.underpressure - underpressure(300e-6, end.left)).abs() < 1e-6);
    // Isothermal: 300 mL grown by 20 has 101325 * 20 / 320 Pa less (computed).
    assert!((underpressure(300e-6, 20e-6) - 6332.8).abs() < 0.1);
    // A fuller cup has less air above its paint and stops sooner.
    let full = GunSetting { cup_level: 0.9, ..setting.clone() };
    assert!(ClosedCup::after(300.0, &kit, &full, &paint, &annulus, &c).left < 0.3 * end.left);
    // A pot is not vented.
    let pot = of("hvlp-pressure-1.0");
    let s = at(&pot, &pot.rated());
    let closed = ClosedCup::after(30.0, &pot, &pot.rated(), &own_paint(&pot), &s.air.annulus, &c);
    assert!((closed.flow / s.paint_flow - 1.0).abs() < 1e-9);
}

#[test]
fn paint_too_thick_for_the_tip_is_told() {
    let kit = of("airbrush-gravity-0.2");
    let mut thick = own_paint(&kit);
    thick.viscosity *= 8.0;
    thick.viscosity_high_shear *= 8.0;
    let s = state(&kit, &kit.rated(), &thick, &BOOTH).unwrap();
    assert!(matches!(s.warnings[0], Warning::TooThick(q) if q > 0.0), "{:?}", s.warnings);
    // A knob nearly shut is not thick paint.
    let kit = of(REFERENCE_KIT);
    assert!(at(&kit, &GunSetting { fluid: 0.05, ..kit.rated() }).warnings.is_empty());
}

#[test]
fn a_kit_can_do_the_paints_whose_sheets_name_its_tip() {
    let model = Model::default();
    let (mut pairs, mut misses) = (0, Vec::new());
    for kit in kits().into_iter().filter(|k| k.feed == Feed::Gravity && k.tip_bore > 0.9e-3) {
        for data in catalogue::paints() {
            let [low, high] = data.sheet.tip;
            if kit.tip_bore < low - 1e-6 || kit.tip_bore > high + 1e-6 {
                continue;
            }
            pairs += 1;
            let paint = catalogue::paint(data.id).unwrap();
            if !model.can_spray(&kit, &paint, &BOOTH).unwrap() {
                misses.push(format!(
                    "{} {}: {:?}",
                    kit.id,
                    data.id,
                    state(&kit, &kit.rated(), &paint, &BOOTH).unwrap().warnings
                ));
            }
        }
    }
    assert!(pairs > 20 && misses.is_empty(), "{pairs} pairs, misses: {misses:#?}");
}

#[test]
fn every_kit_has_its_own_paint_inside_its_window_and_a_fine_tip_refuses_thick_paint() {
    let (model, clear) = (Model::default(), catalogue::paint(REFERENCE_PAINT).unwrap());
    let window = |id: &str| model.viscosity_window(&of(id), &clear, &BOOTH).unwrap().unwrap();
    for kit in kits() {
        let w = model.viscosity_window(&kit, &own_paint(&kit), &BOOTH).unwrap().unwrap();
        let nu = own_paint(&kit).kinematic_viscosity();
        assert!(w[0] <= nu && nu <= w[1], "{}", kit.id);
    }
    // 30 s DIN 4 is too thick for the finest airbrush; primer of 35 s is none for it and one for a primer gun.
    assert!(window("airbrush-gravity-0.2")[1] < 124e-6);
    let (kit, booth) = (of("hvlp-gravity-1.8"), &BOOTH);
    assert!(model.viscosity_window(&kit, &own_paint(&kit), booth).unwrap().unwrap()[1] > 147e-6);
}
