//! A figure over two knobs: cells in a ramp of one hue, each with its figure where there is room, as a piece of SVG.

use super::scale::{share, short};
use super::svg::{line, n, rect, text};

/// Right of the cells [px].
const RIGHT: f64 = 16.0;

/// Two knobs: a figure in cells.
#[derive(Debug, Clone, Copy)]
pub struct KnobMap<'a> {
    /// What the figure is, with its unit.
    pub title: &'a str,
    /// What the two axes are: down, across.
    pub axes: [&'a str; 2],
    /// Their settings in words.
    pub names: [&'a [String]; 2],
    /// Figures, row by row; none where not known.
    pub values: &'a [Option<f64>],
    /// Cells that cannot be sprayed.
    pub impossible: &'a [bool],
}

/// Share of the ramp from which on white is read better than black.
pub const DARK: f64 = 0.69;

/// Room for names of the rows, and above and below the cells [px].
pub const MAP_EDGES: [f64; 3] = [92.0, 34.0, 74.0];

impl KnobMap<'_> {
    /// Lowest and highest figure.
    #[must_use]
    pub fn ends(&self) -> Option<[f64; 2]> {
        let known = || self.values.iter().flatten().copied().filter(|v| v.is_finite());
        let ends = [known().fold(f64::INFINITY, f64::min), known().fold(f64::NEG_INFINITY, f64::max)];
        (ends[0] <= ends[1]).then_some(ends)
    }

    /// Place and size of a cell in a drawing so large [px]: left, top, width, height. The first row lies at the foot.
    #[must_use]
    pub fn cell(&self, row: usize, column: usize, width: f64, height: f64) -> [f64; 4] {
        let [left, top, foot] = MAP_EDGES;
        let (rows, columns) = (self.names[0].len().max(1) as f64, self.names[1].len().max(1) as f64);
        let (w, h) = ((width - left - RIGHT) / columns, (height - top - foot) / rows);
        [left + w * column as f64, top + h * (rows - 1.0 - row as f64), w, h]
    }

    /// Share of the way from the lowest figure to the highest.
    #[must_use]
    pub fn share(&self, value: f64) -> f64 {
        self.ends().map_or(0.5, |ends| share(value, ends))
    }

    /// The drawing, `width` by `height` [px].
    #[must_use]
    pub fn svg(&self, width: f64, height: f64) -> String {
        let mut out = text("chart-title", (0.0, 16.0), "start", self.title);
        let columns = self.names[1].len();
        for row in 0..self.names[0].len() {
            for column in 0..columns {
                out += &self.one(row * columns + column, self.cell(row, column, width, height));
            }
        }
        let [left, _, foot] = MAP_EDGES;
        let every = |n: usize, room: f64, each: f64| ((each * n as f64 / room).ceil() as usize).max(1);
        let skip = [every(self.names[0].len(), height, 22.0), every(columns, width - left, 62.0)];
        for (row, name) in self.names[0].iter().enumerate().step_by(skip[0]) {
            let [_, y, _, h] = self.cell(row, 0, width, height);
            out += &text("axis-figure", (left - 8.0, y + 0.5 * h + 4.0), "end", name);
        }
        for (column, name) in self.names[1].iter().enumerate().step_by(skip[1]) {
            let [x, _, w, _] = self.cell(0, column, width, height);
            out += &text("axis-figure", (x + 0.5 * w, height - foot + 18.0), "middle", name);
        }
        let across = format!("across: {}; up: {}", self.axes[1], self.axes[0]);
        out += &text("axis-figure", (left, height - foot + 38.0), "start", &across);
        out + &self.legend(left, height - 22.0, width - left - RIGHT)
    }

    fn one(&self, i: usize, [x, y, w, h]: [f64; 4]) -> String {
        let value = self.values.get(i).copied().flatten();
        let Some(value) = value.filter(|v| v.is_finite()) else {
            let mut out = rect("map-none", x, y, w, h, 0.0);
            if self.impossible.get(i) == Some(&true) {
                let (cx, cy, r) = (x + 0.5 * w, y + 0.5 * h, 4.0f64.min(0.3 * w).min(0.3 * h));
                out += &line("impossible", (cx - r, cy - r), (cx + r, cy + r));
                out += &line("impossible", (cx - r, cy + r), (cx + r, cy - r));
            }
            return out;
        };
        let share = self.share(value);
        let mut out = filled_rect(share, [x, y, w, h]);
        if w >= 34.0 && h >= 16.0 {
            let class = if share > DARK { "map-figure on-dark" } else { "map-figure on-light" };
            out += &text(class, (x + 0.5 * w, y + 0.5 * h + 4.5), "middle", &short(value));
        }
        out
    }

    /// The ramp with its ends.
    fn legend(&self, left: f64, y: f64, width: f64) -> String {
        let Some([low, high]) = self.ends() else { return String::new() };
        let (wide, steps) = (width.min(180.0), 30);
        let step = wide / f64::from(steps);
        let x0 = left + 44.0;
        let ramp: String = (0..steps)
            .map(|i| {
                filled_rect(
                    f64::from(i) / f64::from(steps - 1),
                    [x0 + step * f64::from(i), y, step + 0.3, 10.0],
                )
            })
            .collect();
        text("axis-figure", (x0 - 8.0, y + 9.0), "end", &short(low))
            + &ramp
            + &text("axis-figure", (x0 + wide + 8.0, y + 9.0), "start", &short(high))
    }
}

fn filled_rect(share: f64, [x, y, w, h]: [f64; 4]) -> String {
    let [r, g, b] = super::film_map::ramp(share);
    let colour = format!("#{r:02X}{g:02X}{b:02X}");
    format!(
        r#"<rect class="map-cell" fill="{colour}" x="{}" y="{}" width="{}" height="{}"/>"#,
        n(x),
        n(y),
        n(w),
        n(h)
    )
}
