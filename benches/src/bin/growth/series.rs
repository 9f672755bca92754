//! One cost against one size: measured, fitted, told, drawn.

use mistcoat::report::chart::{Curve, CurvePoint, alone, svg};

/// Head of the table that [`Series::row`] fills.
pub const HEAD: &str = "| what grows | from, to | core seconds | a unit, first and last [us] | exponent | and of the upper half |\n\
                        |---|---|---|---|---|---|";
const WIDE: f64 = 430.0;
const HIGH: f64 = 230.0;
const GAP: f64 = 26.0;

/// Does the work of one size and tells its core seconds.
pub type Work = Box<dyn Fn(f64) -> Result<f64, String>>;

/// A cost against a size.
pub struct Series {
    name: &'static str,
    sizes: Vec<f64>,
    seconds: Vec<f64>,
    work: Work,
}

impl Series {
    pub fn new(name: &'static str, sizes: &[f64], work: Work) -> Self {
        Self { name, sizes: sizes.to_vec(), seconds: vec![f64::INFINITY; sizes.len()], work }
    }

    /// Each size once; the least seconds are kept: what disturbs only adds.
    pub fn round(&mut self) -> Result<(), String> {
        for (size, least) in self.sizes.iter().zip(&mut self.seconds) {
            *least = least.min((self.work)(*size)?);
        }
        Ok(())
    }

    /// Exponent by least squares of the logarithms, from the `first` size on.
    fn exponent(&self, first: usize) -> f64 {
        let logs = |values: &[f64]| values[first..].iter().map(|v| v.ln()).collect::<Vec<_>>();
        let (x, y) = (logs(&self.sizes), logs(&self.seconds));
        let mean = |v: &[f64]| v.iter().sum::<f64>() / v.len() as f64;
        let (mx, my) = (mean(&x), mean(&y));
        let both: f64 = x.iter().zip(&y).map(|(x, y)| (x - mx) * (y - my)).sum();
        both / x.iter().map(|x| (x - mx) * (x - mx)).sum::<f64>()
    }

    /// Cost of one unit at each size [us].
    fn units(&self) -> Vec<f64> {
        self.seconds.iter().zip(&self.sizes).map(|(seconds, size)| seconds / size * 1e6).collect()
    }

    /// A row of the table.
    pub fn row(&self) -> String {
        let (units, last) = (self.units(), self.sizes.len() - 1);
        format!(
            "| {} | {} to {} | {:.3} to {:.3} | {:.3}, {:.3} | {:.2} | {:.2} |",
            self.name,
            short(self.sizes[0]),
            short(self.sizes[last]),
            self.seconds[0],
            self.seconds[last],
            units[0],
            units[last],
            self.exponent(0),
            self.exponent(self.sizes.len() / 2),
        )
    }

    fn curve(&self) -> String {
        let points: Vec<CurvePoint> = (self.sizes.iter().zip(&self.seconds))
            .map(|(size, seconds)| CurvePoint {
                x: size.log10(),
                name: short(*size),
                y: Some(seconds.log10()),
                error: None,
                likely: None,
                impossible: false,
            })
            .collect();
        let title = format!("Core seconds, power of ten; exponent {:.2}", self.exponent(0));
        let axis = format!("{}, power of ten", self.name);
        Curve { title: &title, axis: &axis, points: &points, by_name: false, wanted: None }.svg(WIDE, HIGH)
    }
}

/// "1e5", "800", "2.5": short enough for an axis.
fn short(size: f64) -> String {
    if size >= 1e4 { format!("{size:.0e}") } else { format!("{}", (size * 100.0).round() / 100.0) }
}

/// All costs, two a row: the slope is the exponent.
pub fn picture(all: &[Series]) -> String {
    let mut body = String::new();
    for (i, series) in all.iter().enumerate() {
        let at = ((i % 2) as f64 * (WIDE + GAP), (i / 2) as f64 * (HIGH + GAP));
        body += &svg::group(&format!("translate({} {})", svg::n(at.0), svg::n(at.1)), &series.curve());
    }
    let rows = all.len().div_ceil(2) as f64;
    let (width, height) = (2.0 * WIDE + GAP + 48.0, rows * (HIGH + GAP) + 24.0);
    alone("What a larger job costs", width, height, &svg::group("translate(24 20)", &body))
}
