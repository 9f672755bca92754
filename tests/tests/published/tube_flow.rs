//! The jet round a tube: in a uniform stream potential flow; for a large radius beside the panel.

use crate::jet::jet;
use crate::table::below;
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
    // The stream is a jet 5 km wide: what is left of its own wall strain is of the order R/b, 2.5e-6.
    assert!((flow.power - 2.0).abs() < 1e-5 && (flow.round - 1.0).abs() < 1e-5);
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
    below("Tube in a uniform stream beside potential flow, / U", worst, 1e-5, "closed form");
}

/// Wall-normal strain [1/s] on the axis, at the tube's face.
fn face_strain(flow: &TubeFlow<f64>, face: f64) -> f64 {
    let e = 1e-7;
    flow.at([0.0, 0.0, face - e]).velocity[2] / e
}

#[test]
fn wide_tube_beside_the_panel() {
    // A tube of 5 km radius is a panel: the two parts of the strain add up to the panel's.
    let face = 0.2;
    for slope in [0.45, 0.2, 0.0] {
        let jet = jet(0.0, slope, 1.2, 280.0);
        let tube = TubeFlow::new(jet, face, 5000.0, 0.0).unwrap();
        let panel = PanelFlow::new(jet, face).unwrap();
        let on_panel = panel.inverse_layer * jet.section(face).centre;
        let ratio = face_strain(&tube, face) / on_panel;
        assert!((ratio - 1.0).abs() < 2e-3, "slope {slope}: strain over the panel's {ratio}");
    }
}
