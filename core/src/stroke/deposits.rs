//! The film pass by pass: what lands when.

use super::cumulative::Cumulative;
use super::sweep::{Swept, lay_down};
use super::{Pass, Strokes};
use crate::film::{Deposit, FilmMap};
use crate::supply::Span;

/// The deposits of a flown job, by number in order of time: one a pass of each coat, or one of a burst.
pub struct Deposits<'a> {
    swept: Swept<'a>,
    solids: Cumulative,
    wet: Cumulative,
    /// Trigger on, from and to [s].
    times: Vec<[f64; 2]>,
}

impl<'a> Deposits<'a> {
    /// Deposits of a footprint swept along its strokes, `spans` telling when the trigger is on.
    #[must_use]
    pub fn new(swept: Swept<'a>, spans: &[Span]) -> Self {
        let mut time = 0.0;
        let times = spans
            .iter()
            .map(|span| {
                let from = time;
                time += span.on + span.off;
                [from, from + span.on]
            })
            .collect();
        Self { solids: swept.solids_table(), wet: swept.wet_table(), swept, times }
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.times.len()
    }

    /// None at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.times.is_empty()
    }

    /// When a deposit lands, from and to [s after the first trigger pull]; none past the last.
    #[must_use]
    pub fn time(&self, number: usize) -> Option<[f64; 2]> {
        self.times.get(number).copied()
    }

    /// A deposit over the cells of `bare`; an empty one past the last.
    #[must_use]
    pub fn at(&self, number: usize, bare: &FilmMap) -> Deposit {
        let [from, to] = self.time(number).unwrap_or_default();
        let mut deposit = Deposit { from, to, dry: vec![0.0; bare.len()], wet: vec![0.0; bare.len()] };
        let Some(strokes) = self.alone(number) else { return deposit };
        if let Some(members) = self.swept.members {
            // A machine's coats are alike: one is flown. A hand's are flown all.
            let (coats, pass) = match self.swept.strokes {
                Strokes::Passes { passes, coats, .. } => (*coats, number % passes.len().max(1)),
                _ => (1, number),
            };
            let seconds = self.swept.strokes.open_seconds() / f64::from(coats);
            let scale = self.swept.flow * seconds / self.swept.fates.total().max(1) as f64;
            for (cell, solids, wet) in members.of_pass(pass) {
                let volume = scale / members.area(cell);
                deposit.dry[cell] += solids * volume * self.swept.solids;
                deposit.wet[cell] += wet * volume;
            }
            return deposit;
        }
        let scale = self.swept.flow / self.swept.fates.total().max(1) as f64;
        let (lay, face) = (self.swept.lay, bare.face());
        lay_down(&self.solids, lay, &strokes, scale * self.swept.solids, face, |cell, h| {
            deposit.dry[cell] += h;
        });
        lay_down(&self.wet, lay, &strokes, scale, face, |cell, h| deposit.wet[cell] += h);
        deposit
    }

    /// The strokes of one deposit.
    fn alone(&self, number: usize) -> Option<Strokes> {
        match self.swept.strokes {
            Strokes::Burst(seconds) => (number == 0).then_some(Strokes::Burst(*seconds)),
            Strokes::Passes { passes, speed, coats } => {
                let pass: Pass = *passes.get(number % passes.len().max(1))?;
                let in_time = number < passes.len() * *coats as usize;
                in_time.then(|| Strokes::Passes { passes: vec![pass], speed: *speed, coats: 1 })
            }
            Strokes::Track(track) => {
                let piece = track.pieces().into_iter().nth(number)?;
                Some(Strokes::Track(track.part(&piece)))
            }
        }
    }
}
