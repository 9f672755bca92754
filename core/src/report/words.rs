//! The report in a few lines of words and units, the answer first.

use super::{Efficiency, FateShares, MixFigures, Report, Spread, SupplyFigures};
use crate::in_order::InOrder;
use crate::job::Job;
use crate::judge::{wanted, words as judged};
use crate::units::System;

/// The report as one reads it at a terminal.
#[must_use]
pub fn words(report: &Report, job: &Job) -> String {
    let mut lines = vec![
        report.name.clone(),
        of_100("stayed on the part", &report.transfer_efficiency),
        String::new(),
        named("where", &where_it_went(&report.fates)),
        named("paint", &paint(report)),
        named("dry film", &spread(report.film.dry_um)),
    ];
    if let Some(mix) = &report.mix {
        lines.insert(5, named("mix", &to_mix(mix)));
    }
    if let Some((low, high)) = wanted(job) {
        let share =
            report.film.in_band_percent.map(|p| format!(": so on {} of 100 of the area", share(p / 100.0)));
        let (low, high) = (short(low * 1e6), short(high * 1e6));
        lines.push(named("", &format!("wanted {low} to {high} um{}", share.unwrap_or_default())));
    }
    if let Some(cv) = report.film.cv_percent {
        let (value, error) = (short(cv.value), short(cv.standard_error));
        lines.push(named("", &format!("standard deviation {value} % of the mean, counting error {error} %")));
    }
    lines.push(named("wet film", &spread(report.film.wet_um)));
    let judged = judged::lines(&report.judgement, System::Metric);
    lines.extend(judged.iter().enumerate().map(|(i, line)| named(if i == 0 { "judged" } else { "" }, line)));
    if let Some(p) = report.pattern {
        let size = format!("{:.0} mm x {:.0} mm on a flat card at this distance", p.length_mm, p.width_mm);
        lines.push(named("pattern", &format!("{}, {size}", p.kind)));
    }
    lines.push(named("", &of_100("would stay on a large panel", &report.large_panel_efficiency)));
    let (gun, spray) = (report.gun, report.spray);
    lines.push(named(
        "gun",
        &format!(
            "{:.1} bar at the inlet, {:.2} bar at the cap, {:.0} L/min of air, {:.0} mL/min of paint",
            gun.inlet_bar, gun.cap_bar, gun.free_air_l_min, gun.fluid_ml_min
        ),
    ));
    lines.extend(report.supply.map(|supply| named("air", &air(&supply))));
    lines.push(named(
        "droplets",
        &format!("Sauter mean {:.0} um, median by volume {:.0} um", spray.sauter_um, spray.volume_median_um),
    ));
    lines.extend(report.warnings.iter().map(|warning| named("note", warning)));
    lines.join("\n")
}

fn named(name: &str, text: &str) -> String {
    format!("{name:<10}{text}")
}

/// "67 of 100 stayed on the part, likely 57 to 78".
fn of_100(what: &str, e: &Efficiency) -> String {
    format!("{} of 100 {what}, likely {} to {}", share(e.value), share(e.model_low), share(e.model_high))
}

/// Whole hundredths; below ten with a tenth, so that little is not nothing.
fn share(share: f64) -> String {
    let of_100 = 100.0 * share;
    if of_100 > 0.0 && of_100 < 9.95 { format!("{of_100:.1}") } else { format!("{of_100:.0}") }
}

/// Ends of the flow in words, largest first; what rounds to nothing is left out.
fn where_it_went(f: &FateShares) -> String {
    let mut ends = [
        (f.landed, "on the part"),
        (f.missed, "passed it by"),
        (f.bounced, "bounced back"),
        (f.drifted, "fog to the filters"),
        (f.dried, "landed dry"),
        (f.lost, "lost by the program"),
    ];
    ends.in_order(|a, b| b.0.total_cmp(&a.0));
    let said = ends.iter().filter(|end| end.0 >= 5e-4).map(|end| format!("{} {}", share(end.0), end.1));
    format!("of 100: {}", said.collect::<Vec<_>>().join(", "))
}

fn paint(report: &Report) -> String {
    let p = &report.paint;
    format!(
        "{} mL sprayed in {} s of trigger: {} mL on the part, {} mL lost",
        short(p.sprayed_ml),
        short(p.seconds),
        short(p.on_part_ml),
        short(p.lost_ml)
    )
}

/// "240 mL for 6 parts: base 145 mL (143 g), ...".
fn to_mix(mix: &MixFigures) -> String {
    let one = |name: &str, ml: f64, g: f64| format!("{name} {} mL ({} g)", short(ml), short(g));
    let mut tins = vec![one("base", mix.base_ml, mix.base_g)];
    for (name, ml, g) in
        [("hardener", mix.hardener_ml, mix.hardener_g), ("thinner", mix.thinner_ml, mix.thinner_g)]
    {
        if ml > 0.0 {
            tins.push(one(name, ml, g));
        }
    }
    let lots = if mix.lots > 1 { format!("; {} lots, each", mix.lots) } else { ":".into() };
    let parts = if mix.parts == 1 { "1 part".into() } else { format!("{} parts", mix.parts) };
    format!("{} mL for {parts}{lots} {}", short(mix.mixed_ml), tins.join(", "))
}

/// "holds for ever: 290 L/min delivered, 120 over; wall gauge 2.4 bar with the trigger pulled".
fn air(s: &SupplyFigures) -> String {
    let verdict = match (s.verdict, s.on_s, s.wait_s) {
        ("for-ever", ..) => "holds for ever".to_string(),
        ("this-job", ..) => "holds for this job".to_string(),
        ("runs-down", Some(on), Some(wait)) => {
            format!("lasts {} s of trigger, then wait {} s", short(on), short(wait))
        }
        ("runs-down", Some(on), None) => format!("lasts {} s of trigger", short(on)),
        _ => format!("never gives {:.1} bar at the gun: {:.1}", s.wanted_bar, s.gun_inlet_bar),
    };
    let spare = if s.margin_l_min < 0.0 {
        format!("{:.0} L/min short", -s.margin_l_min)
    } else {
        format!("{:.0} L/min to spare", s.margin_l_min)
    };
    let wall = s.wall_gauge_bar.map(|wall| format!("; wall gauge {wall:.1} bar with the trigger pulled"));
    format!("{verdict}, {spare}{}", wall.unwrap_or_default())
}

fn spread(film: Spread) -> String {
    let ends = match (film.min, film.max) {
        (Some(min), Some(max)) => format!(", {} to {} um", short(min), short(max)),
        _ => String::new(),
    };
    format!("mean {} um{ends}", short(film.mean))
}

/// Two or three digits: "0.13", "5.7", "24.5", "153"; a whole number has no point.
pub(super) fn short(value: f64) -> String {
    let size = value.abs();
    match size {
        _ if size >= 99.95 || (value - value.round()).abs() <= 1e-9 * size => format!("{value:.0}"),
        _ if size >= 0.995 => format!("{value:.1}"),
        _ => format!("{value:.2}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_answer_as_said() {
        let e = Efficiency { value: 0.672, standard_error: None, model_low: 0.566, model_high: 0.78 };
        assert_eq!(of_100("stayed on the part", &e), "67 of 100 stayed on the part, likely 57 to 78");
        assert_eq!([share(0.0), share(0.0123), share(0.0996), share(1.0)], ["0", "1.2", "10", "100"]);
        assert_eq!(
            [short(0.0), short(0.126), short(5.68), short(34.999_999_999_999)],
            ["0", "0.13", "5.7", "35"]
        );
    }

    #[test]
    fn nothing_is_not_said() {
        let f =
            FateShares { landed: 0.4, missed: 0.55, bounced: 0.05, drifted: 0.0002, dried: 0.0, lost: 0.0 };
        assert_eq!(where_it_went(&f), "of 100: 55 passed it by, 40 on the part, 5.0 bounced back");
    }
}
