//! Unevenness without the counting noise: from products of different replicate groups.
//!
//! The groups fly independent droplets, so the mean product of two groups' films in a cell is the square of the true
//! film, whatever the noise. A perfectly even film gives 0 within its standard error, and the square may come out
//! negative.

use super::FilmMap;
use super::replicates::Moments;
use crate::tally::GROUPS;

/// Variation of a film over the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Evenness {
    /// Standard deviation over mean [-]; 0 where its square came out negative.
    pub cv: f64,
    /// Standard error of `cv` [-].
    pub standard_error: f64,
    /// The square as it came out [-], may be negative.
    pub square: f64,
}

/// Square of the standard deviation over the mean, of all groups and without one of them [-]; none where nothing landed.
#[must_use]
pub fn squares(film: &FilmMap) -> Option<(f64, [f64; GROUPS])> {
    let Moments { means, products } = Moments::of(film)?;
    let square = |product: f64, mean: f64| (mean > 0.0).then(|| (product - mean) / mean);
    let (mut all, mut without) = ([0.0; 2], [[0.0; GROUPS]; 2]);
    for g in 0..GROUPS {
        for h in 0..g {
            let pair = [products[g][h], means[g] * means[h]];
            for ((all, without), value) in all.iter_mut().zip(&mut without).zip(pair) {
                *all += value;
                // Side by side; nothing is added where a group of the pair is the one left out.
                for (k, sum) in without.iter_mut().enumerate() {
                    *sum += if k == g || k == h { 0.0 } else { value };
                }
            }
        }
    }
    let mut squares = [0.0; GROUPS];
    for (k, value) in squares.iter_mut().enumerate() {
        *value = square(without[0][k], without[1][k])?;
    }
    Some((square(all[0], all[1])?, squares))
}

/// Evenness of a film; none where nothing landed.
#[must_use]
pub fn evenness(film: &FilmMap) -> Option<Evenness> {
    let (all, without) = squares(film)?;
    Some(Evenness::of(all, &without))
}

impl Evenness {
    /// From the square of the standard deviation over the mean, of all groups and without each of them, as [`squares`] gives them.
    #[must_use]
    pub fn of(all: f64, without: &[f64; GROUPS]) -> Self {
        let count = GROUPS as f64;
        let mut spread = 0.0;
        for one in without {
            let difference = one - all;
            spread += difference * difference;
        }
        let square_error = (spread * (count - 1.0) / count).sqrt();
        let cv = all.max(0.0).sqrt();
        // d(cv) = d(square) / (2 cv), held where the square is lost in its own error.
        let standard_error = square_error / (2.0 * cv).max(square_error.sqrt()).max(1e-12);
        Self { cv, standard_error, square: all }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::normal;
    use crate::stream::{Purpose, Stream};

    /// A film of mean 1 with a true variation and noise of 20 % a cell and group.
    fn film(variation: f64) -> FilmMap {
        let mut film = FilmMap::bare(60, 50, 0.01, 0.01);
        let n = film.len();
        let mut draw = Stream::new(11, 4, Purpose::Emission);
        for cell in 0..n {
            let truth = 1.0 + variation * core::f64::consts::SQRT_2 * crate::math::sin(cell as f64 * 0.7);
            for g in 0..GROUPS {
                film.groups[g * n + cell] = truth + 0.2 * normal::quantile(draw.open01());
            }
        }
        film
    }

    #[test]
    fn an_even_film_reports_nothing_but_its_error() {
        let e = evenness(&film(0.0)).expect("a film");
        assert!(e.cv <= 4.0 * e.standard_error && e.cv < 0.02, "{e:?}");
    }

    #[test]
    fn a_true_variation_is_found() {
        let e = evenness(&film(0.10)).expect("a film");
        assert!((e.cv - 0.10).abs() < 4.0 * e.standard_error.max(5e-4), "{e:?}");
        assert!(e.standard_error < 0.005, "{e:?}");
    }
}
