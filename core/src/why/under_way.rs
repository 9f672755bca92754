//! A comparison of causes under way: set-ups that lie between two jobs, flown on the same streams.

use std::collections::BTreeMap;

use super::answer::{Answer, Part, Side};
use super::cause::{Cause, Mixed, Pair};
use crate::error::ParameterError;
use crate::flight::levels;
use crate::job::{Job, RunSetting};
use crate::run::{Prepared, Run};
use crate::tally::{GROUPS, jackknife};

/// Droplets of a flight to the part, and to the card where the fan spaces the passes.
const DROPLETS: u64 = 65_536;
const CARD: u64 = 49_152;

/// What a flight says: share of the solids on the part, mean dry film, solids; groups left out in turn.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Flown {
    landed: f64,
    without: [f64; GROUPS],
    film: f64,
    area: f64,
    solids: f64,
}

/// Why one job takes more paint than another. Every slicing and any number of threads give the same digits.
pub struct Why {
    pair: Pair,
    names: [String; 2],
    /// Causes whose piece both have alike, by their place: dear to find, so found once.
    alike: Mixed,
    flown: BTreeMap<Mixed, Flown>,
    wanted: Vec<Mixed>,
    run: Option<Box<Run>>,
    answer: Answer,
}

crate::in_pieces::in_pieces!(Why);

impl Why {
    /// Prepares the question for two jobs on the same part; nothing is flown yet. Both fly the first one's seed.
    ///
    /// # Errors
    /// Jobs that cannot be sprayed, have no passes or different parts, by key.
    pub fn new(first: Job, second: Job) -> Result<Self, ParameterError> {
        for job in [&first, &second] {
            if let Some(burst) = job.stroke.burst {
                let allowed = "passes over the part in both jobs: paint is told for a part";
                return Err(ParameterError::new("stroke.burst", format!("{burst} s"), allowed));
            }
        }
        if first.part != second.part {
            return Err(ParameterError::new("part", "two different parts", "the same part in both jobs"));
        }
        let run = RunSetting { droplets: DROPLETS, standard_error: None, seed: first.run.seed };
        let names = [first.name.clone(), second.name.clone()];
        let both = [Prepared::new(Job { run, ..first })?, Prepared::new(Job { run, ..second })?];
        let pair = Pair { both };
        let answer = Answer::new(&names);
        let mut alike: Mixed = [false; Cause::ALL.len()];
        for cause in Cause::ALL.into_iter().filter(|c| *c != Cause::Film) {
            alike[cause.place()] = pair.same(cause);
        }
        let mut why =
            Self { pair, names, alike, flown: BTreeMap::new(), wanted: Vec::new(), run: None, answer };
        why.wanted = why.list();
        Ok(why)
    }

    /// The mixtures along both orders; those that change nothing are one and the same.
    fn list(&self) -> Vec<Mixed> {
        let mut all: Vec<Mixed> = Vec::new();
        for order in orders() {
            let mut mixed: Mixed = [false; Cause::ALL.len()];
            for cause in std::iter::once(None).chain(order.into_iter().map(Some)) {
                if let Some(cause) = cause {
                    mixed[cause.place()] = true;
                }
                let own = self.canonical(mixed);
                if !all.contains(&own) {
                    all.push(own);
                }
            }
        }
        all
    }

    /// A mixture by what flies alone: the film does not, and a piece that both have alike is the first's.
    fn canonical(&self, mut mixed: Mixed) -> Mixed {
        mixed[Cause::Film.place()] = false;
        for (own, alike) in mixed.iter_mut().zip(self.alike) {
            *own &= !alike;
        }
        mixed
    }

    /// Share of the work done, 0..=1.
    #[must_use]
    pub fn done(&self) -> f64 {
        let part = self.run.as_ref().map_or(0.0, |run| {
            let (done, wanted) = run.progress();
            done as f64 / wanted.max(1) as f64
        });
        (self.flown.len() as f64 + part) / self.wanted.len().max(1) as f64
    }

    /// What is known by now: complete or nothing but the names.
    #[must_use]
    pub fn answer(&self) -> &Answer {
        &self.answer
    }

    fn step(&mut self, most: u64, threads: bool) -> Result<bool, ParameterError> {
        let Some(mixed) = self.wanted.get(self.flown.len()).copied() else { return Ok(true) };
        let mut run = match self.run.take() {
            Some(run) => run,
            None => {
                let prepared = self.pair.mixed(&mixed)?;
                let card = if prepared.spaced_by_fan() { CARD } else { 0 };
                Box::new(Run::of(prepared, card, levels()[0])?.only_laid())
            }
        };
        let complete = if threads { run.advance_on_all_threads(most) } else { run.advance(most) };
        if !complete {
            self.run = Some(run);
            return Ok(false);
        }
        self.flown.insert(mixed, flown(&run)?);
        // In the order of the list, not of the map: its length says how far it is.
        if self.flown.len() < self.wanted.len() {
            return Ok(false);
        }
        self.split();
        Ok(true)
    }

    /// Paint for a part [m3] and share landed of a mixture.
    fn paint(&self, mixed: Mixed, left_out: Option<usize>) -> (f64, f64) {
        let of = |mixed: Mixed| self.flown.get(&self.canonical(mixed)).copied();
        let ends = [[false; Cause::ALL.len()], [true; Cause::ALL.len()]].map(of);
        let (Some(own), [Some(first), Some(second)]) = (of(mixed), ends) else { return (0.0, 0.0) };
        let whose = if mixed[Cause::Film.place()] { second } else { first };
        let landed = left_out.map_or(own.landed, |g| own.without[g]);
        // The film is what its job has landed, whatever group is left out.
        (whose.film * own.area / (landed.max(1e-9) * own.solids), landed)
    }

    fn split(&mut self) {
        let none: Mixed = [false; Cause::ALL.len()];
        let all: Mixed = [true; Cause::ALL.len()];
        let mut parts: Vec<Part> = Cause::ALL.iter().map(|&cause| Part::none(cause)).collect();
        for (o, order) in orders().into_iter().enumerate() {
            let mut mixed = none;
            for cause in order {
                let before = mixed;
                mixed[cause.place()] = true;
                let step = |left_out| {
                    let (a, b) = (self.paint(before, left_out), self.paint(mixed, left_out));
                    (b.0 - a.0, b.1 - a.1)
                };
                let (ml, share) = step(None);
                let error = jackknife(core::array::from_fn(|g| (step(Some(g)).0 - ml) * 1e6));
                let part = &mut parts[cause.place()];
                part.ml_orders[o] = ml * 1e6;
                part.share_orders[o] = share;
                part.ml_standard_error = part.ml_standard_error.max(error);
            }
        }
        for part in &mut parts {
            part.ml = 0.5 * (part.ml_orders[0] + part.ml_orders[1]);
            part.share = 0.5 * (part.share_orders[0] + part.share_orders[1]);
        }
        let side = |i: usize, mixed: Mixed| {
            let (volume, landed) = self.paint(mixed, None);
            let film = self.flown.get(&self.canonical(mixed)).map_or(0.0, |f| f.film);
            Side { name: self.names[i].clone(), ml: volume * 1e6, landed, film_um: film * 1e6 }
        };
        let sides = [side(0, none), side(1, all)];
        let whole = |g| self.paint(all, g).0 - self.paint(none, g).0;
        let ml = whole(None) * 1e6;
        let error = jackknife(core::array::from_fn(|g| (whole(Some(g)) - whole(None)) * 1e6));
        (self.answer.ml, self.answer.ml_standard_error) = (ml, error);
        self.answer.share = sides[1].landed - sides[0].landed;
        self.answer.sides = sides;
        self.answer.parts = parts;
        self.answer.complete = true;
    }
}

/// One order of swapping and the other way round.
fn orders() -> [[Cause; Cause::ALL.len()]; 2] {
    let mut back = Cause::ALL;
    back.reverse();
    [Cause::ALL, back]
}

fn flown(run: &Run) -> Result<Flown, ParameterError> {
    let prepared = run.prepared();
    let film = run.film();
    let (mean, _) = film.mean_dry();
    let strokes = prepared.strokes(run.card());
    let solids = prepared.spray.volume_flow * prepared.spray.volume_solids * strokes.open_seconds();
    if mean <= 0.0 || solids <= 0.0 {
        return Err(ParameterError::new("stroke", "no paint on the part", "strokes that meet the part"));
    }
    let area = film.area();
    let groups: [f64; GROUPS] = core::array::from_fn(|g| {
        let group = film.group(g);
        film.mean_over_area(|cell| group[cell])
    });
    let sum: f64 = groups.iter().sum();
    let landed = mean * area / solids;
    // The mean without one group, held against the mean of all groups.
    let without = groups.map(|own| landed * (sum - own) / (GROUPS - 1) as f64 / (sum / GROUPS as f64));
    Ok(Flown { landed, without, film: mean, area, solids: prepared.spray.volume_solids })
}
