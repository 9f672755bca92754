//! What a kit from its box must keep.

use super::*;
use crate::gun::HVLP_LIMIT;
use crate::job::Booth;

const EXAMPLE: BoxFigures = BoxFigures {
    class: None,
    feed: None,
    air: 280.0 / 60_000.0,
    at: 2e5,
    tip: 1.3e-3,
    fan: Some([0.280, 0.200]),
};

fn air_of(kit: &Kit) -> GunAir {
    GunAir::through(kit, kit.rated_pressure, 1.0, 1.0, TWENTY_C)
}

fn slope(kit: &Kit) -> f64 {
    let air = air_of(kit);
    let c = crate::constants::Constants::STANDARD;
    crate::atomizer::fan_slope(&air.annulus, &air.horns, kit.horn_angle, 1.0, &c)
}

#[test]
fn the_kit_uses_the_air_of_its_box_and_opens_its_fan() {
    let BoxKit { kit, spread } = from_box(&EXAMPLE).unwrap();
    assert_eq!((kit.class, kit.feed), (Class::Hvlp, Feed::Gravity));
    let air = air_of(&kit);
    assert!((air.free_air() / EXAMPLE.air - 1.0).abs() < 1e-6, "{}", air.free_air());
    assert!((0.3e5..HVLP_LIMIT).contains(&air.cap_pressure), "{}", air.cap_pressure);
    assert!((fan::seen_height(slope(&kit), 0.2) / 0.280 - 1.0).abs() < 1e-4);
    let changes: Vec<_> = spread.iter().map(|n| n.change).collect();
    // The fan is near the widest that the model opens: no wider neighbour. Figures of two classes: the other is a neighbour.
    assert_eq!(
        changes,
        ["air down", "air up", "cap down", "cap up", "fan down", "flow down", "flow up", "class"]
    );
    let of = |change: &str| &spread.iter().find(|n| n.change == change).unwrap().kit;
    assert!(air_of(of("air up")).free_air() > 1.1 * air.free_air());
    assert!(air_of(of("cap down")).cap_pressure < 0.9 * air.cap_pressure);
    assert!(slope(of("fan down")) < 0.95 * slope(&kit));
    assert_eq!(of("class").class, Class::Compliant);
    let booth = Booth::at(293.15, 0.5);
    let flow = |kit: &Kit| {
        let paint = catalogue::paint(&kit.rated_paint).unwrap();
        crate::set_up::state(kit, &kit.rated(), &paint, &booth).unwrap().fluid_ml_min()
    };
    assert!((140.0..=200.0).contains(&flow(&kit)), "{}", flow(&kit));
    assert!(flow(of("flow up")) > 1.1 * flow(&kit) && flow(of("flow down")) < 0.9 * flow(&kit));
}

/// A kit of the catalogue put on a box comes back: air, cap and areas.
#[test]
fn every_kit_of_the_catalogue_comes_back_from_its_own_box() {
    for data in catalogue::kits() {
        let kit = data.kit();
        let air = air_of(&kit);
        let fan = kit.has_fan().then(|| [fan::seen_height(slope(&kit), 0.2), 0.2]);
        let figures = BoxFigures {
            class: Some(kit.class),
            feed: Some(kit.feed),
            air: air.free_air(),
            at: kit.rated_pressure,
            tip: kit.tip_bore,
            fan,
        };
        let back = from_box(&figures).unwrap().kit;
        let again = air_of(&back);
        assert!((again.free_air() / air.free_air() - 1.0).abs() < 1e-6, "{}", kit.id);
        assert!((again.cap_pressure / air.cap_pressure - 1.0).abs() < 0.02, "{}: {again:?}", kit.id);
        for (a, b) in [(back.annulus_area, kit.annulus_area), (back.inlet_area, kit.inlet_area)] {
            assert!((a / b - 1.0).abs() < 0.03, "{}: {a} {b}", kit.id);
        }
        // Its class is told by the figures alone, or is the runner-up.
        let (first, other) = deduced(&BoxFigures { class: None, ..figures }).unwrap();
        assert!(first == kit.class || other == Some(kit.class), "{}: {first:?} {other:?}", kit.id);
    }
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let refused = |f: BoxFigures| from_box(&f).unwrap_err();
    let e = refused(BoxFigures { fan: Some([0.5, 0.2]), ..EXAMPLE });
    assert!(e.key == "gun.box.fan" && e.to_string().contains("500 mm at 200 mm"), "{e}");
    let e = refused(BoxFigures { air: 50.0 / 60_000.0, at: 4e5, ..EXAMPLE });
    assert!(e.key == "gun.class" && e.allowed.contains("conventional (200-420 L/min at 3.0-4.5 bar)"), "{e}");
    let brush = BoxFigures { air: 15.0 / 60_000.0, at: 1.8e5, tip: 0.3e-3, ..EXAMPLE };
    assert!(refused(brush).to_string().contains("airbrush sprays a round spot"));
    assert!(from_box(&BoxFigures { fan: None, ..brush }).is_ok());
    for (f, key) in [
        (BoxFigures { air: f64::NAN, ..EXAMPLE }, "gun.box.air"),
        (BoxFigures { at: 0.0, ..EXAMPLE }, "gun.box.at"),
        (BoxFigures { tip: 4e-3, ..EXAMPLE }, "gun.box.tip"),
        (BoxFigures { fan: Some([0.28, 2.0]), ..EXAMPLE }, "gun.box.fan_at"),
    ] {
        assert_eq!(refused(f).key, key);
    }
    let weak = BoxFigures { class: Some(Class::Hvlp), feed: Some(Feed::Suction), at: 0.3e5, ..EXAMPLE };
    let e = refused(BoxFigures { air: 60.0 / 60_000.0, fan: None, ..weak });
    assert!(e.key == "gun.box.at" && e.allowed.contains("lifts the paint"), "{e}");
}
