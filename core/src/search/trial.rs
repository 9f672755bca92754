//! A set-up under trial: flown, laid every way that is worth it, paced, and held against what is asked.

use super::air::air_of;
use super::asked::Asked;
use super::flight::Flight;
use super::look::Look;
use super::marks::Marked;
use super::paced::Paced;
use super::stop::{Stop, What};
use super::way::{Way, ways};
use crate::error::ParameterError;
use crate::in_order::InOrder;
use crate::job::Job;
use crate::report::PatternKind;

/// How much a pattern that will not do counts, beside how far a film is out of its band [-]. Ours.
const PATTERN: f64 = 0.3;

/// Which ways a trial lays.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Choice {
    /// As the job has it, at its own speed.
    AsIs,
    /// As the job has it, paced.
    Own,
    /// So many of all there are, paced.
    Of(usize),
}

/// What came out of a trial.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// The best way.
    pub way: Way,
    /// Its film at its pace.
    pub paced: Paced,
    /// The pattern's name.
    pub kind: Option<PatternKind>,
    /// Fan height across the passes [m].
    pub fan: f64,
}

impl Tried {
    /// How good it is: less is better.
    #[must_use]
    pub fn rank(&self) -> (u8, f64) {
        self.paced.rank()
    }
}

/// A set-up under trial.
pub struct Trial {
    flight: Flight,
    look: Look,
    choice: Choice,
    ways: Vec<Way>,
    /// Of many ways the better ones have been told by a few parts.
    screened: bool,
    next: usize,
    laid: Vec<(Way, Paced)>,
    setting: Option<Setting>,
    best: Option<(Way, Paced)>,
    looks: usize,
}

/// A way whose film is being let set, part by part.
struct Setting {
    way: Way,
    paced: Paced,
    marked: Marked,
    wanted: u64,
}

/// Ways whose film is let set at most, while the best so far does not set well.
const SETS: usize = 3;
/// Parts by which the better third of many ways is told.
const SCREEN: u64 = 4;
/// Ways that are not worth telling so.
const FEW: usize = 4;

impl Trial {
    /// A trial of a job with so many droplets to the part and to the card (none: the pattern is not looked at).
    ///
    /// # Errors
    /// A set-up that cannot be sprayed, by its key.
    pub fn new(
        job: Job,
        [droplets, card]: [u64; 2],
        look: Look,
        choice: Choice,
    ) -> Result<Self, ParameterError> {
        let flight = Flight::new(job, droplets, card)?;
        Ok(Self {
            flight,
            look,
            choice,
            ways: Vec::new(),
            screened: false,
            next: 0,
            laid: Vec::new(),
            setting: None,
            best: None,
            looks: 0,
        })
    }

    /// Works on, a piece of at most `most` droplets, one way laid or one film let set (all of them on all threads); true when it is over.
    pub fn advance(&mut self, asked: &Asked, most: u64, threads: bool) -> bool {
        if !self.flight.fly(most, threads) {
            return false;
        }
        if self.ways.is_empty() {
            self.ways = self.chosen();
            self.screened = self.ways.len() <= FEW || self.flight.parts(self.look) <= SCREEN;
        }
        if self.next >= self.ways.len() {
            return self.let_set(threads);
        }
        let left = &self.ways[self.next..];
        let now = if threads { left } else { &left[..left.len().min(1)] };
        let flow = self.flight.prepared().spray.volume_flow;
        let look = if self.screened { self.look } else { Look { parts: SCREEN, ..self.look } };
        let lay = |way: Way| {
            let films = self.flight.lay(way, look);
            let kept = (self.choice == Choice::AsIs).then_some(way.speed);
            (way, Paced::at(&films, way.speed, flow, asked, kept))
        };
        for (way, paced) in each(now, lay) {
            let Some(paced) = paced else { continue };
            self.laid.push((way, paced));
        }
        self.next += if threads { self.ways.len() - self.next } else { 1 };
        if self.next >= self.ways.len() {
            self.laid.in_order(|a, b| order(&a.1, &b.1));
            if self.screened {
                for (way, paced) in &mut self.laid {
                    way.speed = paced.speed;
                }
                // Best last.
                self.laid.reverse();
            } else {
                let kept = self.ways.len().div_ceil(3);
                self.ways = self.laid.drain(..).take(kept).map(|(way, _)| way).collect();
                (self.screened, self.next) = (true, 0);
                if self.ways.is_empty() {
                    return true;
                }
            }
        }
        false
    }

    /// Lets the best way's film set, and the next best one's where that will not do; true when there is no more to see.
    fn let_set(&mut self, threads: bool) -> bool {
        let look = self.look;
        let Some(mut setting) = self.setting.take() else {
            let Some((way, paced)) = self.laid.pop() else { return true };
            if self.best.as_ref().is_some_and(|(_, best)| best.rank() <= paced.rank()) {
                return true;
            }
            // In a quick look what does not lie in its band need not set.
            let hopeless = look.sets < look.parts && paced.stops.iter().any(|s| s.what != What::Runs);
            let wanted = if hopeless { 0 } else { look.sets.min(self.flight.parts(look)) };
            self.setting = Some(Setting { way, paced, marked: Marked::default(), wanted });
            return false;
        };
        let Setting { way, paced, marked, wanted } = &mut setting;
        let left = &paced.at_risk[marked.parts() as usize..(*wanted as usize).min(paced.at_risk.len())];
        let now = if threads { left } else { &left[..left.len().min(1)] };
        let (flight, own) = (&self.flight, *way);
        let mut over = now.len() == left.len();
        for set in each(now, |part| flight.set(own, look, part)) {
            let Some(set) = set else {
                over = true;
                break;
            };
            // Of a few parts the first that is bad tells.
            if marked.add(&set) && look.sets < look.parts {
                over = true;
                break;
            }
        }
        if !over {
            self.setting = Some(setting);
            return false;
        }
        let Setting { way, mut paced, marked, .. } = setting;
        if marked.parts() > 0 {
            // Whether it runs is told by its own time, not by its thickest spot alone.
            paced.stops.retain(|s| s.what != What::Runs);
            let (stops, unsure) =
                if look.sets < look.parts { (marked.any(), Vec::new()) } else { marked.all() };
            paced.stops.extend(stops);
            paced.unsure.extend(unsure);
        }
        if self.best.as_ref().is_none_or(|(_, best)| paced.rank() < best.rank()) {
            self.best = Some((way, paced));
        }
        self.looks += 1;
        self.looks >= SETS || self.best.as_ref().is_some_and(|(_, best)| best.is_sure())
    }

    /// Share done, 0..=1.
    #[must_use]
    pub fn done(&self) -> f64 {
        let (flown, wanted) = self.flight.progress();
        let laid = self.next as f64 / self.ways.len().max(1) as f64;
        0.5 * flown as f64 / wanted.max(1) as f64 + 0.5 * laid
    }

    fn chosen(&self) -> Vec<Way> {
        let own = Way::of(&self.flight.prepared().job);
        match self.choice {
            Choice::AsIs | Choice::Own => vec![own],
            Choice::Of(most) => ways(&self.flight, most),
        }
    }

    /// The flight behind it, to be let set.
    pub fn flight_mut(&mut self) -> &mut Flight {
        &mut self.flight
    }

    /// The flight behind it.
    #[must_use]
    pub fn flight(&self) -> &Flight {
        &self.flight
    }

    /// What came out; none where nothing landed.
    #[must_use]
    pub fn tried(&self) -> Option<Tried> {
        let (way, mut paced) = self.best.clone()?;
        let kind = self.flight.kind();
        let card = self.flight.run().card().fates.total() > 0;
        if card
            && !matches!(kind, Some(PatternKind::Balanced | PatternKind::Round | PatternKind::HeavyCentre))
        {
            paced.stops.push(Stop::new(What::Pattern, PATTERN));
        }
        if let Some(by) = self.short_of_air(way) {
            paced.stops.push(Stop::new(What::Air, by));
        }
        Some(Tried { way, paced, kind, fan: self.flight.fan() })
    }

    /// How much air is lacking, over what the gun draws [-]; none where it holds or no supply is named.
    fn short_of_air(&self, way: Way) -> Option<f64> {
        let mut prepared = self.flight.prepared().clone();
        prepared.job.supply.as_ref()?;
        prepared.job = way.set(prepared.job);
        let strokes = prepared.strokes(self.flight.run().card());
        let air = air_of(&prepared, &strokes, way.speed)?;
        let drawn = prepared.state.air.free_air() * 60_000.0;
        (!air.holds()).then(|| (-air.margin_l_min / drawn.max(1e-9)).max(0.05))
    }
}

/// Better first.
fn order(a: &Paced, b: &Paced) -> std::cmp::Ordering {
    let (a, b) = (a.rank(), b.rank());
    a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
}

/// Every one's value, in their order, on all threads where the crate has them.
#[cfg(feature = "parallel")]
fn each<A: Copy + Sync, T: Send>(all: &[A], value: impl Fn(A) -> T + Sync + Send) -> Vec<T> {
    use rayon::prelude::*;
    all.par_iter().map(|&one| value(one)).collect()
}

/// Every one's value, in their order.
#[cfg(not(feature = "parallel"))]
fn each<A: Copy, T>(all: &[A], value: impl Fn(A) -> T) -> Vec<T> {
    all.iter().map(|&one| value(one)).collect()
}
