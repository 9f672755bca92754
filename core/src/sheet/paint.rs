//! Paint: how it is mixed, how much, and the data sheet's window.

use super::{Block, Line, clock};
use crate::job::Job;
use crate::paint::ThinningOf;
use crate::report::{MixFigures, Report};
use crate::units::{Quantity, System, show};

fn ml(ml: f64, system: System) -> String {
    show(Quantity::Volume, ml * 1e-6, system)
}

/// "2 base : 1 hardener, 10 of 100 thinner of the mix".
fn ratio(job: &Job) -> String {
    let mix = &job.mix;
    let mut said = if mix.hardener > 0.0 {
        format!("{} : {} base to hardener", mix.base, mix.hardener)
    } else {
        "base".into()
    };
    if mix.thinning > 0.0 {
        let of = if mix.thinning_of == ThinningOf::Base { "base" } else { "mix" };
        said += &format!(", thinner {:.0} of 100 of the {of}", mix.thinning * 100.0);
    } else {
        said += ", no thinner";
    }
    said
}

/// Tins of one lot.
fn tins(mix: &MixFigures, system: System) -> String {
    let named = [("base", mix.base_ml), ("hardener", mix.hardener_ml), ("thinner", mix.thinner_ml)];
    let each = named.iter().filter(|tin| tin.1 > 0.0).map(|tin| format!("{} {}", tin.0, ml(tin.1, system)));
    let all = each.collect::<Vec<_>>().join(", ");
    if mix.lots > 1 { format!("{} lots, each {all}", mix.lots) } else { all }
}

pub(super) fn block(job: &Job, report: &Report, system: System) -> Block {
    let mut lines = vec![Line::new("mix by volume", ratio(job), "")];
    if let Ok(seconds) = job.sheet.cup.seconds(job.paint.kinematic_viscosity()) {
        let at = show(Quantity::Temperature, job.paint.temperature, system);
        lines.push(Line::new(
            "cup",
            format!("{:.0} s in {}", seconds.value, job.sheet.cup.name()),
            format!("at {at}"),
        ));
    }
    if job.stroke.burst.is_none()
        && let Ok(mix) = report.mix_plan(job).and_then(|plan| MixFigures::new(job, &plan))
    {
        let parts = if mix.parts == 1 { "1 part".into() } else { format!("{} parts", mix.parts) };
        let range =
            mix.mixed_low_ml.zip(mix.mixed_high_ml).map(|(low, high)| (ml(low, system), ml(high, system)));
        let likely = range
            .filter(|(low, high)| low != high)
            .map(|(low, high)| format!(", likely {} to {high}", low.split(' ').next().unwrap_or(&low)));
        let note = format!("for {parts}, test card, cup and reserve{}", likely.unwrap_or_default());
        lines.push(Line::new("mix", ml(mix.mixed_ml, system), note));
        lines.push(Line::new("of it", tins(&mix, system), ""));
    }
    if let Some(life) = job.sheet.pot_life {
        lines.push(Line::new("pot life", clock(life), "from mixing"));
    }
    Block { heading: "Paint".into(), lines }
}

/// The data sheet's window; typical figures of the class are said to be so.
pub(super) fn window(job: &Job, system: System) -> Block {
    let typical = |path: &str| match job.paint_origin(path) {
        crate::job::Origin::Yours => "data sheet",
        _ => "typical of the class: ask its data sheet",
    };
    let range = |quantity, [low, high]: [f64; 2]| {
        let (low, high) = (show(quantity, low, system), show(quantity, high, system));
        format!("{} to {high}", low.split(' ').next().unwrap_or(&low))
    };
    let sheet = &job.sheet;
    let mut lines = Vec::new();
    let tip = format!("{:.1} to {:.1} mm", sheet.tip[0] * 1e3, sheet.tip[1] * 1e3);
    lines.push(Line::new("tip", tip, typical("paint.sheet.tip")));
    if let Some(pressure) = sheet.pressure {
        lines.push(Line::new(
            "inlet pressure",
            range(Quantity::Pressure, pressure),
            typical("paint.sheet.pressure"),
        ));
    }
    let cup = format!("{:.0} to {:.0} s in {}", sheet.cup_seconds[0], sheet.cup_seconds[1], sheet.cup.name());
    lines.push(Line::new("cup", cup, typical("paint.sheet.cup_seconds")));
    let coats = format!("{}, {} between", sheet.coats, clock(sheet.flash));
    lines.push(Line::new("coats", coats, typical("paint.sheet.coats")));
    lines.push(Line::new(
        "dry film, all coats",
        range(Quantity::Film, sheet.dry_film_total),
        typical("paint.sheet.dry_film_total"),
    ));
    Block { heading: "Data sheet's window".into(), lines }
}
