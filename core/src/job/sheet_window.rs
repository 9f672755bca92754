//! Settings outside the data sheet's window: each is a note that says so and names the window.

use super::Job;
use super::mixing::Origin;
use crate::gun::{Class, Feed};
use crate::units::{Quantity, System, show};

/// Adds what is outside. Typical windows are a class's, not a product's: of them only the tip is held against a set-up, and
/// only for the full-size gravity gun that the figures are made for.
pub(super) fn note(job: &mut Job) {
    let mut notes: Vec<String> =
        [tip(job), pressure(job), seconds(job), coats(job), film(job)].into_iter().flatten().collect();
    job.notes.append(&mut notes);
}

fn is_yours(job: &Job, path: &str) -> bool {
    job.paint_origin(path) == Origin::Yours
}

fn outside(value: f64, [low, high]: [f64; 2]) -> bool {
    // A setting typed in another unit may miss the end by its last bit.
    let hair = 1e-9 * (high - low).abs();
    value < low - hair || value > high + hair
}

/// "1.2 to 1.4 mm": the unit once.
fn window(quantity: Quantity, [low, high]: [f64; 2]) -> String {
    let (low, high) = (show(quantity, low, System::Metric), show(quantity, high, System::Metric));
    let unit = |text: &str| text.split_once(' ').map(|(_, unit)| unit.to_owned());
    if unit(&low) == unit(&high) {
        let number = low.split(' ').next().unwrap_or(&low);
        format!("{number} to {high}")
    } else {
        format!("{low} to {high}")
    }
}

fn tip(job: &Job) -> Option<String> {
    let yours = is_yours(job, "paint.sheet.tip");
    let full_size = !matches!(job.kit.class, Class::Touchup | Class::Airbrush);
    let fits = job.kit.feed == Feed::Gravity && full_size;
    if !(yours || fits) || !outside(job.kit.tip_bore, job.sheet.tip) {
        return None;
    }
    let bore = show(Quantity::Length, job.kit.tip_bore, System::Metric);
    let window = window(Quantity::Length, job.sheet.tip);
    Some(if yours {
        format!("tip of {bore}: outside the data sheet's {window}")
    } else {
        format!(
            "tip of {bore}: outside the {window} that is typical for {}; ask its data sheet",
            job.recipe.name
        )
    })
}

fn pressure(job: &Job) -> Option<String> {
    let sheet = job.sheet.pressure.filter(|w| outside(job.gun.inlet_pressure, *w))?;
    let set = show(Quantity::Pressure, job.gun.inlet_pressure, System::Metric);
    Some(format!("inlet pressure {set}: outside the data sheet's {}", window(Quantity::Pressure, sheet)))
}

fn seconds(job: &Job) -> Option<String> {
    if !is_yours(job, "paint.sheet.cup_seconds") {
        return None;
    }
    let [low, high] = job.sheet.cup_seconds;
    let cup = job.sheet.cup.id();
    match job.sheet.cup.seconds(job.paint.kinematic_viscosity()) {
        Ok(now) if !outside(now.value, [low, high]) => None,
        Ok(now) => {
            Some(format!("{:.1} s in cup {cup}: outside the data sheet's {low} to {high} s", now.value))
        }
        Err(_) => Some(format!(
            "this paint does not flow out of cup {cup}: outside the data sheet's {low} to {high} s"
        )),
    }
}

fn coats(job: &Job) -> Option<String> {
    let (now, most) = (job.stroke.coats, job.sheet.coats);
    let more = is_yours(job, "paint.sheet.coats") && job.stroke.burst.is_none() && now > most;
    more.then(|| format!("{now} coats: outside the data sheet's {most}"))
}

fn film(job: &Job) -> Option<String> {
    if !is_yours(job, "paint.dry_film_per_coat") {
        return None;
    }
    let spec = job.spec?;
    let (sheet, of) = if spec.per_coat {
        (job.paint.dry_film_per_coat, "a coat")
    } else {
        (job.sheet.dry_film_total, "in all")
    };
    let apart = spec.high < sheet[0] || spec.low > sheet[1];
    apart.then(|| {
        format!(
            "dry film wanted, {} {of}: outside the data sheet's {}",
            window(Quantity::Film, [spec.low, spec.high]),
            window(Quantity::Film, sheet)
        )
    })
}
