//! Halving the step: how far transfer efficiency moves.

use crate::spray::{USUAL_STEP, panel, run, tube};
use mistcoat::flight::Noise;
use mistcoat::stream::Purpose;

#[test]
fn halving_the_step_hardly_moves_transfer_efficiency() {
    let n = 400_000;
    for (name, scene) in [("panel", panel()), ("tube", tube())] {
        let whole = run(&scene, n, USUAL_STEP, Noise::Uniform10, Purpose::Flight);
        let half = run(&scene, n, 0.5 * USUAL_STEP, Noise::Uniform10, Purpose::Flight);
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
