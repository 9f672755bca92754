//! A card's figures as a quadratic surface over the gun's values, all in logarithms.
//!
//! Least squares over a design of flown cards. Value: fan slope, ray spread, flow, Sauter mean diameter; the flow enters by its first
//! power only (it takes air speed from the jet, a per cent or so), the size also by its third (the landed share levels off, and large
//! droplets splash). A card flown anew shifts the surface so that it is right there.

use super::flown::{CardFigures, FIGURES};
use super::linear::{cholesky, solve};

/// Terms of the surface.
const TERMS: usize = 12;
/// Cards that a surface needs at least.
pub(super) const FEWEST: usize = 16;

/// Surface of one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    centre: [f64; 4],
    terms: [[f64; TERMS]; FIGURES],
    /// Scatter of the design's cards about it: counting and lack of fit [-].
    pub(super) scatter: [f64; FIGURES],
    shift: [f64; FIGURES],
    /// Standard error of the shift [-].
    pub(super) errors: [f64; FIGURES],
}

fn terms(values: [f64; 4], centre: [f64; 4]) -> [f64; TERMS] {
    let [a, b, q, d] = [0, 1, 2, 3].map(|i| values[i] - centre[i]);
    [1.0, a, b, q, d, a * a, b * b, d * d, a * b, a * d, b * d, d * d * d]
}

impl Surface {
    /// The surface through a design's cards; none where too few could be measured.
    pub fn new(centre: [f64; 4], cards: &[([f64; 4], CardFigures)]) -> Option<Self> {
        if cards.len() < FEWEST {
            return None;
        }
        let rows: Vec<_> = cards.iter().map(|(values, _)| terms(*values, centre)).collect();
        let mut normal = vec![vec![0.0; TERMS]; TERMS];
        for row in &rows {
            for i in 0..TERMS {
                for j in 0..TERMS {
                    normal[i][j] += row[i] * row[j];
                }
            }
        }
        // A fan that does not open leaves its terms without a say: held at 0.
        for (i, row) in normal.iter_mut().enumerate() {
            row[i] += 1e-7;
        }
        let factor = cholesky(&normal)?;
        let mut surface = Self {
            centre,
            terms: [[0.0; TERMS]; FIGURES],
            scatter: [0.0; FIGURES],
            shift: [0.0; FIGURES],
            errors: [0.0; FIGURES],
        };
        for figure in 0..FIGURES {
            let mut right = vec![0.0; TERMS];
            for (row, (_, card)) in rows.iter().zip(cards) {
                for (r, t) in right.iter_mut().zip(row) {
                    *r += t * card.logs[figure];
                }
            }
            for (term, x) in surface.terms[figure].iter_mut().zip(solve(&factor, &right)) {
                *term = x;
            }
            let squares: f64 = (rows.iter().zip(cards))
                .map(|(row, (_, card))| {
                    let miss = card.logs[figure] - product(&surface.terms[figure], row);
                    miss * miss
                })
                .sum();
            surface.scatter[figure] = (squares / (cards.len() - TERMS) as f64).sqrt();
            surface.errors[figure] = surface.scatter[figure] * (TERMS as f64 / cards.len() as f64).sqrt();
        }
        Some(surface)
    }

    /// Logarithm of a figure at a gun's values.
    pub(super) fn at(&self, figure: usize, values: [f64; 4]) -> f64 {
        product(&self.terms[figure], &terms(values, self.centre)) + self.shift[figure]
    }

    /// Shifts the surface onto a card flown at these values.
    pub(super) fn put_right(&mut self, values: [f64; 4], card: &CardFigures) {
        for figure in 0..FIGURES {
            self.shift[figure] += card.logs[figure] - self.at(figure, values);
            self.errors[figure] = card.errors[figure];
        }
    }
}

fn product(a: &[f64; TERMS], b: &[f64; TERMS]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quadratic_comes_back_and_a_card_puts_it_right() {
        let truth =
            |v: [f64; 4]| [v[0] + 0.3 * v[1] * v[1], v[1] - 0.2 * v[0] * v[3], v[2], 0.4 * v[3] * v[3]];
        let centre = [0.1, -0.2, 0.3, 0.0];
        let cards: Vec<_> = (0..40)
            .map(|i| {
                let at = |k: usize| 0.3 * crate::math::sin(f64::from(i * (k as i32 + 2)) + k as f64);
                let values = [0, 1, 2, 3].map(|k| centre[k] + at(k));
                (values, CardFigures { logs: truth(values), errors: [0.01; FIGURES] })
            })
            .collect();
        let mut surface = Surface::new(centre, &cards).unwrap();
        let place = [0.3, 0.0, 0.1, 0.2];
        for (figure, want) in truth(place).into_iter().enumerate() {
            assert!((surface.at(figure, place) - want).abs() < 1e-5, "{figure}");
            assert!(surface.scatter[figure] < 1e-6);
        }
        surface.put_right(place, &CardFigures { logs: [1.0, 2.0, 3.0, 4.0], errors: [0.02; FIGURES] });
        assert!((surface.at(2, place) - 3.0).abs() < 1e-12);
        assert_eq!(Surface::new(centre, &cards[..FEWEST - 1]), None);
    }
}
