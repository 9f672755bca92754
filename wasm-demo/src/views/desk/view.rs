//! What can be shown, and how.

/// Views that exist.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// A test card.
    Card,
    /// The part.
    Part,
    /// The air supply.
    Air,
    /// Data sheet, cups, thinner, how much to mix.
    Paint,
    /// Kits side by side.
    Side,
    /// The pointer is the gun.
    Hand,
    /// One page to print.
    Sheet,
    /// What if a knob is turned.
    Sweep,
}

impl View {
    /// A word for it in the page's attributes.
    pub fn word(self) -> &'static str {
        match self {
            View::Card => "card",
            View::Part => "part",
            View::Air => "air",
            View::Paint => "paint",
            View::Side => "side",
            View::Hand => "hand",
            View::Sheet => "sheet",
            View::Sweep => "sweep",
        }
    }
}

/// How film is shown on the card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// As the eye sees it.
    Seen,
    /// As a map.
    Map,
    /// Both.
    Both,
}

/// How a card is sprayed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// A burst with the gun held still.
    Burst,
    /// One pass across it.
    Pass,
    /// The flood test: fan flat, trigger held until it runs.
    Flood,
}
