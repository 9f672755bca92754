//! The free jet: momentum, entrainment, the radial speed of a round jet.

use crate::table::{close, held};
use mistcoat::airflow::{AirFlow, FanJet, JetSpec, PanelFlow, SPREAD};

/// Spread of half-width 0.094 z.
pub fn jet(slope_x: f64, slope_y: f64, momentum: f64, exit_speed: f64) -> FanJet<f64> {
    FanJet::new(&JetSpec { momentum, exit_speed, slope_x, slope_y, spread: SPREAD, turbulence: 1.0 }).unwrap()
}

/// The jet with its panel so far off, behind so thin a layer, that it is free.
pub fn free(jet: FanJet<f64>) -> PanelFlow<f64> {
    let mut flow = PanelFlow::new(jet, 5.0).unwrap();
    let near = PanelFlow::new(jet, 0.2).unwrap();
    (flow.inverse_layer, flow.sided) = (1e3, near.sided);
    flow
}

/// Integral over the section at `z` of what `of` makes of the axial speed.
fn over_section(flow: &PanelFlow<f64>, z: f64, of: impl Fn(f64) -> f64) -> f64 {
    let s = flow.jet.section(z);
    // Trapezium rule on a smooth bell: exact to rounding at this spacing.
    let (n, reach) = (120, 7.0);
    let at = |i: i32, b: f64| f64::from(i) / f64::from(n) * reach * b;
    let mut sum = 0.0;
    for i in -n..=n {
        for j in -n..=n {
            sum += of(flow.at([at(i, s.bx), at(j, s.by), z]).velocity[2]);
        }
    }
    sum * at(1, s.bx) * at(1, s.by)
}

#[test]
fn axial_momentum_is_the_same_everywhere() {
    for slope in [0.0, 0.2, 0.45, 0.6] {
        let flow = free(jet(0.0, slope, 1.2, 280.0));
        for z in [0.002, 0.02, 0.1, 0.25, 0.6] {
            close(&format!("J, slope {slope}, z {z}"), over_section(&flow, z, |u| u * u), 1.2, 1e-6);
        }
    }
}

#[test]
fn volume_flux_grows_as_measured() {
    // A nozzle of 6 mm at 200 m/s; far enough that its core is forgotten.
    let (bore, speed) = (0.006, 200.0);
    let area = std::f64::consts::FRAC_PI_4 * bore * bore;
    let flow = free(jet(0.0, 0.0, area * speed * speed, speed));
    for diameters in [30.0, 50.0, 80.0] {
        let ratio = over_section(&flow, diameters * bore, |u| u) / (area * speed);
        close("Q/Q0 of a Gaussian jet", ratio, 3.3974 * 0.094 * diameters, 1e-3);
        let source = "Ricou & Spalding 1961, from memory; a prediction";
        held(&format!("Volume flux at {diameters} D"), ratio, 0.32 * diameters, 0.05, source);
    }
}

#[test]
fn radial_speed_of_a_round_jet() {
    // S = 0.094: largest 0.01911 Uc at 0.6469 r12, none at 1.3463; 0.01310, -0.02003, -0.02201 at 1, 2, 3 (computed).
    let jet = jet(0.0, 0.0, 1.2, 2800.0_f64.min(700.0));
    let flow = free(jet);
    // Far out, so that the core does not count.
    let z = 1.5;
    let half = 0.094 * z;
    let s = jet.section(z);
    for direction in [0.0f64, 0.7, 2.0] {
        let (sin, cos) = direction.sin_cos();
        let speed = |r: f64| {
            let u = flow.at([r * half * cos, r * half * sin, z]).velocity;
            (u[0] * cos + u[1] * sin) / s.centre
        };
        let (mut best, mut top) = (0.0, 0.0);
        for i in 0..4000 {
            let r = f64::from(i) * 1e-3;
            if speed(r) > top {
                (best, top) = (r, speed(r));
            }
        }
        assert!((best - 0.6469).abs() < 2e-3, "{best}");
        for (r, published) in [(1.0, 0.01310), (2.0, -0.02003), (3.0, -0.02201)] {
            assert!((speed(r) - published).abs() < 1e-5, "{r}: {}", speed(r));
        }
        assert!(speed(1.3453) > 0.0 && speed(1.3473) < 0.0, "zero is elsewhere");
        let name = format!("Largest radial speed of a round jet / Uc, at {direction} rad");
        held(&name, top, 0.01911, 1e-3, "continuity, computed");
    }
}

#[test]
fn wide_fan_draws_little_air_through_its_ends() {
    // A plane jet entrains through its flat sides: 0.05-0.06 Uc; a fan must do so at its sides and hardly at its ends.
    let jet = jet(0.0, 0.45, 1.2, 280.0);
    let (flow, s) = (free(jet), jet.section(0.2));
    let side = -flow.at([3.0 * s.bx, 0.0, 0.2]).velocity[0] / s.centre;
    let end = -flow.at([0.0, 3.0 * s.by, 0.2]).velocity[1] / s.centre;
    assert!(side > 4.0 * end, "sides {side}, ends {end}");
}
