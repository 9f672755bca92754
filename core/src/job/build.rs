//! From the keys of a file to a job: defaults, and checks that need more than one key.

use super::document::Document;
use super::error::JobError;
use super::{
    AirFrom, Booth, Compare, FanAxis, Job, PartShape, RunSetting, StrokePlan, judging, measured, mixing,
    paint_patch, part, patch, practising, sheet_window, stroke_patch, supply_patch,
};

/// Temperature of booth and paint where the file gives none [K].
const ROOM: f64 = 293.15;
/// Droplets where the file gives none; a frame is many tubes and takes more.
const DROPLETS: u64 = 200_000;
const FRAME_DROPLETS: u64 = 1_000_000;

/// The job of a text.
pub(super) fn build(doc: &Document<'_>) -> Result<Job, JobError> {
    if doc.number("version").is_none() {
        return Err(doc.missing("version"));
    }
    let mut notes = Vec::new();
    let (kit, neighbours) = patch::gun(doc)?;
    let gun = patch::setting(doc, &kit)?;
    let paint_patch::Mixed { paint, mix, recipe, sheet, given } = paint_patch::paint(doc, ROOM, &mut notes)?;
    let lean = part::lean(doc)?;
    let part = part::part(doc, lean)?;
    let stroke = stroke(doc, &part, sheet.flash, &mut notes)?;
    let track = stroke_patch::track(doc, &mut notes)?;
    if !part.is_flat() && gun.quarters().is_none() {
        let allowed = "0, 90, 180, 270 or 360 deg before a tube or a curved face";
        return Err(doc.refuse("gun.cap_turn", "the fan would lie aslant on it", allowed));
    }
    let judging = judging::judging(doc, &part, &mut notes)?;
    let droplets = if matches!(part, PartShape::Frame(_)) { FRAME_DROPLETS } else { DROPLETS };
    let card = measured::readings(doc, &kit)?;
    let booth = Booth {
        temperature: doc.number("booth.temperature").unwrap_or(ROOM),
        humidity: doc.number("booth.humidity").unwrap_or(0.5),
        air: doc.number("booth.air").unwrap_or(Booth::AIR),
        from: match doc.word("booth.from") {
            Some("behind") => AirFrom::Behind,
            Some("left") => AirFrom::Left,
            Some("right") => AirFrom::Right,
            _ => AirFrom::Above,
        },
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
        lean,
        stroke,
        track,
        spec: judging::spec(doc)?,
        judging,
        card,
        compare: Compare {
            kits: doc.kits("compare.kits").unwrap_or_default().to_vec(),
            paint_price: doc.number("compare.paint_price"),
            parts: doc.number("compare.parts"),
        },
        practice: practising::practising(doc),
        run: RunSetting {
            droplets: count(doc, "run.droplets", droplets),
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

fn stroke(
    doc: &Document<'_>,
    part: &PartShape,
    flash: f64,
    notes: &mut Vec<String>,
) -> Result<StrokePlan, JobError> {
    let burst = doc.number("stroke.burst");
    let distance = required(doc, "stroke.distance")?;
    if !part.is_of_tubes() {
        for path in ["stroke.fan_axis", "stroke.sides"] {
            if doc.has(path) {
                return Err(doc.refuse(
                    path,
                    "it means nothing on a panel",
                    "only with part.tube or part.frame",
                ));
            }
        }
    }
    if let PartShape::Frame(_) = part {
        if burst.is_some() {
            return Err(doc.refuse("stroke.burst", "a frame has no one middle", "not with part.frame"));
        }
    } else if doc.has("stroke.members") {
        return Err(doc.refuse("stroke.members", "the part has no members", "only with part.frame"));
    }
    let speed = match (doc.number("stroke.speed"), burst) {
        (Some(speed), _) => speed,
        (None, Some(_)) => 0.0,
        // A recorded track has its own speed.
        (None, None) if doc.has("stroke.track") => 0.0,
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
    let stroke_patch::How { order, hand, heel, swing, feather } = stroke_patch::how(doc, part, notes)?;
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
        order,
        hand,
        heel,
        swing,
        feather,
    })
}
