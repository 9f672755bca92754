//! What one gun saves against another, its range, and after how many parts its price is back.
//!
//! Both guns flew the same streams, so part of the counting error cancels; and each variant of the model is taken on both
//! sides, so that what is wrong with the drop size alike for both cancels too.

use serde::Serialize;

use super::flown::Flown;
use crate::job::Job;
use crate::math;
use crate::tally::jackknife;

/// Counting errors that widen a range for the verdicts.
const ERRORS: f64 = 2.0;
/// What a small search may miss of a gun's best, over its paint for a part [-]. Ours: a trial's counting error, by which the
/// search chooses between neighbours, is 1-3 %.
pub const SEARCHED: f64 = 0.02;

/// Paint saved for each part [mL]; negative: it takes more.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Saving {
    /// Saved.
    pub value: f64,
    /// Lowest over the model's variants, less two counting errors and what the search may have missed; with what the other
    /// constants leave open in the paint of both.
    pub low: f64,
    /// Highest over them, the same put on.
    pub high: f64,
    /// Standard error of the count, paired.
    pub standard_error: f64,
}

impl Saving {
    /// What `other` saves against `own`. Where the other is `boxed` (a kit from what is printed on its box), its own error is no
    /// part of yours: its variants are also held against your gun as it is.
    #[must_use]
    pub fn between(own: &Flown, other: &Flown, boxed: bool) -> Self {
        let ml = 1e6;
        let value = (own.volume - other.volume) * ml;
        let pairs = own.variants.iter().filter_map(|&(change, mine)| {
            let theirs = other.variants.iter().find(|v| v.0 == change)?.1;
            Some((mine, theirs))
        });
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let alone = other.variants.iter().filter(|_| boxed).map(|v| (own.volume, v.1));
        for (mine, theirs) in pairs.chain(alone).chain([(own.volume, other.volume)]) {
            low = low.min((mine - theirs) * ml);
            high = high.max((mine - theirs) * ml);
        }
        let standard_error =
            jackknife(core::array::from_fn(|g| (own.without[g] - other.without[g]) * ml - value));
        let error = ERRORS * standard_error + SEARCHED * other.volume * ml;
        // What the other constants get wrong they get wrong for both guns alike: a saving grows or shrinks with the paint.
        let wider = |end: f64, rest: f64| end * math::exp(if end > 0.0 { rest } else { -rest });
        let (low, high) = (wider(low - error, -own.rest), wider(high + error, own.rest));
        Self { value, low, high, standard_error }
    }

    /// Whether the range holds no saving and some saving: inside the model's error the two are the same.
    #[must_use]
    pub fn is_same(&self) -> bool {
        self.low <= 0.0 && self.high >= 0.0
    }
}

/// What money needs: the page knows no prices, the user types them in.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Money {
    /// Price of a litre of paint as sprayed, in any currency.
    pub paint_price: Option<f64>,
    /// Parts that are going to be painted.
    pub parts: Option<f64>,
}

impl Money {
    /// The prices that a job gives.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        Self { paint_price: job.compare.paint_price, parts: job.compare.parts }
    }
}

/// When a price is back.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(tag = "when", rename_all = "kebab-case")]
pub enum PayBack {
    /// It costs nothing.
    AtOnce,
    /// After this many parts, from the highest and from the lowest saving.
    After {
        /// At the earliest.
        low: f64,
        /// At the latest.
        high: f64,
    },
    /// At the earliest after this many parts; the range holds no saving too.
    CannotTell {
        /// At the earliest.
        low: f64,
    },
    /// It saves nothing.
    Never,
}

impl PayBack {
    /// Parts after which `price` is back; none when a price is missing.
    #[must_use]
    pub fn of(saving: &Saving, price: Option<f64>, money: &Money) -> Option<Self> {
        let price = price?;
        if price <= 0.0 {
            return Some(if saving.high <= 0.0 { Self::Never } else { Self::AtOnce });
        }
        let paint = money.paint_price.filter(|p| *p > 0.0)?;
        let parts = |ml: f64| price / (ml * 1e-3 * paint);
        Some(if saving.high <= 0.0 {
            Self::Never
        } else if saving.low <= 0.0 {
            Self::CannotTell { low: parts(saving.high) }
        } else {
            Self::After { low: parts(saving.high), high: parts(saving.low) }
        })
    }
}

/// How sure the answer "get it" is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sure {
    /// Yes, over the whole range.
    Yes,
    /// It saves over the whole range; how soon the price is back is open.
    Likely,
    /// No.
    No,
    /// The two are the same inside the model's error.
    Same,
    /// The range holds yes and no.
    CannotTell,
}

/// The verdict on a gun that saves so much and costs `price`; `held` is false where the air does not hold it, or where it
/// cannot do the part inside the limits.
#[must_use]
pub fn sure(saving: &Saving, price: Option<f64>, money: &Money, held: bool) -> Sure {
    if !held {
        return Sure::No;
    }
    if price.unwrap_or(0.0) <= 0.0 {
        return match (saving.is_same(), saving.high > 0.0) {
            (true, _) => Sure::Same,
            (false, saves) => {
                if saves {
                    Sure::Yes
                } else {
                    Sure::No
                }
            }
        };
    }
    if saving.high <= 0.0 {
        return Sure::No;
    }
    match (PayBack::of(saving, price, money), money.parts) {
        (Some(PayBack::After { high, .. }), Some(parts)) if parts >= high => Sure::Yes,
        (Some(PayBack::After { low, .. } | PayBack::CannotTell { low }), Some(parts)) if parts < low => {
            Sure::No
        }
        (Some(PayBack::After { .. }), None) => Sure::Likely,
        // Saves for certain, but the parts to be painted lie inside the range.
        (Some(PayBack::After { low, high }), Some(parts)) if 2.0 * parts >= low + high => Sure::Likely,
        (Some(_), _) => Sure::CannotTell,
        (None, _) => {
            if saving.is_same() {
                Sure::Same
            } else {
                Sure::Likely
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn saving(low: f64, value: f64, high: f64) -> Saving {
        Saving { value, low, high, standard_error: 0.0 }
    }

    #[test]
    fn pay_back_by_hand() {
        // 240 for the gun, 18 a litre; 8 to 56 mL saved: 0.144 to 1.008 of money a part.
        let money = Money { paint_price: Some(18.0), parts: None };
        let Some(PayBack::After { low, high }) = PayBack::of(&saving(8.0, 32.0, 56.0), Some(240.0), &money)
        else {
            panic!("it pays back")
        };
        assert!((low - 240.0 / 1.008).abs() < 1e-9 && (high - 240.0 / 0.144).abs() < 1e-9, "{low} {high}");
        assert_eq!(PayBack::of(&saving(8.0, 32.0, 56.0), Some(240.0), &Money::default()), None);
        assert_eq!(PayBack::of(&saving(8.0, 32.0, 56.0), None, &money), None);
        assert_eq!(PayBack::of(&saving(8.0, 32.0, 56.0), Some(0.0), &money), Some(PayBack::AtOnce));
        assert_eq!(PayBack::of(&saving(-9.0, -5.0, -1.0), Some(240.0), &money), Some(PayBack::Never));
        let open = PayBack::of(&saving(-4.0, 10.0, 20.0), Some(90.0), &money);
        assert_eq!(open, Some(PayBack::CannotTell { low: 90.0 / 0.36 }));
    }

    #[test]
    fn a_range_with_yes_and_no_cannot_tell() {
        let (spans, saves) = (saving(-4.0, 10.0, 20.0), saving(8.0, 32.0, 56.0));
        let money = |parts| Money { paint_price: Some(18.0), parts };
        assert_eq!(sure(&spans, Some(90.0), &money(None), true), Sure::CannotTell);
        assert_eq!(sure(&spans, Some(90.0), &money(Some(1000.0)), true), Sure::CannotTell);
        // Not even the highest saving is enough for 100 parts.
        assert_eq!(sure(&spans, Some(90.0), &money(Some(100.0)), true), Sure::No);
        assert_eq!(sure(&saves, Some(240.0), &money(None), true), Sure::Likely);
        assert_eq!(sure(&saves, Some(240.0), &money(Some(2000.0)), true), Sure::Yes);
        assert_eq!(sure(&saves, Some(240.0), &money(Some(200.0)), true), Sure::No);
        assert_eq!(sure(&saves, Some(240.0), &money(Some(500.0)), true), Sure::CannotTell);
        assert_eq!(sure(&saves, Some(240.0), &money(Some(1500.0)), true), Sure::Likely);
        assert_eq!(sure(&spans, None, &money(None), true), Sure::Same);
        assert_eq!(sure(&saves, None, &money(None), true), Sure::Yes);
        assert_eq!(sure(&saving(-9.0, -5.0, -1.0), None, &money(None), true), Sure::No);
    }

    #[test]
    fn air_that_does_not_hold_says_no() {
        assert_eq!(sure(&saving(8.0, 32.0, 56.0), None, &Money::default(), false), Sure::No);
    }
}
