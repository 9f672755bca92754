//! `[card]`: what the user has measured on a card sprayed with his own gun.

use super::document::Document;
use super::error::JobError;
use super::{Measurement, Reading};
use crate::gun::{Feed, Kit};

/// Uncertainty where the file gives none, one standard deviation [-]: a steady reading of a ruler, scales or a comb. Ours.
const USUAL: f64 = 0.05;
/// Trigger time of the flow where the file gives none [s].
const SECONDS: f64 = 15.0;

/// What stands in the file, in its order; empty where nothing was measured.
pub(super) fn readings(doc: &Document<'_>, kit: &Kit) -> Result<Vec<Reading>, JobError> {
    let first = doc.number("card.distance").or_else(|| doc.number("stroke.distance"));
    // `stroke.distance` is required of every job.
    let distance = first.ok_or_else(|| doc.missing("stroke.distance"))?;
    let mut readings = Vec::new();
    let mut add = |key: &'static str, name: &'static str, what: Measurement| {
        if let Some(value) = doc.number(key) {
            let sure = format!("card.uncertainty.{}", name.replace('-', "_"));
            let uncertainty = doc.number(&sure).unwrap_or(USUAL);
            let kept_back = doc.word("card.kept_back") == Some(name);
            readings.push(Reading { key, name, what, value, uncertainty, kept_back });
        }
    };
    add("card.fan_height", "fan-height", Measurement::FanHeight { distance });
    add("card.fan_thickness", "fan-thickness", Measurement::FanThickness { distance });
    let seconds = doc.number("card.seconds").unwrap_or(SECONDS);
    add("card.weighed", "flow", Measurement::Weighed { seconds });
    add("card.caught", "flow", Measurement::Caught { seconds });
    let speed = doc.number("card.speed").or_else(|| doc.number("stroke.speed"));
    if let Some(speed) = speed {
        add("card.wet_film", "film", Measurement::WetFilm { distance, speed });
        add("card.dry_film", "film", Measurement::DryFilm { distance, speed });
    }
    if let Some(distance) = doc.number("card.second_distance") {
        add("card.second_height", "second-height", Measurement::FanHeight { distance });
    }
    consistent(doc, kit, speed.is_some(), distance)?;
    if let Some(name) = doc.word("card.kept_back").filter(|&name| name != "none")
        && !readings.iter().any(|r| r.kept_back)
    {
        let there: Vec<_> = readings.iter().map(|r| r.name).collect();
        let allowed = if there.is_empty() { "none".into() } else { format!("none, {}", there.join(", ")) };
        return Err(doc.refuse("card.kept_back", &format!("no {name} was measured"), &allowed));
    }
    Ok(readings)
}

/// Measurements that cannot be true together.
fn consistent(doc: &Document<'_>, kit: &Kit, has_speed: bool, distance: f64) -> Result<(), JobError> {
    let both = |a: &str, b: &str| doc.has(a) && doc.has(b);
    if let (Some(height), Some(thickness)) = (doc.number("card.fan_height"), doc.number("card.fan_thickness"))
        && thickness > height
    {
        let (said, allowed) = (
            "the thickness is the short way, but it is more than the fan height",
            format!("at most {:.0} mm, the fan height", height * 1e3),
        );
        return Err(doc.refuse("card.fan_thickness", said, &allowed));
    }
    if both("card.weighed", "card.caught") {
        let said = "the flow is there twice: weighed and caught";
        return Err(doc.refuse("card.caught", said, "one of card.weighed, card.caught"));
    }
    if kit.feed == Feed::Pressure && doc.has("card.weighed") {
        let said = "a pressure gun hangs on its paint hose, so its weight does not tell the flow";
        return Err(doc.refuse(
            "card.weighed",
            said,
            "card.caught: paint caught in a timed run with the air shut",
        ));
    }
    if kit.feed != Feed::Pressure && doc.has("card.caught") {
        let said = "a gun with a cup sprays by the suction of its air, which blows away what one would catch";
        return Err(doc.refuse("card.caught", said, "card.weighed: by how much the gun got lighter"));
    }
    if both("card.wet_film", "card.dry_film") {
        let said = "the film is there twice: wet and dry";
        return Err(doc.refuse("card.dry_film", said, "one of card.wet_film, card.dry_film"));
    }
    for key in ["card.wet_film", "card.dry_film"] {
        if doc.has(key) && !has_speed {
            let said = "a film tells nothing without the speed of its pass";
            return Err(doc.refuse(key, said, "card.speed beside it: length of the pass over its seconds"));
        }
    }
    match (doc.number("card.second_distance"), doc.has("card.second_height")) {
        (None, true) => {
            let said = "a second height needs the distance it was sprayed from";
            return Err(doc.refuse("card.second_height", said, "card.second_distance beside it"));
        }
        (Some(second), true) if (second - distance).abs() < 0.01 => {
            let said = "the second card is as far off as the first";
            let allowed = format!("a distance at least 10 mm from {:.0} mm", distance * 1e3);
            return Err(doc.refuse("card.second_distance", said, &allowed));
        }
        _ => {}
    }
    let second = doc.number("card.second_distance").zip(doc.number("card.second_height"));
    for (key, (distance, height)) in [
        ("card.fan_height", doc.number("card.fan_height").map(|h| (distance, h))),
        ("card.second_height", second),
    ]
    .into_iter()
    .filter_map(|(key, pair)| pair.map(|pair| (key, pair)))
    {
        if height > WIDEST * distance {
            let said = "no gun opens its fan that far at this distance";
            let allowed = format!("at most {:.0} mm at {:.0} mm", WIDEST * distance * 1e3, distance * 1e3);
            return Err(doc.refuse(key, said, &allowed));
        }
    }
    Ok(())
}

/// Largest fan height over distance [-]: half angle 56 degrees; full fans are near 1 (190-240 mm at 200-230 mm). Ours.
const WIDEST: f64 = 3.0;
