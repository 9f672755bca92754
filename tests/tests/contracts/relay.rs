//! What was flown once, laid along other strokes, is what a run of those strokes lays.

use mistcoat::job::{Job, with_key};
use mistcoat::run::Run;
use mistcoat_tests::scenes::example;

fn changed(job: &Job, keys: &[(&str, &str)]) -> Job {
    let text =
        keys.iter().fold(job.text.clone(), |text, (key, value)| with_key(&text, key, value).expect(key));
    let mut changed = Job::from_toml(&text).expect("a job");
    changed.run.droplets = job.run.droplets;
    changed
}

fn small(name: &str) -> Job {
    let mut job = example(name);
    job.run.droplets = 10_007;
    job
}

#[test]
fn other_strokes_of_one_flight_are_a_run_of_those_strokes() {
    for (name, keys) in [
        ("table-top", [("stroke.overlap", "0.3"), ("stroke.speed", "600 mm/s"), ("stroke.lead", "20 mm")]),
        ("chair-leg-wide-fan", [("stroke.sides", "3"), ("stroke.speed", "600 mm/s"), ("stroke.coats", "2")]),
    ] {
        let job = small(name);
        let other = changed(&job, &keys);
        let mut relaid = Run::new(job).expect("a job");
        relaid.finish();
        assert!(relaid.relay(other.clone()).expect("a job"), "{name}: only the strokes differ");
        assert!(!relaid.is_complete(), "{name}: bare again");
        relaid.finish();
        let mut flown = Run::new(other).expect("a job");
        flown.finish();
        assert_eq!(relaid.digest().expect("figures"), flown.digest().expect("figures"), "{name}");
    }
}

#[test]
fn another_flight_is_not_relaid() {
    for (key, value) in [
        ("gun.fan", "0.5"),
        ("gun.inlet_pressure", "1.7 bar"),
        ("stroke.distance", "200 mm"),
        ("paint.thinning", "20 %"),
        ("booth.temperature", "28 C"),
        ("part.panel.width", "500 mm"),
        ("run.seed", "2"),
    ] {
        let job = small("table-top");
        let mut run = Run::new(job.clone()).expect("a job");
        run.finish();
        let before = run.digest().expect("figures");
        assert!(!run.relay(changed(&job, &[(key, value)])).expect("a job"), "{key}");
        assert_eq!(run.digest().expect("figures"), before, "{key}: nothing is changed");
    }
}

#[test]
fn a_run_with_fewer_droplets_to_the_card_is_a_run() {
    let job = small("table-top");
    let mut run = Run::with_card(job, 8192, mistcoat::flight::levels()[0]).expect("a job");
    run.finish();
    assert_eq!((run.card().fates.total(), run.progress()), (8192, (18_199, 18_199)));
    assert!(run.film().mean_dry().0 > 10e-6);
}
