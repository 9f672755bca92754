//! What films that have set do not keep to, part by part: under a hand one part runs where the next does not.

use super::paced::SURE;
use super::stop::{Stop, What};
use crate::film::SetFilm;

/// Area of a part that may run, be dry spray, be bare [-]. Ours, as a diagnosis bears them.
const MARKS: [(What, &str, f64); 3] =
    [(What::Runs, "run", 0.002), (What::Dry, "dry", 0.02), (What::Thin, "bare", 0.002)];
/// Parts of which such marks may be on more than that [-]. Ours: one in ten.
const BAD_PARTS: f64 = 0.1;

/// Marks of some parts' films.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Marked {
    parts: u64,
    bad: [u64; MARKS.len()],
    /// Area with each mark, sum of the parts [-].
    area: [f64; MARKS.len()],
}

impl Marked {
    /// Takes in a part's film; true where it has more than it may.
    pub fn add(&mut self, set: &SetFilm) -> bool {
        self.parts += 1;
        let mut any = false;
        for (i, (_, word, most)) in MARKS.iter().enumerate() {
            let share = set.share(word);
            self.area[i] += share;
            self.bad[i] += u64::from(share > *most);
            any |= share > *most;
        }
        any
    }

    /// Parts looked at.
    pub fn parts(&self) -> u64 {
        self.parts
    }

    /// What a look at a few parts, or at the only one, finds: none may have too much.
    pub fn any(&self) -> Vec<Stop> {
        let one = |i: usize| Stop::new(MARKS[i].0, self.area[i] / self.parts.max(1) as f64);
        (0..MARKS.len()).filter(|&i| self.bad[i] > 0).map(one).collect()
    }

    /// What all parts of a full flight find, and what other parts may: by two errors of the share of bad ones.
    pub fn all(&self) -> (Vec<Stop>, Vec<Stop>) {
        if self.parts < 2 {
            return (self.any(), Vec::new());
        }
        let (mut stops, mut unsure) = (Vec::new(), Vec::new());
        let parts = self.parts as f64;
        for (i, (what, ..)) in MARKS.iter().enumerate() {
            let bad = self.bad[i] as f64;
            // None of 96 is not none of all: as if one more of two more were bad.
            let likely = (bad + 1.0) / (parts + 2.0);
            let most = likely + SURE * (likely * (1.0 - likely) / (parts + 2.0)).sqrt();
            let told = |by: f64| Stop { what: *what, by, parts: Some([self.bad[i], self.parts]) };
            if bad > BAD_PARTS * parts {
                stops.push(told(bad / parts));
            } else if most > BAD_PARTS {
                unsure.push(told(most - BAD_PARTS));
            }
        }
        (stops, unsure)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(parts: u64, runs: u64) -> (usize, usize) {
        let marked = Marked { parts, bad: [runs, 0, 0], area: [0.0; 3] };
        let (stops, unsure) = marked.all();
        (stops.len(), unsure.len())
    }

    #[test]
    fn four_runs_in_ninety_six_parts_are_borne_five_are_not_sure_ten_are_too_many() {
        assert_eq!([0, 4, 5, 9, 10].map(|runs| of(96, runs)), [(0, 0), (0, 0), (0, 1), (0, 1), (1, 0)]);
        assert_eq!([0, 1].map(|runs| of(1, runs)), [(0, 0), (1, 0)]);
    }
}
