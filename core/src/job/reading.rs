//! What was measured on a card.

/// What a reading is of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measurement {
    /// Fan height on a card [m], between its tenth-of-the-peak lines.
    FanHeight {
        /// Tip to card [m].
        distance: f64,
    },
    /// Fan thickness [m], likewise.
    FanThickness {
        /// Tip to card [m].
        distance: f64,
    },
    /// Paint that left a gun that was weighed before and after [kg].
    Weighed {
        /// Trigger on [s].
        seconds: f64,
    },
    /// Paint caught from the tip of a pressure gun, air shut [m3].
    Caught {
        /// Trigger on [s].
        seconds: f64,
    },
    /// Wet film in the middle of one pass [m].
    WetFilm {
        /// Tip to card [m].
        distance: f64,
        /// Gun speed [m/s].
        speed: f64,
    },
    /// Dry film there [m].
    DryFilm {
        /// Tip to card [m].
        distance: f64,
        /// Gun speed [m/s].
        speed: f64,
    },
}

/// One reading of the user's card.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Its key in the job file.
    pub key: &'static str,
    /// Its name in `card.kept_back`.
    pub name: &'static str,
    /// What it is of.
    pub what: Measurement,
    /// Value, in the unit of `what`.
    pub value: f64,
    /// Relative uncertainty, one standard deviation [-].
    pub uncertainty: f64,
    /// It is kept out of the fit, to test it.
    pub kept_back: bool,
}
