//! Root of a falling function, bracketed.

/// Steps at most: a third of them halve the interval, which brings it below 1e-13 of the place.
const STEPS: usize = 150;

/// The place in `low..=high`, both positive, at which `surplus`, falling, is zero; the nearer end where it is nowhere.
///
/// False position (Illinois), every third step a halving so that the interval closes however bent the curve is.
pub(crate) fn falling(low: f64, high: f64, surplus: impl Fn(f64) -> f64) -> f64 {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (surplus(a), surplus(b));
    if fa <= 0.0 {
        return a;
    }
    if fb >= 0.0 {
        return b;
    }
    let mut last_side = 0;
    for i in 0..STEPS {
        if b - a < 1e-13 * b {
            break;
        }
        let halving = i % 3 == 2;
        let p = if halving { 0.5 * (a + b) } else { (a * fb - b * fa) / (fb - fa) };
        let f = surplus(p);
        let side = if f > 0.0 { 1 } else { -1 };
        if side > 0 {
            (a, fa) = (p, f);
            if last_side > 0 {
                fb *= 0.5;
            }
        } else {
            (b, fb) = (p, f);
            if last_side < 0 {
                fa *= 0.5;
            }
        }
        last_side = if halving { 0 } else { side };
    }
    0.5 * (a + b)
}
