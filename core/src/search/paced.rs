//! A film paced: how fast the gun may go over it so that it lies inside the band with the least paint.
//!
//! The film goes with 1 over the speed, so one laid film gives that of every speed. It lies inside the band where its mean keeps so many
//! standard deviations from either end, as many as make a normal film right on the share asked for, and where that share, counted cell by
//! cell, is right: on parts and droplets that nobody has seen too, so by two errors of each limit's own figure in a full flight.

use super::asked::Asked;
use super::flight::Films;
use super::limits::HAND;
use super::pool::Pool;
use super::stop::{Stop, What};
use crate::tally::{GROUPS, jackknife};

/// Errors of a limit's own figure that are kept from it: luck of the hand and counting, of a full flight.
pub(super) const SURE: f64 = 2.0;

/// A film at its pace.
#[derive(Debug, Clone, PartialEq)]
pub struct Paced {
    /// Speed [m/s].
    pub speed: f64,
    /// Trigger on, for a part [s].
    pub seconds: f64,
    /// Paint for a part [m3].
    pub volume: f64,
    /// The same without one replicate group.
    pub without: [f64; GROUPS],
    /// Mean dry film [m].
    pub mean: f64,
    /// Standard deviation over mean [-].
    pub unevenness: f64,
    /// Thinnest spot over mean, mean of the parts [-].
    pub thinnest: f64,
    /// Share of the area inside the band [-].
    pub right: f64,
    /// Wet film of a coat at its thickest spot, mean of the parts [m].
    pub wettest: f64,
    /// Parts, those whose film may run or dry too soon first.
    pub at_risk: Vec<u64>,
    /// What it does not keep to; empty where it may be used.
    pub stops: Vec<Stop>,
    /// What it keeps to here, by less than the errors that others may have.
    pub unsure: Vec<Stop>,
    /// What keeps it from less paint.
    pub bound: What,
}

/// Rounding that is no fault [-].
const SLACK: f64 = 1e-6;

impl Paced {
    /// Paces films that were laid at `speed` [m/s] with a paint flow of `flow` [m3/s]; none where nothing landed.
    #[must_use]
    pub fn of(films: &Films, speed: f64, flow: f64, asked: &Asked) -> Option<Self> {
        Self::at(films, speed, flow, asked, None)
    }

    /// The same at a speed that is kept, where one is given [m/s].
    #[must_use]
    pub fn at(films: &Films, speed: f64, flow: f64, asked: &Asked, kept: Option<f64>) -> Option<Self> {
        let pool = Pool::of(films)?;
        let deviations = asked.deviations();
        let spread = Pool::factor(pool.mean, pool.square, asked.band.0, deviations);
        let counted = pool.counted(asked.band, asked.right_on, SURE);
        let wanted =
            pool.sure_factor(asked.band.0, deviations, SURE).max(counted * (1.0 + SURE * pool.noise()));
        // Faster than a hand goes the film is laid no thinner.
        let factor = kept.map_or_else(|| wanted.max(speed / HAND[1]), |kept| speed / kept);
        let thinnest = pool.thinnest().0;
        let bound = if factor > wanted * (1.0 + 1e-9) {
            What::Fast
        } else if thinnest < asked.thinnest * 1.02 {
            What::Thinnest
        } else {
            What::Band
        };
        let now = speed / factor;
        let volume = flow * films.open * factor;
        let without = core::array::from_fn(|g| {
            let other = Pool::factor(pool.means[g], pool.squares[g], asked.band.0, deviations);
            if bound == What::Fast || kept.is_some() { volume } else { volume * other / spread }
        });
        let mean = pool.mean * factor;
        let mut paced = Self {
            speed: now,
            seconds: films.seconds * factor,
            volume,
            without,
            mean,
            unevenness: pool.square.sqrt(),
            thinnest,
            right: pool.right(factor, asked.band),
            wettest: pool.wettest() * mean / asked.coats,
            at_risk: pool.at_risk(),
            stops: Vec::new(),
            unsure: Vec::new(),
            bound,
        };
        paced.stop(asked, deviations);
        paced.doubt(asked, deviations, &pool, factor);
        Some(paced)
    }

    fn stop(&mut self, asked: &Asked, deviations: f64) {
        let (low, high) = asked.band;
        let off = deviations * self.unevenness;
        let top = self.mean * (1.0 + off) / high - 1.0;
        let short = asked.right_on - self.right;
        let uneven = top.max(short);
        if uneven > SLACK {
            let what = if self.mean < low || top <= SLACK { What::Thin } else { What::Band };
            self.stops.push(Stop::new(what, uneven));
        }
        if self.thinnest < asked.thinnest {
            self.stops.push(Stop::new(What::Thinnest, 1.0 - self.thinnest / asked.thinnest));
        }
        if self.wettest > asked.runs_at {
            self.stops.push(Stop::new(What::Runs, self.wettest / asked.runs_at - 1.0));
        }
        if self.speed < HAND[0] {
            self.stops.push(Stop::new(What::Slow, HAND[0] / self.speed.max(1e-3) - 1.0));
        }
    }

    /// What other parts and other droplets may find not kept.
    fn doubt(&mut self, asked: &Asked, deviations: f64, pool: &Pool, factor: f64) {
        let fine = |what: What, stops: &[Stop]| stops.iter().all(|s| s.what != what);
        if fine(What::Band, &self.stops) && fine(What::Thin, &self.stops) {
            let high = self.mean * (1.0 + deviations * self.unevenness + SURE * pool.high_error(deviations));
            let top = high / asked.band.1 - 1.0;
            let right = |factor: f64| {
                let (right, luck) = pool.right_with(factor, asked.band);
                right - SURE * luck
            };
            // By counting the film may be thinner or thicker than it seems.
            let counting = 1.0 + SURE * pool.noise();
            let thin = asked.right_on - right(factor / counting);
            let thick = asked.right_on - right(factor * counting);
            if thin.max(thick).max(top) > SLACK {
                let what = if thin >= thick.max(top) { What::Thin } else { What::Band };
                self.unsure.push(Stop::new(what, thin.max(thick).max(top)));
            }
        }
        if fine(What::Thinnest, &self.stops) {
            let (thinnest, luck) = pool.thinnest();
            let short = 1.0 - (thinnest - SURE * luck) / asked.thinnest;
            if short > SLACK {
                self.unsure.push(Stop::new(What::Thinnest, short));
            }
        }
    }

    /// Counting error of the paint [m3].
    #[must_use]
    pub fn standard_error(&self) -> f64 {
        jackknife(core::array::from_fn(|g| self.without[g] - self.volume))
    }

    /// Paint over that of another on the same streams, less 1, and its counting error [-].
    #[must_use]
    pub fn against(&self, other: &Self) -> (f64, f64) {
        let value = self.volume / other.volume - 1.0;
        let change = |g: usize| self.without[g] / other.without[g] - 1.0 - value;
        (value, jackknife(core::array::from_fn(change)))
    }

    /// It keeps to all that is asked, for sure.
    #[must_use]
    pub fn is_sure(&self) -> bool {
        self.stops.is_empty() && self.unsure.is_empty()
    }

    /// How good it is: less is better.
    #[must_use]
    pub fn rank(&self) -> (u8, f64) {
        super::stop::rank(&self.stops, &self.unsure, self.volume)
    }
}
