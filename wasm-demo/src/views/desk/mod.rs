//! What the views share: the job in hand, the run that answers it, and how things are shown.

mod gun;
mod hear;
mod view;

use std::sync::Arc;

use leptos::prelude::*;
use mistcoat::job::{Job, JobError, with_key, without_key};
use mistcoat::run::SoFar;
use mistcoat::units::System;

use crate::booth3d::played::Played;
use crate::booth3d::way::Way;
use crate::state::class_hour::with_turn;
use crate::state::{
    CHAIR_LEG, DropletEnd, FilmGrid, History, Knob, MemberFilm, RunView, Stage, TABLE_TOP, WORKSHOP,
    card_job, gauge_of, pass_job, steadied, with_hidden,
};

pub use view::{How, Shown, View};

/// A value that was refused, beside its field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// Dotted key.
    pub key: String,
    /// What, why, what is allowed.
    pub message: String,
}

impl From<&JobError> for Refused {
    fn from(error: &JobError) -> Self {
        let mut message = format!("{}: {}. Allowed: {}.", error.value, error.problem(), error.allowed);
        if let Some(hint) = &error.hint {
            message.push(' ');
            message.push_str(hint);
        }
        Self { key: error.key.clone(), message }
    }
}

/// The shared state. Everything in it is a signal, so it is passed by copy.
#[derive(Clone, Copy)]
pub struct Desk {
    /// The view shown.
    pub view: RwSignal<View>,
    /// Units shown.
    pub system: RwSignal<System>,
    /// The job's text; always one that can be read.
    pub job: RwSignal<String>,
    /// The job read.
    pub parsed: Memo<Option<Job>>,
    /// Gun's gauge with the trigger pulled and at rest [bar], where the job has an air supply.
    pub gauge: Memo<Option<(f64, f64)>>,
    /// The text to fly for the view shown.
    pub flown: Memo<String>,
    /// The last finished run; it answers `flown` when its job is that text.
    pub run: RwSignal<Option<Arc<RunView>>>,
    /// The film as last heard of, growing or finished.
    pub film: RwSignal<Option<FilmGrid>>,
    /// The same face by face: `film` is the one of `member`.
    pub members: RwSignal<Arc<[MemberFilm]>>,
    /// The member of a frame whose film is shown.
    pub member: RwSignal<usize>,
    /// The finished run to be watched again, where it can be.
    pub played: RwSignal<Option<Arc<Played>>>,
    /// Set-up sheet of the last finished run, metric and US.
    pub sheets: RwSignal<Vec<mistcoat::sheet::SetUpSheet>>,
    /// The gun's way in the run under way, once it is known, and the share that was flown by then.
    pub under: RwSignal<Option<(Arc<Way>, f64)>>,
    /// Droplets of the run under way that are known by now.
    pub aloft: RwSignal<Arc<[DropletEnd]>>,
    /// What the run under way comes to so far, once enough has landed.
    pub so_far: RwSignal<Option<SoFar>>,
    /// Share of the run under way that is flown, 0..=1.
    pub done: RwSignal<f64>,
    /// When the run under way was begun, on the page's clock [ms].
    pub since: RwSignal<f64>,
    /// A run kept to compare with.
    pub kept: RwSignal<Option<Arc<RunView>>>,
    /// The value that was refused last.
    pub refused: RwSignal<Option<Refused>>,
    /// What can be undone.
    pub history: RwSignal<History>,
    /// The run was stopped, refused or given up.
    pub stopped: RwSignal<bool>,
    /// Counts presses of Stop.
    pub stops: RwSignal<u32>,
    /// Burst on the card, as typed.
    pub burst: RwSignal<String>,
    /// The card stands upright.
    pub upright: RwSignal<bool>,
    /// Film shown on the card.
    pub shown: RwSignal<Shown>,
    /// How the card is sprayed.
    pub how: RwSignal<How>,
    /// The booth shows the film as map.
    pub booth_map: RwSignal<bool>,
    /// Trigger time of the flood test [s].
    pub flood_seconds: RwSignal<f64>,
    /// Answer to the exercise.
    pub answer: RwSignal<Option<mistcoat::gun::Fault>>,
    /// The knob in hand.
    pub in_hand: RwSignal<Option<Knob>>,
    /// The trigger.
    pub stage: RwSignal<Stage>,
    /// Drawn for the left hand.
    pub mirror: RwSignal<bool>,
    /// A knob has been turned: the chalk arrow leaves.
    pub touched: RwSignal<bool>,
}

impl Default for Desk {
    /// The desk as a first visitor finds it.
    fn default() -> Self {
        let view = RwSignal::new(View::Part);
        let job = RwSignal::new(steadied(CHAIR_LEG));
        let burst = RwSignal::new(String::from("0.1 s"));
        let upright = RwSignal::new(true);
        let how = RwSignal::new(How::Burst);
        let parsed = Memo::new(move |_| job.with(|text| Job::from_toml(text).ok()));
        let gauge = Memo::new(move |_| parsed.with(|j| j.as_ref().and_then(gauge_of)));
        let flown = Memo::new(move |_| {
            // What was measured on a card, and kits to compare with, change no run.
            let text = job.with(|text| without_key(text, "card").unwrap_or_else(|_| text.clone()));
            let text = without_key(&text, "compare").unwrap_or(text);
            let text = without_key(&text, "practice").unwrap_or(text);
            match view.get() {
                View::Part | View::Air | View::Paint | View::Side | View::Sheet | View::Sweep => text,
                // The machine's run; the hand's is laid by a worker of its own.
                View::Hand => crate::state::hand::without_try(&text),
                View::Card if how.get() == How::Pass => {
                    pass_job(&with_hidden(&text), upright.get()).unwrap_or(text)
                }
                View::Card => card_job(&with_hidden(&text), &burst.read(), upright.get()).unwrap_or(text),
            }
        });
        Self {
            view,
            system: RwSignal::new(System::Metric),
            job,
            parsed,
            gauge,
            flown,
            run: RwSignal::new(None),
            sheets: RwSignal::new(Vec::new()),
            film: RwSignal::new(None),
            members: RwSignal::new(Arc::from([])),
            member: RwSignal::new(0),
            played: RwSignal::new(None),
            under: RwSignal::new(None),
            aloft: RwSignal::new(Arc::from([])),
            so_far: RwSignal::new(None),
            done: RwSignal::new(0.0),
            since: RwSignal::new(0.0),
            kept: RwSignal::new(None),
            refused: RwSignal::new(None),
            history: RwSignal::new(History::default()),
            stopped: RwSignal::new(false),
            stops: RwSignal::new(0),
            burst,
            upright,
            // On a phone one at a time.
            shown: RwSignal::new(if narrow() { Shown::Seen } else { Shown::Both }),
            how,
            booth_map: RwSignal::new(false),
            flood_seconds: RwSignal::new(3.5),
            answer: RwSignal::new(None),
            in_hand: RwSignal::new(Some(Knob::Fan)),
            stage: RwSignal::new(Stage::Paint),
            mirror: RwSignal::new(false),
            touched: RwSignal::new(false),
        }
    }
}

impl Desk {
    /// Sets one key of the job; a refused value leaves the job as it was and is told beside its field.
    pub fn set(&self, key: &str, value: &str) -> bool {
        let edited = self.job.with_untracked(|text| with_key(text, key, value));
        self.take(key, edited)
    }

    /// Takes an edited text if it is a job; `key` is the field that gets the message.
    pub fn take(&self, key: &str, edited: Result<String, JobError>) -> bool {
        match edited.and_then(|text| Job::from_toml(&text).map(|_| text)) {
            Ok(text) => {
                self.refused.set(None);
                self.put(key, text);
                true
            }
            Err(error) => {
                self.refused.set(Some(Refused { key: key.into(), ..Refused::from(&error) }));
                false
            }
        }
    }

    /// Says what is wrong with a value by its field.
    pub fn complain(&self, key: &str, message: String) {
        self.refused.set(Some(Refused { key: key.into(), message }));
    }

    /// Puts another job text in place, so that it can be undone.
    pub fn put(&self, key: &str, text: String) {
        let old = self.job.get_untracked();
        if old != text {
            let now = window().performance().map_or(0.0, |p| p.now());
            let step = self.history.try_update(|h| h.note(old, key, now)).unwrap_or_default();
            self.job.set(if step { with_turn(&text, key) } else { text });
        }
    }

    /// Takes the last change back, or puts it in again.
    pub fn step(&self, back: bool) {
        let current = self.job.get_untracked();
        let text =
            self.history.try_update(|h| if back { h.undo(current) } else { h.redo(current) }).flatten();
        if let Some(text) = text {
            self.refused.set(None);
            self.job.set(text);
        }
    }

    /// Opens a question's preset.
    pub fn open(&self, view: View) {
        let text = match view {
            View::Part | View::Sweep => steadied(CHAIR_LEG),
            View::Sheet => steadied(TABLE_TOP),
            View::Paint => steadied(&crate::state::to_mix()),
            View::Air => steadied(WORKSHOP),
            View::Side => crate::state::side::WHICH_GUN.to_string(),
            View::Hand => crate::state::hand::practice_job(),
            // A spoiled pattern to put right: with this little paint the fan splits.
            View::Card => with_key(TABLE_TOP, "gun.fluid", "0.3").unwrap_or_else(|_| TABLE_TOP.to_string()),
        };
        if view == View::Card {
            self.burst.set("0.4 s".into());
        }
        self.put("preset", text);
        self.kept.set(None);
        self.touched.set(false);
        self.view.set(view);
    }

    /// Whether the text to fly has no finished run yet.
    pub fn busy(&self) -> bool {
        self.flown.with(|text| self.run.with(|run| run.as_ref().is_none_or(|run| run.job != *text)))
    }

    /// The run that is not out of date.
    pub fn fresh(&self) -> Option<Arc<RunView>> {
        let run = self.run.get()?;
        self.flown.with(|text| run.job == *text).then_some(run)
    }
}

/// A phone's width.
fn narrow() -> bool {
    window().inner_width().ok().and_then(|w| w.as_f64()).is_some_and(|w| w < 768.0)
}

/// The desk of this page.
pub fn desk() -> Desk {
    use_context::<Desk>().unwrap_or_default()
}
