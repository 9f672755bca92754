//! What a run gives the views.

use std::sync::Arc;

use super::SetGrid;

use mistcoat::job::PartShape;
use mistcoat::report::chart::end_view::DropletEnd;

/// A film picture: `nx * ny` cells, row by row from the top left.
#[derive(Debug, Clone, PartialEq)]
pub struct FilmGrid {
    /// Cells along the stroke (for a tube: along it).
    pub nx: usize,
    /// Cells across the stroke (for a tube: round it).
    pub ny: usize,
    /// Width and height of the whole [m].
    pub size: (f64, f64),
    /// Dry film for each cell as it landed [m].
    pub dry: Arc<[f32]>,
    /// The same film after it set; none while it is being sprayed.
    pub set: Option<Arc<SetGrid>>,
}

impl FilmGrid {
    /// The film over a job's part; none when the counts do not fit or the part has no size.
    pub fn over(part: &PartShape, columns: u32, rows: u32, dry: Vec<f32>) -> Option<Self> {
        let size = match part {
            PartShape::Panel { width, height } | PartShape::Curved { width, height, .. } => (*width, *height),
            PartShape::Tube { diameter, length } => (*length, std::f64::consts::PI * diameter),
            PartShape::Frame(frame) => {
                let first = frame.members.first()?;
                (first.length(), std::f64::consts::PI * first.diameter)
            }
        };
        let grid = Self { nx: columns as usize, ny: rows as usize, size, dry: dry.into(), set: None };
        grid.is_sound().then_some(grid)
    }

    /// True when there is one value for each cell.
    pub fn is_sound(&self) -> bool {
        let cells = self.nx.checked_mul(self.ny);
        let long = |v: f64| v.is_finite() && v > 0.0;
        cells.is_some_and(|n| n > 0 && self.dry.len() == n) && long(self.size.0) && long(self.size.1)
    }

    /// Dry film for each cell after it set, or as landed where it has not [m].
    pub fn now(&self) -> Vec<f32> {
        match &self.set {
            Some(set) if set.cells.len() == self.dry.len() => set.cells.iter().map(|c| c.dry).collect(),
            _ => self.dry.to_vec(),
        }
    }

    /// Width [m].
    pub fn width(&self) -> f64 {
        self.size.0
    }

    /// Height [m].
    pub fn height(&self) -> f64 {
        self.size.1
    }

    /// Mean dry film of each row, down the picture.
    pub fn down(&self) -> Profile {
        let row = |j: usize| self.dry[j * self.nx..(j + 1) * self.nx].iter().sum::<f32>() / self.nx as f32;
        Profile::even(self.height(), (0..self.ny).map(row).collect())
    }

    /// Mean dry film of each column, along the picture.
    pub fn along(&self) -> Profile {
        let column = |i: usize| (0..self.ny).map(|j| self.dry[j * self.nx + i]).sum::<f32>() / self.ny as f32;
        Profile::even(self.width(), (0..self.nx).map(column).collect())
    }
}

/// A film profile: dry film [m] at even steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// Place of the first value, from the middle [m].
    pub start: f64,
    /// Step [m].
    pub step: f64,
    /// Dry film, mean over the other axis [m].
    pub dry: Arc<[f32]>,
}

impl Profile {
    /// Values at the middles of even steps over `length` [m] about 0.
    pub fn even(length: f64, dry: Vec<f32>) -> Self {
        let step = length / dry.len().max(1) as f64;
        Self { start: 0.5 * (step - length), step, dry: dry.into() }
    }

    /// The same with each value the mean over `reach` [m] about it, edges shortened.
    #[must_use]
    pub fn smoothed(&self, reach: f64) -> Self {
        let half =
            if self.step > 0.0 { (0.5 * reach / self.step).round().clamp(0.0, 1e6) as usize } else { 0 };
        let n = self.dry.len();
        let mean = |i: usize| {
            let (a, b) = (i.saturating_sub(half), (i + half).min(n - 1));
            self.dry[a..=b].iter().sum::<f32>() / (b - a + 1) as f32
        };
        Self { dry: (0..n).map(mean).collect(), ..*self }
    }
}

impl Profile {
    /// Values at whole multiples of `step` [m] that hold any film to speak of: place and film [m].
    pub fn every(&self, step: f64) -> Vec<(f64, f64)> {
        let peak = self.dry.iter().copied().fold(0.0_f32, f32::max);
        if self.dry.is_empty() || self.step <= 0.0 || step <= 0.0 {
            return Vec::new();
        }
        let last = self.start + self.step * (self.dry.len() - 1) as f64;
        let (from, to) = ((self.start / step).ceil() as i32, (last / step).floor() as i32);
        (from..=to)
            .filter_map(|k| {
                let at = f64::from(k) * step;
                let film = *self.dry.get(((at - self.start) / self.step).round() as usize)?;
                (film > 0.01 * peak).then_some((at, f64::from(film)))
            })
            .collect()
    }
}

/// A figure with the range it likely lies in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// The figure.
    pub value: f64,
    /// Lower end of the likely range.
    pub low: f64,
    /// Upper end of the likely range.
    pub high: f64,
}

/// One finished run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunView {
    /// The job's text.
    pub job: String,
    /// The report, keys as in `docs/job-file.md`.
    pub report: serde_json::Value,
    /// Film on the part or the card.
    pub film: Option<FilmGrid>,
    /// Some droplets at one moment.
    pub droplets: Arc<[DropletEnd]>,
    /// Digest of the run.
    pub digest: u64,
}

impl RunView {
    /// A number of the report by its dotted path; none when the run cannot say.
    pub fn number(&self, path: &str) -> Option<f64> {
        self.at(path)?.as_f64().filter(|v| v.is_finite())
    }

    /// A word of the report by its dotted path.
    pub fn word(&self, path: &str) -> Option<&str> {
        self.at(path)?.as_str()
    }

    /// The pattern's kind in the page's words: the report writes "heavy-centre" for "heavy centre".
    pub fn pattern_kind(&self) -> Option<String> {
        self.word("pattern.kind").map(|kind| kind.replace('-', " "))
    }

    /// A figure with its model range: `path.value`, `path.model_low`, `path.model_high`.
    pub fn bar(&self, path: &str) -> Option<Bar> {
        let at = |key: &str| self.number(&format!("{path}.{key}"));
        Some(Bar { value: at("value")?, low: at("model_low")?, high: at("model_high")? })
    }

    fn at(&self, path: &str) -> Option<&serde_json::Value> {
        path.split('.').try_fold(&self.report, |value, key| value.get(key))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_figure_is_none_not_zero() {
        let run = RunView {
            job: String::new(),
            report: serde_json::json!({ "film": { "dry_um": { "mean": 21.5 } }, "pattern": { "kind": "heavy-centre" } }),
            film: None,
            droplets: Arc::from([]),
            digest: 0,
        };
        assert_eq!(run.number("film.dry_um.mean"), Some(21.5));
        assert_eq!(run.number("film.dry_um.min"), None);
        assert_eq!(run.word("pattern.kind"), Some("heavy-centre"));
        assert_eq!(run.pattern_kind().as_deref(), Some("heavy centre"));
        assert_eq!(run.bar("transfer_efficiency"), None);
    }

    #[test]
    fn a_table_takes_every_tenth_millimetre() {
        let profile = Profile::even(0.1, (0..100).map(|i| if i < 26 { 0.0 } else { 2e-6 }).collect());
        let rows = profile.every(10e-3);
        let places: Vec<i64> = rows.iter().map(|r| (1e3 * r.0).round() as i64).collect();
        assert_eq!(places, [-20, -10, 0, 10, 20, 30, 40]);
        assert!(Profile::even(0.1, Vec::new()).every(10e-3).is_empty());
    }

    #[test]
    fn a_grid_with_a_wrong_count_is_refused() {
        let part = PartShape::Panel { width: 0.2, height: 0.1 };
        assert!(FilmGrid::over(&part, 2, 2, vec![0.0; 3]).is_none());
        assert!(FilmGrid::over(&part, u32::MAX, u32::MAX, vec![0.0; 4]).is_none());
        let grid = FilmGrid::over(&part, 4, 2, vec![0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0]).unwrap();
        let down = grid.down();
        assert_eq!((down.dry.as_ref(), down.start, down.step), (&[1.5, 5.5][..], -0.025, 0.05));
        assert_eq!(grid.along().dry.as_ref(), &[2.0, 3.0, 4.0, 5.0]);
    }
}
