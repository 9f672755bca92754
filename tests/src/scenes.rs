//! Jobs, cards and courses that several checks start from.

use mistcoat::course::{Course, Outcome, jet_of, panel_scene, settings, tube_scene};
use mistcoat::emission::Emission;
use mistcoat::flight::{Batch, Scene, levels};
use mistcoat::job::Job;
use mistcoat::run::{CardTally, Tally};
use mistcoat::set_up::Model;
use mistcoat::spray::{SizeDistribution, Spray};
use mistcoat::stream::Purpose;
use mistcoat::tally::Fate;
use std::path::Path;

/// A panel of 600 x 400 mm, flat, gun and paint of the catalogue as rated, 190 mm off.
#[must_use]
pub fn job(kit: &str, paint: &str) -> Job {
    let text = format!(
        "version = 1\ngun.kit = \"{kit}\"\npaint.kind = \"{paint}\"\n\
         part.panel = {{ width = \"600 mm\", height = \"400 mm\" }}\npart.stands = \"flat\"\n\
         stroke = {{ distance = \"190 mm\", speed = \"450 mm/s\" }}\n"
    );
    Job::from_toml(&text).unwrap_or_else(|e| panic!("{kit}, {paint}: {e}"))
}

/// Text of a job: clear on an upright panel of 600 x 400 mm, 180 mm off at 450 mm/s; lines that follow belong to `[run]`.
pub const PANEL: &str = r#"version = 1
[gun]
kit = "hvlp-gravity-1.3"
[paint]
kind = "two-pack-clear"
[part]
panel = { width = "600 mm", height = "400 mm" }
[stroke]
distance = "180 mm"
speed = "450 mm/s"
[run]
"#;

/// A job file of `core/examples/jobs`, by its name without ".toml".
#[must_use]
pub fn example(name: &str) -> Job {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../core/examples/jobs/{name}.toml"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    Job::from_toml(&text).unwrap_or_else(|e| panic!("{name}: {e}"))
}

/// The job's gun held still before the large card, with a model of one's own.
#[must_use]
pub fn card_course(job: &Job, model: &Model) -> Course {
    let spray = model.spray(&job.kit, &job.gun, &job.paint, &job.booth).expect("a spray");
    card_of(job, spray)
}

/// The same with droplets of one size [m], give or take 2 %.
#[must_use]
pub fn one_size(job: &Job, diameter: f64) -> Course {
    let mut spray = Model::default().spray(&job.kit, &job.gun, &job.paint, &job.booth).expect("a spray");
    spray.sizes = SizeDistribution {
        volume_median: diameter,
        sigma_g: 1.2,
        smallest: 0.98 * diameter,
        largest: 1.02 * diameter,
    };
    card_of(job, spray)
}

/// A spray held still before the large card.
#[must_use]
pub fn card_of(job: &Job, spray: Spray) -> Course {
    let jet = jet_of(&spray, &job.booth, job.stroke.distance, false).expect("a jet");
    before(panel_scene(jet, job.stroke.distance).expect("a card"), job, spray)
}

/// A spray held still before the middle of a tube across the fan, of some diameter [m].
#[must_use]
pub fn tube_of(job: &Job, spray: Spray, diameter: f64) -> Course {
    let jet = jet_of(&spray, &job.booth, job.stroke.distance, false).expect("a jet");
    before(tube_scene(jet, job.stroke.distance, diameter, 0.0).expect("a tube"), job, spray)
}

fn before(scene: Scene<f64>, job: &Job, spray: Spray) -> Course {
    let jet = jet_of(&spray, &job.booth, job.stroke.distance, false).expect("a jet");
    let emission = Emission::new(&spray, &jet, false);
    let flight = settings(&spray, &job.booth, [0.0, 0.0, 1.0]);
    let purposes = [Purpose::Emission, Purpose::Flight, Purpose::Wall];
    Course::new(scene, flight, emission, spray, job.run.seed, purposes)
}

/// Flies droplets `0..droplets` at the machine's best SIMD level.
pub fn fly(course: &Course, droplets: u64, each: impl FnMut(&Outcome)) {
    course.fly(levels()[0], 0, droplets, &mut Batch::default(), each);
}

/// What a course leaves on its card.
#[must_use]
pub fn card(course: &Course, droplets: u64) -> CardTally {
    let mut tally = CardTally::default();
    fly(course, droplets, |o| tally.count(o));
    tally
}

/// Droplet by droplet, whether it landed where `wanted` says; for paired differences.
#[must_use]
pub fn landings(course: &Course, droplets: u64, wanted: impl Fn(&Outcome) -> bool) -> Vec<bool> {
    let mut landed = Vec::with_capacity(usize::try_from(droplets).unwrap_or(0));
    fly(course, droplets, |o| landed.push(o.fate == Fate::Landed && wanted(o)));
    landed
}

/// A share of droplets and its standard error [-].
#[must_use]
pub fn share(landed: &[bool]) -> (f64, f64) {
    let n = landed.len() as f64;
    let p = landed.iter().filter(|&&l| l).count() as f64 / n;
    (p, (p * (1.0 - p) / n).sqrt())
}

/// Difference of two shares (first less second) of the same droplets, and its paired standard error [-].
#[must_use]
pub fn paired(a: &[bool], b: &[bool]) -> (f64, f64) {
    assert_eq!(a.len(), b.len(), "the same droplets");
    let n = a.len() as f64;
    let more = a.iter().zip(b).filter(|(a, b)| **a && !**b).count() as f64;
    let less = a.iter().zip(b).filter(|(a, b)| !**a && **b).count() as f64;
    let mean = (more - less) / n;
    (mean, (((more + less) / n - mean * mean).max(0.0) / n).sqrt())
}
