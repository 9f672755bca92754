//! Thinnest, thickest and shares are told only where a cell's counting error is below a fifth of the film wanted.

use mistcoat::job::{Job, SpecBand};
use mistcoat::report::Report;
use mistcoat::run::Run;
use mistcoat_tests::scenes::example;

fn flown(job: &Job, droplets: u64) -> (Report, f64) {
    let mut job = job.clone();
    job.run.droplets = droplets;
    let mut run = Run::new(job).expect("a job");
    run.finish();
    (run.report().expect("a report"), run.film().cell_error())
}

/// Whether all of them are there (true) or none (false).
fn told(report: &Report) -> bool {
    let film = &report.film;
    let all = [
        film.dry_um.min.is_some(),
        film.dry_um.max.is_some(),
        film.wet_um.min.is_some(),
        film.wet_um.max.is_some(),
        film.thinnest_over_mean.is_some(),
    ];
    assert!(all.iter().all(|t| *t == all[0]), "some but not all: {film:?}");
    all[0]
}

#[test]
fn left_out_until_a_cell_is_counted_well_enough() {
    let job = example("table-top");
    let SpecBand { low, high, .. } = job.spec.expect("film wanted");
    let limit = 0.2 * (high - low);
    let mut seen = [false; 2];
    for droplets in [200, 1_000, 4_000, 20_000, 200_000] {
        let (report, error) = flown(&job, droplets);
        let there = told(&report);
        assert_eq!(
            there,
            error < limit,
            "{droplets} droplets: cell error {error:.2e} m, limit {limit:.2e} m"
        );
        assert_eq!(report.film.in_band_percent.is_some(), there, "{droplets} droplets");
        let warned = report.warnings.iter().any(|w| w.contains("left out") && w.contains("droplets"));
        assert_eq!(warned, !there, "{droplets} droplets: {:?}", report.warnings);
        seen[usize::from(there)] = true;
    }
    assert_eq!(seen, [true, true], "both sides of the limit must be met");
}

#[test]
fn the_number_of_droplets_that_the_warning_names_is_enough() {
    let job = example("table-top");
    let (few, _) = flown(&job, 200);
    let warning = few.warnings.iter().find(|w| w.contains("left out")).expect("a warning");
    let words: Vec<&str> = warning.split_whitespace().collect();
    let at = words.iter().position(|w| *w == "droplets").expect("droplets");
    let named: u64 = words[at - 1].parse().unwrap_or_else(|e| panic!("{warning}: {e}"));
    assert!(named > 200, "{warning}");
    // The cell error is itself a count from 16 groups: a fifth more is granted.
    assert!(told(&flown(&job, named + named / 5).0), "{named} droplets are not enough");
}

#[test]
fn without_a_film_wanted_the_mean_is_the_measure() {
    let mut job = example("table-top");
    job.spec = None;
    let (few, error) = flown(&job, 1_000);
    assert!(!told(&few) && error >= 0.03e-6 * few.film.dry_um.mean);
    let (many, error) = flown(&job, 400_000);
    assert!(told(&many) && error < 0.03e-6 * many.film.dry_um.mean);
    assert!(many.film.in_band_percent.is_none());
}

#[test]
fn fewer_than_32_droplets_tell_no_error() {
    let job = example("table-top");
    let (report, _) = flown(&job, 31);
    assert!(report.transfer_efficiency.standard_error.is_none());
    assert!(report.film.cv_percent.is_none());
    assert!(report.standard_errors.is_empty());
    let (report, _) = flown(&job, 32);
    assert!(report.transfer_efficiency.standard_error.is_some());
}
