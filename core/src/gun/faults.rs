//! What can be wrong with a gun, and what that does to its passages. Faults are changes of geometry: a smaller area on one
//! side, a wider bore, a gap. What they do to the pattern follows from the flows (`docs/methods/pattern.md`).
//!
//! Sides are named with the cap at 0 deg, as the painter sees them from behind the gun. Shares are ours: no published figure
//! says how much of a hole the dirt closes.

use super::class::Feed;
use super::spec::Kit;
use crate::error::ParameterError;
use crate::math::{sin, tan};

/// Share of its horn's area that a blocked horn hole closes [-]: the larger of the two holes of a horn.
const HORN_HOLE: f64 = 0.6;
/// Share of the ring round the tip that dirt closes, all on one side [-].
const DIRT: f64 = 0.3;
/// Angle at which the air of the ring leans to the axis [rad]: caps taper by 25 to 35 degrees (common practice, no source).
const RING_ANGLE: f64 = core::f64::consts::FRAC_PI_6;
/// Mean place of the paint off the core's middle, nicked and worn tip [share of the core's radius].
const NICK: f64 = 0.3;
const WEAR: f64 = 0.25;
/// Bore of a worn tip over its first bore [-].
const WORN_BORE: f64 = 1.15;
/// Share of the time that air fills the bore: leaking tip passage, air drawn past the packing [-].
const LEAK: f64 = 0.35;
const DRAWN: f64 = 0.2;
/// Share of the paint that drips past a loose packing [-].
const DRIP: f64 = 0.03;

/// One thing that is wrong with a gun.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fault {
    /// A hole of the left horn is blocked.
    HornLeftBlocked,
    /// A hole of the right horn is blocked.
    HornRightBlocked,
    /// Dirt in the cap's ring, on its upper side.
    CapDirty,
    /// The fluid tip's lip is nicked, on its upper side.
    TipNicked,
    /// The fluid tip's bore is worn wide, more on its lower side.
    TipWorn,
    /// Air gets past the tip's seat into the paint passage.
    TipPassageLeaks,
    /// The vent of the cup's lid is blocked.
    CupVentBlocked,
    /// The needle's packing is loose.
    PackingLoose,
}

impl Fault {
    /// All of them, in the order of the page.
    pub const ALL: [Self; 8] = [
        Self::HornLeftBlocked,
        Self::HornRightBlocked,
        Self::CapDirty,
        Self::TipNicked,
        Self::TipWorn,
        Self::TipPassageLeaks,
        Self::CupVentBlocked,
        Self::PackingLoose,
    ];
    /// Their words in the job file, in the same order.
    pub const WORDS: [&'static str; 8] = [
        "horn-left-blocked",
        "horn-right-blocked",
        "cap-dirty",
        "tip-nicked",
        "tip-worn",
        "tip-passage-leaks",
        "cup-vent-blocked",
        "packing-loose",
    ];

    /// The word of the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }

    /// The fault of a word.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|f| f.word() == word)
    }

    /// It sits in the air cap, so its mark turns with the cap.
    #[must_use]
    pub fn on_cap(self) -> bool {
        matches!(self, Self::HornLeftBlocked | Self::HornRightBlocked | Self::CapDirty)
    }
}

/// The faults of a gun: a set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Faults(u16);

impl Faults {
    /// A sound gun.
    pub const NONE: Self = Self(0);

    /// With one more fault.
    #[must_use]
    pub fn with(self, fault: Fault) -> Self {
        Self(self.0 | 1 << fault as u16)
    }

    /// Without one.
    #[must_use]
    pub fn without(self, fault: Fault) -> Self {
        Self(self.0 & !(1 << fault as u16))
    }

    /// It has this fault.
    #[must_use]
    pub fn has(self, fault: Fault) -> bool {
        self.0 & 1 << fault as u16 != 0
    }

    /// A sound gun.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self == Self::NONE
    }

    /// One by one.
    pub fn iter(self) -> impl Iterator<Item = Fault> {
        Fault::ALL.into_iter().filter(move |&f| self.has(f))
    }

    /// Checks that the kit has what is faulty.
    ///
    /// # Errors
    /// A blocked horn hole on a cap without horn air, a blocked vent without a cup.
    pub fn check(self, kit: &Kit) -> Result<(), ParameterError> {
        let refuse = |fault: Fault, allowed: &str| {
            Err(ParameterError::new("gun.faults", format!("\"{}\"", fault.word()), allowed))
        };
        for fault in self.iter() {
            match fault {
                Fault::HornLeftBlocked | Fault::HornRightBlocked if kit.fan_valve_area <= 0.0 => {
                    return refuse(fault, "faults of what the kit has: its cap has no horn air");
                }
                Fault::CupVentBlocked if kit.feed == Feed::Pressure => {
                    return refuse(
                        fault,
                        "faults of what the kit has: a pressure-fed gun has no cup with a vent",
                    );
                }
                _ => {}
            }
        }
        Ok(())
    }

    /// Share of each horn's area that is open [-], left and right.
    fn horns(self) -> [f64; 2] {
        [Fault::HornLeftBlocked, Fault::HornRightBlocked]
            .map(|f| if self.has(f) { 1.0 - HORN_HOLE } else { 1.0 })
    }

    /// The kit with its passages as the faults leave them.
    #[must_use]
    pub fn leave(self, kit: &Kit) -> Kit {
        let mut kit = kit.clone();
        let [left, right] = self.horns();
        kit.horn_area *= 0.5 * (left + right);
        if self.has(Fault::CapDirty) {
            kit.annulus_area *= 1.0 - DIRT;
        }
        if self.has(Fault::TipWorn) {
            kit.tip_bore *= WORN_BORE;
        }
        kit
    }

    /// Horn momentum that no hole opposite answers, over all of it [-]: positive pushes to the right, -1..=1.
    #[must_use]
    pub fn unanswered(self) -> f64 {
        let [left, right] = self.horns();
        (left - right) / (left + right)
    }

    /// Sideways momentum of the ring's air over its axial momentum [-], upward: the jet of the open side pushes towards the gap.
    #[must_use]
    pub fn ring_push(self) -> f64 {
        if !self.has(Fault::CapDirty) {
            return 0.0;
        }
        let half = core::f64::consts::PI * DIRT;
        DIRT / (1.0 - DIRT) * sin(half) / half * tan(RING_ANGLE)
    }

    /// Mean place of the paint off the middle of the core [share of its radius], upward.
    #[must_use]
    pub fn off_middle(self) -> f64 {
        let nick = if self.has(Fault::TipNicked) { NICK } else { 0.0 };
        let wear = if self.has(Fault::TipWorn) { WEAR } else { 0.0 };
        nick - wear
    }

    /// Share of the time that air fills the bore [-]; `below_air` where the passage at the packing is below the room's
    /// pressure, so that a loose packing draws air.
    #[must_use]
    pub fn air_in_paint(self, below_air: bool) -> f64 {
        let leak = if self.has(Fault::TipPassageLeaks) { LEAK } else { 0.0 };
        let drawn = if self.has(Fault::PackingLoose) && below_air { DRAWN } else { 0.0 };
        1.0 - (1.0 - leak) * (1.0 - drawn)
    }

    /// Share of the paint that drips past the packing [-].
    #[must_use]
    pub fn dripping(self, below_air: bool) -> f64 {
        if self.has(Fault::PackingLoose) && !below_air { DRIP } else { 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_set_of_faults() {
        let set = Faults::NONE.with(Fault::TipWorn).with(Fault::CapDirty);
        assert_eq!(set.iter().collect::<Vec<_>>(), [Fault::CapDirty, Fault::TipWorn]);
        assert_eq!(set.without(Fault::CapDirty).without(Fault::TipWorn), Faults::NONE);
        for (fault, word) in Fault::ALL.into_iter().zip(Fault::WORDS) {
            assert_eq!((Fault::named(word), fault.word()), (Some(fault), word));
        }
        assert_eq!(Fault::named("horn"), None);
    }

    #[test]
    fn a_blocked_hole_lets_the_other_horn_push_towards_it() {
        let left = Faults::NONE.with(Fault::HornLeftBlocked);
        assert!((left.unanswered() + 0.6 / 1.4).abs() < 1e-12, "to the left, where the hole is blocked");
        assert!((left.with(Fault::HornRightBlocked).unanswered()).abs() < 1e-12);
        assert!(Faults::NONE.unanswered() == 0.0 && Faults::NONE.ring_push() == 0.0);
    }
}
