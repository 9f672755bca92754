//! The set-up sheet: one page to pin up beside the booth. What to set, in what order; what to hold; what to expect; what to mind.
//!
//! Every figure comes from the job or from its finished run. The sheet is plain values, drawn by `svg` where charts are built in, and
//! shown as a list by the page. `docs/methods/sheet.md`.

mod air_line;
mod expected;
mod hand;
mod paint;
#[cfg(feature = "charts")]
mod svg;
#[cfg(test)]
mod tests;

use crate::job::{Job, PartShape, link};
use crate::judge::words as judged;
use crate::report::Report;
use crate::run::Run;
use crate::units::{Quantity, System, in_units, show, turns_shown};
use serde::{Deserialize, Serialize};

pub use hand::HAND_SPAN;
#[cfg(feature = "charts")]
pub use svg::svg;

/// Said on every sheet.
pub const START_POINT: &str = "A start point for a test card. The data sheet, the maker's limits, local code and licensed practice win.";
/// The gun.
pub const GUN: &str = "Never above the pressure stamped on gun, hose or pot. Never at a person.";
/// The mist.
pub const MIST: &str =
    "Mist burns: no flame, heater or switch in the cloud; booth with extract; earth metal parts.";
/// Two-pack paints.
pub const TWO_PACK: &str = "Two-pack: isocyanates can make one allergic for life. Supplied air and covered skin, also for mixing and \
                            cleaning; filter masks only where data sheet and local rule allow.";
/// What is left over.
pub const LEFT_OVER: &str = "Rags and filters with paint can heat by themselves: keep them wet or in a closed metal bin. Old paint may hold lead or chromate.";

/// A line of the sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Line {
    /// What it is: "fan knob".
    pub what: String,
    /// The figure with its unit.
    pub value: String,
    /// What goes with it; empty where there is nothing to say.
    pub note: String,
}

impl Line {
    fn new(what: &str, value: impl Into<String>, note: impl Into<String>) -> Self {
        Self { what: what.into(), value: value.into(), note: note.into() }
    }
}

/// Lines under a heading.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Block {
    /// Its heading.
    pub heading: String,
    /// Its lines, the first thing to do first.
    pub lines: Vec<Line>,
}

/// A knob as it is set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Knob {
    /// "fan knob", "air knob", "fluid knob": in the order of setting.
    pub name: String,
    /// Turns out from shut.
    pub turns: f64,
    /// Turns from shut to open; 0 where the gun has no such knob.
    pub of: f64,
    /// "2 1/4 turns out".
    pub said: String,
}

/// Distance, fan and passes to scale [mm], and as said.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct View {
    /// Tip to part [mm].
    pub distance: f64,
    /// Fan across the passes on a flat card [mm].
    pub fan: f64,
    /// Down from pass to pass [mm]; 0 where passes are not spaced by the fan.
    pub down: f64,
    /// The three in the sheet's units.
    pub said: [String; 3],
}

/// The set-up sheet of a finished run.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SetUpSheet {
    /// The job's name.
    pub title: String,
    /// Part, paint, gun.
    pub about: String,
    /// What to expect in one sentence.
    pub sentence: String,
    /// The knobs, in the order of setting.
    pub knobs: Vec<Knob>,
    /// Distance and fan to scale.
    pub view: View,
    /// Air, paint, hand, film, data sheet.
    pub blocks: Vec<Block>,
    /// Warnings of the run: what lies outside the data sheet among them.
    pub notes: Vec<String>,
    /// Cautions, the start point first.
    pub cautions: Vec<String>,
    /// The job file.
    pub job: String,
    /// The job as the tail of a link; none where it is too long for one.
    pub link: Option<String>,
    /// Units.
    pub us: bool,
}

/// "22 mm tube, 600 mm long".
fn part(job: &Job, system: System) -> String {
    let mm = |length: f64| show(Quantity::Length, length, system);
    match &job.part {
        PartShape::Panel { width, height } => format!("panel {} by {}", mm(*width), mm(*height)),
        PartShape::Tube { diameter, length } => format!("{} tube, {} long", mm(*diameter), mm(*length)),
        PartShape::Curved { radius, width, height } => {
            format!("curved panel {} by {}, radius {}", mm(*width), mm(*height), mm(*radius))
        }
        PartShape::Frame(frame) => format!("frame of {} tubes", frame.members.len()),
    }
}

fn knobs(job: &Job) -> Vec<Knob> {
    let said = |turns: f64| format!("{} {}", turns_shown(turns), if turns > 1.06 { "turns" } else { "turn" });
    let knob = |name: &str, open: f64, of: f64| {
        let turns = (open * of).max(0.0);
        let said = match open {
            o if of <= 0.0 => format!("none on this gun ({:.0} of 100 open)", o * 100.0),
            o if o <= 0.0 => "shut".into(),
            o if o >= 1.0 => format!("fully open, {} out", said(turns)),
            _ => format!("{} out of {}", said(turns), turns_shown(of)),
        };
        Knob { name: name.into(), turns, of: of.max(0.0), said }
    };
    let mut all = Vec::new();
    if job.kit.has_fan() {
        all.push(knob("fan knob", job.gun.fan, job.kit.fan_turns));
    }
    if job.kit.air_turns > 0.0 {
        all.push(knob("air knob", job.gun.air_knob, job.kit.air_turns));
    }
    all.push(knob("fluid knob", job.gun.fluid, job.kit.fluid_turns));
    all
}

impl SetUpSheet {
    /// The sheet of a run that is complete, in metric or US units.
    #[must_use]
    pub fn new(run: &Run, report: &Report, system: System) -> Self {
        let prepared = run.prepared();
        let job = &prepared.job;
        let blocks = [
            air_line::block(prepared, report, system),
            hand::block(run, report, system),
            paint::block(job, report, system),
            expected::block(job, report, system),
            paint::window(job, system),
        ];
        let mut cautions = vec![START_POINT.to_string(), GUN.into(), MIST.into()];
        if job.recipe.isocyanate {
            cautions.push(TWO_PACK.into());
        }
        cautions.push(LEFT_OVER.into());
        Self {
            title: job.name.clone(),
            about: format!("{} · {} · {}", part(job, system), job.recipe.name, job.kit.name),
            sentence: expected::sentence(job, report, system),
            knobs: knobs(job),
            view: hand::view(run, system),
            blocks: blocks.into_iter().filter(|block| !block.lines.is_empty()).collect(),
            notes: report.warnings.iter().map(|note| in_units(note, system)).collect(),
            cautions,
            job: job.text.clone(),
            link: link::encode(&job.text).ok(),
            us: system == System::Us,
        }
    }

    /// Unit system of the sheet.
    #[must_use]
    pub fn system(&self) -> System {
        if self.us { System::Us } else { System::Metric }
    }

    /// The sheet in lines of text, as one reads it at a terminal.
    #[must_use]
    pub fn words(&self) -> String {
        let mut out = vec![self.title.clone(), self.about.clone(), self.sentence.clone(), String::new()];
        out.extend(
            self.knobs.iter().enumerate().map(|(i, k)| format!("{}. {:<22}{}", i + 1, k.name, k.said)),
        );
        for block in &self.blocks {
            out.push(String::new());
            out.push(block.heading.clone());
            for line in &block.lines {
                let note = if line.note.is_empty() { String::new() } else { format!("  ({})", line.note) };
                out.push(format!("   {:<22}{}{note}", line.what, line.value));
            }
        }
        out.push(String::new());
        out.extend(self.notes.iter().map(|note| format!("note: {note}")));
        out.extend(self.cautions.iter().cloned());
        out.join("\n")
    }
}

/// Minutes or seconds as said.
fn clock(seconds: f64) -> String {
    judged::clock(seconds)
}
