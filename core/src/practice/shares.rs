//! Shares of the film by area, and the spread over tries.

use crate::film::FilmMap;

/// Shares of the area, each 0..=1; they sum to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shares {
    /// Below the film wanted.
    pub thin: f64,
    /// Inside it.
    pub right: f64,
    /// Above it.
    pub thick: f64,
}

/// Shares of a dry film over the panel; `band` [m] is the film wanted, lowest and highest.
#[must_use]
pub fn shares(film: &FilmMap, band: [f64; 2]) -> Shares {
    let share = |inside: &dyn Fn(f64) -> bool| {
        film.mean_over_area(|cell| if inside(film.dry[cell]) { 1.0 } else { 0.0 })
    };
    let (thin, thick) = (share(&|h| h < band[0]), share(&|h| h > band[1]));
    Shares { thin, thick, right: (1.0 - thin - thick).max(0.0) }
}

/// How far tries lie apart: their standard deviation, by n - 1; none for fewer than two.
#[must_use]
pub fn spread(values: &[f64]) -> Option<f64> {
    let n = values.len() as f64;
    if values.len() < 2 {
        return None;
    }
    let mean = values.iter().sum::<f64>() / n;
    let square: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
    Some((square / (n - 1.0)).sqrt())
}
