//! A film paced: how fast the gun may go over it so that it lies inside the band with the least paint.
//!
//! The film goes with 1 over the speed, so one laid film gives that of every speed. It lies inside the band where its mean keeps so many
//! standard deviations from either end, as many as make a normal film right on the share asked for, and where that share, counted cell by
//! cell, is right. Counting noise is out of both: the deviation comes from products of different replicate groups, and cells
//! are drawn towards the mean until they spread no more than that.

use super::asked::Asked;
use super::flight::Films;
use super::limits::HAND;
use super::stop::{Stop, What};
use crate::film::{FilmMap, squares};
use crate::tally::{GROUPS, jackknife};

/// Share of the mean that is left between the band's low end and the mean less the deviations, at least [-].
const LEAST: f64 = 0.1;

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
    /// What it does not keep to; empty where it may be used.
    pub stops: Vec<Stop>,
    /// What keeps it from less paint.
    pub bound: What,
}

/// Rounding that is no fault [-].
const SLACK: f64 = 1e-6;

/// Films of one or several parts as one, in shares of their mean.
struct Pool {
    mean: f64,
    means: [f64; GROUPS],
    square: f64,
    squares: [f64; GROUPS],
    /// Cells over the mean, rising.
    cells: Vec<f64>,
    thinnest: f64,
    /// Wettest cell over the mean dry film.
    wettest: f64,
}

impl Pool {
    fn of(films: &[FilmMap]) -> Option<Self> {
        let count = films.len() as f64;
        let (mut mean, mut means) = (0.0, [0.0; GROUPS]);
        let (mut second, mut seconds) = (0.0, [0.0; GROUPS]);
        let mut each = Vec::new();
        for film in films {
            let (all, without) = squares(film)?;
            let own = film.mean_dry().0;
            let groups: [f64; GROUPS] = core::array::from_fn(|g| {
                let group = film.group(g);
                film.mean_over_area(|cell| group[cell])
            });
            let sum: f64 = groups.iter().sum();
            mean += own / count;
            second += own * own * (1.0 + all) / count;
            for g in 0..GROUPS {
                let rest = (sum - groups[g]) / (GROUPS - 1) as f64;
                means[g] += rest / count;
                seconds[g] += rest * rest * (1.0 + without[g]) / count;
            }
            each.push((film, own, all.max(0.0)));
        }
        if mean <= 0.0 {
            return None;
        }
        let (mut cells, mut thinnest, mut wettest) = (Vec::new(), 0.0, 0.0);
        for (film, own, square) in each {
            let meant = || (0..film.len()).filter(|&cell| !film.is_hidden(cell));
            let spread = film.mean_over_area(|cell| {
                let off = film.dry[cell] / own - 1.0;
                off * off
            });
            let drawn = if spread > square { (square / spread).sqrt() } else { 1.0 };
            let true_to = |h: f64| own * (1.0 + drawn * (h / own - 1.0)) / mean;
            let wet = film.mean_wet() / own;
            let first = cells.len();
            cells.extend(meant().map(|cell| true_to(film.dry[cell])));
            let ends = cells[first..].iter().fold((f64::MAX, 0.0f64), |(l, h), &c| (l.min(c), h.max(c)));
            thinnest += ends.0.max(0.0) * mean / own / count;
            wettest += ends.1 * wet / count;
        }
        cells.sort_by(f64::total_cmp);
        let over = |second: f64, mean: f64| (second / (mean * mean) - 1.0).max(0.0);
        let squares = core::array::from_fn(|g| over(seconds[g], means[g]));
        Some(Self { mean, means, square: over(second, mean), squares, cells, thinnest, wettest })
    }

    /// Factor on the film that brings its deviations to the low end of the band.
    fn factor(mean: f64, square: f64, low: f64, deviations: f64) -> f64 {
        low / (mean * (1.0 - deviations * square.sqrt()).max(LEAST))
    }

    /// Share of the cells in the band with the film taken `factor` times.
    fn right(&self, factor: f64, (low, high): (f64, f64)) -> f64 {
        let at = |h: f64| self.cells.partition_point(|c| *c < h / (factor * self.mean));
        // A cell on the end itself is inside.
        let (below, upto) = (at(low * (1.0 - 1e-9)), at(high * (1.0 + 1e-9)));
        (upto.saturating_sub(below)) as f64 / self.cells.len().max(1) as f64
    }

    /// Least factor that puts the share asked for inside the band; where none does, the one that puts most there.
    fn counted(&self, asked: &Asked) -> f64 {
        let n = self.cells.len();
        let out = ((1.0 - asked.right_on) * n as f64 + 1e-9) as usize;
        let mut best = (0.0, 0.0);
        for below in (0..=out.min(n - 1)).rev() {
            let factor = asked.band.0 / (self.mean * self.cells[below].max(1e-9));
            let right = self.right(factor, asked.band);
            if right >= asked.right_on - 1e-9 {
                return factor;
            }
            if right > best.0 {
                best = (right, factor);
            }
        }
        best.1
    }
}

impl Paced {
    /// Paces films that were laid at `speed` [m/s] with a paint flow of `flow` [m3/s]; none where nothing landed.
    #[must_use]
    pub fn of(films: &Films, speed: f64, flow: f64, asked: &Asked) -> Option<Self> {
        Self::at(films, speed, flow, asked, None)
    }

    /// The same at a speed that is kept, where one is given [m/s].
    #[must_use]
    pub fn at(films: &Films, speed: f64, flow: f64, asked: &Asked, kept: Option<f64>) -> Option<Self> {
        let pool = Pool::of(&films.films)?;
        let deviations = asked.deviations();
        let spread = Pool::factor(pool.mean, pool.square, asked.band.0, deviations);
        let counted = pool.counted(asked);
        let wanted = spread.max(counted);
        // Faster than a hand goes the film is laid no thinner.
        let factor = kept.map_or_else(|| wanted.max(speed / HAND[1]), |kept| speed / kept);
        let bound = if factor > wanted * (1.0 + 1e-9) {
            What::Fast
        } else if pool.thinnest < asked.thinnest * 1.02 {
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
            thinnest: pool.thinnest,
            right: pool.right(factor, asked.band),
            wettest: pool.wettest * mean / asked.coats,
            stops: Vec::new(),
            bound,
        };
        paced.stop(asked, deviations);
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
            self.stops.push(Stop { what, by: uneven });
        }
        if self.thinnest < asked.thinnest {
            self.stops.push(Stop { what: What::Thinnest, by: 1.0 - self.thinnest / asked.thinnest });
        }
        if self.wettest > asked.runs_at {
            self.stops.push(Stop { what: What::Runs, by: self.wettest / asked.runs_at - 1.0 });
        }
        if self.speed < HAND[0] {
            self.stops.push(Stop { what: What::Slow, by: HAND[0] / self.speed.max(1e-3) - 1.0 });
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

    /// How good it is: less is better.
    #[must_use]
    pub fn rank(&self) -> (u8, f64) {
        if self.stops.is_empty() { (0, self.volume) } else { (1, self.stops.iter().map(|s| s.by).sum()) }
    }
}
