//! What page and worker say to each other of a try.

use mistcoat::practice::{Advice, Aim, Fault, Shares, Tried};
use mistcoat::stroke::Moment;
use serde::{Deserialize, Serialize};

/// Numbers of a moment.
const NUMBERS: usize = 8;

/// From the page: numbers, the first of them says what.
#[derive(Debug, Clone, PartialEq)]
pub enum Order {
    /// 0: a new try on a bare panel.
    Begin,
    /// 1: moments, eight numbers each.
    Moments(Vec<Moment>),
    /// 2: the try is over.
    Judge,
    /// 3: show the film as it was so many moments into the try.
    Show(usize),
}

impl Order {
    /// The order as numbers.
    #[must_use]
    pub fn numbers(&self) -> Vec<f64> {
        match self {
            Self::Begin => vec![0.0],
            Self::Moments(moments) => {
                let of = |m: &Moment| [m.time, m.x, m.y, m.distance, m.heel, m.swing, m.turn, m.trigger];
                std::iter::once(1.0).chain(moments.iter().flat_map(of)).collect()
            }
            Self::Judge => vec![2.0],
            Self::Show(moments) => vec![3.0, *moments as f64],
        }
    }

    /// The order in these numbers; none where there is none.
    #[must_use]
    pub fn read(numbers: &[f64]) -> Option<Self> {
        let (what, rest) = numbers.split_first()?;
        if !rest.iter().all(|v| v.is_finite()) {
            return None;
        }
        match *what as i64 {
            0 => Some(Self::Begin),
            1 if rest.len() % NUMBERS == 0 => {
                let of = |m: &[f64]| Moment {
                    time: m[0],
                    x: m[1],
                    y: m[2],
                    distance: m[3],
                    heel: m[4],
                    swing: m[5],
                    turn: m[6],
                    trigger: m[7],
                    member: 0,
                };
                Some(Self::Moments(rest.chunks_exact(NUMBERS).map(of).collect()))
            }
            2 => Some(Self::Judge),
            3 => rest.first().map(|n| Self::Show(*n as usize)),
            _ => None,
        }
    }
}

/// What the worker knows.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Told {
    /// A first footprint is there: one can begin.
    pub ready: bool,
    /// What the hand is to do.
    pub plan: Option<Plan>,
    /// The last try.
    pub card: Option<Card>,
}

/// What the hand is to do, in SI.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Plan {
    /// Panel along and across the passes [m].
    pub size: [f64; 2],
    /// Height of each pass over the panel's middle, in order [m].
    pub rows: Vec<f64>,
    /// Places of the passes of a coat across, along the panel from its middle, from left to right [m].
    #[serde(default)]
    pub across: Vec<f64>,
    /// Pace [s/m].
    pub pace: f64,
    /// Between passes [m].
    pub spacing: f64,
    /// Distance [m].
    pub distance: f64,
    /// Trigger on past each edge [m].
    pub lead: f64,
    /// Film wanted of this coat [m].
    pub band: Option<[f64; 2]>,
    /// Share of the panel with it when a machine lays the plan.
    pub best: Option<f64>,
}

impl Plan {
    pub(super) fn new(aim: &Aim, band: Option<[f64; 2]>, best: Option<f64>) -> Self {
        Self {
            size: aim.size,
            rows: aim.rows.clone(),
            across: aim.across().rows.iter().map(|row| -row).collect(),
            pace: aim.pace,
            spacing: aim.spacing(),
            distance: aim.distance,
            lead: aim.lead,
            band,
            best: best.filter(|b| b.is_finite()),
        }
    }
}

/// A try's report card, in SI.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Card {
    /// Thin, right, thick: shares of the panel.
    pub shares: Option<[f64; 3]>,
    /// Passes; none where the trigger was never pulled over the panel.
    pub passes: Vec<Pass>,
    /// Mean pace, and of the slowest third of the way [s/m].
    pub pace: [f64; 2],
    /// Coats.
    pub coats: usize,
    /// From each pass of a coat to the next, down the panel or across it [m].
    pub spacing: Vec<f64>,
    /// Nearest and farthest [m].
    pub distance: [f64; 2],
    /// Trigger on, gun still [s].
    pub still: f64,
    /// Passes whose trigger went on, and off, over the panel.
    pub short: [usize; 2],
    /// Longest wait at the wet edge [s].
    pub wait: Option<f64>,
    /// Paint, and the plan's [m3].
    pub paint: [f64; 2],
    /// First trigger pull to last release [s].
    pub seconds: f64,
    /// What to do otherwise.
    pub advice: Vec<Spoken>,
    /// Farther, nearer or more tilted than was flown: only geometry speaks there.
    pub beyond: bool,
}

/// A pass of a try.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Pass {
    /// Its coat, from 0.
    pub coat: usize,
    /// It runs up and down the panel: `ends` and `y` are (-y, -x) of the panel's places.
    pub across: bool,
    /// First and last moment.
    pub moments: [usize; 2],
    /// From and to [s].
    pub time: [f64; 2],
    /// Begin and end along the panel [m].
    pub ends: [f64; 2],
    /// Mean height over the panel's middle [m].
    pub y: f64,
    /// Trigger on, gun still [s].
    pub still: f64,
    /// Place along the panel [m] and pace there [s/m].
    pub pace: Vec<[f64; 2]>,
}

impl Pass {
    /// Its two ends on the panel, from the panel's middle [m].
    #[must_use]
    pub fn on_panel(&self) -> [[f64; 2]; 2] {
        self.ends.map(|x| if self.across { [-self.y, -x] } else { [x, self.y] })
    }
}

impl Card {
    /// How far each pass lies from the one before it in its coat [m]; none for a coat's first.
    #[must_use]
    pub fn downs(&self) -> Vec<Option<f64>> {
        let mut spacing = self.spacing.iter().copied();
        let before = |i: usize| i.checked_sub(1).and_then(|b| self.passes.get(b)).map(|p| p.coat);
        let of = |(i, pass): (usize, &Pass)| (before(i) == Some(pass.coat)).then(|| spacing.next()).flatten();
        self.passes.iter().enumerate().map(of).collect()
    }
}

/// One piece of advice. Passes are counted from 1.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Spoken {
    /// Which sentence.
    pub what: String,
    /// The passes it is about.
    pub passes: Vec<usize>,
    /// Its figure, in SI: a length, a time, a pace, an angle, a share or a count.
    pub figure: f64,
    /// Where it shows [m].
    pub place: [f64; 2],
    /// Share of the panel that it would bring into the film wanted.
    pub gain: f64,
}

impl Card {
    /// A try without a pass.
    pub(super) fn empty() -> Self {
        Self::default()
    }

    pub(super) fn new(tried: &Tried, shares: Option<Shares>, advice: &[Advice], beyond: bool) -> Self {
        let figures = &tried.figures;
        let passes = figures.passes.iter().zip(tried.coat_of_passes()).map(|(p, (coat, across))| Pass {
            coat,
            across,
            moments: [p.segments.start, p.segments.end],
            time: [p.from, p.to],
            ends: p.ends,
            y: p.y,
            still: p.still,
            pace: p.bits.iter().map(|b| [b.x, b.time / b.way]).collect(),
        });
        Self {
            shares: shares.map(|s| [s.thin, s.right, s.thick]),
            passes: passes.collect(),
            pace: [figures.pace, figures.slowest_third],
            coats: tried.coats.len(),
            spacing: figures.spacing.clone(),
            distance: figures.distance,
            still: figures.still,
            short: [figures.lead_short.len(), figures.run_out_short.len()],
            wait: figures.longest_wait,
            paint: [figures.paint, figures.best_paint],
            seconds: figures.seconds,
            advice: advice.iter().map(Spoken::of).collect(),
            beyond,
        }
    }
}

impl Spoken {
    fn of(advice: &Advice) -> Self {
        let one = |what: &str, pass: usize, figure: f64| (what.to_string(), vec![pass + 1], figure);
        let all = |what: &str, figure: f64| (what.to_string(), Vec::new(), figure);
        let some = |what: &str, passes: &[usize]| {
            (what.to_string(), passes.iter().map(|p| p + 1).collect(), passes.len() as f64)
        };
        let (what, passes, figure) = match &advice.fault {
            Fault::Row { pass, low } if *low > 0.0 => one("low", *pass, *low),
            Fault::Row { pass, low } => one("high", *pass, -low),
            Fault::Spacing { mean } => all("spacing", mean.abs()),
            Fault::Missing { rows, below: true } => all("missing-below", *rows as f64),
            Fault::Missing { rows, .. } => all("missing-above", *rows as f64),
            Fault::Extra { pass } => one("extra", *pass, 0.0),
            Fault::Still { pass, seconds } => one("still", *pass, *seconds),
            Fault::Pace { mean } => all("pace", *mean),
            Fault::PassPace { pass, pace } => one("pass-pace", *pass, *pace),
            Fault::Uneven { pass, pace } => one("uneven", *pass, *pace),
            Fault::Distance { mean } => all("distance", *mean),
            Fault::PassDistance { pass, mean } => one("pass-distance", *pass, *mean),
            Fault::Tilt { pass, most } => one("tilt", *pass, most.abs()),
            Fault::LeadIn { passes } => some("lead-in", passes),
            Fault::RunOut { passes } => some("run-out", passes),
            Fault::Trigger { mean } => all("trigger", *mean),
        };
        Self { what, passes, figure, place: advice.place, gain: advice.gain }
    }
}
