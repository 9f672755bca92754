//! Half the step length moves next to nothing: paired by droplet number.

use mistcoat::course::Course;
use mistcoat::flight::{FlightSettings, STEP};
use mistcoat::run::Prepared;
use mistcoat_tests::scenes::{example, landings, paired};

const DROPLETS: u64 = 1_000_000;
fn with_step(course: &Course, step: f64) -> Course {
    let settings = FlightSettings { step, ..course.settings };
    Course::new(
        course.scene,
        settings,
        course.emission.clone(),
        course.spray.clone(),
        course.seed,
        course.purposes,
    )
}

fn halved(job: &str, step: f64) -> (f64, f64) {
    let course = Prepared::new(example(job)).expect("a job").course;
    let halves = std::thread::scope(|scope| {
        [step, 0.5 * step]
            .map(|s| {
                let course = with_step(&course, s);
                scope.spawn(move || landings(&course, DROPLETS, |_| true))
            })
            .map(|flown| flown.join().expect("landings"))
    });
    let (difference, error) = paired(&halves[1], &halves[0]);
    println!("{job}: landed share by half the step {difference:+.5}, paired standard error {error:.5}");
    (difference, error)
}

#[test]
fn panel() {
    let (difference, error) = halved("table-top", STEP);
    assert!(difference.abs() < 0.002, "{difference} +- {error}");
    assert!(difference.abs() < 3.0 * error, "{difference} +- {error}");
}

#[test]
fn tube() {
    let (difference, error) = halved("chair-leg-wide-fan", STEP);
    assert!(difference.abs() < 0.002, "{difference} +- {error}");
    assert!(difference.abs() < 3.0 * error, "{difference} +- {error}");
}
