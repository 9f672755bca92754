//! Two-sample Kolmogorov-Smirnov.

use rand::SeedableRng;
use rand_distr::Distribution;
use rand_xoshiro::Xoshiro256PlusPlus;

/// Our draws in a test.
pub const OURS: u64 = 400_000;
/// Reference draws in a test.
const REFERENCE: usize = 1_000_000;
/// False alarm of one test.
const ALARM: f64 = 2e-6;

/// Largest difference of the two shares-below.
fn distance(a: &mut [f64], b: &mut [f64]) -> f64 {
    a.sort_by(f64::total_cmp);
    b.sort_by(f64::total_cmp);
    let (mut i, mut j, mut worst) = (0, 0, 0.0f64);
    while i < a.len() && j < b.len() {
        // Ties step both.
        let x = a[i].min(b[j]);
        while i < a.len() && a[i] <= x {
            i += 1;
        }
        while j < b.len() && b[j] <= x {
            j += 1;
        }
        worst = worst.max((i as f64 / a.len() as f64 - j as f64 / b.len() as f64).abs());
    }
    worst
}

/// Distance over the value that is exceeded with probability [`ALARM`].
pub fn ratio(ours: impl Fn(u64) -> f64, reference: impl Distribution<f64>) -> f64 {
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(20_240_601);
    let mut a: Vec<f64> = (0..OURS).map(ours).collect();
    let mut b: Vec<f64> = (0..REFERENCE).map(|_| reference.sample(&mut rng)).collect();
    let (n, m) = (a.len() as f64, b.len() as f64);
    let limit = (-0.5 * (0.5 * ALARM).ln()).sqrt() * ((n + m) / (n * m)).sqrt();
    distance(&mut a, &mut b) / limit
}

/// Asserts that ours passes and that a planted fault is seen.
#[track_caller]
pub fn check(
    name: &str,
    ours: impl Fn(u64) -> f64,
    faulty: impl Fn(u64) -> f64,
    fault: &str,
    reference: impl Distribution<f64> + Clone,
) {
    let good = ratio(ours, reference.clone());
    let bad = ratio(faulty, reference);
    println!("{name}: {good:.2} of the limit; with a fault ({fault}) {bad:.2}");
    assert!(good < 1.0, "{name}: {good}");
    assert!(bad > 1.0, "{name}: a fault of {fault} passes, {bad}");
}
