//! A comparison in words, for a terminal: the sentences first, then one block for each gun.

use super::saving::{PayBack, Saving, Sure};
use super::{Answer, Row};

/// The comparison as one reads it.
#[must_use]
pub fn words(answer: &Answer) -> String {
    let mut lines = vec![answer.name.clone()];
    lines.extend(answer.rows.iter().skip(1).filter_map(|row| sentence(row, answer)));
    for row in &answer.rows {
        lines.push(String::new());
        lines.extend(block(row));
    }
    if let Some(limits) = answer.limits {
        lines.push(String::new());
        lines.push(format!(
            "Each gun at its own best: least paint for a part, film no less even than {:.0} of 100, droplets up to {:.0} um, \
             strokes of {:.2} to {:.2} m/s, at most {:.0} s a part.",
            limits.even_percent,
            limits.sauter_um,
            limits.speed_mm_s[0] * 1e-3,
            limits.speed_mm_s[1] * 1e-3,
            limits.seconds
        ));
    }
    lines.join("\n")
}

fn sentence(row: &Row, answer: &Answer) -> Option<String> {
    if let Some(why) = &row.cannot {
        let who = if row.label == "best" { "Your gun".into() } else { row.label.clone() };
        return Some(format!("{who}: not for this job. {why}"));
    }
    if row.label == "best" {
        let saved = row.saved?;
        return Some(if saved.is_same() {
            "Your own gun is set about right: no setting saves for certain.".into()
        } else {
            format!("Set right, your own gun saves {} mL a part, for nothing.", amount(saved.value))
        });
    }
    let saved = row.saved_more.or(row.saved)?;
    let label = &row.label;
    Some(match (row.sure?, row.pays_back) {
        (Sure::Same, _) => format!("{label}: the same as yours inside the model's error."),
        (Sure::CannotTell, _) => format!("{label}: cannot tell. Borrow one and spray two cards."),
        (Sure::No, _) if saved.high <= 0.0 => format!("{label} saves nothing over your own gun set right."),
        (_, Some(PayBack::After { low, high })) => format!(
            "{label} would save {} mL more and pays back after {} to {} parts. Not worth it if you paint fewer than {}{}.",
            amount(saved.value),
            count(low),
            count(high),
            count(low),
            thick(row, answer)
        ),
        (Sure::No, _) => format!("{label}: not worth its price for so few parts."),
        _ => format!("{label} would save {} mL more{}.", amount(saved.value), unless(row, answer)),
    })
}

/// What the kit cannot do that your own gun can.
fn thick(row: &Row, answer: &Answer) -> String {
    let own = answer.rows.first().is_some_and(|own| own.paints.uses[2]);
    if own && !row.paints.uses[2] { ", or need primer".into() } else { String::new() }
}

fn unless(row: &Row, answer: &Answer) -> String {
    let lost = thick(row, answer);
    if lost.is_empty() { lost } else { "; not worth it if you need primer".into() }
}

fn block(row: &Row) -> Vec<String> {
    let who = match row.label.as_str() {
        "as-set" => "Your gun, as set".to_string(),
        "best" => "Your gun, at its best".to_string(),
        label => match row.price {
            Some(price) => format!("{label}  price {price}"),
            None => label.to_string(),
        },
    };
    let mut lines = vec![format!("{who}: {}", row.name)];
    let mut line = |name: &str, text: String| lines.push(format!("  {name:<10}{text}"));
    if let Some(why) = &row.cannot {
        line("cannot", why.clone());
    }
    if let Some(f) = &row.figures {
        let s = &f.setting;
        line(
            "paint",
            format!("{} mL a part, likely {} to {}", amount(f.ml), amount(f.ml_low), amount(f.ml_high)),
        );
        line(
            "set",
            format!(
                "fan {:.2} of {:.2} turns out, fluid {:.2} of {:.2}, {:.2} bar at the gun, {:.0} mm/s{}",
                s.fan_turns.0,
                s.fan_turns.1,
                s.fluid_turns.0,
                s.fluid_turns.1,
                s.inlet_bar,
                s.speed_mm_s,
                s.sides.map_or_else(String::new, |sides| format!(
                    ", {} side{}, fan {} the stroke",
                    sides,
                    if sides == 1 { "" } else { "s" },
                    if s.fan_along { "along" } else { "across" }
                ))
            ),
        );
        line("air", air(f));
        let kind = f.pattern.map_or_else(String::new, |k| format!(", {k}"));
        line("fan", format!("{:.0} mm{kind}", f.fan_mm));
        line("time", format!("{:.1} s", f.seconds));
        line("even", format!("{:.0} of 100", f.even_percent));
    }
    line("paints", paints(row));
    line("stays", format!("{:.0} mL in cup and gun", row.stays_ml));
    if let Some(saved) = row.saved {
        line("saved", saving(&saved));
    }
    if let Some(more) = row.saved_more {
        line("more", format!("{}, against your gun at its best", saving(&more)));
    }
    if let Some(back) = row.pays_back {
        line("pays back", pays_back(&back));
    }
    if let Some(sure) = row.sure {
        line("sure", sure_word(sure).into());
    }
    for note in &row.notes {
        line("note", note.clone());
    }
    lines
}

fn air(f: &super::Figures) -> String {
    let need = format!("needs {:.0} L/min", f.air_l_min);
    let Some(air) = f.air else { return need };
    let said = match air.verdict {
        "for-ever" => "held for ever".to_string(),
        "this-job" => "held for this part".to_string(),
        "runs-down" => air.on_s.map_or("runs down".into(), |s| format!("runs down after {s:.0} s")),
        _ => format!("never: {:.2} bar at the gun", air.gun_inlet_bar),
    };
    format!("{need}, yours {:.0}: {said}", air.yours_l_min)
}

fn paints(row: &Row) -> String {
    let can: Vec<_> =
        super::USES.iter().zip(row.paints.uses).filter(|(_, can)| *can).map(|(name, _)| *name).collect();
    let known = if can.is_empty() { "none that asks for such a tip".into() } else { can.join(", ") };
    if row.paints.this_paint { known } else { format!("{known}; not this paint as rated") }
}

fn saving(s: &Saving) -> String {
    let range = format!("{:.1} mL a part, likely {:.1} to {:.1}", s.value, s.low, s.high);
    if s.is_same() { format!("same inside the model's error ({range})") } else { range }
}

fn pays_back(back: &PayBack) -> String {
    match *back {
        PayBack::AtOnce => "at once".into(),
        PayBack::After { low, high } => format!("after {} to {} parts", count(low), count(high)),
        PayBack::CannotTell { low } => format!("cannot tell; not before {} parts", count(low)),
        PayBack::Never => "never".into(),
    }
}

/// The word of a verdict.
fn sure_word(sure: Sure) -> &'static str {
    match sure {
        Sure::Yes => "yes",
        Sure::Likely => "likely",
        Sure::No => "no",
        Sure::Same => "same",
        Sure::CannotTell => "cannot tell",
    }
}

fn amount(ml: f64) -> String {
    if ml.abs() >= 9.95 { format!("{ml:.0}") } else { format!("{ml:.1}") }
}

/// Parts to two digits.
fn count(parts: f64) -> String {
    let mut unit = 1.0;
    while parts / unit >= 100.0 && unit < 1e15 {
        unit *= 10.0;
    }
    format!("{:.0}", (parts / unit).round() * unit)
}
