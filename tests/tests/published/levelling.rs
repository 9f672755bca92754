//! Levelling by Orchard: table computed from his equation (mu 0.1 Pa s, sigma 0.030 N/m, 100 um, 1050 kg/m3).

use crate::table::close;
use mistcoat::film::{GRAVITY, Levelling};
use std::f64::consts::{LN_2, PI};

const MU: f64 = 0.1;
const SIGMA: f64 = 0.030;
const UPRIGHT: Levelling = Levelling { surface_tension: SIGMA, press: 0.0 };
const FACING_UP: Levelling = Levelling { surface_tension: SIGMA, press: 1050.0 * GRAVITY };

fn thin(wavelength: f64, film: f64) -> f64 {
    3.0 * MU * wavelength.powi(4) / (16.0 * PI.powi(4) * SIGMA * film.powi(3))
}

#[test]
fn time_constants_by_orchard_to_a_thousandth() {
    for (mm, thin_tau, full, half, up) in [
        (1.0, 0.006_416_2, 0.010_936_9, 0.004_447_4, 0.010_842_7),
        (2.0, 0.102_660, 0.120_854, 0.071_158_4, 0.116_792),
        (5.0, 4.010_149, 4.124_090, 2.779_624, 3.387_747),
        (10.0, 64.162_39, 64.618_29, 44.473_97, 34.565_98),
    ] {
        let wavelength = mm * 1e-3;
        close("thin", thin(wavelength, 1e-4), thin_tau, 1e-5);
        close("half of it", thin(wavelength, 1e-4) * LN_2, half, 1e-5);
        close("upright", UPRIGHT.time(wavelength, 1e-4, MU), full, 1e-3);
        close("facing up", FACING_UP.time(wavelength, 1e-4, MU), up, 1e-3);
    }
    close("50 um", thin(2e-3, 50e-6), 0.821_279, 1e-5);
    close("25 um", thin(2e-3, 25e-6), 6.570_229, 1e-5);
}

#[test]
fn thin_films_follow_the_thin_limit_and_thick_ones_do_not() {
    // x = 0.63: the thin formula is 41 % low.
    let (wavelength, film) = (1e-3, 1e-4);
    let low = 1.0 - thin(wavelength, film) / UPRIGHT.time(wavelength, film, MU);
    assert!((low - 0.41).abs() < 0.01, "{low}");
    for (wavelength, film) in [(5e-3, 20e-6), (10e-3, 50e-6), (20e-3, 100e-6)] {
        let ratio = UPRIGHT.time(wavelength, film, MU) / thin(wavelength, film);
        assert!((ratio - 1.0).abs() < 2e-3, "{ratio}");
    }
}

#[test]
fn half_the_film_takes_eight_times_as_long_where_it_is_thin() {
    for film in [1e-6, 10e-6, 40e-6, 75e-6] {
        let wavelength = 5e-3;
        assert!(2.0 * PI / wavelength * film < 0.1);
        let ratio = UPRIGHT.time(wavelength, 0.5 * film, MU) / UPRIGHT.time(wavelength, film, MU);
        assert!((ratio / 8.0 - 1.0).abs() < 0.02, "{film}: {ratio}");
    }
}

#[test]
fn a_rising_viscosity_counts_by_the_integral_of_time_over_viscosity() {
    // mu0 exp(t/30 s) for ever: 30 s / mu0.
    let left = UPRIGHT.left(5e-3, 1e-4, 30.0 / MU);
    close("left", left, (-30.0f64 / UPRIGHT.time(5e-3, 1e-4, MU)).exp(), 1e-12);
}

#[test]
fn overhead_long_ripples_grow_and_short_ones_level() {
    let overhead = Levelling { press: -1050.0 * GRAVITY, ..UPRIGHT };
    let edge = 2.0 * PI * (SIGMA / (1050.0 * GRAVITY)).sqrt();
    assert!(overhead.time(0.99 * edge, 1e-4, MU) > 0.0 && overhead.time(1.01 * edge, 1e-4, MU) < 0.0);
    // The fastest: sqrt 2 longer, at press^2 h^3/(12 mu sigma).
    let fastest = -1.0 / overhead.time(edge * 2.0f64.sqrt(), 1e-4, MU);
    close("growth", overhead.hanging(1e-4, 1.0 / MU), fastest, 0.01);
    assert_eq!(FACING_UP.hanging(1e-4, 1.0), 0.0);
}
