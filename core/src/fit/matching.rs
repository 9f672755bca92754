//! The fit, droplet by droplet: a design of cards, then cards at the gun it points to, then the answer. Any slicing of
//! [`Matching::advance`] and any number of threads give the same digits.

mod stages;

use super::answer::MatchedGun;
use super::closed::Closed;
use super::ensemble::{Ensemble, point};
use super::flown::{CardFigures, FlownCard, prepare};
use super::posterior::Posterior;
use super::surface::{FEWEST, Surface};
use crate::error::ParameterError;
use crate::flight::{Batch, levels};
use crate::job::{Job, Measurement, Reading};
use crate::normal;
use crate::run::{Prepared, Tally, fly_all};
use fearless_simd::Level;

/// Cards of the design.
const DESIGN: u64 = 40;
/// Droplets to a card of the design, and to one flown anew.
const DESIGN_DROPLETS: u64 = 16_384;
const ANEW_DROPLETS: u64 = 65_536;
/// Times that cards are flown anew at most.
const ROUNDS: usize = 2;
/// The answer stands when no constant moved by more than this share of its deviation.
const STILL: f64 = 0.25;
/// Droplets that take as long as one gun of the ensemble, about.
const DROPLETS_A_GUN: u64 = 16;
/// Width of the design over the prior's, and where it is cut [deviations].
const WIDER: f64 = 1.25;
const FARTHEST: f64 = 2.2;

/// Surfaces of a job's cards, for the next fit of the same gun, setting and paint.
#[derive(Debug, Clone, Default)]
pub struct Surfaces(Vec<(f64, Surface)>);

impl Surfaces {
    /// None is there yet.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// One card to fly.
#[derive(Debug, Clone, Copy)]
struct Task {
    /// Place in the list of distances.
    distance: usize,
    logs: [f64; 4],
    droplets: u64,
}

/// A fit under way.
pub struct Matching {
    closed: Closed,
    readings: Vec<Reading>,
    trust: f64,
    level: Level,
    distances: Vec<f64>,
    surfaces: Vec<(f64, Surface)>,
    tasks: Vec<Task>,
    next: usize,
    flying: Option<(Box<Prepared>, FlownCard, u64)>,
    batch: Batch<f32>,
    /// Cards of the running stage by distance.
    cards: Vec<Vec<([f64; 4], CardFigures)>>,
    round: usize,
    best: Option<Posterior>,
    ensemble: Option<Ensemble>,
    flown: u64,
    end: Option<Result<MatchedGun, ParameterError>>,
}

impl Matching {
    /// Prepares the fit of a job's gun to the readings in it (`[card]`). Whatever was matched before is left aside.
    ///
    /// # Errors
    /// No reading, a gun with a fault, or a set-up that cannot be sprayed, by its key.
    pub fn new(job: Job) -> Result<Self, ParameterError> {
        let readings = job.card.clone();
        if readings.iter().all(|r| r.kept_back) {
            let key = readings.first().map_or("card", |r| r.key);
            return Err(ParameterError::new(
                key,
                if readings.is_empty() { "nothing was measured" } else { "the only reading is kept back" },
                "at least one reading to fit: card.fan_height, card.fan_thickness, card.weighed or card.caught, \
                 card.wet_film or card.dry_film",
            ));
        }
        if !job.gun.faults.is_empty() {
            let faults: Vec<_> = job.gun.faults.iter().map(|f| f.word()).collect();
            let value = format!("a gun with {}", faults.join(", "));
            return Err(ParameterError::new(
                "gun.faults",
                value,
                "none: put the gun right, then spray its card",
            ));
        }
        let closed = Closed::new(job)?;
        let mut distances: Vec<f64> = Vec::new();
        for reading in &readings {
            if let Some(distance) = distance_of(reading.what).filter(|d| !distances.contains(d)) {
                distances.push(distance);
            }
        }
        let first = distances.first().copied().unwrap_or(closed.job.stroke.distance);
        // Refuses what cannot be sprayed at all.
        prepare(&closed, [0.0; 4], first, closed.job.run.seed)?;
        let mut matching = Self {
            closed,
            readings,
            trust: 1.0,
            level: levels()[0],
            distances,
            surfaces: Vec::new(),
            tasks: Vec::new(),
            next: 0,
            flying: None,
            batch: Batch::default(),
            cards: Vec::new(),
            round: 0,
            best: None,
            ensemble: None,
            flown: 0,
            end: None,
        };
        matching.design();
        Ok(matching)
    }

    /// Takes the model's own error as so many times the usual: 1 unless called, 0 where the readings are the model's.
    #[must_use]
    pub fn model_error(mut self, times: f64) -> Self {
        self.trust = if times.is_finite() { times.clamp(0.0, 10.0) } else { 1.0 };
        self
    }

    /// Starts from the surfaces of an earlier fit. They must be of the same gun, setting, paint and booth; distances that they lack
    /// are flown.
    #[must_use]
    pub fn with_surfaces(mut self, surfaces: &Surfaces) -> Self {
        self.surfaces = surfaces.0.iter().filter(|(d, _)| self.distances.contains(d)).cloned().collect();
        self.design();
        self
    }

    /// The surfaces, once the design is flown.
    #[must_use]
    pub fn surfaces(&self) -> Surfaces {
        Surfaces(self.surfaces.clone())
    }

    /// Flies at most `most` droplets more; true when the answer is there.
    pub fn advance(&mut self, most: u64) -> bool {
        self.fly(most, false)
    }

    /// The same on all threads where the crate has them.
    pub fn advance_on_all_threads(&mut self, most: u64) -> bool {
        self.fly(most, true)
    }

    /// Flies all that is left, on all threads.
    pub fn finish(&mut self) {
        while !self.fly(u64::MAX, true) {}
    }

    /// Droplets flown, and wanted as far as is known: cards flown anew may be wanted once more.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        let left: u64 = self.tasks[self.next.min(self.tasks.len())..].iter().map(|t| t.droplets).sum();
        let flying = self.flying.as_ref().map_or(0, |(_, _, flown)| *flown);
        let anew = if self.round == 0 { self.distances.len() as u64 * ANEW_DROPLETS } else { 0 };
        let all = if self.end.is_some() { self.flown } else { self.flown + left + anew };
        (self.flown + flying, all)
    }

    /// The answer, or why there is none; nothing before all is flown.
    #[must_use]
    pub fn matched(&self) -> Option<&Result<MatchedGun, ParameterError>> {
        self.end.as_ref()
    }

    /// Tasks of the distances whose surface is not there yet.
    fn design(&mut self) {
        let points: Vec<_> = (0..DESIGN).map(|i| design_point(&self.closed, i)).collect();
        let lacks = |d: &f64| !self.surfaces.iter().any(|(s, _)| s == d);
        self.tasks = (self.distances.iter().enumerate().filter(|(_, d)| lacks(d)))
            .flat_map(|(distance, _)| {
                points.iter().map(move |&logs| Task { distance, logs, droplets: DESIGN_DROPLETS })
            })
            .collect();
        self.next = 0;
        self.cards = vec![Vec::new(); self.distances.len()];
    }

    fn fly(&mut self, most: u64, all_threads: bool) -> bool {
        let mut left = most;
        while self.end.is_none() {
            if self.ensemble.is_some() {
                if left == 0 {
                    break;
                }
                left = self.weigh(left);
                continue;
            }
            let Some(task) = self.tasks.get(self.next).copied() else {
                self.stage_is_flown();
                continue;
            };
            if left == 0 {
                break;
            }
            let distance = self.distances[task.distance];
            if self.flying.is_none() {
                match prepare(&self.closed, task.logs, distance, self.closed.job.run.seed) {
                    Ok(prepared) => self.flying = Some((Box::new(prepared), FlownCard::default(), 0)),
                    // A gun of the design from which no paint flows: the surface does without it.
                    Err(_) => {
                        self.next += 1;
                        continue;
                    }
                }
            }
            let Some((prepared, card, flown)) = self.flying.as_mut() else { break };
            let to = task.droplets.min(flown.saturating_add(left));
            left -= to - *flown;
            if all_threads {
                fly_all(&prepared.card, self.level, *flown, to, FlownCard::default, card);
            } else {
                prepared.card.fly(self.level, *flown, to, &mut self.batch, |o| card.count(o));
            }
            *flown = to;
            if to == task.droplets {
                if let Some(figures) = card.figures() {
                    let values = self.closed.values(task.logs).logs;
                    self.cards[task.distance].push((values, figures));
                }
                self.flown += to;
                self.flying = None;
                self.next += 1;
            }
        }
        self.end.is_some()
    }
}

fn distance_of(what: Measurement) -> Option<f64> {
    match what {
        Measurement::FanHeight { distance }
        | Measurement::FanThickness { distance }
        | Measurement::WetFilm { distance, .. }
        | Measurement::DryFilm { distance, .. } => Some(distance),
        Measurement::Weighed { .. } | Measurement::Caught { .. } => None,
    }
}

/// Point of the design: even over the prior, a little wider, the middle first.
fn design_point(closed: &Closed, number: u64) -> [f64; 4] {
    let place = point(number);
    core::array::from_fn(|i| {
        let z = WIDER * normal::quantile(place[i]);
        z.clamp(-FARTHEST, FARTHEST) * closed.unknowns[i].prior()
    })
}

/// The design can be met by the surface.
const _: () = assert!(DESIGN as usize >= 2 * FEWEST);
