//! Film wanted.

/// Film wanted, dry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpecBand {
    /// Lowest [m].
    pub low: f64,
    /// Highest [m].
    pub high: f64,
    /// The band is for each coat, not for all together.
    pub per_coat: bool,
}
