//! What to expect: film, how much stays on the part, time, the next coat.

use super::{Block, Line, clock};
use crate::job::Job;
use crate::judge::{wanted, words as judged};
use crate::report::{PaintFor, Report, Spread, paint_for};
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

/// "17 to 24 mL": the unit once.
fn volumes(low_ml: f64, high_ml: f64, system: System) -> String {
    let (low, high) =
        (show(Quantity::Volume, low_ml * 1e-6, system), show(Quantity::Volume, high_ml * 1e-6, system));
    if low == high { high } else { format!("{} to {high}", low.split(' ').next().unwrap_or(&low)) }
}

/// Paint for the middle of the film wanted, where it is not what the job lays as it stands.
fn at_wanted(job: &Job, report: &Report) -> Option<PaintFor> {
    let (low, high) = wanted(job).filter(|_| job.stroke.burst.is_none() && job.track.is_none())?;
    let e = &report.transfer_efficiency;
    let (mean, sprayed) = (report.film.dry_um.mean * 1e-6, report.paint.sprayed_ml);
    paint_for(0.5 * (low + high), mean, sprayed, [e.value, e.model_low, e.model_high])
        .filter(|need| (need.scale - 1.0).abs() > AS_WANTED)
}

/// Within this share of the middle a film is as wanted [-].
const AS_WANTED: f64 = 0.02;

pub(super) fn sentence(job: &Job, report: &Report, system: System) -> String {
    let e = &report.transfer_efficiency;
    let dry = show(Quantity::Film, report.film.dry_um.mean * 1e-6, system);
    let ml = show(Quantity::Volume, report.paint.sprayed_ml * 1e-6, system);
    let verdict = report.judgement.film.as_ref().map(|f| format!(" {}", judged::sentence(f, system)));
    let coats = if job.stroke.burst.is_none() && job.stroke.coats > 1 { ", all coats" } else { "" };
    let other = at_wanted(job, report).map(|need| {
        let (ml, film) =
            (show(Quantity::Volume, need.sprayed * 1e-6, system), show(Quantity::Film, need.film, system));
        format!(" as set, {ml} for {film} dry, the middle of the film wanted")
    });
    let other = other.unwrap_or_default();
    format!(
        "{ml} a part{coats}{other}; about {:.0} of 100 stay on it, likely {}; dry film as set {dry} in the mean.{}",
        e.value * 100.0,
        of_100(e.model_low, e.model_high),
        verdict.unwrap_or_default()
    )
}

pub(super) fn block(job: &Job, report: &Report, system: System) -> Block {
    let (film, e) = (&report.film, &report.transfer_efficiency);
    let mut lines = Vec::new();
    let spread = |of: &Spread| {
        let [low, high] = [of.model_low, of.model_high].map(|end| end.unwrap_or(of.mean));
        films(low, high, system)
    };
    let band = wanted(job).map(|(low, high)| format!("; wanted {}", films(low * 1e6, high * 1e6, system)));
    let mean = |um: f64| show(Quantity::Film, um * 1e-6, system);
    let likely = |of: &Spread| format!("in the mean, likely {}", spread(of));
    lines.push(Line::new(
        "dry film",
        mean(film.dry_um.mean),
        likely(&film.dry_um) + &band.unwrap_or_default(),
    ));
    if let (Some(low), Some(high)) = (film.dry_um.min, film.dry_um.max) {
        lines.push(Line::new("", films(low, high, system), "thinnest to thickest, as landed"));
    }
    lines.push(Line::new(
        "wet film",
        mean(film.wet_um.mean),
        likely(&film.wet_um) + ", all coats as they land",
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
        format!(
            "as set, likely {}; {} of it lost",
            volumes(report.paint.sprayed_low_ml, report.paint.sprayed_high_ml, system),
            show(Quantity::Volume, report.paint.lost_ml * 1e-6, system)
        ),
    ));
    if let Some(need) = at_wanted(job, report) {
        lines.push(Line::new(
            "for the film wanted",
            show(Quantity::Volume, need.sprayed * 1e-6, system),
            format!(
                "likely {}, for {} dry, the middle; {} brings it",
                volumes(need.low, need.high, system),
                show(Quantity::Film, need.film, system),
                super::hand::pace(job.stroke.speed / need.scale, system).0
            ),
        ));
    }
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
