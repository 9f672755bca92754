//! Hands: how far a painter's stroke strays from the plan.
//!
//! A figure is a standard deviation: half of its square is the pass's own (constant along it), half wanders along the
//! pass, a stationary Gaussian with correlation exp(-t^2 / (2 tau^2)), tau 0.5 s. What the painters' hands are worth, and
//! how errors share: ours, from common practice, no source.

use crate::error::{ParameterError, within};
use crate::math::{cos, sin};
use crate::normal;
use crate::stream::{Purpose, Stream};

/// How long an error lasts along a pass [s].
const LASTS: f64 = 0.5;
/// Waves of a wandering error.
const WAVES: usize = 6;
/// Share of an error's square that is the pass's own [-].
const OWN: f64 = 0.5;

/// Errors of a hand; all 0 is a machine.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Hand {
    /// Aim beside the planned line [m], one standard deviation, 0..=0.2.
    pub aim: f64,
    /// Speed, share of the planned, one standard deviation [-], 0..=0.5.
    pub speed: f64,
    /// Distance [m], one standard deviation, 0..=0.1.
    pub distance: f64,
    /// The gun swings about a point so far behind its tip (elbow 0.4, shoulder 0.7) instead of moving square on [m],
    /// 0.2..=3.
    pub pivot: Option<f64>,
    /// Tilting up and down, one standard deviation [rad], 0..=0.6.
    pub heel: f64,
    /// Creeping nearer from the job's first pass to its last, the pace rising by the same share [m]; negative: away.
    /// -0.2..=0.2.
    pub drift: f64,
}

/// One kind of error of a hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HandError {
    /// Aim beside the line.
    Aim,
    /// Uneven speed.
    Speed,
    /// Uneven distance.
    Distance,
    /// Arcing.
    Arc,
    /// Heeling.
    Heel,
    /// Creeping nearer or away.
    Drift,
}

impl HandError {
    /// All, in the order of the page.
    pub const ALL: [Self; 6] = [Self::Aim, Self::Speed, Self::Distance, Self::Arc, Self::Heel, Self::Drift];

    /// Its word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Aim => "aim",
            Self::Speed => "speed",
            Self::Distance => "distance",
            Self::Arc => "arcing",
            Self::Heel => "heeling",
            Self::Drift => "drift",
        }
    }
}

/// Hands by their words in the job file.
pub const HANDS: [(&str, Hand); 6] = [
    ("machine", Hand { aim: 0.0, speed: 0.0, distance: 0.0, pivot: None, heel: 0.0, drift: 0.0 }),
    ("steady", STEADY),
    ("beginner", Hand { aim: 0.03, speed: 0.20, distance: 0.03, ..STEADY }),
    ("arcing", Hand { pivot: Some(0.7), ..STEADY }),
    ("heeling", Hand { heel: 0.209_439_510, ..STEADY }),
    ("drift", Hand { drift: 0.06, ..STEADY }),
];

/// A practised painter.
const STEADY: Hand = Hand { aim: 0.01, speed: 0.07, distance: 0.01, pivot: None, heel: 0.0, drift: 0.0 };

impl Hand {
    /// The hand of a word.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        HANDS.iter().find(|(name, _)| *name == word).map(|(_, hand)| *hand)
    }

    /// Its word, where it has one.
    #[must_use]
    pub fn word(&self) -> Option<&'static str> {
        HANDS.iter().find(|(_, hand)| hand == self).map(|(name, _)| *name)
    }

    /// No error at all.
    #[must_use]
    pub fn is_machine(&self) -> bool {
        *self == Self::default()
    }

    /// This hand with one of its errors alone.
    #[must_use]
    pub fn only(&self, error: HandError) -> Self {
        let none = Self::default();
        match error {
            HandError::Aim => Self { aim: self.aim, ..none },
            HandError::Speed => Self { speed: self.speed, ..none },
            HandError::Distance => Self { distance: self.distance, ..none },
            HandError::Arc => Self { pivot: self.pivot, ..none },
            HandError::Heel => Self { heel: self.heel, ..none },
            HandError::Drift => Self { drift: self.drift, ..none },
        }
    }

    /// Checks the figures.
    ///
    /// # Errors
    /// The first out of range, by its key.
    pub fn checked(self) -> Result<Self, ParameterError> {
        within("stroke.hand.aim", self.aim, 0.0, 0.2, "m")?;
        within("stroke.hand.speed", self.speed, 0.0, 0.5, "")?;
        within("stroke.hand.distance", self.distance, 0.0, 0.1, "m")?;
        within("stroke.hand.pivot", self.pivot.unwrap_or(1.0), 0.2, 3.0, "m")?;
        within("stroke.hand.heel", self.heel, 0.0, 0.6, "rad")?;
        within("stroke.hand.drift", self.drift, -0.2, 0.2, "m")?;
        Ok(self)
    }
}

/// One error of one pass, of mean square 1.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Wander {
    own: f64,
    /// Angular frequency [1/s], cosine and sine amplitude.
    waves: [[f64; 3]; WAVES],
}

impl Wander {
    /// The error `kind` of pass `pass`, by the run's seed.
    pub(super) fn new(seed: u64, pass: u64, kind: u64) -> Self {
        let mut draw = Stream::new(seed, pass * 16 + kind, Purpose::Hand);
        let mut next = || normal::quantile(draw.open01());
        let own = OWN.sqrt() * next();
        let scale = ((1.0 - OWN) / WAVES as f64).sqrt();
        let waves = core::array::from_fn(|i| {
            // Middle frequencies of equal shares of the correlation's spectrum, itself a Gaussian.
            let share = 0.5 + 0.5 * (i as f64 + 0.5) / WAVES as f64;
            [normal::quantile(share) / LASTS, scale * next(), scale * next()]
        });
        Self { own, waves }
    }

    /// The error at a time along the pass [s].
    pub(super) fn at(&self, time: f64) -> f64 {
        self.waves.iter().fold(self.own, |sum, &[w, c, s]| sum + c * cos(w * time) + s * sin(w * time))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_error_has_mean_square_one_half_of_it_along_the_pass() {
        let (mut all, mut own, mut near, mut far) = (0.0, 0.0, 0.0, 0.0);
        let n = 4000;
        for pass in 0..n {
            let w = Wander::new(5, pass, 1);
            let (a, b, c) = (w.at(1.0), w.at(1.1), w.at(2.5));
            all += a * a;
            own += w.own * w.own;
            near += a * b;
            far += a * c;
        }
        let mean = |sum: f64| sum / n as f64;
        // Four standard errors of a mean square of 4000 are 0.09.
        assert!(
            (mean(all) - 1.0).abs() < 0.09 && (mean(own) - 0.5).abs() < 0.05,
            "{} {}",
            mean(all),
            mean(own)
        );
        let wanted = 0.5 + 0.5 * crate::math::exp(-0.5 * (0.1f64 / LASTS) * (0.1 / LASTS));
        assert!((mean(near) - wanted).abs() < 0.09, "{}", mean(near));
        // Three correlation times off, what the pass keeps is its own.
        assert!((mean(far) - 0.5).abs() < 0.12, "{}", mean(far));
    }

    #[test]
    fn hands_have_words_and_single_errors() {
        for (word, hand) in HANDS {
            assert_eq!(Hand::named(word), Some(hand));
            assert_eq!(hand.word(), Some(word));
            assert!(hand.checked().is_ok());
        }
        let arcing = Hand::named("arcing").expect("known");
        assert_eq!(arcing.only(HandError::Arc), Hand { pivot: Some(0.7), ..Hand::default() });
        assert!(arcing.only(HandError::Heel).is_machine());
        assert!(Hand { aim: f64::NAN, ..arcing }.checked().is_err());
    }
}
