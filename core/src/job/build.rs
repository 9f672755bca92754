//! From the keys of a file to a job: defaults, and checks that need more than one key.

use super::document::Document;
use super::error::JobError;
use super::{
    Booth, Compare, FanAxis, Job, PartShape, RunSetting, StrokePlan, judging, measured, mixing, paint_patch,
    patch, sheet_window, supply_patch,
};

/// Temperature of booth and paint where the file gives none [K].
const ROOM: f64 = 293.15;

/// The job of a text.
pub(super) fn build(doc: &Document<'_>) -> Result<Job, JobError> {
    if doc.number("version").is_none() {
        return Err(doc.missing("version"));
    }
    let mut notes = Vec::new();
    let (kit, neighbours) = patch::gun(doc)?;
    let gun = patch::setting(doc, &kit)?;
    let paint_patch::Mixed { paint, mix, recipe, sheet, given } = paint_patch::paint(doc, ROOM, &mut notes)?;
    let part = part(doc)?;
    let stroke = stroke(doc, part, sheet.flash, &mut notes)?;
    if matches!(part, PartShape::Tube { .. }) && gun.quarters().is_none() {
        let allowed = "0, 90, 180, 270 or 360 deg before a tube";
        return Err(doc.refuse("gun.cap_turn", "the fan would lie aslant on the tube", allowed));
    }
    let judging = judging::judging(doc, &part, &mut notes)?;
    let card = measured::readings(doc, &kit)?;
    let booth = Booth {
        temperature: doc.number("booth.temperature").unwrap_or(ROOM),
        humidity: doc.number("booth.humidity").unwrap_or(0.5),
    };
    let mut job = Job {
        text: doc.text.into(),
        name: doc.word("name").unwrap_or("job").into(),
        supply: supply_patch::supply(doc, &booth)?,
        air_prices: supply_patch::prices(doc),
        kit,
        neighbours,
        gun,
        paint,
        mix,
        recipe,
        sheet,
        mixing: mixing::mixing(doc),
        part_temperature: doc.number("part.temperature").unwrap_or(booth.temperature),
        booth,
        part,
        lean: lean(doc)?,
        stroke,
        spec: judging::spec(doc)?,
        judging,
        card,
        compare: Compare {
            kits: doc.kits("compare.kits").unwrap_or_default().to_vec(),
            paint_price: doc.number("compare.paint_price"),
            parts: doc.number("compare.parts"),
        },
        run: RunSetting {
            droplets: count(doc, "run.droplets", 200_000),
            standard_error: doc.number("run.standard_error"),
            seed: count(doc, "run.seed", 1),
        },
        notes,
        given,
    };
    sheet_window::note(&mut job);
    Ok(job)
}

/// A whole number; its range, checked before, is inside what f64 holds exactly.
pub(super) fn count(doc: &Document<'_>, path: &str, default: u64) -> u64 {
    doc.number(path).map_or(default, |x| x as u64)
}

fn required(doc: &Document<'_>, path: &str) -> Result<f64, JobError> {
    doc.number(path).ok_or_else(|| doc.missing(path))
}

fn part(doc: &Document<'_>) -> Result<PartShape, JobError> {
    let allowed = "exactly one of part.panel, part.tube";
    match (doc.has("part.panel"), doc.has("part.tube")) {
        (true, false) => Ok(PartShape::Panel {
            width: required(doc, "part.panel.width")?,
            height: required(doc, "part.panel.height")?,
        }),
        (false, true) => Ok(PartShape::Tube {
            diameter: required(doc, "part.tube.diameter")?,
            length: required(doc, "part.tube.length")?,
        }),
        (true, true) => Err(doc.refuse("part.tube", "the part is already a panel", allowed)),
        (false, false) => Err(doc.refuse("part", "there is nothing to paint", allowed)),
    }
}

fn lean(doc: &Document<'_>) -> Result<f64, JobError> {
    use core::f64::consts::{FRAC_PI_2, PI};
    match (doc.word("part.stands"), doc.number("part.lean")) {
        (Some(_), Some(_)) => Err(doc.refuse(
            "part.lean",
            "the file says twice how the part stands",
            "one of part.stands, part.lean",
        )),
        (None, Some(lean)) => Ok(lean),
        (Some("flat"), None) => Ok(0.0),
        (Some("overhead"), None) => Ok(PI),
        _ => Ok(FRAC_PI_2),
    }
}

fn stroke(
    doc: &Document<'_>,
    part: PartShape,
    flash: f64,
    notes: &mut Vec<String>,
) -> Result<StrokePlan, JobError> {
    let burst = doc.number("stroke.burst");
    let distance = required(doc, "stroke.distance")?;
    if let PartShape::Panel { .. } = part {
        for path in ["stroke.fan_axis", "stroke.sides"] {
            if doc.has(path) {
                return Err(doc.refuse(path, "it means nothing on a panel", "only with part.tube"));
            }
        }
    }
    let speed = match (doc.number("stroke.speed"), burst) {
        (Some(speed), _) => speed,
        (None, Some(_)) => 0.0,
        (None, None) => return Err(doc.missing("stroke.speed")),
    };
    if burst.is_some() {
        let ignored: Vec<_> = ["speed", "overlap", "lead", "coats", "sides"]
            .into_iter()
            .filter(|name| doc.has(&format!("stroke.{name}")))
            .map(|name| format!("stroke.{name}"))
            .collect();
        if !ignored.is_empty() {
            notes.push(format!("stroke.burst holds the gun still: {} not used", ignored.join(", ")));
        }
    }
    Ok(StrokePlan {
        distance,
        speed,
        overlap: doc.number("stroke.overlap").unwrap_or(0.5),
        lead: doc.number("stroke.lead").unwrap_or(0.06),
        coats: doc.number("stroke.coats").map_or(1, |x| x as u32),
        fan_axis: if doc.word("stroke.fan_axis") == Some("along") { FanAxis::Along } else { FanAxis::Across },
        sides: doc.number("stroke.sides").map_or(1, |x| x as u32),
        turn: doc.number("stroke.turn").unwrap_or(1.0),
        flash: doc.number("stroke.flash").unwrap_or(flash),
        burst,
    })
}
