//! Halving the step: how far transfer efficiency moves.

use crate::spray::{USUAL_STEP, panel, run, run_fan, tube, tube_of};
use mistcoat::flight::{Noise, Scene};
use mistcoat::stream::Purpose;

#[test]
fn halving_the_step_hardly_moves_transfer_efficiency() {
    let n = 400_000;
    for (name, scene) in [("panel", panel()), ("tube", tube())] {
        let whole = run(&scene, n, USUAL_STEP, Noise::Sum2, Purpose::Flight);
        let half = run(&scene, n, 0.5 * USUAL_STEP, Noise::Sum2, Purpose::Flight);
        let ((a, ea), (b, eb)) = (whole.share(), half.share());
        // Common emission only lowers the error.
        let error = (ea * ea + eb * eb).sqrt();
        println!(
            "{name}: landed {a:.4} at the usual step, {b:.4} at half, difference {:+.4} +- {error:.4}",
            a - b
        );
        assert!((a - b).abs() < 0.002 + 3.0 * error, "{name}: {a} {b} +- {error}");
    }
}

/// A tube whose wall-normal strain is the plain sum of its two parts, as on the panel, not the root of their squares.
fn added_as_squares(scene: &Scene<f64>) -> Scene<f64> {
    let Scene::Tube(flow, part) = *scene else { return *scene };
    let mut other = flow;
    let (around, along) = (flow.round * flow.round, (1.0 - flow.round) * (1.0 - flow.round));
    other.power = flow.power * (around + along).sqrt();
    other.round = around / (around + along);
    Scene::Tube(other, part)
}

#[test]
fn how_strains_add_round_a_tube_is_told() {
    // Not a check of either way: the size of what is not known. Both are potential flow in a uniform stream; only the
    // plain sum becomes the panel for a wide tube.
    for (name, radius, slope) in [
        ("22 mm, full fan", 0.011, 0.45),
        ("22 mm, round", 0.011, 0.0),
        ("42 mm, full fan", 0.021, 0.45),
        ("100 mm, full fan", 0.05, 0.45),
        ("100 mm, round", 0.05, 0.0),
    ] {
        let scene = tube_of(radius, slope);
        let share = |scene: &Scene<f64>| run_fan(scene, 60_000, slope).share();
        let ((a, ea), (b, eb)) = (share(&scene), share(&added_as_squares(&scene)));
        println!("tube {name}: landed {a:.3} +- {ea:.3}; strains added as squares {b:.3} +- {eb:.3}");
        assert!((a - b).abs() < 0.08, "{name}: {a} {b}");
    }
}
