//! The jet round a tube: in a uniform stream potential flow; for a large radius beside the panel.

use crate::jet::jet;
use crate::table::known_miss;
use mistcoat::airflow::{AirFlow, FanJet, JetSpec, PanelFlow, TubeFlow};
use mistcoat::stream::{Purpose, Stream};

/// A uniform stream of `speed` [m/s] on a tube of `radius` [m] that starts 60 R ahead of the face.
pub fn uniform(speed: f64, radius: f64) -> TubeFlow<f64> {
    let spec = JetSpec {
        momentum: 1e9,
        exit_speed: speed,
        slope_x: 0.0,
        slope_y: 0.0,
        spread: 0.0,
        turbulence: 0.0,
    };
    TubeFlow::new(FanJet::new(&spec).unwrap(), 60.0 * radius, radius, 0.0).unwrap()
}

#[test]
fn uniform_stream_is_potential_flow() {
    let (speed, radius) = (5.0, 0.0125);
    let flow = uniform(speed, radius);
    assert!((flow.power - 2.0).abs() < 1e-9 && (flow.round - 1.0).abs() < 1e-9);
    let mut draw = Stream::new(2, 0, Purpose::Emission);
    let mut worst = 0.0f64;
    for _ in 0..20_000 {
        // u - iw = U (1 - R^2/Z^2), Z = (z - zc) + i y
        let (a, b) = ((draw.open01() * 12.0 - 6.0) * radius, (draw.open01() * 12.0 - 6.0) * radius);
        let r2 = a * a + b * b;
        if r2 < radius * radius {
            continue;
        }
        let shade = radius * radius / (r2 * r2);
        let exact = [0.0, -speed * shade * 2.0 * a * b, speed * (1.0 - shade * (a * a - b * b))];
        let x = (draw.open01() - 0.5) * radius;
        let u = flow.at([x, b, flow.axis_z + a]).velocity;
        for (u, exact) in u.iter().zip(exact) {
            worst = worst.max((u - exact).abs() / speed);
        }
    }
    println!("tube in a uniform stream: largest difference from potential flow {worst:.1e} U");
    assert!(worst < 1e-8, "{worst:e}");
}

/// Wall-normal strain [1/s] on the axis, at the tube's face.
fn face_strain(flow: &TubeFlow<f64>, face: f64) -> f64 {
    let e = 1e-7;
    flow.at([0.0, 0.0, face - e]).velocity[2] / e
}

#[test]
fn wide_tube_beside_the_panel() {
    // A tube of 5 km radius ought to be a panel. A flat fan's nearly is; a round jet's strain at the wall is not: the two
    // parts of the strain are added as squares round a tube and plainly on the panel.
    let face = 0.2;
    for (slope, off) in [(0.45, -0.0543), (0.2, -0.1715), (0.0, -0.2929)] {
        let jet = jet(0.0, slope, 1.2, 280.0);
        let tube = TubeFlow::new(jet, face, 5000.0, 0.0).unwrap();
        let panel = PanelFlow::new(jet, face).unwrap();
        let on_panel = panel.inverse_layer * jet.section(face).centre;
        known_miss(
            &format!("wall strain of a very wide tube over the panel's, slope {slope}"),
            face_strain(&tube, face) / on_panel,
            1.0,
            off,
            0.004,
            "geometry",
        );
    }
}
