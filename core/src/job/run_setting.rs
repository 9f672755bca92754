//! How long to fly, with which streams.

/// How long to fly and with which streams.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunSetting {
    /// Droplets (equal-solids parcels), 1..=1e9.
    pub droplets: u64,
    /// Fly until the transfer efficiency's relative standard error is below this; `droplets` is then the ceiling.
    pub standard_error: Option<f64>,
    /// Seed.
    pub seed: u64,
}

impl RunSetting {
    /// A mean film with its standard error [m] reaches the error wanted; never where none is.
    pub(crate) fn is_reached(&self, (mean, error): (f64, f64)) -> bool {
        self.standard_error.is_some_and(|wanted| mean > 0.0 && error <= wanted * mean)
    }
}
