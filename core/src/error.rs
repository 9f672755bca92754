//! One error for bad values: which key, which value, what is allowed.

use std::fmt;

/// A value that a model refuses.
///
/// `key` is the dotted key of the job file where there is one ("gun.inlet_pressure"), else the field's name.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct ParameterError {
    /// Dotted key or field name.
    pub key: String,
    /// The value as the user wrote it, or as a number with its unit.
    pub value: String,
    /// What is allowed, in words with units.
    pub allowed: String,
}

impl ParameterError {
    /// A refused value.
    pub fn new(key: impl Into<String>, value: impl fmt::Display, allowed: impl Into<String>) -> Self {
        Self { key: key.into(), value: value.to_string(), allowed: allowed.into() }
    }
}

impl fmt::Display for ParameterError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {} is not possible; allowed: {}", self.key, self.value, self.allowed)
    }
}

/// Returns `value` when it is finite and inside `low..=high`, else the error that names it.
///
/// # Errors
/// `ParameterError` with the key, the value and the range in words.
pub fn within(key: &str, value: f64, low: f64, high: f64, unit: &str) -> Result<f64, ParameterError> {
    if value.is_finite() && (low..=high).contains(&value) {
        Ok(value)
    } else {
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        Err(ParameterError::new(key, format!("{value}{unit}"), format!("{low} to {high}{unit}")))
    }
}
