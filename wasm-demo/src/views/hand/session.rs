//! A try from its beginning to its report card: what outlives the view, and how desk, worker and job are joined while it stands.

use leptos::prelude::*;

use core::f64::consts::FRAC_PI_2;
use mistcoat::job::PassOrder;

use super::super::desk::Desk;
use super::super::errand::Errand;
use super::size;
use crate::state::hand::{Sprayer, panel_of, with_try, without_try};
use crate::task::Task;
use crate::task::practising::{Order, Told};

/// Flash where the job names none, and the shortest that parts two coats [s].
const FLASH: f64 = 600.0;
const SHORTEST: f64 = 30.0;

/// How a try stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// The panel is bare.
    Ready,
    /// Paint has flown.
    Spraying,
    /// The page was hidden meanwhile.
    Held,
    /// The try is over and being judged.
    Judging,
    /// Its report card is there.
    Judged,
}

impl Phase {
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Ready => "ready",
            Self::Spraying => "spraying",
            Self::Held => "held",
            Self::Judging => "judging",
            Self::Judged => "judged",
        }
    }
}

/// What outlives the view.
#[derive(Clone, Copy)]
pub struct HandDesk {
    /// The worker that lays and judges.
    pub errand: Errand,
    /// What it knows.
    pub told: RwSignal<Told>,
    /// How the try stands.
    pub phase: RwSignal<Phase>,
    /// The gun in the hand.
    pub gun: StoredValue<Sprayer, LocalStorage>,
    /// The job without its try that the worker flies.
    begun: StoredValue<String>,
    /// The try being judged is new, not opened from a link.
    fresh: StoredValue<bool>,
    /// The coat under way, from 1.
    pub coat: RwSignal<u32>,
    /// The pass that is looked at.
    pub chosen: RwSignal<usize>,
    /// A replay: since when [ms], and from which time of the try [s].
    pub replay: RwSignal<Option<(f64, f64)>>,
    /// The device last used.
    pub device: RwSignal<usize>,
    /// The beat is heard.
    pub sound: RwSignal<bool>,
    /// The wall strip is shown.
    pub strip: RwSignal<bool>,
    /// True size, once the bank card was held to the screen [px/mm].
    pub px_per_mm: RwSignal<Option<f64>>,
}

impl Default for HandDesk {
    fn default() -> Self {
        Self {
            errand: Errand::default(),
            told: RwSignal::new(Told::default()),
            phase: RwSignal::new(Phase::Ready),
            gun: StoredValue::new_local(Sprayer::new(0.18)),
            begun: StoredValue::new(String::new()),
            fresh: StoredValue::new(false),
            coat: RwSignal::new(1),
            chosen: RwSignal::new(0),
            replay: RwSignal::new(None),
            device: RwSignal::new(0),
            sound: RwSignal::new(true),
            strip: RwSignal::new(false),
            px_per_mm: RwSignal::new(size::kept()),
        }
    }
}

/// That of this page.
pub fn hand_desk() -> HandDesk {
    use_context::<HandDesk>().unwrap_or_default()
}

impl HandDesk {
    /// A new try on a bare panel.
    pub fn begin(&self) {
        self.gun.update_value(Sprayer::begin);
        self.replay.set(None);
        self.coat.set(1);
        self.phase.set(Phase::Ready);
        self.errand.tell(Order::Begin.numbers());
    }

    /// How long is waited between two coats: as the job says, else ten minutes [s].
    pub fn flash(&self, desk: Desk) -> f64 {
        desk.parsed
            .with(|job| job.as_ref().map(|j| j.stroke.flash).filter(|f| *f >= SHORTEST))
            .unwrap_or(FLASH)
    }

    /// The next coat of this try: the clock runs on through the flash. In a cross coat the fan is turned.
    pub fn next_coat(&self, desk: Desk) {
        let flash = untrack(|| self.flash(desk));
        let cross = desk
            .parsed
            .with_untracked(|job| job.as_ref().is_some_and(|j| j.stroke.order == PassOrder::Cross));
        let now = super::frames::now();
        self.gun.update_value(|gun| {
            let turn = if cross && gun.coats % 2 == 1 { FRAC_PI_2 } else { 0.0 };
            gun.next_coat(now, flash, turn);
        });
        self.coat.set(self.gun.with_value(|gun| gun.coats));
        super::stage::focus();
    }

    /// The try is over.
    pub fn done(&self) {
        if !matches!(self.phase.get_untracked(), Phase::Spraying | Phase::Held) {
            return;
        }
        self.tell_new();
        self.fresh.set_value(true);
        self.phase.set(Phase::Judging);
        self.errand.tell(Order::Judge.numbers());
    }

    /// Tells the worker what it has not heard.
    pub fn tell_new(&self) -> bool {
        let moments = self.gun.try_update_value(Sprayer::untold).unwrap_or_default();
        let some = !moments.is_empty();
        if some {
            self.errand.tell(Order::Moments(moments).numbers());
        }
        some
    }

    /// Tells a worker that begins everything.
    fn tell_all(&self) {
        self.errand.tell(Order::Begin.numbers());
        let moments = self.gun.try_update_value(Sprayer::all).unwrap_or_default();
        if !moments.is_empty() {
            self.errand.tell(Order::Moments(moments).numbers());
        }
        if matches!(self.phase.get_untracked(), Phase::Judging | Phase::Judged) {
            self.phase.set(Phase::Judging);
            self.errand.tell(Order::Judge.numbers());
        }
    }

    /// Takes in what the worker knows; a new try goes into the job.
    fn take(&self, desk: Desk, told: Told) {
        let card = told.card.clone();
        self.told.set(told);
        let Some(card) = card.filter(|_| self.phase.get_untracked() == Phase::Judging) else { return };
        self.phase.set(Phase::Judged);
        self.chosen.set(card.advice.first().and_then(|a| a.passes.first()).map_or(0, |p| p - 1));
        if std::mem::take(&mut *self.fresh.write_value()) && !card.passes.is_empty() {
            let right = card.shares.map(|s| s[1]);
            let edited = self
                .gun
                .with_value(|gun| desk.job.with_untracked(|text| with_try(text, gun.moments(), right)));
            desk.take("stroke.track", edited);
        }
    }

    /// Opens the try that the job holds, where it is not the one in hand.
    fn open(&self, desk: Desk) {
        let track = desk.parsed.with(|job| job.as_ref().and_then(|job| job.track.clone()));
        if matches!(self.phase.get_untracked(), Phase::Spraying | Phase::Held) {
            return;
        }
        let same = self.gun.with_value(|gun| match &track {
            Some(track) => gun.moments() == track.moments(),
            None => gun.moments().is_empty() || self.fresh.get_value(),
        });
        if same {
            return;
        }
        self.fresh.set_value(false);
        self.replay.set(None);
        match track {
            Some(track) => {
                self.gun.update_value(|gun| gun.open(track.moments()));
                self.phase.set(Phase::Judging);
            }
            None => {
                self.gun.update_value(Sprayer::begin);
                self.phase.set(Phase::Ready);
            }
        }
        if self.errand.standing.with_untracked(|s| s.heard) {
            self.tell_all();
        }
    }
}

/// Joins desk, worker and job while the view stands.
pub(super) fn follow(desk: Desk, hand: HandDesk) {
    let base = Memo::new(move |_| {
        let panel = desk.parsed.with(|job| job.as_ref().is_some_and(|job| panel_of(job).is_some()));
        panel.then(|| desk.job.with(|text| without_try(text)))
    });
    Effect::new(move |_| hand.open(desk));
    Effect::new(move |_| {
        let Some(base) = base.get() else { return };
        if hand.begun.with_value(|begun| *begun == base)
            && !hand.errand.standing.with_untracked(|s| s.refused.is_some())
        {
            return;
        }
        hand.begun.set_value(base.clone());
        hand.told.set(Told::default());
        let distance = desk.parsed.with_untracked(|job| job.as_ref().map_or(0.18, |job| job.stroke.distance));
        hand.gun.update_value(|gun| gun.distance = distance);
        hand.errand.begin(Task::Practise { job: base });
    });
    let heard = Memo::new(move |_| hand.errand.standing.with(|s| s.heard));
    Effect::new(move |before: Option<bool>| {
        let now = heard.get();
        // A view that comes back finds its worker as it was.
        if now && before == Some(false) {
            hand.tell_all();
        }
        now
    });
    let answer = Memo::new(move |_| hand.errand.standing.with(|s| s.answer.clone()));
    Effect::new(move |_| {
        if let Some(told) = answer.get().and_then(|json| serde_json::from_str(&json).ok()) {
            hand.take(desk, told);
        }
    });
}
