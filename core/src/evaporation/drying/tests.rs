//! Curves of the catalogue's paints, and which way they go.

use super::*;

const AIR: DryingAir = DryingAir { temperature: 293.15, humidity: 0.5 };

#[test]
fn curves_fall_from_one_towards_the_solids_in_few_knots() {
    for data in crate::catalogue::paints() {
        let paint = crate::catalogue::paint(data.id).unwrap();
        let drying = Drying::new(&paint, AIR).unwrap();
        let (curve, steps) = (drying.curve(), drying.history());
        let knots = curve.exposure.len();
        assert!((64..=KNOTS).contains(&knots), "{}: {knots}", data.id);
        let rising = curve.exposure.windows(2).all(|w| w[1] > w[0]);
        assert!(rising && curve.volume.windows(2).all(|w| w[1] < w[0]));
        assert!(curve.volume[0] == 1.0 && *curve.volume.last().unwrap() > paint.volume_solids);
        // Straight lines between knots stay with the run to a thousandth of the volume.
        for s in &steps {
            assert!((curve.volume_at(s[0]) - s[1]).abs() < 1e-3, "{} at {:e}", data.id, s[0]);
        }
        // Damp air gives a little water back to a co-solvent left alone: that warms by hundredths of a degree.
        let coldest = steps.iter().fold(f64::INFINITY, |low, s| low.min(s[2])) - 273.15;
        let warmest = steps.iter().fold(0.0, |high: f64, s| high.max(s[2])) - 273.15;
        assert!(coldest > 0.0 && warmest < 20.1, "{}: {coldest} to {warmest} C", data.id);
    }
}

#[test]
fn resin_slows_drying_and_warm_air_hastens_it() {
    let paint = crate::catalogue::paint("two-pack-clear").unwrap();
    let at = |air: DryingAir| Drying::new(&paint, air).unwrap().curve().volume_at(6e7);
    assert!(at(DryingAir { temperature: 303.15, ..AIR }) < at(AIR));
    let mut pure = paint.clone();
    pure.volume_solids = 0.0;
    let scale = 1.0 / (1.0 - paint.volume_solids);
    for s in &mut pure.solvents {
        s.volume_share *= scale;
    }
    let lost = 1.0 - Drying::new(&pure, AIR).unwrap().curve().volume_at(6e7);
    assert!(1.0 - at(AIR) < lost);
}

#[test]
fn water_in_damp_air_stops_drying_and_solids_alone_do_not_dry() {
    let mut paint = crate::catalogue::paint("two-pack-clear").unwrap();
    paint.solvents.truncate(1);
    paint.solvents[0] =
        crate::paint::Solvent { name: "water".to_owned(), volume_share: 1.0 - paint.volume_solids };
    let damp = Drying::new(&paint, DryingAir { humidity: 1.0, ..AIR }).unwrap().curve();
    assert!(damp.volume.iter().all(|v| v.is_finite() && *v > 0.95));
    paint.solvents.clear();
    paint.volume_solids = 1.0;
    let solid = Drying::new(&paint, AIR).unwrap().curve();
    assert_eq!(solid.volume_at(1e9), 1.0);
}

#[test]
fn the_first_step_follows_the_first_rate() {
    let paint = crate::catalogue::paint("solvent-basecoat").unwrap();
    let drying = Drying::new(&paint, AIR).unwrap();
    let start = Droplet { mass: drying.start, temperature: drying.first_temperature };
    let rate = drying.rate(&start);
    let slope: f64 = drying.volatiles.iter().zip(rate.mass).map(|(v, m)| m / v.density).sum();
    let first = drying.history()[1];
    assert!(((first[1] - 1.0) / first[0] / slope - 1.0).abs() < 1e-2);
}
