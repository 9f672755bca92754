//! "Which fault?": a gun with a hidden fault. The fault follows from the number in the job's name; the job does not hold it in words
//! until it is answered, so a link reopens the same exercise.

use mistcoat::gun::{Fault, Faults};
use mistcoat::job::{Job, JobError, with_key};

use super::TABLE_TOP;

/// How the name of such a job begins.
const NAME: &str = "which fault? ";
/// How it ends once answered.
const ANSWERED: &str = ", answered";

/// What can be hidden: faults that the card shows on a gravity gun.
pub const HIDDEN: [Fault; 6] = [
    Fault::HornLeftBlocked,
    Fault::HornRightBlocked,
    Fault::CapDirty,
    Fault::TipNicked,
    Fault::TipWorn,
    Fault::TipPassageLeaks,
];

/// An exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Exercise {
    /// Its number.
    pub seed: u32,
    /// It has been answered.
    pub answered: bool,
}

impl Exercise {
    /// The exercise that a job's name tells of.
    pub fn of(name: &str) -> Option<Self> {
        let rest = name.strip_prefix(NAME)?;
        let (number, answered) = rest.strip_suffix(ANSWERED).map_or((rest, false), |number| (number, true));
        Some(Self { seed: number.parse().ok()?, answered })
    }

    /// The exercise of a job's text.
    pub fn in_text(text: &str) -> Option<Self> {
        Self::of(&Job::from_toml(text).ok()?.name)
    }

    fn name(self) -> String {
        format!("{NAME}{}{}", self.seed, if self.answered { ANSWERED } else { "" })
    }

    /// The fault that is hidden.
    pub fn fault(self) -> Fault {
        let mixed = u64::from(self.seed).wrapping_add(0x9E37_79B9).wrapping_mul(0xD6E8_FEB8_6659_FD93) >> 33;
        HIDDEN[(mixed % HIDDEN.len() as u64) as usize]
    }

    /// A fresh job with this exercise: the table top's gun as rated.
    ///
    /// # Errors
    /// None but those of the preset.
    pub fn begin(seed: u32) -> Result<String, JobError> {
        with_key(TABLE_TOP, "name", &Self { seed, answered: false }.name())
    }

    /// The job once answered: the fault stands in it.
    ///
    /// # Errors
    /// A text that is no job.
    pub fn answer(self, text: &str) -> Result<String, JobError> {
        let text = with_key(text, "name", &Self { answered: true, ..self }.name())?;
        with_key(&text, "gun.faults", &list(Faults::NONE.with(self.fault())))
    }
}

/// Faults as the job file writes them.
pub fn list(faults: Faults) -> String {
    let words: Vec<_> = faults.iter().map(|f| format!("\"{}\"", f.word())).collect();
    format!("[{}]", words.join(", "))
}

/// The text to fly: with the hidden fault where an exercise is open.
pub fn with_hidden(text: &str) -> String {
    match Exercise::in_text(text).filter(|e| !e.answered) {
        Some(open) => with_key(text, "gun.faults", &list(Faults::NONE.with(open.fault())))
            .unwrap_or_else(|_| text.into()),
        None => text.into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_job_hides_its_fault_until_it_is_answered() {
        let mut seen = Vec::new();
        for seed in 0..60 {
            let text = Exercise::begin(seed).unwrap();
            let open = Exercise::in_text(&text).unwrap();
            assert_eq!(open, Exercise { seed, answered: false });
            assert!(!text.contains(open.fault().word()), "the text tells");
            let flown = Job::from_toml(&with_hidden(&text)).unwrap();
            assert_eq!(flown.gun.faults, Faults::NONE.with(open.fault()));
            let told = open.answer(&text).unwrap();
            assert!(told.contains(open.fault().word()));
            assert_eq!(with_hidden(&told), told);
            assert!(Exercise::in_text(&told).unwrap().answered);
            if !seen.contains(&open.fault()) {
                seen.push(open.fault());
            }
        }
        assert_eq!(seen.len(), HIDDEN.len(), "each can come up");
    }

    #[test]
    fn other_names_are_no_exercise() {
        for name in ["", "which fault? ", "which fault? x", "which fault? -1", "table top"] {
            assert_eq!(Exercise::of(name), None, "{name}");
        }
        assert_eq!(with_hidden(TABLE_TOP), TABLE_TOP);
    }
}
