//! Films of one or several parts as one, in shares of their mean, and how far a full flight's figures may be off by the luck of the hand
//! and by counting.
//!
//! Counting noise is out of the figures: the deviation comes from products of different replicate groups, and cells are drawn towards the
//! mean until they spread no more than that.

use super::flight::Films;
use crate::film::{FilmMap, squares};
use crate::in_order::InOrder;
use crate::tally::{GROUPS, jackknife};

/// Share of the mean that is left between the band's low end and the mean less the deviations, at least [-].
const LEAST: f64 = 0.1;
/// Steps in which the share outside a band is given up for margin: finer than a part's luck.
const TRIES: usize = 64;

/// One part.
struct One {
    /// Cells over the mean of all parts, rising.
    cells: Vec<f64>,
    /// Mean, and mean square, over those of all parts [-].
    mean: f64,
    square: f64,
    /// Thinnest and wettest spot over the part's own mean dry film.
    ends: [f64; 2],
}

/// Films of some parts, pooled.
pub(super) struct Pool {
    /// Mean dry film [m], of all replicate groups and without each.
    pub mean: f64,
    /// See `mean`.
    pub means: [f64; GROUPS],
    /// Square of the standard deviation over the mean [-].
    pub square: f64,
    /// See `square`.
    pub squares: [f64; GROUPS],
    /// All cells over the mean, rising.
    cells: Vec<f64>,
    parts: Vec<One>,
    /// Parts of a full flight; droplets of this one over those of a full one.
    full: (f64, f64),
}

impl Pool {
    /// Pools films; none where nothing landed.
    pub fn of(laid: &Films) -> Option<Self> {
        let films = &laid.films;
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
            each.push((film, own, all));
        }
        if mean <= 0.0 {
            return None;
        }
        let parts: Vec<One> = each.iter().map(|(film, own, all)| One::of(film, *own, *all, mean)).collect();
        let mut cells: Vec<f64> = parts.iter().flat_map(|part| part.cells.iter().copied()).collect();
        cells.in_order(f64::total_cmp);
        let over = |second: f64, mean: f64| (second / (mean * mean) - 1.0).max(0.0);
        let squares = core::array::from_fn(|g| over(seconds[g], means[g]));
        let full = (laid.full_parts as f64, laid.full_share);
        Some(Self { mean, means, square: over(second, mean), squares, cells, parts, full })
    }

    /// Thinnest spot over the mean, mean of the parts [-], and the luck in it.
    pub fn thinnest(&self) -> (f64, f64) {
        self.of_parts(|part| part.ends[0])
    }

    /// Wettest spot over the mean dry film, mean of the parts [-].
    pub fn wettest(&self) -> f64 {
        self.of_parts(|part| part.ends[1] * part.mean).0
    }

    /// Parts by what may go wrong with their film first: the wettest, the thinnest, the next wettest.
    pub fn at_risk(&self) -> Vec<u64> {
        let rising = |value: &dyn Fn(&One) -> f64| {
            let mut order: Vec<usize> = (0..self.parts.len()).collect();
            order.in_order(|&a, &b| value(&self.parts[a]).total_cmp(&value(&self.parts[b])));
            order
        };
        let wet = rising(&|part| -part.ends[1] * part.mean);
        let thin = rising(&|part| part.ends[0] * part.mean);
        let mut all: Vec<u64> = Vec::new();
        for part in wet.into_iter().zip(thin).flat_map(|(wet, thin)| [wet as u64, thin as u64]) {
            if !all.contains(&part) {
                all.push(part);
            }
        }
        all
    }

    /// Factor on the film that brings its deviations to the low end of a band.
    pub fn factor(mean: f64, square: f64, low: f64, deviations: f64) -> f64 {
        low / (mean * (1.0 - deviations * square.sqrt()).max(LEAST))
    }

    /// The same with so many errors of counting to spare: a film in a few even cells is known to be no more even than it was counted.
    pub fn sure_factor(&self, low: f64, deviations: f64, errors: f64) -> f64 {
        let left = 1.0 - deviations * self.square.sqrt() - errors * self.counting_error(-deviations);
        low / (self.mean * left.max(LEAST))
    }

    /// Share of the cells in a band with the film taken `factor` times.
    pub fn right(&self, factor: f64, band: (f64, f64)) -> f64 {
        inside(&self.cells, factor * self.mean, band)
    }

    /// The same, and the luck of the hand in it.
    pub fn right_with(&self, factor: f64, band: (f64, f64)) -> (f64, f64) {
        self.of_parts(|part| inside(&part.cells, factor * self.mean, band))
    }

    /// Counting error of the mean film, over it [-].
    pub fn noise(&self) -> f64 {
        self.full.1 * jackknife(core::array::from_fn(|g| self.means[g] / self.mean - 1.0))
    }

    /// Error by counting of the mean plus so many deviations, less where they are below 0, over the mean [-].
    pub fn counting_error(&self, deviations: f64) -> f64 {
        let own = end(1.0, self.square, deviations);
        let counted = |g: usize| end(self.means[g] / self.mean, self.squares[g], deviations) - own;
        self.full.1 * jackknife(core::array::from_fn(counted))
    }

    /// Error of the mean plus so many deviations, over the mean [-]: luck and counting.
    pub fn high_error(&self, deviations: f64) -> f64 {
        let own = end(1.0, self.square, deviations);
        let counting = self.counting_error(deviations);
        let n = self.parts.len() as f64;
        let mut luck = 0.0;
        if n > 1.0 {
            let sum = self.parts.iter().fold((0.0, 0.0), |(m, s), p| (m + p.mean, s + p.square));
            for part in &self.parts {
                let (mean, square) = ((sum.0 - part.mean) / (n - 1.0), (sum.1 - part.square) / (n - 1.0));
                let off = end(mean, square / (mean * mean) - 1.0, deviations) - own;
                luck += off * off * (n - 1.0) / self.full.0.max(1.0);
            }
        }
        (luck + counting * counting).sqrt()
    }

    /// Least factor that puts the share asked for inside a band, so many errors of it to spare; where none does, the one that comes nearest.
    pub fn counted(&self, band: (f64, f64), right_on: f64, errors: f64) -> f64 {
        let n = self.cells.len();
        let out = ((1.0 - right_on) * n as f64 + 1e-9) as usize;
        let mut best = (f64::NEG_INFINITY, 0.0);
        for i in (0..=TRIES).rev() {
            let below = (out * i / TRIES).min(n - 1);
            let factor = band.0 / (self.mean * self.cells[below].max(1e-9));
            let (right, luck) = self.right_with(factor, band);
            let sure = right - errors * luck;
            if sure >= right_on - 1e-9 {
                return factor;
            }
            if sure > best.0 {
                best = (sure, factor);
            }
        }
        best.1
    }

    /// Mean of the parts, and how far that of a full flight's may be off by their luck.
    fn of_parts(&self, value: impl Fn(&One) -> f64) -> (f64, f64) {
        let n = self.parts.len() as f64;
        let values: Vec<f64> = self.parts.iter().map(value).collect();
        let mean = values.iter().sum::<f64>() / n;
        if n < 2.0 {
            return (mean, 0.0);
        }
        let variance = values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / (n - 1.0);
        (mean, (variance / self.full.0.max(1.0)).sqrt())
    }
}

impl One {
    fn of(film: &FilmMap, own: f64, square: f64, mean: f64) -> Self {
        let spread = film.mean_over_area(|cell| {
            let off = film.dry[cell] / own - 1.0;
            off * off
        });
        let drawn = if spread > square.max(0.0) { (square.max(0.0) / spread).sqrt() } else { 1.0 };
        let true_to = |h: f64| own * (1.0 + drawn * (h / own - 1.0)) / mean;
        let wet = film.mean_wet() / own;
        let meant = (0..film.len()).filter(|&cell| !film.is_hidden(cell));
        let mut cells: Vec<f64> = meant.map(|cell| true_to(film.dry[cell])).collect();
        cells.in_order(f64::total_cmp);
        let (thin, thick) = (cells.first().copied().unwrap_or(0.0), cells.last().copied().unwrap_or(0.0));
        let share = own / mean;
        let ends = [thin.max(0.0) / share, thick * wet / share];
        Self { cells, mean: share, square: share * share * (1.0 + square), ends }
    }
}

/// A mean and so many deviations, of which `square` is the square over the mean.
fn end(mean: f64, square: f64, deviations: f64) -> f64 {
    mean * (1.0 + deviations * square.max(0.0).sqrt())
}

/// Share of rising cells, each over a mean, inside a band with that mean [m].
fn inside(cells: &[f64], mean: f64, (low, high): (f64, f64)) -> f64 {
    let at = |h: f64| cells.partition_point(|c| *c < h / mean);
    // A cell on the end itself is inside.
    let (below, upto) = (at(low * (1.0 - 1e-9)), at(high * (1.0 + 1e-9)));
    upto.saturating_sub(below) as f64 / cells.len().max(1) as f64
}
