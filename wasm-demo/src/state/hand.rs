//! By hand without a browser: what a device's events make of the gun, moment by moment.

use mistcoat::job::{Job, JobError, PartShape, with_key, without_key};
use mistcoat::practice::{Elbow, Recorder};
use mistcoat::stroke::Moment;

pub use super::hand_window::Window;

use super::TABLE_TOP;

/// From the first stage of the trigger, air, to the second, paint, where a device has only on and off [ms].
pub const AIR_FIRST: f64 = 120.0;
/// A pen presses so hard for air, and for the paint's full flow [share].
const PEN: [f64; 2] = [0.15, 0.6];
/// A gun that no event moves is taken down at the latest after this, and so long behind the clock [ms].
const IDLE: [f64; 2] = [50.0, 16.0];
/// Distances that the hand can hold [m].
pub const NEAREST: f64 = 0.08;
/// The farthest.
pub const FARTHEST: f64 = 0.4;
/// Largest tilt that a pen gives [rad].
const TILT: f64 = 0.45;
/// Most tries kept.
const TRIES: usize = 10;

/// How far the trigger is pulled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pull {
    /// Not at all.
    Off,
    /// By a thing that is on or off, since so long [ms]: air first, then paint.
    Since(f64),
    /// As far, 0..=1: air at first, then more and more paint.
    Pressed(f64),
}

impl Pull {
    /// Share of the paint's full flow at a time [ms].
    #[must_use]
    pub fn paint(self, now: f64) -> f64 {
        match self {
            Self::Off => 0.0,
            Self::Since(start) => f64::from(u8::from(now - start >= AIR_FIRST)),
            Self::Pressed(share) => ((share - PEN[0]) / (PEN[1] - PEN[0])).clamp(0.0, 1.0),
        }
    }

    /// The first stage at least.
    #[must_use]
    pub fn air(self) -> bool {
        match self {
            Self::Off => false,
            Self::Since(_) => true,
            Self::Pressed(share) => share > 0.02,
        }
    }
}

/// The gun in the hand; takes down a try. Times are those of the events [ms].
#[derive(Debug, Clone)]
pub struct Sprayer {
    /// Where it is aimed, along and up from the panel's middle [m].
    pub at: [f64; 2],
    /// Tip to panel where it is held square [m].
    pub distance: f64,
    /// Heel and swing of a pen [rad].
    pub tilt: [f64; 2],
    /// The trigger.
    pub pull: Pull,
    /// The elbow it hangs on.
    pub elbow: Option<Elbow>,
    /// Cap turned, clockwise from how the job holds the fan [rad].
    pub turn: f64,
    /// Coats begun.
    pub coats: u32,
    /// The next coat has not been begun yet.
    between: bool,
    recorder: Recorder,
    /// Moments not told to the worker yet.
    told: usize,
    start: Option<f64>,
    last: f64,
}

impl Sprayer {
    /// A gun at the panel's top left, held at a distance.
    #[must_use]
    pub fn new(distance: f64) -> Self {
        Self {
            at: [0.0, 0.0],
            distance,
            tilt: [0.0; 2],
            pull: Pull::Off,
            elbow: None,
            turn: 0.0,
            coats: 1,
            between: false,
            recorder: Recorder::default(),
            told: 0,
            start: None,
            last: 0.0,
        }
    }

    /// A new try; the gun stays where it is.
    pub fn begin(&mut self) {
        (self.recorder, self.told, self.start) = (Recorder::default(), 0, None);
        (self.turn, self.coats, self.between) = (0.0, 1, false);
        self.pull = Pull::Off;
    }

    /// Opens a try that was kept.
    pub fn open(&mut self, moments: &[Moment]) {
        self.begin();
        for moment in moments {
            self.recorder.keep(*moment);
        }
    }

    /// The gun as it is held at a time, and how much paint leaves.
    #[must_use]
    pub fn moment(&self, now: f64) -> Moment {
        let square = Moment {
            time: self.start.map_or(0.0, |start| (now - start).max(0.0) * 1e-3),
            x: self.at[0],
            y: self.at[1],
            distance: self.distance,
            heel: self.tilt[0],
            swing: self.tilt[1],
            turn: self.turn,
            trigger: self.pull.paint(now),
            member: 0,
        };
        self.elbow.map_or(square, |elbow| elbow.swung(&square))
    }

    /// Takes the gun down as it is now. Nothing is kept before paint first flows.
    pub fn note(&mut self, now: f64) {
        if self.start.is_none() {
            if self.pull.paint(now) <= 0.0 {
                return;
            }
            self.start = Some(now);
        }
        self.last = now;
        let moment = self.moment(now);
        self.between &= moment.trigger <= 0.0;
        self.recorder.take(moment);
    }

    /// Moved, by an event of this time.
    pub fn move_to(&mut self, now: f64, at: [f64; 2]) {
        if at.iter().all(|v| v.is_finite()) {
            // What came before was sprayed on the way here.
            self.at = at.map(|v| v.clamp(-9.0, 9.0));
            self.note(now);
        }
    }

    /// The trigger, by an event of this time.
    pub fn trigger(&mut self, now: f64, pull: Pull) {
        // Pulled on by a device that only says on, it keeps its time.
        let held = matches!((self.pull, pull), (Pull::Since(_), Pull::Since(_)));
        if !held && self.pull != pull {
            self.pull = pull;
            self.note(now);
        }
    }

    /// The clock of the pictures: a gun held still sprays on.
    pub fn tick(&mut self, now: f64) {
        let at = now - IDLE[1];
        let opens = self.pull.paint(at) > 0.0 && self.start.is_none();
        if self.pull != Pull::Off && (opens || now - self.last >= IDLE[0]) {
            self.note(at);
        }
    }

    /// The try is put aside for a while, the trigger let go: no time passes in it until `from_here`.
    pub fn pause(&mut self, now: f64) {
        self.trigger(now, Pull::Off);
    }

    /// Goes on after a pause that began at `since`.
    pub fn resume(&mut self, since: f64, now: f64) {
        self.start = self.start.map(|start| start + (now - since).max(0.0));
        self.last = now;
    }

    /// The next coat, after a flash [s] in which the clock runs on; its fan turned by `turn` [rad].
    pub fn next_coat(&mut self, now: f64, flash: f64, turn: f64) {
        self.trigger(now, Pull::Off);
        self.start = self.start.map(|start| start - flash.max(0.0) * 1e3);
        (self.turn, self.between) = (turn, true);
        self.coats += 1;
    }

    /// Brings it nearer or farther by a factor.
    pub fn reach(&mut self, now: f64, factor: f64) {
        self.distance = (self.distance * factor).clamp(NEAREST, FARTHEST);
        self.note(now);
    }

    /// A pen's tilt from upright, to the right and towards the painter [deg].
    pub fn tilted(&mut self, right: f64, towards: f64) {
        // A pen's top leans the other way than its point.
        let angle = |degrees: f64| (-degrees.to_radians()).clamp(-TILT, TILT);
        self.tilt = [-angle(towards), angle(right)];
    }

    /// The painter steps: the elbow comes before the place aimed at.
    pub fn step(&mut self) {
        if self.elbow.is_some() {
            self.elbow = Some(Elbow { x: self.at[0] });
        }
    }

    /// Moments that the worker has not been told.
    pub fn untold(&mut self) -> Vec<Moment> {
        let all = self.recorder.moments();
        let out = all[self.told.min(all.len())..].to_vec();
        self.told = all.len();
        out
    }

    /// All moments, as for the first time.
    pub fn all(&mut self) -> Vec<Moment> {
        self.told = 0;
        self.untold()
    }

    /// What was taken down.
    #[must_use]
    pub fn moments(&self) -> &[Moment] {
        self.recorder.moments()
    }

    /// Since when the trigger is off, after paint has flown [ms]; none while it is on or before.
    #[must_use]
    pub fn off_since(&self) -> Option<f64> {
        self.start.filter(|_| self.pull == Pull::Off && !self.between).map(|_| self.last)
    }
}

/// The job without its try and its exercise: what is flown and what the practice depends on. Empty lines go, so that a
/// try put in and taken out leaves the same text.
#[must_use]
pub fn without_try(text: &str) -> String {
    let text = without_key(text, "practice").unwrap_or_else(|_| text.into());
    let text = without_key(&text, "stroke.track").unwrap_or(text);
    let lines: Vec<&str> = text.lines().map(str::trim_end).filter(|line| !line.is_empty()).collect();
    lines.join("\n") + "\n"
}

/// The panel of a job; none of another part.
#[must_use]
pub fn panel_of(job: &Job) -> Option<[f64; 2]> {
    match job.part {
        PartShape::Panel { width, height } => Some([width, height]),
        _ => None,
    }
}

/// The table top upright: what By hand begins with where the job's part is no panel.
#[must_use]
pub fn practice_job() -> String {
    with_key(TABLE_TOP, "part.stands", "upright").unwrap_or_else(|_| TABLE_TOP.into())
}

/// The job with a try and its share of right film.
///
/// # Errors
/// A track that cannot be kept.
pub fn with_try(text: &str, moments: &[Moment], right: Option<f64>) -> Result<String, JobError> {
    let text = with_key(text, "stroke.track", &mistcoat::practice::rows(moments))?;
    let Some(right) = right else { return Ok(text) };
    let mut tries = Job::from_toml(&text)?.practice.tries;
    tries.push((right * 1e3).round() / 1e3);
    let first = tries.len().saturating_sub(TRIES);
    let list: Vec<String> = tries[first..].iter().map(f64::to_string).collect();
    with_key(&text, "practice.tries", &format!("[{}]", list.join(", ")))
}

#[cfg(test)]
mod tests;
