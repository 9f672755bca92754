//! What lands in one piece of a job: a pass, a burst.

/// What one pass or burst leaves, by cell of the film.
///
/// All deposits of a job together are its film as landed.
#[derive(Debug, Clone, PartialEq)]
pub struct Deposit {
    /// When it begins to land [s after the first trigger pull].
    pub from: f64,
    /// When it has landed [s after the first trigger pull].
    pub to: f64,
    /// Dry film by cell [m].
    pub dry: Vec<f64>,
    /// Wet film as landed, by cell [m].
    pub wet: Vec<f64>,
}
