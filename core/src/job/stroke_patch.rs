//! How the gun is held and by whom: plan, hand, tilt, recorded track.

use std::sync::Arc;

use super::document::Document;
use super::error::JobError;
use super::{PartShape, PassOrder};
use crate::stroke::{Hand, Track};

/// What of a stroke plan this file reads.
pub(super) struct How {
    pub order: PassOrder,
    pub hand: Hand,
    pub heel: f64,
    pub swing: f64,
    pub feather: f64,
}

/// Keys that a recorded track makes idle.
const IDLE: [&str; 11] =
    ["speed", "overlap", "lead", "coats", "sides", "turn", "flash", "plan", "hand", "feather", "heel"];

pub(super) fn how(doc: &Document<'_>, part: &PartShape, notes: &mut Vec<String>) -> Result<How, JobError> {
    let frame = matches!(part, PartShape::Frame(_));
    let panel = matches!(part, PartShape::Panel { .. });
    for path in ["stroke.plan", "stroke.heel"] {
        if doc.has(path) && !panel {
            return Err(doc.refuse(path, "it means nothing on this part", "only with part.panel"));
        }
    }
    if frame && doc.has("stroke.track") {
        let allowed = "a hand and a plan: a recorded track has no tube of a frame to go along";
        return Err(doc.refuse("stroke.track", "it cannot be flown along a frame", allowed));
    }
    let burst = doc.has("stroke.burst");
    if burst {
        let idle: Vec<_> = ["stroke.plan", "stroke.hand", "stroke.feather"]
            .into_iter()
            .filter(|path| doc.has(path))
            .collect();
        if !idle.is_empty() {
            notes.push(format!("stroke.burst holds the gun still: {} not used", idle.join(", ")));
        }
    }
    let order = match doc.word("stroke.plan") {
        Some("cross") if !burst => PassOrder::Cross,
        Some("banded") if !burst => PassOrder::Banded,
        _ => PassOrder::Raster,
    };
    let number = |path| doc.number(path).unwrap_or(0.0);
    let (heel, swing) = (number("stroke.heel"), number("stroke.swing"));
    let feather = if burst { 0.0 } else { number("stroke.feather") };
    Ok(How { order, hand: if burst { Hand::default() } else { hand(doc)? }, heel, swing, feather })
}

fn hand(doc: &Document<'_>) -> Result<Hand, JobError> {
    if let Some(word) = doc.word("stroke.hand") {
        return Ok(Hand::named(word).unwrap_or_default());
    }
    let number = |path| doc.number(path).unwrap_or(0.0);
    Hand {
        aim: number("stroke.hand.aim"),
        speed: number("stroke.hand.speed"),
        distance: number("stroke.hand.distance"),
        pivot: doc.number("stroke.hand.pivot"),
        heel: number("stroke.hand.heel"),
        drift: number("stroke.hand.drift"),
    }
    .checked()
    .map_err(|error| doc.parameter(&error))
}

/// The recorded track, if the file has one.
pub(super) fn track(doc: &Document<'_>, notes: &mut Vec<String>) -> Result<Option<Arc<Track>>, JobError> {
    let Some(track) = doc.track("stroke.track") else { return Ok(None) };
    if doc.has("stroke.burst") {
        let allowed = "one of stroke.burst, stroke.track";
        return Err(doc.refuse("stroke.track", "the file already holds the gun still", allowed));
    }
    let idle: Vec<_> =
        IDLE.iter().map(|name| format!("stroke.{name}")).filter(|path| doc.has(path)).collect();
    if !idle.is_empty() {
        notes.push(format!("stroke.track says where the gun goes: {} not used", idle.join(", ")));
    }
    Ok(Some(track))
}
