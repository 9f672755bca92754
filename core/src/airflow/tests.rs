//! Divergence and walls of the fields, by central differences in f64.

use super::*;

fn jet(slope_x: f64, slope_y: f64) -> FanJet<f64> {
    let spec =
        JetSpec { momentum: 1.2, exit_speed: 280.0, slope_x, slope_y, spread: SPREAD, turbulence: 1.0 };
    FanJet::new(&spec).expect("a valid jet")
}

/// Largest divergence over points outside the walls, in Uc/r12 of the point's section.
fn worst_divergence(
    flow: &impl AirFlow<f64>,
    jet: &FanJet<f64>,
    depth: f64,
    clear: impl Fn([f64; 3]) -> bool,
) -> f64 {
    let mut worst = 0.0f64;
    let mut draw = crate::stream::Stream::new(3, 5, crate::stream::Purpose::Emission);
    for _ in 0..4000 {
        let z = 0.03 + (depth - 0.03) * draw.open01();
        let s = jet.section(z);
        let p = [(2.0 * draw.open01() - 1.0) * 2.5 * s.bx, (2.0 * draw.open01() - 1.0) * 2.5 * s.by, z];
        if !clear(p) {
            continue;
        }
        let e = 1e-5 * s.bx.min(s.by);
        let mut divergence = 0.0;
        for i in 0..3 {
            let (mut up, mut down) = (p, p);
            up[i] += e;
            down[i] -= e;
            divergence += (flow.at(up).velocity[i] - flow.at(down).velocity[i]) / (2.0 * e);
        }
        worst = worst.max((divergence * 0.832_554_611 * s.bx.min(s.by) / s.centre).abs());
    }
    worst
}

#[test]
fn panel_field_is_divergence_free() {
    for slope in [0.0, 0.2, 0.45] {
        let jet = jet(0.0, slope);
        let flow = PanelFlow::new(jet, 0.2).expect("a panel");
        let worst = worst_divergence(&flow, &jet, 0.1999, |_| true);
        assert!(worst < 1e-6, "slope {slope}: {worst:e}");
    }
}

#[test]
fn tube_field_is_divergence_free_and_closed() {
    for (sx, sy) in [(0.0, 0.45), (0.45, 0.0), (0.0, 0.0)] {
        for radius in [0.006, 0.011, 0.05] {
            let jet = jet(sx, sy);
            let flow = TubeFlow::new(jet, 0.18, radius, 0.0).expect("a tube");
            let zc = 0.18 + radius;
            let outside = |p: [f64; 3]| (p[1] * p[1] + (p[2] - zc) * (p[2] - zc)).sqrt() > radius * 1.01;
            let worst = worst_divergence(&flow, &jet, 0.3, outside);
            assert!(worst < 1e-6, "slopes {sx} {sy}, R {radius}: {worst:e}");
            for i in 0..360 {
                let angle = f64::from(i).to_radians();
                let (s, c) = (crate::math::sin(angle), crate::math::cos(angle));
                let u = flow.at([0.004, radius * s, zc + radius * c]).velocity;
                assert!(
                    (u[1] * s + u[2] * c).abs() < 1e-9,
                    "air goes through the wall at {i} degrees: {u:?}"
                );
            }
        }
    }
}
