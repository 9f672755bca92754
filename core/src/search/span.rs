//! The pressures at which a fan and a fluid knob may be used, looked for without droplets.

use super::limits::Fault;

/// Steps of the first look along the pressure.
pub(super) const STRIDE: i32 = 4;

/// Pressures [steps], lowest and highest, at which a fan and fluid knob may be used; or why there are none.
pub(super) type Span = Result<(i32, i32), String>;

/// Settings looked at without droplets before one may stop; each takes about a millisecond.
pub(super) const CHECKS: usize = 5;

/// A look along the pressures of a fan and fluid knob, under way.
pub(super) struct Probe {
    /// Fan and fluid knob [eighths of a turn].
    pub knobs: (i32, i32),
    lowest: i32,
    highest: i32,
    at: i32,
    found: Option<(i32, i32)>,
    /// Steps that are known not to do on either side, and whether the lower end is still looked for.
    ends: Option<(i32, i32, bool)>,
    why: String,
}

impl Probe {
    /// Between two pressures [steps].
    pub fn new(knobs: (i32, i32), (lowest, highest): (i32, i32)) -> Self {
        Self { knobs, lowest, highest, at: lowest, found: None, ends: None, why: String::new() }
    }

    /// One look along the pressure: in strides until it is found where the knobs do, then step by step to either end.
    pub fn look(&mut self, admit: &dyn Fn(i32) -> Result<(), Fault>) -> Option<Span> {
        let highest = self.highest;
        if let Some((first, last, down)) = self.ends {
            let (low, high) = self.found?;
            if down {
                if low - 1 > first && low > self.lowest && admit(low - 1).is_ok() {
                    self.found = Some((low - 1, high));
                } else {
                    self.ends = Some((first, last, false));
                }
            } else if high + 1 < last && high < highest && admit(high + 1).is_ok() {
                self.found = Some((low, high + 1));
            } else {
                return Some(Ok((low, high)));
            }
            return None;
        }
        let mut over = self.at > highest;
        if !over {
            match admit(self.at) {
                Ok(()) => self.found = Some((self.found.map_or(self.at, |f| f.0), self.at)),
                Err(_) if self.found.is_some() => over = true,
                // That the pressure is too high says nothing: lower ones failed before, for the reason that counts.
                Err(reason) if reason.too_high && !self.why.is_empty() => {}
                Err(reason) => self.why = reason.words,
            }
            self.at += STRIDE;
        }
        match self.found {
            Some((low, high)) if over => self.ends = Some((low - STRIDE, high + STRIDE, true)),
            None if over => return Some(Err(std::mem::take(&mut self.why))),
            _ => {}
        }
        None
    }
}
