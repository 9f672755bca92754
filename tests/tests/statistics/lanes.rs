//! f32 lanes beside f64 on the same streams.

use crate::spray::{USUAL_STEP, batch, panel, settings, tube};
use fearless_simd::Level;
use mistcoat::flight::{Batch, END_HIT, Noise, Scene, fly};
use mistcoat::stream::Purpose;

#[test]
fn f32_is_enough() {
    // A tenth of the standard error that 1e6 droplets would have; here the mean difference over fewer droplets, whose own
    // standard error is told and allowed for three times.
    let n = 60_000;
    for (name, scene) in [("panel", panel()), ("tube", tube())] {
        let (mut wide, mut exact): (Batch<f32>, Batch<f64>) =
            (batch(0, n, Purpose::Flight), batch(0, n, Purpose::Flight));
        let set = settings(USUAL_STEP);
        fly(Level::new(), &scene.narrow(), &set.cast(), Noise::Sum2, &mut wide);
        scene.fly_reference(&set, Noise::Sum2, &mut exact);
        let landed = |end: &[u8], k: usize| f64::from(u8::from(end[k] == END_HIT));
        let all = 0..n as usize;
        let share = |k: usize| (landed(&wide.end, k), landed(&exact.end, k));
        check(name, "landed share", all.clone().map(share));
        let both: Vec<usize> = all.filter(|k| wide.end[*k] == END_HIT && exact.end[*k] == END_HIT).collect();
        let time = |k: &usize| (f64::from(wide.end_time[*k]), exact.end_time[*k]);
        check(name, "flight time", both.iter().map(time));
        let down = |k: &usize| (f64::from(wide.end_velocity[2][*k]), exact.end_velocity[2][*k]);
        check(name, "impact speed", both.iter().map(down));
        let place = |k: &usize| (f64::from(wide.end_position[1][*k]).abs(), exact.end_position[1][*k].abs());
        check(name, "place along the fan", both.iter().map(place));
        let Scene::Panel(..) = scene else { continue };
        // The film: each strip of 20 mm along the fan.
        for strip in 0..8 {
            let lies = |y: f64| f64::from(u8::from((y.abs() / 0.02) as usize == strip));
            let film = |k: usize| {
                let (a, b) = share(k);
                (a * lies(f64::from(wide.end_position[1][k])), b * lies(exact.end_position[1][k]))
            };
            check(name, &format!("film, strip {strip}"), (0..n as usize).map(film));
        }
        let mut off: Vec<f64> = both
            .iter()
            .map(|k| (f64::from(wide.end_position[1][*k]) - exact.end_position[1][*k]).abs())
            .collect();
        off.sort_by(f64::total_cmp);
        println!(
            "{name}: landing place differs by {:.2e} m (median), {:.2e} m (99 %)",
            off[off.len() / 2],
            off[off.len() * 99 / 100]
        );
        assert!(off[off.len() / 2] < 1e-5);
    }
}

/// (f32, f64) pairs: mean difference against a tenth of the standard error at 1e6.
fn check(name: &str, what: &str, pairs: impl Iterator<Item = (f64, f64)>) {
    let (mut n, mut value, mut square, mut off, mut off_square) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (a, b) in pairs {
        n += 1.0;
        value += b;
        square += b * b;
        off += a - b;
        off_square += (a - b) * (a - b);
    }
    let spread = |s: f64, s2: f64| (s2 / n - (s / n) * (s / n)).max(0.0).sqrt();
    let tenth = 0.1 * spread(value, square) / 1e3;
    let error = spread(off, off_square) / f64::sqrt(n);
    let off = off / n;
    println!(
        "{name}, {what}: f32 - f64 {off:+.2e} +- {error:.1e}; a tenth of the error at 1e6 is {tenth:.2e}"
    );
    assert!(off.abs() < tenth + 3.0 * error, "{name} {what}: {off:e} +- {error:e}, {tenth:e}");
}
