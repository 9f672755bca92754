//! What a run says once it is brought to the film wanted, and what its profile says about the pattern.

use mistcoat::report::paint_for;
use mistcoat::run::SoFar;

use super::{Profile, RunView};

/// Paint for one part at the middle of the film wanted.
pub use mistcoat::report::PaintFor as Need;

/// Reads the need out of a run; `film` is the middle of the film wanted [m], else the run's own film counts.
pub fn need(run: &RunView, film: Option<f64>) -> Option<Need> {
    let mean = run.number("film.dry_um.mean")? * 1e-6;
    let landed = run.bar("transfer_efficiency")?;
    let sprayed = run.number("paint.sprayed_ml")?;
    paint_for(film.unwrap_or(mean), mean, sprayed, [landed.value, landed.low, landed.high])
}

/// Paint for a part and of it on the part [mL], at the middle of the film wanted [m], as a run under way has it so far.
pub fn need_so_far(so_far: &SoFar, film: Option<f64>) -> Option<(f64, f64)> {
    let sprayed = so_far.sprayed * 1e6 * film.unwrap_or(so_far.dry) / so_far.dry;
    (sprayed.is_finite() && sprayed > 0.0).then_some((sprayed, sprayed * so_far.landed))
}

/// Film in the middle of the fan over the film of its ends, from the profile along the fan; none for a flat nothing.
///
/// The middle is the central tenth of the length between the places where the profile first and last reaches a
/// tenth of its peak; the ends are the higher places of each outer third, averaged.
pub fn middle_over_ends(profile: &Profile) -> Option<f64> {
    let smooth: Vec<f64> = (0..profile.dry.len())
        .map(|i| {
            let (a, b) = (i.saturating_sub(2), (i + 2).min(profile.dry.len() - 1));
            profile.dry[a..=b].iter().map(|v| f64::from(*v)).sum::<f64>() / (b - a + 1) as f64
        })
        .collect();
    let peak = smooth.iter().copied().fold(0.0, f64::max);
    let first = smooth.iter().position(|v| *v >= 0.1 * peak && *v > 0.0)?;
    let last = smooth.iter().rposition(|v| *v >= 0.1 * peak)?;
    let length = last - first;
    if length < 20 {
        return None;
    }
    let mean = |a: usize, b: usize| smooth[a..b].iter().sum::<f64>() / (b - a) as f64;
    let half = length / 20;
    let centre = (first + last) / 2;
    let middle = mean(centre - half.max(1), centre + half.max(1));
    let top = |a: usize, b: usize| smooth[a..b].iter().copied().fold(0.0, f64::max);
    let ends = 0.5 * (top(first, first + length / 3) + top(last - length / 3, last + 1));
    (ends > 0.0).then_some(middle / ends)
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;

    fn run(mean: f64, sprayed: f64, efficiency: f64) -> RunView {
        RunView {
            job: String::new(),
            report: serde_json::json!({
                "film": { "dry_um": { "mean": mean } },
                "paint": { "sprayed_ml": sprayed },
                "transfer_efficiency": { "value": efficiency, "model_low": 0.8 * efficiency, "model_high": 1.25 * efficiency },
            }),
            film: None,
            droplets: Arc::from([]),
            digest: 0,
        }
    }

    #[test]
    fn two_settings_meet_at_the_same_film() {
        // The second lays half the film with a third of the paint: at the same film it takes two thirds.
        let wide = need(&run(20.0, 30.0, 0.2), Some(28e-6)).unwrap();
        let spot = need(&run(10.0, 10.0, 0.3), Some(28e-6)).unwrap();
        assert!((wide.on_part - spot.on_part).abs() < 1e-9);
        assert!((spot.sprayed / wide.sprayed - 2.0 / 3.0).abs() < 1e-9);
        assert!(wide.low < wide.sprayed && wide.sprayed < wide.high);
    }

    #[test]
    fn no_film_no_need() {
        assert_eq!(need(&run(0.0, 30.0, 0.2), Some(28e-6)), None);
        assert_eq!(need(&run(20.0, 30.0, 0.0), None), None);
    }

    #[test]
    fn a_split_has_less_in_its_middle() {
        let bump = |i: i32, at: i32| (-(f64::from(i - at) / 20.0).powi(2)).exp() as f32;
        let profile =
            |f: &dyn Fn(i32) -> f32| Profile { start: -0.1, step: 1e-3, dry: (0..200).map(f).collect() };
        let split = middle_over_ends(&profile(&|i| bump(i, 60) + bump(i, 140))).unwrap();
        let heavy = middle_over_ends(&profile(&|i| bump(i, 100))).unwrap();
        assert!(split < 0.2 && heavy > 1.2, "{split} {heavy}");
        assert_eq!(middle_over_ends(&profile(&|_| 0.0)), None);
    }
}
