//! Flow cups: seconds to kinematic viscosity and back.
//!
//! Two shapes: linear nu = K (t - c); two-term nu = a t - b/t with inverse t = (nu + sqrt(nu^2 + 4ab))/(2a), nu in
//! mm2/s. Formulas: ISO 2431, DIN 53211, ASTM D1200 (Ford), ASTM D4212 (Zahn), seen in two public secondary
//! sources, not in the standards. Zahn formulas are approximations. DIN 4 below 25 s is below the formula's range: readings
//! there, which car refinishing uses, are flagged.

use crate::error::ParameterError;

/// A cup.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cup {
    /// ISO 2431, 3 mm.
    Iso3,
    /// ISO 2431, 4 mm.
    Iso4,
    /// ISO 2431, 5 mm.
    Iso5,
    /// ISO 2431, 6 mm.
    Iso6,
    /// DIN 53211, 4 mm (withdrawn 1996, still in daily use).
    Din4,
    /// ASTM D1200 no. 1.
    Ford1,
    /// ASTM D1200 no. 2.
    Ford2,
    /// ASTM D1200 no. 3.
    Ford3,
    /// ASTM D1200 no. 4.
    Ford4,
    /// ASTM D1200 no. 5.
    Ford5,
    /// ASTM D4212 no. 1.
    Zahn1,
    /// ASTM D4212 no. 2.
    Zahn2,
    /// ASTM D4212 no. 3.
    Zahn3,
    /// ASTM D4212 no. 4.
    Zahn4,
    /// ASTM D4212 no. 5.
    Zahn5,
}

/// What a cup says, and whether the formula was made for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Kinematic viscosity [m2/s] (from seconds) or time [s] (from viscosity).
    pub value: f64,
    /// The time lies in the range the formula was made for.
    pub in_range: bool,
}

#[derive(Clone, Copy)]
enum Formula {
    Linear { k: f64, c: f64 },
    TwoTerm { a: f64, b: f64 },
}
use Formula::{Linear, TwoTerm};

/// Cup, id, formula [mm2/s, s], shortest and longest time of the formula [s].
type Row = (Cup, &'static str, Formula, f64, f64);
const CUPS: [Row; 15] = [
    (Cup::Iso3, "iso-3", TwoTerm { a: 0.443, b: 200.0 }, 30.0, 100.0),
    (Cup::Iso4, "iso-4", TwoTerm { a: 1.37, b: 200.0 }, 30.0, 100.0),
    (Cup::Iso5, "iso-5", TwoTerm { a: 3.28, b: 220.0 }, 30.0, 100.0),
    (Cup::Iso6, "iso-6", TwoTerm { a: 6.90, b: 570.0 }, 30.0, 100.0),
    (Cup::Din4, "din-4", TwoTerm { a: 4.57, b: 452.0 }, 25.0, 150.0),
    (Cup::Ford1, "ford-1", Linear { k: 0.49, c: 35.0 }, 55.0, 100.0),
    (Cup::Ford2, "ford-2", Linear { k: 1.44, c: 18.0 }, 40.0, 100.0),
    (Cup::Ford3, "ford-3", Linear { k: 2.31, c: 6.58 }, 20.0, 100.0),
    (Cup::Ford4, "ford-4", Linear { k: 3.85, c: 4.49 }, 20.0, 100.0),
    (Cup::Ford5, "ford-5", Linear { k: 12.1, c: 2.0 }, 20.0, 100.0),
    (Cup::Zahn1, "zahn-1", Linear { k: 1.1, c: 29.0 }, 35.0, 80.0),
    (Cup::Zahn2, "zahn-2", Linear { k: 3.5, c: 14.0 }, 20.0, 80.0),
    (Cup::Zahn3, "zahn-3", Linear { k: 11.7, c: 7.5 }, 20.0, 80.0),
    (Cup::Zahn4, "zahn-4", Linear { k: 14.8, c: 5.0 }, 20.0, 80.0),
    (Cup::Zahn5, "zahn-5", Linear { k: 23.0, c: 0.0 }, 20.0, 80.0),
];

/// Longest time that is taken for a reading [s].
const LONGEST: f64 = 1000.0;

impl Cup {
    /// All cups.
    pub fn all() -> impl Iterator<Item = Self> {
        CUPS.iter().map(|row| row.0)
    }

    /// Cup of an id such as "din-4".
    ///
    /// # Errors
    /// Unknown id: the error lists the known ones.
    pub fn from_id(id: &str) -> Result<Self, ParameterError> {
        CUPS.iter().find(|row| row.1 == id).map(|row| row.0).ok_or_else(|| {
            let known: Vec<_> = CUPS.iter().map(|row| row.1).collect();
            ParameterError::new("paint.cup.standard", format!("\"{id}\""), known.join(", "))
        })
    }

    /// Id, such as "din-4".
    #[must_use]
    pub fn id(self) -> &'static str {
        self.row().1
    }

    /// Name as it is said, such as "DIN 4 mm".
    #[must_use]
    pub fn name(self) -> &'static str {
        const NAMES: [(&str, &str); 15] = [
            ("iso-3", "ISO 3 mm"),
            ("iso-4", "ISO 4 mm"),
            ("iso-5", "ISO 5 mm"),
            ("iso-6", "ISO 6 mm"),
            ("din-4", "DIN 4 mm"),
            ("ford-1", "Ford 1"),
            ("ford-2", "Ford 2"),
            ("ford-3", "Ford 3"),
            ("ford-4", "Ford 4"),
            ("ford-5", "Ford 5"),
            ("zahn-1", "Zahn 1"),
            ("zahn-2", "Zahn 2"),
            ("zahn-3", "Zahn 3"),
            ("zahn-4", "Zahn 4"),
            ("zahn-5", "Zahn 5"),
        ];
        NAMES.iter().find(|(known, _)| *known == self.id()).map_or(self.id(), |(_, name)| name)
    }

    fn row(self) -> &'static Row {
        &CUPS[self as usize]
    }

    /// Times the formula was made for [s], shortest and longest.
    #[must_use]
    pub fn range(self) -> [f64; 2] {
        [self.row().3, self.row().4]
    }

    /// Time at which the formula gives zero [s]; readings at or below it are refused.
    #[must_use]
    pub fn zero(self) -> f64 {
        match self.row().2 {
            Linear { c, .. } => c,
            TwoTerm { a, b } => (b / a).sqrt(),
        }
    }

    fn flag(self, seconds: f64) -> bool {
        let [low, high] = self.range();
        (low..=high).contains(&seconds)
    }

    /// Kinematic viscosity [m2/s] of a time [s].
    ///
    /// # Errors
    /// A time that the formula turns into zero or less, or above 1000 s.
    pub fn viscosity(self, seconds: f64) -> Result<Reading, ParameterError> {
        if !seconds.is_finite() || seconds <= self.zero() || seconds > LONGEST {
            let allowed =
                format!("above {:.2} s (zero viscosity of {}) to {LONGEST} s", self.zero(), self.id());
            return Err(ParameterError::new("paint.cup.seconds", format!("{seconds} s"), allowed));
        }
        let nu = match self.row().2 {
            Linear { k, c } => k * (seconds - c),
            TwoTerm { a, b } => a * seconds - b / seconds,
        };
        Ok(Reading { value: nu * 1e-6, in_range: self.flag(seconds) })
    }

    /// Time [s] of a kinematic viscosity [m2/s].
    ///
    /// # Errors
    /// A viscosity that is not above 0, or too high for 1000 s.
    pub fn seconds(self, viscosity: f64) -> Result<Reading, ParameterError> {
        let nu = viscosity * 1e6;
        let seconds = match self.row().2 {
            Linear { k, c } => nu / k + c,
            TwoTerm { a, b } => (nu + (nu * nu + 4.0 * a * b).sqrt()) / (2.0 * a),
        };
        if !nu.is_finite() || nu <= 0.0 || seconds > LONGEST {
            let allowed = format!("above 0 mm2/s, flowing out of {} within {LONGEST} s", self.id());
            return Err(ParameterError::new("kinematic viscosity", format!("{nu} mm2/s"), allowed));
        }
        Ok(Reading { value: seconds, in_range: self.flag(seconds) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_stand_in_the_order_of_the_enum_and_ids_round_trip() {
        for cup in Cup::all() {
            assert_eq!(cup.row().0, cup);
            assert_eq!(Cup::from_id(cup.id()), Ok(cup));
            assert_ne!(cup.name(), cup.id());
        }
    }

    #[test]
    fn there_and_back_for_every_cup() {
        for cup in Cup::all() {
            let [low, high] = cup.range();
            for i in 0..=20 {
                let t = low + (high - low) * f64::from(i) / 20.0;
                let nu = cup.viscosity(t).unwrap();
                assert!(nu.in_range && nu.value > 0.0);
                assert!((cup.seconds(nu.value).unwrap().value - t).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn nonsense_is_refused_and_short_times_are_flagged() {
        assert!(!Cup::Din4.viscosity(18.0).unwrap().in_range);
        for t in [9.94, 0.0, -3.0, f64::NAN, f64::INFINITY, 1e9] {
            let e = Cup::Din4.viscosity(t).unwrap_err().to_string();
            assert!(e.contains("paint.cup.seconds") && e.contains("din-4"), "{e}");
        }
        assert!(Cup::Iso4.seconds(0.0).is_err() && Cup::Iso4.seconds(f64::NAN).is_err());
        assert!(Cup::from_id("din-5").unwrap_err().to_string().contains("din-4"));
    }
}
