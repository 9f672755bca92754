//! What a comparison says: its rows, and the limits that held for them.

use serde::Serialize;

use super::row::Row;

/// Guns side by side.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answer {
    /// The job's name.
    pub name: String,
    /// Mean dry film that every row lays [um].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub film_um: Option<f64>,
    /// Price of a litre of paint, as typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub paint_price: Option<f64>,
    /// Parts to be painted, as typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub parts: Option<f64>,
    /// Limits that hold for every row but the first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limits: Option<LimitFigures>,
    /// Your gun as set, your gun at its best, then the kits as asked for.
    pub rows: Vec<Row>,
}

impl Answer {
    /// The answer as JSON, keys in a fixed order.
    #[must_use]
    pub fn to_json(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"))
    }
}

/// The limits in units of the screen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LimitFigures {
    /// Coarsest droplets, Sauter mean [um].
    pub sauter_um: f64,
    /// Least even film, standard deviation over mean [%].
    pub even_percent: f64,
    /// Slowest and fastest stroke [mm/s].
    pub speed_mm_s: [f64; 2],
    /// Longest time for a part [s].
    pub seconds: f64,
}
