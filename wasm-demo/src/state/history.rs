//! Undo and redo of job texts.

/// Texts kept.
const MOST: usize = 100;
/// Changes of one key that follow each other faster than this are one step [ms]: a knob turned, not its clicks.
const TOGETHER: f64 = 1200.0;

/// What was, and what was taken back.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct History {
    past: Vec<String>,
    ahead: Vec<String>,
    last: Option<(String, f64)>,
}

impl History {
    /// Notes that `old` was changed at `key`; `now` is any steady clock [ms]. True where that is a step of its own.
    pub fn note(&mut self, old: String, key: &str, now: f64) -> bool {
        let together = self.last.as_ref().is_some_and(|(k, t)| k == key && now - t < TOGETHER);
        if !together {
            self.past.push(old);
            if self.past.len() > MOST {
                self.past.remove(0);
            }
        }
        self.ahead.clear();
        self.last = Some((key.into(), now));
        !together
    }

    /// The text before `current`; none when there is none.
    pub fn undo(&mut self, current: String) -> Option<String> {
        let old = self.past.pop()?;
        self.ahead.push(current);
        self.last = None;
        Some(old)
    }

    /// The text that was taken back last.
    pub fn redo(&mut self, current: String) -> Option<String> {
        let next = self.ahead.pop()?;
        self.past.push(current);
        self.last = None;
        Some(next)
    }

    /// Whether there is something to undo, and to redo.
    pub fn can(&self) -> (bool, bool) {
        (!self.past.is_empty(), !self.ahead.is_empty())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turned_knob_is_one_step() {
        let mut h = History::default();
        h.note("a".into(), "gun.fan", 0.0);
        h.note("b".into(), "gun.fan", 300.0);
        h.note("c".into(), "gun.fluid", 400.0);
        assert_eq!(h.undo("d".into()).as_deref(), Some("c"));
        assert_eq!(h.undo("c".into()).as_deref(), Some("a"));
        assert_eq!(h.undo("a".into()), None);
        assert_eq!(h.redo("a".into()).as_deref(), Some("c"));
        assert_eq!(h.redo("c".into()).as_deref(), Some("d"));
        assert_eq!(h.can(), (true, false));
    }

    #[test]
    fn a_new_change_forgets_what_was_taken_back() {
        let mut h = History::default();
        h.note("a".into(), "x", 0.0);
        h.undo("b".into());
        h.note("a".into(), "y", 1.0);
        assert_eq!(h.can(), (true, false));
        for i in 0..300 {
            h.note(i.to_string(), "z", 1e4 * f64::from(i));
        }
        let mut depth = 0;
        while h.undo(String::new()).is_some() {
            depth += 1;
        }
        assert_eq!(depth, MOST);
    }
}
