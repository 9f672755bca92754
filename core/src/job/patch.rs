//! `[gun]` laid over a kit of the catalogue.

use super::document::Document;
use super::error::JobError;
use crate::catalogue;
use crate::error::ParameterError;
use crate::gun::{Class, Fault, Faults, Feed, GunSetting, HELD, Kit};
use crate::set_up::{BoxFigures, BoxKit, Neighbour, from_box};
use crate::units::{Quantity, System, show};

/// Why a pot pressure is refused.
const NO_POT: &str = "a gun with a cup has no pot";
const POT_ALLOWED: &str = "only with pressure feed";

/// Kit of the catalogue or of its box, with the file's fields over it, and the kits that the box might as well stand for.
pub(super) fn gun(doc: &Document<'_>) -> Result<(Kit, Vec<Neighbour>), JobError> {
    let (mut likeliest, mut spread) = named(doc)?;
    lay_over(doc, &mut likeliest)?;
    // A neighbour that a field of the file makes impossible is none.
    spread.retain_mut(|n| lay_over(doc, &mut n.kit).is_ok());
    Ok((likeliest, spread))
}

/// The kit before the file's fields.
fn named(doc: &Document<'_>) -> Result<(Kit, Vec<Neighbour>), JobError> {
    let class = doc.word("gun.class").and_then(Class::of);
    let feed = doc.word("gun.feed").and_then(Feed::of);
    match (doc.word("gun.kit"), doc.has("gun.box")) {
        (Some(_), true) => {
            Err(doc.refuse("gun.box", "gun.kit already says which gun it is", "one of gun.kit, gun.box"))
        }
        (Some(id), false) => {
            let mut kit = catalogue::kit(id).map_err(|e| doc.parameter(&e))?;
            kit.class = class.unwrap_or(kit.class);
            feed.into_iter().for_each(|feed| catalogue::refeed(&mut kit, feed));
            Ok((kit, Vec::new()))
        }
        (None, false) => Err(doc.missing("gun.kit")),
        (None, true) => {
            let of = |path: &str| doc.number(path).ok_or_else(|| doc.missing(path));
            let fan = match (doc.number("gun.box.fan"), doc.number("gun.box.fan_at")) {
                (Some(height), Some(distance)) => Some([height, distance]),
                (None, None) => None,
                (Some(_), None) => return Err(doc.missing("gun.box.fan_at")),
                (None, Some(_)) => return Err(doc.missing("gun.box.fan")),
            };
            let (air, at, tip) = (of("gun.box.air")?, of("gun.box.at")?, of("gun.box.tip")?);
            let figures = BoxFigures { class, feed, air, at, tip, fan };
            let BoxKit { kit, spread } = from_box(&figures).map_err(|e| box_refused(doc, &e))?;
            Ok((kit, spread))
        }
    }
}

/// What the box does not allow, told at the box where the file does not name the key.
fn box_refused(doc: &Document<'_>, error: &ParameterError) -> JobError {
    if doc.has(&error.key) {
        return doc.parameter(error);
    }
    doc.refuse(
        "gun.box",
        &format!("{} comes to {}, which is not possible", error.key, error.value),
        &error.allowed,
    )
}

/// Lays the file's fields over a kit.
fn lay_over(doc: &Document<'_>, kit: &mut Kit) -> Result<(), JobError> {
    for (path, field) in [
        ("gun.tip_bore", &mut kit.tip_bore),
        ("gun.tip_land", &mut kit.tip_land),
        ("gun.needle_half_angle", &mut kit.needle_half_angle),
        ("gun.needle_travel", &mut kit.needle_travel),
        ("gun.inlet_area", &mut kit.inlet_area),
        ("gun.annulus_area", &mut kit.annulus_area),
        ("gun.fan_valve_area", &mut kit.fan_valve_area),
        ("gun.horn_area", &mut kit.horn_area),
        ("gun.horn_angle", &mut kit.horn_angle),
        ("gun.cup_head", &mut kit.cup_head),
        ("gun.cup_depth", &mut kit.cup_depth),
        ("gun.cup_volume", &mut kit.cup_volume),
        ("gun.residue", &mut kit.residue),
        ("gun.rated_pressure", &mut kit.rated_pressure),
        ("gun.rated_fluid", &mut kit.rated_fluid),
        ("gun.rated_pot_pressure", &mut kit.rated_pot_pressure),
        ("gun.paint_tube_bore", &mut kit.paint_tube_bore),
        ("gun.paint_tube_length", &mut kit.paint_tube_length),
        ("gun.highest_pressure", &mut kit.highest_pressure),
        ("gun.fan_turns", &mut kit.fan_turns),
        ("gun.fluid_turns", &mut kit.fluid_turns),
        ("gun.air_turns", &mut kit.air_turns),
        ("gun.matched.fan", &mut kit.matched.fan),
        ("gun.matched.edge", &mut kit.matched.edge),
        ("gun.matched.suction", &mut kit.matched.suction),
        ("gun.matched.needle", &mut kit.matched.needle),
        ("gun.matched.droplets", &mut kit.matched.droplets),
    ] {
        if let Some(x) = doc.number(path) {
            *field = x;
        }
    }
    kit.matched.droplets_range = doc.number("gun.matched.droplets_range");
    if let Some(name) = doc.word("gun.name") {
        kit.name = name.into();
    }
    if let Some(paint) = doc.word("gun.rated_paint") {
        kit.rated_paint = paint.into();
    }
    if kit.rated_pressure > kit.highest_pressure {
        // The fault is on whichever of the two the file gives.
        let path = if doc.has("gun.rated_pressure") { "gun.rated_pressure" } else { "gun.highest_pressure" };
        let bar = |p| show(Quantity::Pressure, p, System::Metric);
        let allowed = if path == "gun.rated_pressure" {
            format!("at most {}, the highest of this kit", bar(kit.highest_pressure))
        } else {
            format!("at least {}, the rated pressure of this kit", bar(kit.rated_pressure))
        };
        return Err(doc.refuse(path, "the rated pressure is above the highest", &allowed));
    }
    if kit.feed != Feed::Pressure && doc.has("gun.rated_pot_pressure") {
        return Err(doc.refuse("gun.rated_pot_pressure", NO_POT, POT_ALLOWED));
    }
    kit.check().map_err(|e| doc.parameter(&e))
}

/// Knobs and air, with the kit's own as defaults.
pub(super) fn setting(doc: &Document<'_>, kit: &Kit) -> Result<GunSetting, JobError> {
    let inlet_pressure = doc.number("gun.inlet_pressure").unwrap_or(kit.rated_pressure);
    if inlet_pressure > kit.highest_pressure {
        let most = show(Quantity::Pressure, kit.highest_pressure, System::Metric);
        let allowed = format!("0.2 bar to at most {most}, the highest stamped on this kit");
        return Err(doc.refuse("gun.inlet_pressure", "it is above what the kit bears", &allowed));
    }
    if kit.feed != Feed::Pressure && doc.has("gun.pot_pressure") {
        return Err(doc.refuse("gun.pot_pressure", NO_POT, POT_ALLOWED));
    }
    if kit.air_turns <= 0.0 && doc.number("gun.air_knob").is_some_and(|knob| knob < 1.0) {
        return Err(doc.refuse("gun.air_knob", "this gun has no air knob", "1, or none at all"));
    }
    let rated = kit.rated();
    let setting = GunSetting {
        inlet_pressure,
        fan: doc.number("gun.fan").unwrap_or(rated.fan),
        fluid: doc.number("gun.fluid").unwrap_or(rated.fluid),
        trigger: doc.number("gun.trigger").unwrap_or(rated.trigger),
        air_knob: doc.number("gun.air_knob").unwrap_or(rated.air_knob),
        cup_level: doc.number("gun.cup_level").unwrap_or(rated.cup_level),
        pot_pressure: doc.number("gun.pot_pressure").unwrap_or(rated.pot_pressure),
        faults: doc
            .words("gun.faults")
            .iter()
            .filter_map(|word| Fault::named(word))
            .fold(Faults::NONE, Faults::with),
        cap_turn: doc.number("gun.cap_turn").unwrap_or(0.0),
        held: doc.number("stroke.burst").unwrap_or(HELD),
    };
    setting.check(kit).map_err(|e| doc.parameter(&e))?;
    Ok(setting)
}
