//! A search held against chance: random set-ups inside the window, the best of them re-flown with the optimum on fresh streams.

use mistcoat::gun::GunSetting;
use mistcoat::job::{FanAxis, Job, with_key};
use mistcoat::search::{Asked, Choice, Found, Lever, Look, OVERLAPS, Search, Trial, Tried, searched};
use mistcoat::stream::{Purpose, Stream};
use rayon::prelude::*;

use crate::scenes::example;

/// Droplets of a random set-up, to the part and to the card.
const FEW: [u64; 2] = [4_096, 8_192];
/// Ten times as many to the part, when the best of them are flown again.
const AGAIN: [u64; 2] = [40_960, 49_152];
/// Parts that a hand paints.
const PARTS: u64 = 24;
/// Random set-ups that are flown again.
const BEST: usize = 5;
/// Random draws for one that the gun sprays at all, at most.
const DRAWS: u64 = 40;
/// Better by more than this and three standard errors of the difference is a miss [-].
pub const WORTH: f64 = 0.003;
/// See [`WORTH`].
pub const ERRORS: f64 = 3.0;

/// A job that is searched: its name, the example it is made from, the keys that are given instead.
type Searched = (&'static str, &'static str, &'static [(&'static str, &'static str)]);

/// Jobs that are searched.
pub const JOBS: [Searched; 20] = [
    ("top, clear", "table-top", &[]),
    ("leg, clear", "chair-leg-wide-fan", &[]),
    ("top, clear, machine", "table-top", &[("stroke.hand", "machine")]),
    ("leg, clear, machine", "chair-leg-wide-fan", &[("stroke.hand", "machine")]),
    ("top, upright", "table-top", &[("part.stands", "upright")]),
    ("top, small", "table-top", &[("part.panel.width", "300 mm"), ("part.panel.height", "200 mm")]),
    ("top, large", "table-top", &[("part.panel.width", "1000 mm"), ("part.panel.height", "600 mm")]),
    ("top, thick band", "table-top", &[("spec.dry_film", "[\"30 um\", \"50 um\"]")]),
    ("top, two coats", "table-top", &[("stroke.coats", "2")]),
    (
        "top, base coat",
        "table-top",
        &[("paint.kind", "solvent-basecoat"), ("spec.dry_film", "[\"10 um\", \"20 um\"]")],
    ),
    (
        "top, conventional gun",
        "table-top",
        &[("gun.kit", "conventional-gravity-1.4"), ("gun.inlet_pressure", "3.0 bar")],
    ),
    ("top, compliant gun", "table-top", &[("gun.kit", "compliant-gravity-1.3")]),
    ("top, LVLP gun", "table-top", &[("gun.kit", "lvlp-gravity-1.2")]),
    ("tube 40 mm", "chair-leg-wide-fan", &[("part.tube.diameter", "40 mm")]),
    ("tube 100 mm", "chair-leg-wide-fan", &[("part.tube.diameter", "100 mm")]),
    (
        "leg, touch-up gun",
        "chair-leg-near-round",
        &[("gun.kit", "touchup-gravity-0.8"), ("gun.fluid", "0.6")],
    ),
    ("leg, thick band", "chair-leg-wide-fan", &[("spec.dry_film", "[\"20 um\", \"45 um\"]")]),
    (
        "leg, beginner",
        "chair-leg-wide-fan",
        &[("stroke.hand", "beginner"), ("spec.dry_film", "[\"15 um\", \"60 um\"]"), ("spec.thinnest", "0.4")],
    ),
    ("curved back", "curved-back", &[]),
    (
        "top, 1.6 to 2.2 bar by its sheet",
        "table-top",
        &[("paint.sheet.pressure", "[\"1.6 bar\", \"2.2 bar\"]")],
    ),
];

/// The job of a row.
#[must_use]
pub fn job_of(row: usize) -> Job {
    let (name, base, keys) = JOBS[row];
    let mut text = example(base).text;
    for (key, value) in keys {
        if *key == "paint.kind" {
            // The other paint has no such mix.
            for own in ["paint.mix", "paint.thinning"] {
                text = mistcoat::job::without_key(&text, own).expect("a key");
            }
        }
        text = with_key(&text, key, value).unwrap_or_else(|e| panic!("{name}: {e}"));
    }
    Job::from_toml(&text).unwrap_or_else(|e| panic!("{name}: {e}"))
}

/// What a check of one job gave.
pub struct Checked {
    /// The optimum; none where nothing was found.
    pub best: Option<Found>,
    /// Random set-ups flown, and of them those that keep to all that is asked.
    pub flown: usize,
    /// See `flown`.
    pub feasible: usize,
    /// Of the best of those: how much less paint than the optimum [-], its standard error, and whether it still keeps to all.
    pub again: Vec<(f64, f64, bool)>,
    /// The optimum keeps to all on the fresh streams too.
    pub holds: bool,
}

impl Checked {
    /// Gains beyond what may be.
    #[must_use]
    pub fn missed(&self) -> Vec<f64> {
        let better = |&&(gain, error, sound): &&(f64, f64, bool)| sound && gain > WORTH + ERRORS * error;
        self.again.iter().filter(better).map(|a| a.0).collect()
    }
}

/// Searches a job, draws `count` random set-ups, and holds the best of them against the optimum.
#[must_use]
pub fn check(job: &Job, count: u64) -> Checked {
    let mut search = Search::new(job.clone()).expect("a job");
    search.finish().expect("a search");
    let answer = search.answer();
    let best = answer.best.clone();
    let own = searched(job);
    let asked = *search.asked();
    let mut flown: Vec<(Job, Tried)> = (0..count)
        .into_par_iter()
        .filter_map(|i| {
            let job = random(&own, &asked, i)?;
            let tried = fly(job.clone(), FEW, &asked)?;
            Some((tried.way.set(job), tried))
        })
        .collect();
    let all = flown.len();
    flown.retain(|(_, tried)| tried.paced.stops.is_empty());
    flown.sort_by(|a, b| a.1.paced.volume.total_cmp(&b.1.paced.volume));
    let fresh = |mut job: Job| {
        job.run.seed = own.run.seed + 777_777;
        fly(job, AGAIN, &asked)
    };
    let optimum = best.as_ref().and_then(|b| b.job(&own).ok()).and_then(fresh);
    let again = optimum.as_ref().map_or_else(Vec::new, |optimum| {
        let again = flown.iter().take(BEST).filter_map(|(job, _)| fresh(job.clone()));
        again
            .map(|tried| {
                let (more, error) = tried.paced.against(&optimum.paced);
                (-more, error, tried.paced.stops.is_empty())
            })
            .collect()
    });
    let holds = optimum.is_some_and(|o| o.paced.stops.is_empty());
    Checked { best, flown: all, feasible: flown.len(), again, holds }
}

fn fly(job: Job, droplets: [u64; 2], asked: &Asked) -> Option<Tried> {
    let look = Look { columns: 6, parts: PARTS };
    let mut trial = Trial::new(job, droplets, look, Choice::Own).ok()?;
    while !trial.advance(asked, u64::MAX, false) {}
    trial.tried()
}

/// A random set-up inside the window that the gun sprays; none where no draw gave one.
fn random(job: &Job, asked: &Asked, number: u64) -> Option<Job> {
    let mut draw = Stream::new(job.run.seed + 4_242, number, Purpose::Hand);
    for _ in 0..DRAWS {
        let mut within = |[low, high]: [f64; 2]| low + (high - low) * draw.open01();
        let mut job = job.clone();
        let pressure = Lever::Pressure.limits(&job);
        job.gun = GunSetting {
            fan: if job.kit.has_fan() { within([0.0, 1.0]) } else { job.gun.fan },
            fluid: within([0.05, 1.0]),
            inlet_pressure: within(pressure),
            trigger: 1.0,
            air_knob: 1.0,
            ..job.gun
        };
        job.stroke.distance = within(Lever::Distance.limits(&job));
        job.stroke.overlap = within(OVERLAPS);
        job.stroke.sides = within([2.0, 6.999]) as u32;
        if job.part.is_of_tubes() {
            job.stroke.fan_axis = if within([0.0, 1.0]) < 0.5 { FanAxis::Across } else { FanAxis::Along };
        }
        if asked.limits().admit(&job, &job.kit, &job.gun).is_ok() {
            return Some(job);
        }
    }
    None
}
