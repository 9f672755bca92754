//! Films on a slope: worked values computed from the thin film's closed forms, and the critical speed of sagging.

use crate::table::close;
use mistcoat::film::{CRITICAL_SPEED, GRAVITY, RUN, Slide};

fn film(density: f64, viscosity: f64) -> Slide {
    Slide::newtonian(density * GRAVITY, viscosity)
}

#[test]
fn speeds_stresses_and_fluxes_of_newtonian_films() {
    let f = film(1050.0, 0.1);
    close("wall stress", f.wall_stress(1e-4), 1.029_698, 1e-6);
    close("surface", f.surface_speed(1e-4), 5.148_491e-4, 1e-6);
    close("mean", f.mean_speed(1e-4), 3.432_328e-4, 1e-6);
    close("flux", f.flux(1e-4), 3.432_328e-8, 1e-6);
    close("50 um", f.surface_speed(50e-6), 1.287_123e-4, 1e-6);
    let f = film(1200.0, 0.2);
    close("150 um", f.surface_speed(150e-6), 6.619_489e-4, 1e-6);
    close("its stress", f.wall_stress(150e-6), 1.765_197, 1e-6);
    // Twice the film, eight times the flow (seen).
    close("flux by thickness", f.flux(2e-4) / f.flux(1e-4), 8.0, 1e-12);
}

#[test]
fn yield_stress_holds_a_film() {
    for (density, tau0, um) in
        [(1050.0, 0.5, 48.558), (1050.0, 1.0, 97.116), (1050.0, 2.0, 194.23), (1000.0, 40.0, 4079.0)]
    {
        let f = Slide { yield_stress: tau0, ..film(density, 0.1) };
        close("stands", f.stands() * 1e6, um, 1e-4);
        assert_eq!((f.flux(0.999 * f.stands()), f.surface_speed(0.999 * f.stands())), (0.0, 0.0));
        assert!(f.flux(1.001 * f.stands()) > 0.0);
    }
}

#[test]
fn films_at_the_critical_speed() {
    for (mu, um) in [(0.05, 69.68), (0.1, 98.55), (0.2, 139.37), (0.5, 220.36), (1.0, 311.63)] {
        close("limit", film(1050.0, mu).limit(CRITICAL_SPEED) * 1e6, um, 1e-4);
    }
    let thick = Slide { yield_stress: 0.5, index: 0.6, ..film(1050.0, 1.0) };
    close("with yield and shear thinning", thick.limit(CRITICAL_SPEED) * 1e6, 307.92, 1e-4);
    close("and back", thick.surface_speed(thick.limit(CRITICAL_SPEED)), CRITICAL_SPEED, 1e-12);
    // 400-600 um/s: the film differs by no more than a tenth either way.
    let f = film(1050.0, 0.1);
    for speed in [400e-6, 600e-6] {
        assert!((f.limit(speed) / f.limit(CRITICAL_SPEED) - 1.0).abs() < 0.11);
    }
}

#[test]
fn way_slid_while_the_viscosity_rises() {
    let f = film(1050.0, 0.1);
    close("10 s", f.slides(1e-4, 10.0) * 1e3, 5.148, 1e-3);
    close("60 s", f.slides(1e-4, 60.0) * 1e3, 30.89, 1e-3);
    // 40 um stands and 80 um runs where tau_v/mu0 is 50-190 s/(Pa s).
    for ratio in [52.0, 100.0, 190.0] {
        let f = film(1050.0, 1.0);
        assert!(f.slides(40e-6, ratio) < RUN && f.slides(80e-6, ratio) > RUN, "{ratio}");
    }
}

#[test]
fn tears_stand_some_millimetres_apart() {
    // 100 um of clear: 14 (1e-4 x 0.028/9806.65)^(1/3) = 9.2 mm; 3 Ca = (h/spacing x 14)^3.
    let f = film(1000.0, 0.3);
    let spacing = f.tear_spacing(1e-4, 0.028);
    close("spacing", spacing * 1e3, 9.22, 0.002);
    let capillary = 0.3 * f.mean_speed(1e-4) / 0.028;
    close("by the capillary number", 14.0 * 1e-4 / (3.0 * capillary).cbrt(), spacing, 1e-9);
}
