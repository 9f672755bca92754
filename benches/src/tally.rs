//! What landed on the plane, weighted by volume.

/// Cells of the fine grid, 2 mm.
const FINE: f64 = 0.002;
/// Cells whose counting noise is asked for, 5 mm.
const COARSE: f64 = 0.005;
/// Half the card [m].
const HALF: f64 = 0.1;
/// Radius within which paint counts as landed [m]: about seven tenths of it.
pub const DISC: f64 = 0.02;
/// Rings of the film profile, 2 mm each.
const RINGS: usize = 30;

/// A square of cells.
#[derive(Debug, Clone)]
struct Grid {
    cell: f64,
    across: usize,
    film: Vec<f64>,
}

impl Grid {
    fn new(cell: f64) -> Self {
        let across = (2.0 * HALF / cell).round() as usize;
        Self { cell, across, film: vec![0.0; across * across] }
    }

    fn index(&self, x: f64, y: f64) -> Option<usize> {
        let at = |v: f64| {
            let i = ((v + HALF) / self.cell).floor();
            (i >= 0.0 && i < self.across as f64).then_some(i as usize)
        };
        Some(at(y)? * self.across + at(x)?)
    }
}

/// Sums over droplets that met the plane, and over all.
#[derive(Debug, Clone)]
pub struct Tally {
    fine: Grid,
    coarse: Grid,
    squares: Vec<f64>,
    all: f64,
    met: f64,
    disc: f64,
    speed: f64,
    time: f64,
    /// Droplets flown.
    pub droplets: u64,
    /// Steps taken.
    pub steps: u64,
}

impl Default for Tally {
    fn default() -> Self {
        let coarse = Grid::new(COARSE);
        let squares = vec![0.0; coarse.film.len()];
        let fine = Grid::new(FINE);
        Self {
            fine,
            coarse,
            squares,
            all: 0.0,
            met: 0.0,
            disc: 0.0,
            speed: 0.0,
            time: 0.0,
            droplets: 0,
            steps: 0,
        }
    }
}

/// Means over the droplets, by volume.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// Share of the paint in each 2 mm ring.
    pub profile: Vec<f64>,
    /// Impact speed [m/s].
    pub speed: f64,
    /// Flight time [s].
    pub time: f64,
    /// Share landed within [`DISC`] [-].
    pub landed: f64,
}

impl Tally {
    /// A droplet of volume `weight` that met the plane at (x, y) [m].
    #[inline]
    pub fn land(&mut self, weight: f64, x: f64, y: f64, speed: f64, time: f64) {
        self.droplets += 1;
        self.all += weight;
        self.met += weight;
        self.speed += weight * speed;
        self.time += weight * time;
        if x * x + y * y < DISC * DISC {
            self.disc += weight;
        }
        if let Some(i) = self.fine.index(x, y) {
            self.fine.film[i] += weight;
        }
        if let Some(i) = self.coarse.index(x, y) {
            self.coarse.film[i] += weight;
            self.squares[i] += weight * weight;
        }
    }

    /// A droplet of volume `weight` that did not.
    pub fn miss(&mut self, weight: f64) {
        self.droplets += 1;
        self.all += weight;
    }

    /// Adds another run.
    pub fn merge(&mut self, other: &Self) {
        let add = |a: &mut [f64], b: &[f64]| a.iter_mut().zip(b).for_each(|(a, b)| *a += b);
        add(&mut self.fine.film, &other.fine.film);
        add(&mut self.coarse.film, &other.coarse.film);
        add(&mut self.squares, &other.squares);
        self.all += other.all;
        self.met += other.met;
        self.disc += other.disc;
        self.speed += other.speed;
        self.time += other.time;
        self.droplets += other.droplets;
        self.steps += other.steps;
    }

    /// Mean over the core's cells (at least half the peak) of the variance of a cell's film over its square: 1/n where
    /// n droplets of equal volume fell.
    #[must_use]
    pub fn core_variance(&self) -> f64 {
        let peak = self.coarse.film.iter().copied().fold(0.0, f64::max);
        let core = self.coarse.film.iter().zip(&self.squares).filter(|(film, _)| **film >= 0.5 * peak);
        let (sum, count) =
            core.fold((0.0, 0.0), |(s, n), (film, squares)| (s + squares / (film * film), n + 1.0));
        sum / count
    }

    /// The means.
    #[must_use]
    pub fn figures(&self) -> Figures {
        let mut profile = vec![0.0; RINGS];
        for (i, film) in self.fine.film.iter().enumerate() {
            let at = |i: usize| (i as f64 + 0.5) * FINE - HALF;
            let (x, y) = (at(i % self.fine.across), at(i / self.fine.across));
            let ring = ((x * x + y * y).sqrt() / FINE) as usize;
            profile[ring.min(RINGS - 1)] += film / self.all;
        }
        Figures {
            profile,
            speed: self.speed / self.met,
            time: self.time / self.met,
            landed: self.disc / self.all,
        }
    }
}

/// Sum over rings of |a - b|.
#[must_use]
pub fn profile_difference(a: &Figures, b: &Figures) -> f64 {
    a.profile.iter().zip(&b.profile).map(|(a, b)| (a - b).abs()).sum()
}

/// What [`profile_difference`] is expected to be between runs of `n` and `m` droplets of equal volume by chance alone.
#[must_use]
pub fn profile_noise(of: &Figures, n: u64, m: u64) -> f64 {
    let per = 1.0 / n as f64 + 1.0 / m as f64;
    of.profile.iter().map(|p| (2.0 / core::f64::consts::PI * p * (1.0 - p) * per).sqrt()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_and_noise_are_those_of_the_droplets() {
        let mut tally = Tally::default();
        for i in 0..400 {
            tally.land(2.0, 0.001, 0.001, f64::from(i % 2), 0.01);
        }
        tally.miss(200.0);
        assert!((tally.core_variance() - 1.0 / 400.0).abs() < 1e-12);
        let figures = tally.figures();
        assert_eq!(tally.droplets, 401);
        assert!((figures.landed - 0.8).abs() < 1e-12 && (figures.speed - 0.5).abs() < 1e-12);
        assert!((figures.profile[0] - 0.8).abs() < 1e-12 && profile_difference(&figures, &figures) == 0.0);
    }
}
