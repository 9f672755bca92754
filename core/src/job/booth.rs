//! Air in the booth, and what changes of its supply would cost.

/// Air in the booth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Booth {
    /// Air temperature [K].
    pub temperature: f64,
    /// Relative humidity, 0..=1.
    pub humidity: f64,
    /// Speed of the air past the part [m/s], 0..=3.
    pub air: f64,
    /// Where it comes from.
    pub from: AirFrom,
}

impl Booth {
    /// Speed of the air where a job says nothing [m/s]: a down-draught booth's mean, EN 12215 (from memory).
    pub const AIR: f64 = 0.3;

    /// Air of a temperature [K] and a humidity, from above at the usual speed.
    #[must_use]
    pub const fn at(temperature: f64, humidity: f64) -> Self {
        Self { temperature, humidity, air: Self::AIR, from: AirFrom::Above }
    }
}

/// Where the booth's air comes from, as the painter stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AirFrom {
    /// From the ceiling.
    Above,
    /// From behind the painter.
    Behind,
    /// From the left.
    Left,
    /// From the right.
    Right,
}

/// Prices of changes to the air supply, by their keys; any money.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AirPrices(pub Vec<(&'static str, f64)>);

impl AirPrices {
    /// The price of a key such as "supply.price.hose".
    #[must_use]
    pub fn of(&self, key: &str) -> Option<f64> {
        self.0.iter().find(|(k, _)| *k == key).map(|(_, price)| *price)
    }
}
