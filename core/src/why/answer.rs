//! The answer: the whole difference, and its parts by cause.

use serde::{Deserialize, Serialize};

use super::cause::Cause;

/// Why one job takes more paint than another.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// The first job and the second.
    pub sides: [Side; 2],
    /// Paint for a part, second less first [mL].
    pub ml: f64,
    /// Its counting error, paired.
    pub ml_standard_error: f64,
    /// Share of the solids on the part, second less first [-].
    pub share: f64,
    /// By cause, in the order of [`Cause::ALL`].
    pub parts: Vec<Part>,
    /// All is done.
    pub complete: bool,
}

/// One of the two.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Side {
    /// The job's name.
    pub name: String,
    /// Paint for a part [mL].
    pub ml: f64,
    /// Share of the solids on the part [-].
    pub landed: f64,
    /// Mean dry film [um].
    pub film_um: f64,
}

/// What one cause makes of the difference.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// The cause.
    pub cause: Cause,
    /// Paint for a part, mean of the two orders [mL].
    pub ml: f64,
    /// By each order: in the order of [`Cause::ALL`], and the other way round.
    pub ml_orders: [f64; 2],
    /// Counting error, the larger of the two.
    pub ml_standard_error: f64,
    /// Share of the solids on the part, mean of the two orders [-].
    pub share: f64,
    /// By each order.
    pub share_orders: [f64; 2],
}

impl Part {
    pub(super) fn none(cause: Cause) -> Self {
        let none = [0.0; 2];
        Self { cause, ml: 0.0, ml_orders: none, ml_standard_error: 0.0, share: 0.0, share_orders: none }
    }

    /// Half of what the two orders differ by [mL].
    #[must_use]
    pub fn spread(&self) -> f64 {
        0.5 * (self.ml_orders[0] - self.ml_orders[1]).abs()
    }
}

impl Answer {
    pub(super) fn new(names: &[String; 2]) -> Self {
        let sides = names.clone().map(|name| Side { name, ..Side::default() });
        Self { sides, ml: 0.0, ml_standard_error: 0.0, share: 0.0, parts: Vec::new(), complete: false }
    }

    /// The answer as JSON, keys in a fixed order.
    #[must_use]
    pub fn to_json(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"))
    }
}
