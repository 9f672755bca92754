//! Streams: every droplet's first words are uniform, and know nothing of their neighbours or of other purposes.

use crate::smirnov::check;
use mistcoat::stream::{Purpose, Stream};
use rand_distr::Uniform;

fn draw(seed: u64, droplet: u64, purpose: Purpose, place: usize) -> f64 {
    let mut stream = Stream::new(seed, droplet, purpose);
    (0..=place).map(|_| stream.open01()).last().expect("at least one draw")
}

#[test]
fn words_are_uniform_over_droplets() {
    let flat = Uniform::new(0.0, 1.0).unwrap();
    for (purpose, place) in [(Purpose::Emission, 0), (Purpose::Flight, 7)] {
        let at = |i| draw(1, i, purpose, place);
        check(&format!("{purpose:?} draw {place}"), at, |i| at(i).powf(1.015), "to the power 1.015", flat);
    }
}

/// Correlation of two draws over 4e5 droplets, in standard errors.
fn correlation(a: impl Fn(u64) -> f64, b: impl Fn(u64) -> f64) -> f64 {
    let n = 400_000;
    (0..n).map(|i| (a(i) - 0.5) * (b(i) - 0.5) * 12.0).sum::<f64>() / f64::from(n as u32).sqrt()
}

#[test]
fn streams_know_nothing_of_each_other() {
    use Purpose::{Emission, Flight};
    // 4.9 standard errors: 1e-6 each.
    let own = |i| draw(1, i, Emission, 0);
    let pairs = [
        ("next droplet", correlation(own, |i| draw(1, i + 1, Emission, 0))),
        ("16 droplets on", correlation(own, |i| draw(1, i + 16, Emission, 0))),
        ("next seed", correlation(own, |i| draw(2, i, Emission, 0))),
        ("flight", correlation(own, |i| draw(1, i, Flight, 0))),
        ("next draw", correlation(own, |i| draw(1, i, Emission, 1))),
        ("fifth draw", correlation(own, |i| draw(1, i, Emission, 4))),
    ];
    for (name, errors) in pairs {
        println!("correlation with {name}: {errors:+.2} standard errors");
        assert!(errors.abs() < 4.9, "{name}: {errors}");
    }
    // A leak of 1 % of the neighbour's number is seen.
    let leak = correlation(own, |i| 0.99 * draw(1, i + 1, Emission, 0) + 0.01 * own(i));
    assert!(leak > 4.9, "{leak}");
}
