//! A run whose few droplets all missed told a thinnest and a thickest film of 0 as known: the spread of no counts is 0,
//! which passed for a small counting error.

use mistcoat::run::Run;
use mistcoat_tests::scenes::example;

#[test]
fn ends_of_a_film_that_nothing_landed_on_are_left_out() {
    let mut job = example("chair-leg-wide-fan");
    job.run.droplets = 1;
    let mut bare = 0;
    for seed in 0..4 {
        job.run.seed = seed;
        let mut run = Run::new(job.clone()).expect("a job");
        run.finish();
        bare += u32::from(run.film().mean_dry().0 <= 0.0);
        let report = run.report().expect("a report");
        let film = &report.film;
        assert!(film.dry_um.min.is_none() && film.dry_um.max.is_none(), "seed {seed}: {film:?}");
        assert!(film.in_band_percent.is_none() && film.thinnest_over_mean.is_none(), "seed {seed}: {film:?}");
        assert!(report.warnings.iter().any(|w| w.contains("left out")), "seed {seed}: {:?}", report.warnings);
    }
    assert!(bare > 0, "no seed left the part bare: the case is not met");
}
