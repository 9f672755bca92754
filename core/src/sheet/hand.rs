//! What the hand holds: distance, pace, passes, coats.

use super::{Block, Line, View, clock};
use crate::job::{Job, PartShape, PassOrder};
use crate::report::Report;
use crate::run::Run;
use crate::stroke::{Pass, Strokes};
use crate::units::{Quantity, System, show};

/// A spread hand from thumb to little finger [m]: about 200 mm, common practice, no source; measure your own.
pub const HAND_SPAN: f64 = 0.2;

/// "9/10 of a hand span", "1 hand span".
fn spans(distance: f64, system: System) -> String {
    let tenths = (distance / HAND_SPAN * 10.0).round();
    let said = match tenths {
        10.0 => "1 hand span".into(),
        t if t < 10.0 => format!("{t:.0}/10 of a hand span"),
        t => format!("{:.1} hand spans", t / 10.0),
    };
    format!("{said}: thumb to little finger, {}, measure yours", show(Quantity::Length, HAND_SPAN, system))
}

/// "2.7 s a metre" and the speed.
pub(super) fn pace(speed: f64, system: System) -> (String, String) {
    let (name, length) = match system {
        System::Metric => ("metre", 1.0),
        System::Us => ("foot", 0.3048),
    };
    (format!("{:.1} s a {name}", length / speed), show(Quantity::Speed, speed, system))
}

/// Passes of one coat in words.
fn passes(job: &Job, passes: &[Pass], down: f64, system: System) -> (String, String) {
    let mm = |v: f64| show(Quantity::Length, v, system);
    let count = passes.len();
    let many = |n: usize, one: &str| if n == 1 { format!("1 {one}") } else { format!("{n} {one}es") };
    let lead = format!("trigger on {} past each end", mm(job.stroke.lead));
    match &job.part {
        PartShape::Panel { .. } | PartShape::Curved { .. } => {
            let order = match job.stroke.order {
                PassOrder::Raster => "",
                PassOrder::Cross => "; every second coat across",
                PassOrder::Banded => "; first a pass up and down each end",
            };
            (many(count, "pass"), format!("{} down each, {lead}{order}", mm(down)))
        }
        PartShape::Tube { .. } => {
            let turn = if count > 1 { "turn the part evenly between them, " } else { "" };
            (many(count, "pass"), format!("{turn}{lead}"))
        }
        PartShape::Frame(_) => {
            (many(count, "pass"), format!("along each tube, hard-to-see side first; {lead}"))
        }
    }
}

pub(super) fn view(run: &Run, system: System) -> View {
    let prepared = run.prepared();
    let plan = &prepared.job.stroke;
    let fan = prepared.fan_across(run.card());
    let spaced = prepared.spaced_by_fan() && prepared.job.track.is_none();
    let down = if spaced { fan * (1.0 - plan.overlap) } else { 0.0 };
    let mm = |v: f64| show(Quantity::Length, v, system);
    let said = [mm(plan.distance), mm(fan), mm(down)];
    View { distance: plan.distance * 1e3, fan: fan * 1e3, down: down * 1e3, said }
}

pub(super) fn block(run: &Run, report: &Report, system: System) -> Block {
    let prepared = run.prepared();
    let (job, plan) = (&prepared.job, &prepared.job.stroke);
    let mm = |v: f64| show(Quantity::Length, v, system);
    let mut lines = vec![Line::new("distance", mm(plan.distance), spans(plan.distance, system))];
    if let Some(pattern) = report.pattern {
        let (high, thick) = (mm(pattern.length_mm * 1e-3), mm(pattern.width_mm * 1e-3));
        lines.push(Line::new(
            "fan on a card",
            format!("{high} high"),
            format!("{thick} thick, {}", pattern.kind),
        ));
    }
    let fan = prepared.fan_across(run.card());
    if let Some(track) = &job.track {
        let (said, note) = pace(track.mean_speed().max(1e-3), system);
        lines.push(Line::new("pace", said, format!("{note} in the mean, as recorded")));
    } else if let Strokes::Passes { passes: all, coats, .. } = Strokes::plan(plan, &job.part, fan) {
        let (said, note) = pace(plan.speed, system);
        lines.push(Line::new("pace", said, note));
        let across = if job.part.is_of_tubes() {
            let axis = if plan.fan_axis == crate::job::FanAxis::Along { "along" } else { "across" };
            lines.push(Line::new("fan lies", format!("{axis} the stroke"), ""));
            String::new()
        } else {
            format!("{:.0} of 100 overlap", plan.overlap * 100.0)
        };
        let (count, how) = passes(job, &all, fan * (1.0 - plan.overlap), system);
        lines.push(Line::new("a coat", count, how));
        if !across.is_empty() {
            lines.push(Line::new("overlap", across, ""));
        }
        let each = report.paint.seconds / f64::from(coats.max(1));
        let begins = (0..coats).map(|i| clock(f64::from(i) * (each + plan.flash)));
        let times = begins.collect::<Vec<_>>().join(", ");
        if coats > 1 {
            let flash = format!("{} flash between; begin them at {times}", clock(plan.flash));
            lines.push(Line::new("coats", coats.to_string(), flash));
        } else {
            lines.push(Line::new("coats", "1", ""));
        }
    } else {
        lines.push(Line::new("still spot", clock(plan.burst.unwrap_or(0.0)), "gun held still"));
    }
    lines.push(Line::new("trigger on", clock(report.paint.seconds), "all coats of one part"));
    Block { heading: "Hand".into(), lines }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_in_spans_of_a_hand() {
        assert!(spans(0.2, System::Metric).starts_with("1 hand span:"));
        assert!(spans(0.18, System::Metric).starts_with("9/10 of a hand span:"));
        assert!(spans(0.3, System::Us).starts_with("1.5 hand spans: thumb to little finger, 7.9 in"));
    }

    #[test]
    fn pace_in_both_systems() {
        assert_eq!(pace(0.45, System::Metric), ("2.2 s a metre".into(), "450 mm/s".into()));
        assert_eq!(pace(0.45, System::Us), ("0.7 s a foot".into(), "17.7 in/s".into()));
    }
}
