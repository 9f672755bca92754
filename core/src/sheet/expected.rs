//! What to expect: film, how much stays on the part, time, the next coat.

use super::{Block, Line, clock};
use crate::job::Job;
use crate::judge::{wanted, words as judged};
use crate::report::Report;
use crate::units::{Quantity, System, show};

/// "38 to 52": whole hundredths, low to high.
fn of_100(low: f64, high: f64) -> String {
    let (low, high) = (format!("{:.0}", low * 100.0), format!("{:.0}", high * 100.0));
    if low == high { low } else { format!("{low} to {high}") }
}

/// "25 to 31 um": the unit once.
fn films(low_um: f64, high_um: f64, system: System) -> String {
    let (low, high) =
        (show(Quantity::Film, low_um * 1e-6, system), show(Quantity::Film, high_um * 1e-6, system));
    if low == high { high } else { format!("{} to {high}", low.split(' ').next().unwrap_or(&low)) }
}

pub(super) fn sentence(job: &Job, report: &Report, system: System) -> String {
    let e = &report.transfer_efficiency;
    let dry = show(Quantity::Film, report.film.dry_um.mean * 1e-6, system);
    let ml = show(Quantity::Volume, report.paint.sprayed_ml * 1e-6, system);
    let verdict = report.judgement.film.as_ref().map(|f| format!(" {}", judged::sentence(f, system)));
    let coats = if job.stroke.burst.is_none() && job.stroke.coats > 1 { ", all coats" } else { "" };
    format!(
        "{ml} a part{coats}; about {:.0} of 100 stay on it, likely {}; dry film {dry} in the mean.{}",
        e.value * 100.0,
        of_100(e.model_low, e.model_high),
        verdict.unwrap_or_default()
    )
}

pub(super) fn block(job: &Job, report: &Report, system: System) -> Block {
    let (film, e) = (&report.film, &report.transfer_efficiency);
    let mut lines = Vec::new();
    let ratio = |share: f64| if e.value > 0.0 { share / e.value } else { 1.0 };
    let spread = |mean: f64| films(mean * ratio(e.model_low), mean * ratio(e.model_high), system);
    let band = wanted(job).map(|(low, high)| format!("; wanted {}", films(low * 1e6, high * 1e6, system)));
    let mean = |um: f64| show(Quantity::Film, um * 1e-6, system);
    let likely = |um: f64| format!("in the mean, likely {}", spread(um));
    lines.push(Line::new(
        "dry film",
        mean(film.dry_um.mean),
        likely(film.dry_um.mean) + &band.unwrap_or_default(),
    ));
    if let (Some(low), Some(high)) = (film.dry_um.min, film.dry_um.max) {
        lines.push(Line::new("", films(low, high, system), "thinnest to thickest, as landed"));
    }
    lines.push(Line::new(
        "wet film",
        mean(film.wet_um.mean),
        likely(film.wet_um.mean) + ", all coats as they land",
    ));
    let stays = format!("{:.0} of 100", e.value * 100.0);
    lines.push(Line::new(
        "stays on the part",
        stays,
        format!("likely {}", of_100(e.model_low, e.model_high)),
    ));
    lines.push(Line::new(
        "paint a part",
        show(Quantity::Volume, report.paint.sprayed_ml * 1e-6, system),
        format!("{} of it lost", show(Quantity::Volume, report.paint.lost_ml * 1e-6, system)),
    ));
    if let Some(finish) = &report.finish {
        let said =
            |share: f64| if share < 0.05 { "none".to_string() } else { format!("on {share:.0} of 100") };
        lines.push(Line::new(
            "runs, dry, bare",
            said(finish.run_area_percent),
            format!("dry {}, bare {}", said(finish.dry_area_percent), said(finish.bare_area_percent)),
        ));
    }
    if let Some(next) = &report.judgement.next_coat {
        let said =
            next.earliest_s.map_or_else(|| "not in this air".into(), |s| format!("after {}", clock(s)));
        let within = next.latest_s.map(|s| format!("within {}; ", clock(s))).unwrap_or_default();
        lines.push(Line::new("next coat", said, format!("{within}the touch test decides")));
    }
    if let Some(dew) = &report.judgement.dew {
        let at = |c: f64| show(Quantity::Temperature, c + 273.15, system);
        let word = if dew.verdict == crate::judge::Verdict::Pass { "clear of it" } else { "too near" };
        lines.push(Line::new(
            "dew point",
            at(dew.dew_point_c),
            format!("part at {}: {word}", at(dew.surface_c)),
        ));
    }
    Block { heading: "Expect".into(), lines }
}
