//! Paint for one part at a film wanted, from a run that laid another.

/// Paint for one part at a film wanted.
///
/// A coat twice as thick takes twice the paint: a run's volumes go by film wanted over film found, so that two settings are
/// compared at the same film.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PaintFor {
    /// Sprayed [mL].
    pub sprayed: f64,
    /// Lower end of its likely range [mL], by the model's range of the landed share.
    pub low: f64,
    /// Upper end [mL].
    pub high: f64,
    /// Of it on the part [mL].
    pub on_part: f64,
    /// The film it is for, dry [m].
    pub film: f64,
    /// Film wanted over film found [-]: the gun's speed over it brings that film.
    pub scale: f64,
}

/// Paint for the dry film `film` [m], from a run's mean dry film [m], paint sprayed [mL] and landed share with its likely range
/// (value, low, high) [-]; none where nothing landed.
#[must_use]
pub fn paint_for(film: f64, mean: f64, sprayed: f64, landed: [f64; 3]) -> Option<PaintFor> {
    let [value, low, high] = landed;
    if !(mean > 0.0 && low > 0.0 && value > 0.0 && high > 0.0 && film > 0.0) {
        return None;
    }
    let scale = film / mean;
    let sprayed = sprayed * scale;
    let on_part = sprayed * value;
    Some(PaintFor { sprayed, low: on_part / high, high: on_part / low, on_part, film, scale })
}
