//! Every class ready to spray, its thinners, and the guns it takes.

use crate::catalogue::{kit, paints, recipe};
use crate::evaporation::{Drying, DryingAir, Volatile};
use crate::flow_cup::Cup;
use crate::job::Booth;
use crate::paint::{Paint, ThinnerSpeed};
use crate::set_up;

const AIR: DryingAir = DryingAir { temperature: 293.15, humidity: 0.5 };

fn thinned(id: &str, speed: ThinnerSpeed) -> Paint {
    let recipe = recipe(id).unwrap().thinned_with(speed);
    recipe.mixed(&recipe.usual).unwrap()
}

/// Volume solids of what lands, of droplets with this exposure [s/m2].
fn landing(paint: &Paint, air: DryingAir, exposure: f64) -> f64 {
    paint.volume_solids / Drying::new(paint, air).unwrap().curve().volume_at(exposure)
}

/// Density kg/m3, volume solids, mPa s at a shear rate, ready to spray: common practice, some seen on data sheets.
#[test]
fn every_class_comes_out_as_the_trade_knows_it() {
    let wanted = [
        ("two-pack-clear", [980.0, 1020.0], [0.40, 0.50], [40.0, 70.0], 100.0),
        ("solvent-basecoat", [960.0, 1200.0], [0.10, 0.20], [30.0, 60.0], 100.0),
        ("waterborne-basecoat", [1000.0, 1100.0], [0.12, 0.20], [60.0, 120.0], 1e3),
        ("epoxy-primer", [1250.0, 1400.0], [0.37, 0.53], [80.0, 150.0], 100.0),
        ("primer-surfacer", [1300.0, 1500.0], [0.40, 0.50], [100.0, 200.0], 100.0),
        ("single-stage-enamel", [1000.0, 1200.0], [0.35, 0.45], [45.0, 90.0], 100.0),
        ("two-pack-sealer", [1150.0, 1250.0], [0.35, 0.45], [50.0, 90.0], 100.0),
        ("zinc-rich-primer", [2200.0, 2800.0], [0.45, 0.60], [150.0, 400.0], 100.0),
        ("alkyd-enamel", [950.0, 1200.0], [0.38, 0.48], [70.0, 140.0], 100.0),
        ("wood-lacquer-solvent", [900.0, 970.0], [0.15, 0.27], [45.0, 90.0], 100.0),
        ("wood-lacquer-water", [1000.0, 1060.0], [0.25, 0.36], [80.0, 160.0], 100.0),
        ("stain", [840.0, 900.0], [0.05, 0.22], [8.0, 20.0], 100.0),
    ];
    assert_eq!(wanted.len(), paints().len());
    for (data, (id, density, solids, viscosity, rate)) in paints().iter().zip(wanted) {
        assert_eq!(data.id, id);
        let p = crate::catalogue::paint(id).unwrap();
        let inside = |x: f64, [low, high]: [f64; 2], what: &str| {
            assert!((low..=high).contains(&x), "{id}: {what} {x}");
        };
        inside(p.density, density, "density");
        inside(p.volume_solids, solids, "solids");
        inside(p.viscosity_at(rate) * 1e3, viscosity, "mPa s");
        let seconds = Cup::Din4.seconds(p.kinematic_viscosity()).unwrap().value;
        inside(seconds, data.sheet.cup_seconds, "DIN 4 seconds against the class's own window");
        assert_eq!(data.hardener.is_some(), data.sheet.pot_life.is_some(), "{id}: pot life");
        assert!(!p.isocyanate || data.hardener.is_some());
        assert!(data.usual.2 > 0.0, "{id}: no thinner, so its speed would change nothing");
        // Wet film of a coat, from its dry film: 20-160 um.
        let wet = [p.dry_film_per_coat[0] / p.volume_solids, p.dry_film_per_coat[1] / p.volume_solids];
        assert!(wet[0] > 19e-6 && wet[1] < 160e-6 && wet[0] < wet[1], "{id}: wet {wet:?}");
    }
}

/// The thinners' densities are those of their solvents, and fast, medium, slow stand in the order of their rates.
#[test]
fn thinners_are_what_their_solvents_make_them() {
    for data in paints() {
        let mut last = f64::INFINITY;
        for tin in [&data.fast, &data.thinner, &data.slow] {
            let (mut sum, mut density, mut rate) = (0.0, 0.0, 0.0);
            for (name, share) in tin.solvents {
                let v = Volatile::named(name).unwrap();
                sum += share;
                density += share * v.density;
                rate += share * v.relative_rate;
            }
            assert!((sum - 1.0).abs() < 1e-9, "{}", data.id);
            assert!((tin.density.value / density - 1.0).abs() < 5e-3, "{}: {density}", data.id);
            assert!(rate < last, "{}: {rate} after {last}", data.id);
            last = rate;
        }
    }
}

/// A faster thinner, a warmer booth, smaller droplets and a longer way each land drier.
#[test]
fn what_lands_is_drier_for_the_reasons_painters_know() {
    // 30 um on the way for 15 ms: (Sh/2) about 2.
    let exposure = |d: f64, t: f64| 2.0 * t / (d * d);
    let usual = exposure(30e-6, 0.015);
    for data in paints() {
        let [fast, medium, slow] =
            ThinnerSpeed::ALL.map(|speed| landing(&thinned(data.id, speed), AIR, usual));
        assert!(fast > medium && medium > slow, "{}: {fast} {medium} {slow}", data.id);
        let p = thinned(data.id, ThinnerSpeed::Medium);
        let warm = landing(&p, DryingAir { temperature: 303.15, ..AIR }, usual);
        assert!(warm > medium, "{}: warm {warm} against {medium}", data.id);
        assert!(landing(&p, AIR, exposure(20e-6, 0.015)) > medium, "{}", data.id);
        assert!(landing(&p, AIR, exposure(30e-6, 0.022)) > medium, "{}", data.id);
        assert!(medium > p.volume_solids && fast < 1.0, "{}", data.id);
    }
}

/// Each class flows and breaks up in a gravity gun with a tip of its window; the thick ones do so much less in a small tip.
#[test]
fn thick_classes_spray_with_a_tip_that_fits() {
    let booth = Booth::at(293.15, 0.5);
    for data in paints() {
        let p = crate::catalogue::paint(data.id).unwrap();
        let mut gun = kit("hvlp-gravity-1.3").unwrap();
        gun.tip_bore = 0.5 * (data.sheet.tip[0] + data.sheet.tip[1]);
        let state = set_up::state(&gun, &gun.rated(), &p, &booth).unwrap();
        let flow = state.fluid_ml_min();
        assert!((60.0..=350.0).contains(&flow), "{}: {flow} mL/min", data.id);
        let spray = set_up::spray(&gun, &gun.rated(), &p, &booth).unwrap();
        let sauter = spray.sizes.sauter() * 1e6;
        assert!((10.0..=60.0).contains(&sauter), "{}: {sauter} um", data.id);
        gun.tip_bore = 0.8e-3;
        let small = set_up::state(&gun, &gun.rated(), &p, &booth).unwrap().fluid_ml_min();
        assert!(small < 0.6 * flow, "{}: {small} of {flow}", data.id);
    }
}

/// For each class the catalogue has a gravity kit with a tip of its window, out of which it flows and breaks up well enough
/// at the rated setting, or with the fluid knob cut by a third.
#[test]
fn every_class_has_a_kit_that_sprays_it() {
    let booth = Booth::at(293.15, 0.5);
    for data in paints() {
        let p = crate::catalogue::paint(data.id).unwrap();
        let mut found = Vec::new();
        for kit in crate::catalogue::kits().iter().map(|k| k.kit()) {
            let [low, high] = data.sheet.tip;
            if kit.feed != crate::gun::Feed::Gravity || !(low - 1e-9..=high + 1e-9).contains(&kit.tip_bore) {
                continue;
            }
            for cut in [1.0, 0.67] {
                let mut setting = kit.rated();
                setting.fluid *= cut;
                let state = set_up::state(&kit, &setting, &p, &booth).unwrap();
                if state.warnings.is_empty() && state.fluid_ml_min() > 40.0 {
                    found.push(kit.id.clone());
                    break;
                }
            }
        }
        assert!(!found.is_empty(), "{}: no kit sprays it without a warning", data.id);
    }
}
