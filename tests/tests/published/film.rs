//! Film, coverage and solvent arithmetic.

use crate::table::{close, number, rows};
use mistcoat::evaporation::Voc;
use mistcoat::paint::film_arithmetic as film;
use mistcoat::units::{Quantity, parse};

fn si(quantity: Quantity, value: f64, unit: &str) -> f64 {
    parse(quantity, &format!("{value} {unit}")).unwrap()
}

fn computed(what: &str, x: &[f64]) -> f64 {
    let um = 1e-6;
    match (what, x) {
        ("coverage-us", [solids, mil]) => {
            film::square_feet_per_gallon(film::coverage(*solids, si(Quantity::Film, *mil, "mil")))
        }
        ("coverage", [solids, dry]) => film::coverage(*solids, dry * um) * 1e-3,
        ("wet-us", [gallons, feet]) => {
            let (v, a) = (si(Quantity::Volume, *gallons, "gal"), si(Quantity::Area, *feet, "ft2"));
            film::wet_film(v, a) / si(Quantity::Film, 1.0, "mil")
        }
        ("wet-for", [dry, solids]) => film::wet_film_for(*dry, *solids),
        ("thinned", [solids, thinning]) => film::thinned_solids(*solids, *thinning),
        ("wet-thinned", [dry, solids, thinning]) => {
            film::wet_film_for(*dry, film::thinned_solids(*solids, *thinning))
        }
        ("by-mass", [density, mass, volatile]) => {
            film::solids_by_volume(density * 1e3, *mass, volatile * 1e3).unwrap()
        }
        ("dry-density", [density, mass, volatile]) => {
            let solids = film::solids_by_volume(density * 1e3, *mass, volatile * 1e3).unwrap();
            film::dry_density(*density, *mass, solids)
        }
        ("wet", [litres, area, efficiency]) => film::wet_film(litres * 1e-3 * efficiency, *area) / um,
        ("litres", [area, dry, solids, efficiency, waste]) => {
            film::paint_for(*area, dry * um, *solids, *efficiency, *waste).unwrap() * 1e3
        }
        ("at-panel", [solids, lost]) => film::solids_at_panel(*solids, *lost),
        ("blend", [v1, c1, v2, c2]) => Voc::blended(&[(*v1, *c1), (*v2, *c2)]),
        ("voc-less-water" | "voc-actual", [all, water, volume, water_volume]) => {
            let voc = Voc::of_masses(all * 1e-3, water * 1e-3, 0.0, volume * 1e-3, water_volume * 1e-3, 0.0)
                .unwrap();
            if what == "voc-actual" { voc.actual } else { voc.less_water }
        }
        ("voc-by-share", [water, other, density]) => {
            Voc::of_masses(other * density, 0.0, 0.0, 1.0, *water, 0.0).unwrap().less_water
        }
        _ => panic!("{what} {x:?}"),
    }
}

#[test]
fn worked_examples() {
    for row in rows("film-arithmetic/worked.csv") {
        let inputs: Vec<f64> = row[1].split(' ').map(number).collect();
        close(&format!("{row:?}"), computed(&row[0], &inputs), number(&row[2]), number(&row[3]));
    }
}

#[test]
fn dry_film_of_wet_film_and_back() {
    // 1 m2/L = 40.745833 ft2/gal (exact definitions, computed).
    close("ft2/gal", film::square_feet_per_gallon(1e3), 40.745_833, 1e-8);
    for solids in [0.05, 0.4485, 1.0] {
        close("there and back", film::dry_film(film::wet_film_for(30e-6, solids), solids), 30e-6, 1e-12);
        close("no loss", film::solids_at_panel(solids, 0.0), solids, 1e-12);
    }
}

#[test]
fn impossible_paints_are_refused() {
    let e = film::solids_by_volume(1900.0, 0.3, 870.0).unwrap_err().to_string();
    assert!(e.contains("paint.mass_solids") && e.contains("0.3"), "{e}");
    assert!(film::solids_by_volume(f64::NAN, 0.3, 870.0).is_err());
    assert!(film::paint_for(1.0, 50e-6, 0.0, 0.5, 0.0).is_err());
    assert!(film::paint_for(1.0, 50e-6, 0.4, f64::NAN, 0.0).is_err());
    assert!(Voc::of_masses(1.0, 1.0, 0.0, 1.0, 1.0, 0.0).is_err());
    assert!(Voc::of_masses(f64::NAN, 0.0, 0.0, 1.0, 0.0, 0.0).is_err());
}

/// Clear and waterborne basecoat as the rules know them: US limits for topcoats and basecoats are 420-600 g/L less water.
#[test]
fn classes_lie_where_paints_lie() {
    for data in mistcoat::catalogue::paints() {
        let voc = Voc::of(&mistcoat::catalogue::paint(data.id).unwrap()).unwrap();
        let water = data.id.contains("water");
        assert!((10.0..900.0).contains(&voc.actual), "{}: {voc:?}", data.id);
        assert_eq!(voc.less_water > voc.actual * 1.001, water, "{}: {voc:?}", data.id);
        if water {
            assert!(voc.actual < 150.0 && voc.less_water < 500.0, "{}: {voc:?}", data.id);
        }
    }
}
