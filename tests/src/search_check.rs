//! A search held against chance: random set-ups inside the window, the best of them re-flown with the optimum on fresh streams.
//!
//! Most random set-ups are out by far, or take far more paint: all are looked at quickly, then by rising paint those that may be among the
//! five best are looked at as the search's own trials are, until the next could not be.

use mistcoat::gun::GunSetting;
use mistcoat::job::{FanAxis, Job, with_key};
use mistcoat::search::{
    Asked, Choice, FULL_PARTS, Found, Lever, Look, OVERLAPS, Search, Stop, Trial, Tried, What, searched,
};
use mistcoat::stream::{Purpose, Stream};
use rayon::prelude::*;

use crate::scenes::example;

/// Droplets of a random set-up, to the part and to the card.
const FEW: [u64; 2] = [4_096, 8_192];
/// Ten times as many to the part, when the best of them are flown again.
const AGAIN: [u64; 2] = [40_960, 49_152];
/// A quick look, by a few parts; none is let set.
const QUICK: Look = Look { columns: 6, parts: 8, sets: 0 };
/// A closer one.
const CLOSE: Look = Look { columns: 6, parts: 24, sets: 6 };
/// Limits passed by more than this in all in a quick look are passed in a closer one [-].
const BY_FAR: f64 = 0.08;
/// Paint of a quick look and of a closer one differ by less [-].
const QUICK_ERROR: f64 = 0.05;
/// Set-ups that are looked at closer at a time.
const AT_A_TIME: usize = 4;
/// Parts by which it is told whether the optimum keeps to all, three times those of a full flight.
const HOLDS: u64 = 288;
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
    /// Random set-ups drawn, and of them those that were looked at closer.
    pub drawn: usize,
    /// See `drawn`.
    pub closer: usize,
    /// Five of them that keep to all that is asked with the least paint, by their number in the draw, and their paint [m3].
    pub five: Vec<(u64, f64)>,
    /// The same flown again: how much less paint than the optimum [-], its standard error, and whether it still keeps to all.
    pub again: Vec<(f64, f64, bool)>,
    /// What the optimum, at the speed that it is told with, does not keep to on fresh streams and other parts.
    pub broken: Vec<Stop>,
}

impl Checked {
    /// Gains beyond what may be.
    #[must_use]
    pub fn missed(&self) -> Vec<f64> {
        let better = |&&(gain, error, sound): &&(f64, f64, bool)| sound && gain > WORTH + ERRORS * error;
        self.again.iter().filter(better).map(|a| a.0).collect()
    }
}

/// Searches a job, and holds the answer against chance.
#[must_use]
pub fn check(job: &Job, count: u64, all: bool) -> Checked {
    let mut search = Search::new(job.clone()).expect("a job");
    search.finish().expect("a search");
    held(job, &search, count, all)
}

/// Draws `count` random set-ups, and holds the best of them against the optimum of a search that is over. With `all` every one is looked at
/// closer.
#[must_use]
pub fn held(job: &Job, search: &Search, count: u64, all: bool) -> Checked {
    let best = search.answer().best.clone();
    let own = searched(job);
    let asked = *search.asked();
    let (drawn, closer, five) = five_best(&own, &asked, count, all);
    let fresh = |mut job: Job, look: Look, choice: Choice| {
        job.run.seed = own.run.seed + 777_777;
        fly(job, AGAIN, look, choice, &asked)
    };
    let full = Look::whole(CLOSE.columns, FULL_PARTS);
    let set = best.as_ref().and_then(|b| b.job(&own).ok());
    let optimum = set.clone().and_then(|job| fresh(job, full, Choice::Own));
    let again = optimum.as_ref().map_or_else(Vec::new, |optimum| {
        let again: Vec<Option<Tried>> =
            five.par_iter().map(|(_, job, _)| fresh(job.clone(), full, Choice::Own)).collect();
        let told = |tried: Tried| {
            let (more, error) = tried.paced.against(&optimum.paced);
            (-more, error, tried.paced.is_sure())
        };
        again.into_iter().flatten().map(told).collect()
    });
    let whole = Look::whole(CLOSE.columns, HOLDS);
    let broken = set.and_then(|job| fresh(job, whole, Choice::AsIs)).map_or_else(Vec::new, |t| t.paced.stops);
    let five = five.iter().map(|(number, _, tried)| (*number, tried.paced.volume)).collect();
    Checked { best, drawn, closer, five, again, broken }
}

/// Of random set-ups the number drawn, the number looked at closer, and the five with the least paint that keep to all.
fn five_best(own: &Job, asked: &Asked, count: u64, all: bool) -> (usize, usize, Vec<(u64, Job, Tried)>) {
    let drawn: Vec<(u64, Job, Option<Tried>)> = (0..count)
        .into_par_iter()
        .filter_map(|i| {
            let job = random(own, asked, i)?;
            let tried = if all { None } else { Some(fly(job.clone(), FEW, QUICK, Choice::Own, asked)?) };
            Some((i, job, tried))
        })
        .collect();
    let number = drawn.len();
    // Whether it runs is told by its film in time alone.
    let off = |tried: &Tried| -> f64 {
        tried.paced.stops.iter().filter(|s| s.what != What::Runs).map(|s| s.by).sum()
    };
    let quick = |tried: &Option<Tried>| tried.as_ref().map_or(0.0, |t| t.paced.volume);
    let mut waiting: Vec<_> =
        drawn.into_iter().filter(|(_, _, tried)| tried.as_ref().is_none_or(|t| off(t) < BY_FAR)).collect();
    waiting.sort_by(|a, b| quick(&a.2).total_cmp(&quick(&b.2)));
    let mut best: Vec<(u64, Job, Tried)> = Vec::new();
    let mut closer = 0;
    for some in waiting.chunks(if all { waiting.len().max(1) } else { AT_A_TIME }) {
        let least = some.first().map_or(0.0, |first| quick(&first.2));
        let fifth = best.get(BEST - 1).map_or(f64::INFINITY, |fifth| fifth.2.paced.volume);
        if least > fifth * (1.0 + QUICK_ERROR) {
            break;
        }
        closer += some.len();
        let flown: Vec<_> = some
            .par_iter()
            .filter_map(|(i, job, _)| {
                let tried = fly(job.clone(), FEW, CLOSE, Choice::Own, asked)?;
                Some((*i, tried.way.set(job.clone()), tried))
            })
            .collect();
        best.extend(flown.into_iter().filter(|(_, _, tried)| tried.paced.is_sure()));
        best.sort_by(|a, b| a.2.paced.volume.total_cmp(&b.2.paced.volume));
        best.truncate(BEST);
    }
    (number, closer, best)
}

fn fly(job: Job, droplets: [u64; 2], look: Look, choice: Choice, asked: &Asked) -> Option<Tried> {
    let mut trial = Trial::new(job, droplets, look, choice).ok()?;
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
