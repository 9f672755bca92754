//! Anchors of the whole chain: published values and common practice beside what gun, flight and film give together.
//!
//! Nothing here is tuned: a miss is listed as one, with its figure.

mod efficiency;
mod film;
mod page;
mod pattern;
mod size;
mod tube;

pub use page::{BEGIN, END, predictions, rows, write_into};

/// What is published.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Band {
    /// Between these two.
    Within(f64, f64),
    /// Below this.
    Below(f64),
    /// Above this.
    Above(f64),
    /// Nothing that one could pass or fail: told only.
    Told,
}

/// How far an anchor may count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Nothing was fitted to it.
    Predicted,
    /// This constant was fitted to it: it only shows that the fit holds.
    UsedUp(&'static str),
}

/// One anchor.
#[derive(Debug, Clone, PartialEq)]
pub struct Anchor {
    /// What it is, short; no two alike.
    pub what: String,
    /// The model's figure.
    pub figure: f64,
    /// Its standard error.
    pub error: Option<f64>,
    /// Unit of figure and band.
    pub unit: &'static str,
    /// What is published.
    pub band: Band,
    /// Where, and how it is known.
    pub source: &'static str,
    /// Fitted or predicted.
    pub standing: Standing,
}

impl Anchor {
    /// Whether the figure is where it should be; none where nothing is asked.
    #[must_use]
    pub fn passes(&self) -> Option<bool> {
        let x = self.figure;
        match self.band {
            Band::Within(low, high) => Some((low..=high).contains(&x)),
            Band::Below(high) => Some(x < high),
            Band::Above(low) => Some(x > low),
            Band::Told => None,
        }
    }

    /// How far the figure is outside, in its unit; 0 inside.
    #[must_use]
    pub fn off(&self) -> f64 {
        let x = self.figure;
        match self.band {
            Band::Within(low, high) => (x - high).max(0.0) + (x - low).min(0.0),
            Band::Below(high) => (x - high).max(0.0),
            Band::Above(low) => (x - low).min(0.0),
            Band::Told => 0.0,
        }
    }

    pub(crate) fn fitted(self, constant: &'static str) -> Self {
        Self { standing: Standing::UsedUp(constant), ..self }
    }
}

pub(crate) fn anchor(
    what: impl Into<String>,
    (figure, error): (f64, f64),
    unit: &'static str,
    band: Band,
    source: &'static str,
) -> Anchor {
    Anchor {
        what: what.into(),
        figure,
        error: Some(error),
        unit,
        band,
        source,
        standing: Standing::Predicted,
    }
}

/// All anchors, flown anew.
#[must_use]
pub fn all() -> Vec<Anchor> {
    let groups: [fn() -> Vec<Anchor>; 5] =
        [efficiency::anchors, size::anchors, pattern::anchors, tube::anchors, film::anchors];
    std::thread::scope(|scope| {
        let flown = groups.map(|group| scope.spawn(group));
        flown.into_iter().flat_map(|g| g.join().expect("anchors of a group")).collect()
    })
}
