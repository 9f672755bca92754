//! What gun and atomizer must show together: each kit's design point and which way it goes wrong.

use super::*;
use crate::gun::{Class, Fault, Faults, HVLP_LIMIT};
use crate::spray::Along;

const BOOTH: Booth = Booth::at(293.15, 0.5);

fn all_kits() -> Vec<Kit> {
    catalogue::kits().iter().map(catalogue::KitData::kit).collect()
}

/// Kits whose cap makes a fan: all but airbrushes.
fn kits_with_a_fan() -> Vec<Kit> {
    let kits: Vec<_> = all_kits().into_iter().filter(Kit::has_fan).collect();
    assert!(all_kits().iter().all(|k| k.has_fan() == (k.class != Class::Airbrush)));
    kits
}

/// The paint a kit is made for.
fn own_paint(kit: &Kit) -> Paint {
    catalogue::paint(&kit.rated_paint).unwrap()
}

fn clear() -> Paint {
    catalogue::paint(REFERENCE_PAINT).unwrap()
}

fn exponent(kit: &Kit, setting: &GunSetting, paint: &Paint) -> Option<f64> {
    match spray(kit, setting, paint, &BOOTH).unwrap().along {
        Along::Exponent(n) => Some(n),
        Along::Lobes { c, g } => {
            assert!(c >= g);
            None
        }
    }
}

#[test]
fn a_paint_lighter_than_its_solvents_is_refused() {
    let kit = catalogue::kit(REFERENCE_KIT).unwrap();
    let mut paint = catalogue::paint("waterborne-basecoat").unwrap();
    let own = spray(&kit, &kit.rated(), &paint, &BOOTH).unwrap();
    // What stays: by weight the paint less its solvents.
    let solids = |s: &Spray| (s.density - s.volatile_density * (1.0 - s.volume_solids)) / s.volume_solids;
    assert!(solids(&own) > LIGHTEST_SOLIDS, "{}", solids(&own));
    paint.density = 745.0;
    let refused = spray(&kit, &kit.rated(), &paint, &BOOTH).unwrap_err();
    assert_eq!((refused.key.as_str(), refused.value.as_str()), ("paint.density", "745 kg/m3"));
    assert!(refused.allowed.starts_with("at least"), "{}", refused.allowed);
}

/// Fine droplets of light solids once weighed less than nothing in warm air, and flew for hours: two random jobs of ten thousand.
#[test]
fn a_fine_droplet_weighs_something_to_the_end() {
    let kit = catalogue::kit(REFERENCE_KIT).unwrap();
    let mut paint = clear();
    paint.density = 700.0;
    let hot = Booth::at(273.15 + 50.0, 0.5);
    assert_eq!(spray(&kit, &kit.rated(), &paint, &hot).unwrap_err().key, "paint.density");
    for data in catalogue::paints() {
        let paint = catalogue::paint(data.id).unwrap();
        for celsius in [0.0, 25.0, 50.0] {
            let air = Booth::at(273.15 + celsius, 0.5);
            let s = spray(&kit, &kit.rated(), &paint, &air)
                .unwrap_or_else(|e| panic!("{} {celsius}: {e}", data.id));
            let left = 1.0 - s.evaporation.shrinking().0;
            assert!(s.density > s.volatile_density * (1.0 - left * left * left), "{} {celsius}", data.id);
        }
    }
}

#[test]
fn the_reference_set_up_has_the_reference_size() {
    let kit = catalogue::kit(REFERENCE_KIT).unwrap();
    for correlation in Correlation::PLAIN_JET {
        let model = Model { correlation, ..Model::default() };
        let s = model.spray(&kit, &kit.rated(), &clear(), &BOOTH).unwrap();
        assert!((s.sizes.sauter_uncut() / model.constants.sauter_reference - 1.0).abs() < 1e-12);
    }
}

#[test]
fn every_kit_is_balanced_at_its_design_point_and_goes_wrong_the_right_way() {
    for kit in kits_with_a_fan() {
        let (rated, paint) = (kit.rated(), own_paint(&kit));
        let n = exponent(&kit, &rated, &paint).unwrap();
        assert!((n - 1.5).abs() < 1e-9, "{}: {n}", kit.id);

        let cut = GunSetting { fluid: 0.5 * rated.fluid, ..rated.clone() };
        assert_eq!(exponent(&kit, &cut, &paint), None, "{}: fluid cut to half must split", kit.id);
        let more = GunSetting { inlet_pressure: 1.5 * rated.inlet_pressure, ..rated.clone() };
        assert_eq!(exponent(&kit, &more, &paint), None, "{}: half as much pressure again must split", kit.id);

        let closed = GunSetting { fan: 0.4, ..rated.clone() };
        let n = exponent(&kit, &closed, &paint).unwrap();
        assert!(n > 2.0, "{}: fan closed to 0.4 must be heavy in the centre, {n}", kit.id);
        let mut thick = paint.clone();
        thick.viscosity *= 2.0;
        thick.viscosity_high_shear *= 2.0;
        let n = exponent(&kit, &rated, &thick).unwrap();
        assert!(n > 2.0, "{}: thick paint must be heavy in the centre, {n}", kit.id);
    }
}

#[test]
fn kits_use_the_air_pressure_and_paint_of_their_class() {
    // Inlet bar, free air L/min, cap bar, paint mL/min: common practice, no source (docs/methods/gun.md).
    let wanted = [
        ("hvlp-gravity-1.3", [280.0, 430.0], [0.55, HVLP_LIMIT * 1e-5], [140.0, 200.0]),
        ("lvlp-gravity-1.2", [100.0, 200.0], [0.3, HVLP_LIMIT * 1e-5], [90.0, 180.0]),
        ("conventional-gravity-1.4", [200.0, 350.0], [1.0, 3.0], [150.0, 210.0]),
        ("touchup-gravity-0.8", [60.0, 150.0], [0.3, 2.0], [30.0, 90.0]),
    ];
    for (id, air, cap, paint) in wanted {
        let kit = catalogue::kit(id).unwrap();
        let s = state(&kit, &kit.rated(), &clear(), &BOOTH).unwrap();
        let inside = |value: f64, [low, high]: [f64; 2], what: &str| {
            assert!((low..=high).contains(&value), "{id}: {what} {value}");
        };
        inside(s.free_air_l_min(), air, "free air");
        inside(s.cap_bar(), cap, "cap");
        inside(s.fluid_ml_min(), paint, "paint");
        assert!(s.warnings.is_empty(), "{id}: {:?}", s.warnings);
        assert_eq!(s.hvlp, !id.starts_with("conventional") && !id.starts_with("touchup"), "{id}");
    }
    // A 1.3 mm gravity tip over the usual range of 16-20 s DIN 4.
    let kit = catalogue::kit(REFERENCE_KIT).unwrap();
    let mut last = f64::INFINITY;
    for seconds in [16.0, 18.0, 20.0] {
        let nu = crate::flow_cup::Cup::Din4.viscosity(seconds).unwrap().value;
        let paint = clear().with_kinematic_viscosity(nu).unwrap();
        let flow = state(&kit, &kit.rated(), &paint, &BOOTH).unwrap().fluid_ml_min();
        assert!((140.0..=200.0).contains(&flow) && flow < last, "{seconds} s: {flow} mL/min");
        last = flow;
    }
}

#[test]
fn opening_the_fan_drops_cap_pressure_and_widens_it() {
    for kit in kits_with_a_fan() {
        let (mut cap, mut slope) = (f64::INFINITY, -1.0);
        for i in 0..=10 {
            let setting = GunSetting { fan: f64::from(i) / 10.0, ..kit.rated() };
            let st = state(&kit, &setting, &clear(), &BOOTH).unwrap();
            let sp = spray(&kit, &setting, &clear(), &BOOTH).unwrap();
            assert!(st.air.cap_pressure < cap && sp.fan_slope > slope, "{} {i}", kit.id);
            (cap, slope) = (st.air.cap_pressure, sp.fan_slope);
        }
        assert!((0.33..=0.52).contains(&slope), "{}: {slope}", kit.id);
    }
}

#[test]
fn mass_is_balanced_and_more_fluid_knob_is_more_paint() {
    for kit in all_kits() {
        let rated = kit.rated();
        let air = state(&kit, &rated, &own_paint(&kit), &BOOTH).unwrap().air;
        let inlet = crate::air::ROOM_PRESSURE + rated.inlet_pressure;
        let cap = crate::air::ROOM_PRESSURE + air.cap_pressure;
        let inflow = crate::air::orifice(kit.inlet_area, inlet, cap, BOOTH.temperature);
        assert!((inflow / (air.annulus.mass_flow + air.horns.mass_flow) - 1.0).abs() < 1e-9);
        let mut last = 0.0;
        for i in 1..=20 {
            let setting = GunSetting { fluid: f64::from(i) / 20.0, ..rated.clone() };
            let flow = state(&kit, &setting, &own_paint(&kit), &BOOTH).unwrap().paint_flow;
            assert!(flow > last);
            last = flow;
        }
        // The last turn adds little.
        let at =
            |fluid| state(&kit, &GunSetting { fluid, ..rated.clone() }, &clear(), &BOOTH).unwrap().paint_flow;
        assert!(at(1.0) - at(0.8) < 0.2 * (at(0.6) - at(0.0)));
    }
}

#[test]
fn warnings_name_what_is_wrong() {
    let kit = catalogue::kit(REFERENCE_KIT).unwrap();
    let warned = |setting: GunSetting| state(&kit, &setting, &clear(), &BOOTH).unwrap().warnings;
    let rated = kit.rated();
    let high = warned(GunSetting { inlet_pressure: 3e5, ..rated.clone() });
    assert!(matches!(high[..], [Warning::OverHvlpLimit(_)]) && high[0].to_string().contains("10 psi"));
    assert_eq!(warned(GunSetting { fluid: 0.0, ..rated.clone() }), [Warning::NeedleShut]);
    assert_eq!(warned(GunSetting { trigger: 0.2, ..rated.clone() }), [Warning::NeedleShut]);
    assert_eq!(warned(GunSetting { trigger: 0.0, ..rated.clone() }), [Warning::TriggerReleased]);
    let weak = warned(GunSetting { inlet_pressure: 0.1e5, fluid: 1.0, ..rated.clone() });
    assert!(matches!(weak[..], [Warning::WeakAir(..)]), "{weak:?}");
    let mut wide = kit.clone();
    (wide.tip_bore, wide.needle_travel) = (2.6e-3, 6e-3);
    let much = state(&wide, &rated, &clear(), &BOOTH).unwrap().warnings;
    assert!(much.iter().any(|w| matches!(w, Warning::Flooded(_))), "{much:?}");
    let mut suction = kit.clone();
    suction.cup_head = -0.12;
    let low = GunSetting { inlet_pressure: 0.1e5, ..rated };
    assert_eq!(state(&suction, &low, &clear(), &BOOTH).unwrap().warnings, [Warning::NoPaint]);
}

#[test]
fn bad_values_are_refused_by_name() {
    let kit = catalogue::kit(REFERENCE_KIT).unwrap();
    let refused = |change: &dyn Fn(&mut GunSetting)| {
        let mut setting = kit.rated();
        change(&mut setting);
        spray(&kit, &setting, &clear(), &BOOTH).unwrap_err().to_string()
    };
    assert_eq!(
        refused(&|s| s.inlet_pressure = 9e5),
        "gun.inlet_pressure: 9 bar is not possible; allowed: 0.1 to 5 bar"
    );
    assert!(refused(&|s| s.fan = f64::NAN).starts_with("gun.fan: NaN"));
    assert!(refused(&|s| s.fluid = -0.1).starts_with("gun.fluid: -0.1"));
    assert!(refused(&|s| s.trigger = f64::INFINITY).starts_with("gun.trigger: inf"));
    let damp = Booth { humidity: 1.5, ..BOOTH };
    assert!(spray(&kit, &kit.rated(), &clear(), &damp).unwrap_err().key.contains("booth.humidity"));
    let mut solid = clear();
    solid.volume_solids = 0.9;
    assert!(spray(&kit, &kit.rated(), &solid, &BOOTH).unwrap_err().key.contains("paint.solvents"));
}

/// All faults that a kit can have.
fn every_fault(kit: &Kit) -> Faults {
    let can = |f: &Fault| Faults::NONE.with(*f).check(kit).is_ok();
    Fault::ALL.into_iter().filter(can).fold(Faults::NONE, Faults::with)
}

fn with(kit: &Kit, faults: &[Fault]) -> GunSetting {
    GunSetting { faults: faults.iter().copied().fold(Faults::NONE, Faults::with), ..kit.rated() }
}

#[test]
fn each_fault_moves_what_its_passage_moves() {
    let kit = catalogue::kit(REFERENCE_KIT).unwrap();
    let of = |faults: &[Fault]| spray(&kit, &with(&kit, faults), &clear(), &BOOTH).unwrap();
    let sound = of(&[]);
    assert!(sound.askew.is_none() && sound.slugs.is_none());
    let left = of(&[Fault::HornLeftBlocked]);
    let right = of(&[Fault::HornRightBlocked]);
    assert!(left.askew.bow < -sound.ray_spread && right.askew.bow == -left.askew.bow, "{:?}", left.askew);
    assert!(left.fan_slope < sound.fan_slope, "what no hole answers does not press the fan flat");
    let dirt = of(&[Fault::CapDirty]);
    assert!(dirt.askew.along > 0.1 && dirt.sizes.sauter() > 1.05 * sound.sizes.sauter(), "{:?}", dirt.askew);
    assert!(of(&[Fault::TipNicked]).askew.along > 0.1);
    let worn = of(&[Fault::TipWorn]);
    assert!(worn.askew.along < -0.1 && worn.volume_flow > 1.2 * sound.volume_flow);
    let leak = of(&[Fault::TipPassageLeaks]);
    let plugs = leak.slugs.unwrap();
    assert!(plugs.share > 0.3 && plugs.sizes.sauter() > 5.0 * sound.sizes.sauter());
    assert!((leak.volume_flow / sound.volume_flow - 0.65).abs() < 1e-9);
    // Gravity holds the passage at the packing above the room's pressure: it drips. A cup below draws air there.
    let loose = of(&[Fault::PackingLoose]);
    assert!(loose.slugs.is_none() && loose.volume_flow < sound.volume_flow);
    let mut below = kit.clone();
    (below.feed, below.cup_head) = (crate::gun::Feed::Suction, -0.08);
    let drawn = spray(&below, &with(&below, &[Fault::PackingLoose]), &clear(), &BOOTH).unwrap();
    assert!(drawn.slugs.is_some_and(|s| s.share > 0.1));
}

#[test]
fn a_blocked_vent_lets_the_flow_die() {
    let kit = catalogue::kit(REFERENCE_KIT).unwrap();
    let flow = |held: f64, faults: &[Fault]| {
        let setting = GunSetting { held, ..with(&kit, faults) };
        state(&kit, &setting, &clear(), &BOOTH).unwrap()
    };
    let sound = flow(1.0, &[]).paint_flow;
    let mut last = sound;
    for held in [0.5, 2.0, 5.0, 10.0, 30.0] {
        let s = flow(held, &[Fault::CupVentBlocked]);
        assert!(s.paint_flow < last, "{held}");
        assert!(s.warnings.iter().any(|w| w.to_string().contains("vent")));
        last = s.paint_flow;
    }
    assert!(last < 0.4 * sound, "{}", last / sound);
    // The air over a half-full cup gives about 6 % of its volume before the drive is gone: closed form V0 dp/(pa - dp).
    let all = last * 30.0;
    let air = 0.5 * kit.cup_volume;
    let annulus = flow(1.0, &[]).air.annulus;
    let drive = crate::gun::drive(&kit, &kit.rated(), &clear(), &annulus, &Constants::STANDARD);
    assert!(all <= air * drive / (crate::air::ROOM_PRESSURE - drive), "{all}");
}

#[test]
fn faults_that_a_gun_cannot_have_are_refused() {
    let mut kit = catalogue::kit(REFERENCE_KIT).unwrap();
    kit.fan_valve_area = 0.0;
    let horn = with(&kit, &[Fault::HornLeftBlocked]);
    let error = spray(&kit, &horn, &clear(), &BOOTH).unwrap_err().to_string();
    assert!(error.starts_with("gun.faults: \"horn-left-blocked\" is not possible"), "{error}");
    kit.feed = crate::gun::Feed::Pressure;
    let vent = with(&kit, &[Fault::CupVentBlocked]);
    assert!(spray(&kit, &vent, &clear(), &BOOTH).unwrap_err().to_string().contains("no cup with a vent"));
}

#[test]
fn all_is_finite_over_the_whole_range_of_the_knobs() {
    let paints = [clear(), catalogue::paint("solvent-basecoat").unwrap()];
    for kit in all_kits() {
        for paint in &paints {
            for i in 0..4 * 3 * 3 * 3 {
                let setting = GunSetting {
                    inlet_pressure: [0.1e5, 0.5e5, 2e5, kit.highest_pressure][i % 4],
                    fan: [0.0, 0.01, 1.0][i / 4 % 3],
                    fluid: [0.0, 0.02, 1.0][i / 12 % 3],
                    trigger: [0.0, 0.3, 1.0][i / 36],
                    faults: [Faults::NONE, every_fault(&kit)][i % 2],
                    ..kit.rated()
                };
                let s = spray(&kit, &setting, paint, &BOOTH).unwrap();
                let numbers = [s.axial_momentum, s.exit_speed, s.fan_slope, s.ray_spread, s.volume_flow];
                assert!(numbers.iter().all(|x| x.is_finite() && *x >= 0.0), "{} {setting:?} {s:?}", kit.id);
                assert!(s.sizes.sauter() > s.sizes.smallest && s.sizes.sauter() < 1e-3, "{setting:?}");
                let a = s.askew;
                assert!(
                    [a.along, a.lean, a.bow, a.across].iter().all(|x| x.is_finite() && x.abs() < 1.5),
                    "{a:?}"
                );
                let shape = match s.along {
                    Along::Exponent(n) => (0.0..=8.0).contains(&n),
                    Along::Lobes { c, g } => c >= g && g > 0.0 && c < 1.0,
                };
                assert!(shape, "{setting:?} {:?}", s.along);
            }
        }
    }
}
