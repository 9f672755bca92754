//! Flying until a wanted standard error is reached: looks at fixed droplet numbers.

use super::Run;
use crate::stroke::Strokes;
use crate::tally::standard_error;

/// First number of droplets at which a wanted standard error is looked at; then at every doubling.
pub(crate) const FIRST_LOOK: u64 = 4096;

impl Run {
    pub(super) fn stop_before(&self, wanted: u64) -> u64 {
        let wanted = wanted.min(self.total);
        if self.prepared.job.run.standard_error.is_some() { wanted.min(self.next_look) } else { wanted }
    }

    /// Ends the run at a look where the wanted standard error is reached. Looks stand at fixed droplet numbers, so
    /// that slicing does not matter.
    pub(super) fn look(&mut self) {
        if self.prepared.job.run.standard_error.is_none() || self.flown < self.next_look {
            return;
        }
        self.next_look = self.next_look.saturating_mul(2);
        if self.is_sure_enough() {
            self.total = self.flown;
            if let Some(by_hand) = &mut self.by_hand {
                by_hand.middle_is_flown(self.flown);
            }
        }
    }

    /// What is flown reaches the standard error that the job asks for.
    pub(crate) fn is_sure_enough(&self) -> bool {
        let dry = self.held_mean().unwrap_or_else(|| self.film().mean_dry());
        self.prepared.job.run.is_reached(dry)
    }

    /// Mean dry film with its standard error [m] of a gun held still, without laying it; none of another.
    fn held_mean(&self) -> Option<(f64, f64)> {
        let seconds = self.prepared.job.stroke.burst.filter(|_| self.by_hand.is_none())?;
        let strokes = Strokes::Burst(seconds);
        let (groups, mean) =
            self.prepared.swept(&self.part, &strokes).held_mean(self.laid.0.face(), seconds)?;
        Some((mean, standard_error(&groups)))
    }

    /// No more droplets are flown to the part; of a machine's run only.
    pub(crate) fn end_here(&mut self) {
        self.total = self.flown;
    }

    /// As many droplets are flown as the job asks for, after [`Run::end_here`].
    pub(crate) fn go_on(&mut self) {
        self.total = self.prepared.job.run.droplets;
    }
}
