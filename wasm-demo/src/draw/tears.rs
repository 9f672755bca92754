//! Runs as they hang: tears at their own distance, each from where its film began to slide to its drop.
//!
//! Which tear hangs longest is not the model's to say; lengths of neighbours differ here by a fixed play of numbers.

use crate::state::{FilmGrid, SetGrid};

/// Film that has slid this far runs [m].
const RUN: f32 = 1.6e-3;

/// One tear, in metres from the picture's top left; it hangs along the picture's x or y.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tear {
    /// Place of its middle across the way it hangs.
    pub across: f64,
    /// Where it starts and where its drop ends; the end is smaller where it hangs up or to the left.
    pub from: f64,
    /// See `from`.
    pub to: f64,
    /// Width.
    pub width: f64,
}

/// The tears of a face.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Tears {
    /// They hang along the picture's height; else along its width.
    pub upright: bool,
    /// By lanes of even width across.
    pub lanes: Vec<Vec<Tear>>,
    /// Width of a lane [m].
    pub lane: f64,
}

/// A number of 0..1 for a lane: the same at every drawing.
pub fn play(lane: usize, salt: usize) -> f64 {
    let mixed = (lane.wrapping_mul(0x9E37_79B1) ^ salt.wrapping_mul(0x85EB_CA77)).wrapping_mul(0xC2B2_AE3D);
    f64::from(((mixed >> 8) & 0xFFFF) as u32) / 65_536.0
}

/// The tears of a film that has set.
pub fn tears(grid: &FilmGrid, set: &SetGrid) -> Tears {
    let Some(spacing) = set.tears.filter(|s| *s > 0.0) else { return Tears::default() };
    let steepest = set.down.iter().fold((0.0f64, 0.0f64), |m, d| (m.0.max(d.0.abs()), m.1.max(d.1.abs())));
    let upright = steepest.1 >= steepest.0;
    let (across, along) = if upright { (grid.width(), grid.height()) } else { (grid.height(), grid.width()) };
    let (cells_across, cells_along) = if upright { (grid.nx, grid.ny) } else { (grid.ny, grid.nx) };
    let count = ((across / spacing).round() as usize).clamp(1, 2000);
    let lane = across / count as f64;
    let step = along / cells_along as f64;
    let lanes = (0..count).map(|number| {
        let middle = (number as f64 + 0.5 + 0.5 * (play(number, 1) - 0.5)) * lane;
        let column = ((middle / across * cells_across as f64) as usize).min(cells_across - 1);
        let slid = |place: usize| {
            let cell = if upright { place * grid.nx + column } else { column * grid.nx + place };
            set.cells.get(cell).map_or(0.0, |c| c.slid)
        };
        let pull = |place: usize| {
            let row = if upright { place } else { column };
            set.down.get(row).map_or(0.0, |d| if upright { d.1 } else { d.0 })
        };
        let mut found = Vec::new();
        let mut place = 0;
        while place < cells_along {
            let way = pull(place).signum();
            let end = (place..cells_along)
                .take_while(|&p| slid(p) > RUN && pull(p) != 0.0 && pull(p).signum() == way)
                .count()
                + place;
            if end > place {
                let longest = (place..end).map(slid).fold(0.0, f32::max);
                let length = f64::from(longest) * (0.55 + 0.45 * play(number, 2));
                let (top, foot) = (place as f64 * step, end as f64 * step);
                let start = top + (foot - top) * 0.35 * play(number, 3);
                let width = spacing * mistcoat::film::TEAR_SHARE;
                let tear = if way > 0.0 {
                    Tear { across: middle, from: start, to: (foot + length).min(along), width }
                } else {
                    Tear { across: middle, from: foot - (start - top), to: (top - length).max(0.0), width }
                };
                found.push(tear);
            }
            place = end.max(place + 1);
        }
        found
    });
    Tears { upright, lanes: lanes.collect(), lane }
}

impl Tears {
    /// How much thicker the film is at a place [m], and how far it leans there to the left or right: 0..1 and -1..1.
    pub fn at(&self, x: f64, y: f64) -> (f64, f64) {
        if self.lanes.is_empty() {
            return (0.0, 0.0);
        }
        let (across, along) = if self.upright { (x, y) } else { (y, x) };
        let number = (across / self.lane) as usize;
        // A tear may lean over into the next lane.
        let near = number.saturating_sub(1)..(number + 2).min(self.lanes.len());
        let mut best = (0.0, 0.0);
        for tear in self.lanes.get(near).unwrap_or_default().iter().flatten() {
            let (low, high) = (tear.from.min(tear.to), tear.from.max(tear.to));
            let radius = 0.62 * tear.width;
            let drop = if tear.to > tear.from { high - radius } else { low + radius };
            let off = (across - tear.across) / (0.5 * tear.width);
            // A neck that swells from nothing to its full width, and a round drop at its end.
            let share = ((along - tear.from) / (tear.to - tear.from)).clamp(0.0, 1.0);
            let inside = along >= low && along <= high;
            let neck =
                if inside { (1.0 - (off / (0.35 + 0.45 * share)).powi(2)).max(0.0) * share } else { 0.0 };
            let away = ((across - tear.across).powi(2) + (along - drop).powi(2)) / (radius * radius);
            let height = neck.max((1.0 - away).max(0.0).sqrt());
            if height > best.0 {
                best = (height, off.clamp(-1.0, 1.0));
            }
        }
        best
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::SetCell;
    use mistcoat::film::Mark;

    fn running() -> (FilmGrid, SetGrid) {
        let (nx, ny) = (40, 40);
        let cell = |i: usize| SetCell {
            dry: 4e-5,
            waviness: 0.0,
            dryness: 0.0,
            // The upper half runs, 20 mm.
            slid: if i / nx < 20 { 20e-3 } else { 0.0 },
            mark: Mark::Slid,
        };
        let set = SetGrid {
            cells: (0..nx * ny).map(cell).collect(),
            tears: Some(9e-3),
            down: vec![(0.0, 1.0); ny].into(),
        };
        let grid = FilmGrid { nx, ny, size: (0.2, 0.2), dry: vec![4e-5; nx * ny].into(), set: None };
        (grid, set)
    }

    #[test]
    fn tears_hang_below_what_ran_at_their_own_distance() {
        let (grid, set) = running();
        let t = tears(&grid, &set);
        assert!(t.upright && t.lanes.len() == 22 && t.lanes.iter().all(|lane| lane.len() == 1));
        for tear in t.lanes.iter().flatten() {
            assert!(tear.to > 0.1 + 0.5 * 20e-3 && tear.to <= 0.12 + 1e-9 && tear.from < 0.1, "{tear:?}");
        }
        let tear = t.lanes[5][0];
        assert!(t.at(tear.across, tear.to - 0.62 * tear.width).0 > 0.9, "its drop is the thickest");
        assert_eq!(t.at(tear.across, 0.19).0, 0.0);
    }

    #[test]
    fn nothing_hangs_where_nothing_ran() {
        let (grid, set) = running();
        let still = SetGrid { tears: None, ..set.clone() };
        assert_eq!(tears(&grid, &still), Tears::default());
        // Turned over, they hang the other way.
        let up = SetGrid { down: vec![(0.0, -1.0); 40].into(), ..set };
        assert!(tears(&grid, &up).lanes.iter().flatten().all(|t| t.to < t.from));
    }
}
