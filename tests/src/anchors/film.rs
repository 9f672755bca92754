//! Wet film of one coat on a panel, with usual strokes.

use super::Band::Within;
use super::{Anchor, anchor};
use crate::scenes::job;
use mistcoat::run::Run;

const BASE: &str = "common practice, no source: 20-40 um wet";
const CLEAR: &str = "common practice, no source: 50-75 um wet";

pub(super) fn anchors() -> Vec<Anchor> {
    let strokes = [
        ("solvent-basecoat", 0.457, 0.50, Within(20.0, 40.0), BASE),
        ("two-pack-clear", 0.305, 0.50, Within(50.0, 75.0), CLEAR),
        ("two-pack-clear", 0.457, 0.67, Within(50.0, 75.0), CLEAR),
    ];
    strokes
        .into_iter()
        .map(|(paint, speed, overlap, band, source)| {
            let mut job = job("hvlp-gravity-1.3", paint);
            job.stroke.distance = 0.18;
            job.stroke.speed = speed;
            job.stroke.overlap = overlap;
            job.run.droplets = 60_000;
            let mut run = Run::new(job).expect("a job");
            run.finish();
            let film = run.film();
            let (dry, error) = film.mean_dry();
            let wet = film.mean_wet();
            let what = format!(
                "mean wet film of a coat, {paint}, HVLP as rated at 180 mm, {speed} m/s, {:.0} % overlap",
                overlap * 100.0
            );
            anchor(what, (wet * 1e6, wet * 1e6 * error / dry), "um", band, source)
        })
        .collect()
}
