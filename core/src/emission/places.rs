//! Places along the fan, drawn one number a droplet.

use crate::bump::Bump;
use crate::lanes::Lanes;
use crate::normal;
use crate::spray::Along;

/// Cells of a table over the normal deviate, -[`REACH`]..[`REACH`]: straight within a cell is within 2e-5 of half a fan (tested).
const CELLS: usize = 1024;
/// Beyond the farthest deviate that a draw of 23 bits gives, 5.4.
const REACH: f64 = 5.5;

/// Places along the fan, ready to draw from.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Places {
    /// Place over the normal deviate of the draw, smooth for every exponent: start and slope of each cell.
    Bump(Vec<[f32; 2]>),
    /// Centre and width of the lobes, and the share of the lower one.
    Lobes(f64, f64, f64),
}

impl Places {
    /// `mean`: where askew paint has its middle [share of half fan].
    pub(super) fn new(along: Along, mean: f64) -> Self {
        match along {
            Along::Exponent(n) => Self::Bump(table(&Bump::tilted(n, mean))),
            Along::Lobes { c, g } => Self::Lobes(c, g, 0.5 * (1.0 - (mean / c).clamp(-0.9, 0.9))),
        }
    }

    /// The place of a draw `p`, `up` = 1 - p [share of half fan].
    #[inline(always)]
    pub(super) fn at<L: Lanes>(&self, (p, up): (L, L)) -> L {
        match self {
            Self::Bump(table) => {
                let cells = p.lit(0.5 * CELLS as f64 / REACH);
                let z = normal::deviate(p, up);
                ((z + p.lit(REACH)) * cells).look_up(table)
            }
            // Which lobe, and where in it, from the one draw.
            Self::Lobes(c, g, low) => {
                let (low, high) = (p.lit(*low), p.lit(1.0 - low));
                let below = p.lt(low);
                let least = p.lit(1e-7);
                let share = L::select(below, p / low, (p - low) / high).max(least);
                let rest = L::select(below, (up - high) / low, up / high).max(least);
                let centre = L::select(below, p.lit(-c), p.lit(*c));
                centre + p.lit(*g) * normal::deviate(share, rest)
            }
        }
    }
}

fn table(bump: &Bump) -> Vec<[f32; 2]> {
    let at = |cell: usize| bump.at(normal::below((2.0 * cell as f64 / CELLS as f64 - 1.0) * REACH));
    (0..CELLS).map(|cell| [at(cell) as f32, (at(cell + 1) - at(cell)) as f32]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_gives_the_quantiles_of_the_bump() {
        for (n, mean) in [(0.0, 0.0), (0.5, 0.0), (1.5, 0.3), (4.0, -0.6), (20.0, 0.0)] {
            let (bump, places) = (Bump::tilted(n, mean), Places::new(Along::Exponent(n), mean));
            for k in 0..20_000 {
                let p = (f64::from(k) + 0.5) / 20_000.0;
                let off = places.at((p, 1.0 - p)) - bump.at(p);
                assert!(off.abs() < 2e-5, "n {n}, mean {mean}, p {p}: off by {off}");
            }
        }
    }

    #[test]
    fn lobes_share_the_paint_as_they_should() {
        let places = Places::new(Along::Lobes { c: 0.5, g: 0.1 }, 0.2);
        let count = 20_000;
        let all: Vec<f64> = (0..count)
            .map(|k| (f64::from(k) + 0.5) / f64::from(count))
            .map(|p| places.at((p, 1.0 - p)))
            .collect();
        let mean = all.iter().sum::<f64>() / f64::from(count);
        let low: Vec<f64> = all.iter().copied().filter(|s| *s < 0.0).collect();
        assert!((mean - 0.2).abs() < 1e-3, "mean {mean}");
        assert!((low.len() as f64 / f64::from(count) - 0.3).abs() < 1e-3);
        let middle = low.iter().sum::<f64>() / low.len() as f64;
        let spread = (low.iter().map(|s| (s - middle) * (s - middle)).sum::<f64>() / low.len() as f64).sqrt();
        assert!((middle + 0.5).abs() < 1e-3 && (spread - 0.1).abs() < 1e-3, "{middle} {spread}");
    }
}
