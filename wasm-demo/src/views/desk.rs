//! What the views share: the job in hand, the run that answers it, and how things are shown.

use std::sync::Arc;

use leptos::prelude::*;
use mistcoat::job::{Job, JobError, PartShape, with_key, without_key};
use mistcoat::run::SoFar;
use mistcoat::units::System;

use crate::booth3d::played::{self, Played};
use crate::booth3d::way::Way;
use crate::protocol::Film;
use crate::state::class_hour::with_turn;
use crate::state::{
    CHAIR_LEG, DropletEnd, FilmGrid, GunFace, History, Knob, MemberFilm, RunView, Stage, TABLE_TOP, WORKSHOP,
    card_job, face_of, gauge_of, is_tube, members, on_supply, pass_job, steadied, with_hidden,
};

/// Views that exist.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// A test card.
    Card,
    /// The part.
    Part,
    /// The air supply.
    Air,
    /// Data sheet, cups, thinner, how much to mix.
    Paint,
    /// Kits side by side.
    Side,
    /// The pointer is the gun.
    Hand,
    /// One page to print.
    Sheet,
    /// What if a knob is turned.
    Sweep,
}

impl View {
    /// A word for it in the page's attributes.
    pub fn word(self) -> &'static str {
        match self {
            View::Card => "card",
            View::Part => "part",
            View::Air => "air",
            View::Paint => "paint",
            View::Side => "side",
            View::Hand => "hand",
            View::Sheet => "sheet",
            View::Sweep => "sweep",
        }
    }
}

/// How film is shown on the card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// As the eye sees it.
    Seen,
    /// As a map.
    Map,
    /// Both.
    Both,
}

/// How a card is sprayed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// A burst with the gun held still.
    Burst,
    /// One pass across it.
    Pass,
    /// The flood test: fan flat, trigger held until it runs.
    Flood,
}

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

    /// Takes the film of a run under way on the job `text`; news of any other text is dropped.
    pub fn hear_film(
        &self,
        text: &str,
        film: &Film,
        done: f64,
        droplets: impl FnOnce() -> Arc<[DropletEnd]>,
    ) {
        if self.flown.with_untracked(|t| t == text) {
            self.done.set(done);
            self.so_far.set(film.so_far);
            self.played.set(None);
            if film.legs > 0 && self.under.with_untracked(Option::is_none) {
                let way = played::way_of(&film.played, film.legs as usize);
                // Before a panel a card is flown first, which finds the fan and so the passes.
                let from = if Job::from_toml(text).is_ok_and(|j| j.part.is_of_tubes()) { 0.0 } else { done };
                self.under.set(Some((Arc::new(way), from)));
            }
            if film.droplets as usize != self.aloft.with_untracked(|d| d.len()) {
                self.aloft.set(droplets());
            }
            self.take_film(text, film);
        }
    }

    /// Takes in a film, all faces; gives the one shown.
    fn take_film(&self, text: &str, film: &Film) -> Option<FilmGrid> {
        let job = Job::from_toml(text).ok()?;
        let all = members(&job, film);
        let member = match job.part {
            PartShape::Frame(_) => self.member.get_untracked().min(all.len().max(1) - 1),
            _ => 0,
        };
        let shown = all.get(member);
        let shown = shown.map(|m| m.grid.clone()).or_else(|| grid(&job, film));
        self.members.set(all);
        self.film.set(shown.clone());
        shown
    }

    /// Shows the film of another member of a frame.
    pub fn show_member(&self, member: usize) {
        self.member.set(member);
        let shown = self.members.with(|all| all.get(member).map(|m| m.grid.clone()));
        if shown.is_some() {
            self.film.set(shown);
        }
    }

    /// Takes a finished run on the job `text`; a report that cannot be read counts as none.
    pub fn hear_done(&self, text: &str, report: &str, digest: u64, film: &Film, droplets: Arc<[DropletEnd]>) {
        if self.flown.with_untracked(|t| t != text) {
            return;
        }
        let cells = film.values.len();
        let played = Played::unpack(film.legs as usize, film.layers as usize, cells, &film.played);
        let film = self.take_film(text, film);
        self.played.set(played.map(Arc::new));
        self.under.set(None);
        self.so_far.set(None);
        self.done.set(1.0);
        let report = serde_json::from_str(report).unwrap_or(serde_json::Value::Null);
        self.run.set(Some(Arc::new(RunView { job: text.into(), report, film, droplets, digest })));
    }

    /// Takes in the set-up sheets of the run just heard of.
    pub fn hear_sheets(&self, text: &str, sheets: &str) {
        if self.flown.with_untracked(|t| t == text) {
            self.sheets.set(serde_json::from_str(sheets).unwrap_or_default());
        }
    }

    /// The run that is not out of date.
    pub fn fresh(&self) -> Option<Arc<RunView>> {
        let run = self.run.get()?;
        self.flown.with(|text| run.job == *text).then_some(run)
    }

    /// Turns a knob to an opening, 0..=1.
    pub fn turn(&self, knob: Knob, open: f64) {
        if !open.is_finite() {
            return;
        }
        let open = open.clamp(0.0, 1.0);
        self.in_hand.set(Some(knob));
        if knob == Knob::Fan && !self.touched.get_untracked() {
            self.touched.set(true);
            let fresh = untrack(|| self.fresh());
            if self.kept.with_untracked(Option::is_none) && self.view.get_untracked() == View::Part {
                self.kept.set(fresh);
            }
        }
        match knob {
            Knob::Fan => self.set("gun.fan", &share(open)),
            Knob::Fluid => self.set("gun.fluid", &share(open)),
            Knob::Air => self.set("gun.air_knob", &share(open)),
        };
    }

    /// Turns the cap by clicks of an eighth.
    pub fn turn_cap(&self, eighths: u32) {
        let now = self.parsed.with_untracked(|j| j.as_ref().map_or(0.0, |j| j.gun.cap_turn.to_degrees()));
        let turned = (now.round() as u32 + 45 * eighths) % 360;
        self.set("gun.cap_turn", &format!("{turned} deg"));
    }

    /// The gun as drawn.
    pub fn face(&self) -> GunFace {
        // A card is sprayed with an upright fan, whatever the part.
        let on_part = self.view.get() == View::Part;
        let flat = if !on_part && self.how.get() == How::Flood { 2 } else { 0 };
        let face = self.parsed.with(|job| {
            job.as_ref()
                .map(|job| GunFace {
                    cap_eighths: (if on_part { cap(job) } else { 0 } + turned(job) + flat) % 8,
                    ..face_of(job)
                })
                .unwrap_or_default()
        });
        let face = self.gauge.get().map_or(face, |gauge| on_supply(face, gauge));
        GunFace { stage: self.stage.get(), mirror: self.mirror.get(), in_hand: self.in_hand.get(), ..face }
    }
}

/// A phone's width.
fn narrow() -> bool {
    window().inner_width().ok().and_then(|w| w.as_f64()).is_some_and(|w| w < 768.0)
}

/// Clicks of the cap for a job: on a tube strokes run up and down, so a fan across them lies flat.
fn cap(job: &Job) -> u8 {
    if is_tube(job) && job.stroke.fan_axis == mistcoat::job::FanAxis::Across { 2 } else { 0 }
}

/// Clicks that the job's cap is turned.
fn turned(job: &Job) -> u8 {
    (job.gun.cap_turn.to_degrees() / 45.0).round() as u8 % 8
}

/// A share for the job file, fine enough that an eighth of a turn reads back as one.
fn share(v: f64) -> String {
    format!("{}", (v * 1e4).round() / 1e4)
}

/// The desk of this page.
pub fn desk() -> Desk {
    use_context::<Desk>().unwrap_or_default()
}

fn grid(job: &Job, film: &Film) -> Option<FilmGrid> {
    let ([columns, rows], values) = film.faces().next()?;
    FilmGrid::over(&job.part, columns, rows, values.to_vec())
}
