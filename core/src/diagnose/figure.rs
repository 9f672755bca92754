//! A figure with what its differences need: its value without each replicate group, and by each of the model's variants.

use crate::compare::jackknife;
use crate::tally::GROUPS;

/// Counting errors that a likely range holds on either side.
const ERRORS: f64 = 2.0;

/// A figure of a flown run.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// The figure.
    pub value: f64,
    /// The same without one replicate group.
    pub without: [f64; GROUPS],
    /// The same by each of the model's variants, where they move it.
    pub variants: Vec<(&'static str, f64)>,
    /// Standard error where the groups cannot tell it; else 0.
    pub own_error: f64,
}

/// What a change does to a figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// The figure before.
    pub before: f64,
    /// The figure after.
    pub after: f64,
    /// By how much it gets less.
    pub value: f64,
    /// Counting error of `value`, the two flown with the same streams.
    pub standard_error: f64,
    /// Likely range of `value`: counting and the model's variants.
    pub range: [f64; 2],
    /// Likely range of `after`, likewise.
    pub after_range: [f64; 2],
}

impl Figure {
    /// A figure that no droplet has a part in.
    #[must_use]
    pub fn certain(value: f64) -> Self {
        Self { value, without: [value; GROUPS], variants: Vec::new(), own_error: 0.0 }
    }

    /// Counting error.
    #[must_use]
    pub fn standard_error(&self) -> f64 {
        let counted = jackknife(self.without.map(|w| w - self.value));
        (counted * counted + self.own_error * self.own_error).sqrt()
    }

    /// Half way to the worst of the model's variants: what one can count on.
    #[must_use]
    pub fn sober(&self) -> f64 {
        let worst = self.variants.iter().map(|v| v.1).fold(self.value, f64::max);
        0.5 * (self.value + worst)
    }

    /// From this figure to that of a changed job, flown with the same streams. No figure is less than 0.
    #[must_use]
    pub fn to(&self, after: &Self) -> Gain {
        let value = self.value - after.value;
        let counted = jackknife(core::array::from_fn(|g| self.without[g] - after.without[g] - value));
        let own = self.own_error * self.own_error + after.own_error * after.own_error;
        let standard_error = (counted * counted + own).sqrt();
        let mut range = [value, value];
        let mut after_range = [after.value, after.value];
        for &(change, theirs) in &after.variants {
            let mine = self.variants.iter().find(|v| v.0 == change).map_or(self.value, |v| v.1);
            range = [range[0].min(mine - theirs), range[1].max(mine - theirs)];
            after_range = [after_range[0].min(theirs), after_range[1].max(theirs)];
        }
        let (error, after_error) = (ERRORS * standard_error, ERRORS * after.standard_error());
        Gain {
            before: self.value,
            after: after.value,
            value,
            standard_error,
            range: [range[0] - error, range[1] + error],
            after_range: [(after_range[0] - after_error).max(0.0), after_range[1] + after_error],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_both_have_in_common_is_no_error_of_the_difference() {
        let noise: [f64; GROUPS] = core::array::from_fn(|g| 0.3 * (g as f64 - 7.5));
        let figure = |value: f64| Figure {
            value,
            without: noise.map(|n| value + n),
            variants: vec![("size up", value * 1.1)],
            own_error: 0.0,
        };
        let gain = figure(18.0).to(&figure(4.0));
        assert!((gain.value - 14.0).abs() < 1e-12 && gain.standard_error < 1e-12, "{gain:?}");
        assert!((gain.range[1] - 15.4).abs() < 1e-9 && (gain.range[0] - 14.0).abs() < 1e-9, "{gain:?}");
        assert!(gain.after_range[0] >= 0.0 && gain.after_range[1] > 4.4, "{gain:?}");
    }
}
