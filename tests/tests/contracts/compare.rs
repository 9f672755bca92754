//! Kits side by side: the same digits however it is cut, no saving of a kit over itself, a wide fan on a thin tube.

use mistcoat::catalogue;
use mistcoat::compare::{Candidate, Comparison, Figures, Money, Sure};
use mistcoat::job::Job;
use mistcoat_tests::scenes::example;

/// A short tube and few droplets: searched in full, flown coarsely.
fn leg() -> Job {
    let mut job = example("chair-leg-wide-fan");
    job.run.droplets = 20_011;
    job
}

fn kit(id: &str) -> Candidate {
    Candidate { kit: catalogue::kit(id).expect("a kit"), price: None, neighbours: Vec::new() }
}

fn in_threads(job: &Job, candidates: &[Candidate], threads: usize) -> String {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("a pool");
    pool.install(|| {
        let mut all = Comparison::new(job.clone(), candidates.to_vec(), Money::default()).expect("a job");
        all.finish();
        all.answer().to_json()
    })
}

#[test]
fn rows_do_not_depend_on_threads_and_slices() {
    let (job, candidates) = (leg(), [kit("hvlp-gravity-1.3")]);
    let mut sliced = Comparison::new(job.clone(), candidates.to_vec(), Money::default()).expect("a job");
    let (mut last, mut steps) = (0, 0);
    while !sliced.advance(1009) {
        let (done, total) = sliced.progress();
        assert!(done >= last && done <= total, "{last}, then {done} of {total}");
        (last, steps) = (done, steps + 1);
    }
    assert!(steps > 500, "{steps} slices");
    let answer = sliced.answer();
    for threads in [1, 2] {
        assert_eq!(in_threads(&job, &candidates, threads), answer.to_json(), "{threads} threads");
    }

    // A wide fan sprays past a thin tube: your own gun saves, for nothing.
    let [as_set, best, other] = answer.rows.as_slice() else { panic!("{} rows", answer.rows.len()) };
    let (wide, near) = (as_set.figures.as_ref().unwrap(), best.figures.as_ref().unwrap());
    assert!(near.ml < 0.5 * wide.ml, "{} mL against {}", near.ml, wide.ml);
    assert!(near.fan_mm < 0.5 * wide.fan_mm, "{} mm against {}", near.fan_mm, wide.fan_mm);
    assert!(best.saved.unwrap().low > 0.0 && best.sure == Some(Sure::Yes), "{best:?}");
    // Inside the limits that are stated.
    let limits = answer.limits.unwrap();
    assert!(near.sauter_um <= limits.sauter_um && near.seconds <= 1.02 * limits.seconds);
    assert!(near.even_percent <= limits.even_percent + 2.0 * near.even_standard_error);
    assert!((limits.speed_mm_s[0]..=1.02 * limits.speed_mm_s[1]).contains(&near.setting.speed_mm_s));
    assert!(near.cap_bar <= 0.69, "an HVLP gun stays one");

    // The same kit is the same, to the digit.
    let more = other.saved_more.unwrap();
    assert_eq!((more.value, more.standard_error), (0.0, 0.0));
    assert!(
        more.low == -more.high && more.high < 0.03 * near.ml,
        "only what a search may miss is left: {more:?}"
    );
    assert_eq!(other.sure, Some(Sure::Same));
    assert_eq!(other.figures, best.figures);
    sprays_as_told(&job, answer.film_um.unwrap(), near);
}

/// The setting of a row, written into the job, sprays what the row says.
fn sprays_as_told(job: &Job, film_um: f64, best: &Figures) {
    let mut text = job.text.clone();
    for (key, value) in &best.keys {
        text = mistcoat::job::with_key(&text, key, value).expect(key);
    }
    let mut again = Job::from_toml(&text).expect("a job");
    again.run.droplets = job.run.droplets;
    let mut run = mistcoat::run::Run::new(again).expect("a job");
    run.finish();
    let report = run.report().expect("a report");
    // Speed is written to 5 mm/s.
    let off = report.film.dry_um.mean / film_um - 1.0;
    assert!(off.abs() < 0.01, "{} um instead of {film_um}", report.film.dry_um.mean);
    assert!((report.paint.sprayed_ml / best.ml - 1.0).abs() < 0.01, "{} mL", report.paint.sprayed_ml);
}

#[test]
fn a_kit_that_cannot_is_a_row_with_its_reason() {
    let mut job = leg();
    // Too thick for a small airbrush at any setting, not for the gun that is set up for it.
    job.paint = job.paint.with_kinematic_viscosity(110e-6).expect("a thick paint");
    let mut all = Comparison::new(job, vec![kit("airbrush-gravity-0.2")], Money::default()).expect("a job");
    all.finish();
    let answer = all.answer();
    let row = &answer.rows[2];
    assert_eq!(row.sure, Some(Sure::No));
    assert!(row.cannot.is_some() || !row.notes.is_empty(), "{row:?}");
    assert!(answer.rows[1].figures.is_some(), "the others are there");
}

#[test]
fn a_burst_has_no_part_to_compare() {
    let mut job = leg();
    job.stroke.burst = Some(1.0);
    let refused = Comparison::new(job.clone(), Vec::new(), Money::default()).err().expect("refused");
    assert_eq!(refused.key, "stroke.burst");
    job.stroke.burst = None;
    let many = vec![kit("lvlp-gravity-1.2"); mistcoat::compare::MOST_KITS + 1];
    let refused = Comparison::new(job, many, Money::default()).err().expect("refused");
    assert_eq!(refused.key, "compare.kits");
}

#[test]
fn a_kit_whose_air_is_not_held_says_no() {
    let text = leg().text
        + "droplets = 20000\n[supply]\ncompressor = { delivered_air = \"20 L/min\", tank = \"0.2 L\" }\n";
    let job = Job::from_toml(&text).expect("a job");
    let candidates = vec![kit("conventional-gravity-1.4"), kit("touchup-gravity-0.8")];
    let mut all = Comparison::new(job, candidates, Money::default()).expect("a job");
    all.finish();
    let answer = all.answer();
    let [_, _, large, small] = answer.rows.as_slice() else { panic!("{} rows", answer.rows.len()) };
    let air = large.figures.as_ref().and_then(|f| f.air).expect("the job names a compressor");
    assert!(!air.holds() && (air.yours_l_min - 20.0).abs() < 1e-9, "{air:?}");
    assert_eq!(large.sure, Some(Sure::No), "{large:?}");
    assert!(large.notes.iter().any(|n| n.contains("your air")), "{:?}", large.notes);
    assert!(small.figures.is_some(), "the rest finishes");
}
