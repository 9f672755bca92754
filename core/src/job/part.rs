//! `[part]`: what is painted, and how it stands.

use super::PartShape;
use super::document::Document;
use super::error::JobError;
use super::value::nearest;
use crate::part::Member;
use std::sync::Arc;

/// Tables and keys of which a file gives exactly one.
const SHAPES: [&str; 4] = ["part.panel", "part.tube", "part.curved", "part.frame"];

pub(super) fn part(doc: &Document<'_>, lean: f64) -> Result<PartShape, JobError> {
    let given: Vec<_> = SHAPES.into_iter().filter(|path| doc.has(path)).collect();
    let allowed = format!("exactly one of {}", SHAPES.join(", "));
    let required = |path| doc.number(path).ok_or_else(|| doc.missing(path));
    match given[..] {
        ["part.panel"] => Ok(PartShape::Panel {
            width: required("part.panel.width")?,
            height: required("part.panel.height")?,
        }),
        ["part.tube"] => Ok(PartShape::Tube {
            diameter: required("part.tube.diameter")?,
            length: required("part.tube.length")?,
        }),
        ["part.curved"] => {
            let radius = required("part.curved.radius")?;
            let (width, height) = (required("part.curved.width")?, required("part.curved.height")?);
            if height > core::f64::consts::PI * radius {
                let problem = "it would go further than half way round";
                return Err(doc.refuse("part.curved.height", problem, "at most pi times part.curved.radius"));
            }
            Ok(PartShape::Curved { radius, width, height })
        }
        ["part.frame"] => frame(doc, lean),
        [first, second, ..] => {
            let what = first.trim_start_matches("part.");
            Err(doc.refuse(second, &format!("the part is already a {what}"), &allowed))
        }
        _ => Err(doc.refuse("part", "there is nothing to paint", &allowed)),
    }
}

/// The tubes of a job's frame as its text measures them, upright; none where it has no frame or cannot be read.
#[must_use]
pub fn drawn_tubes(text: &str) -> Option<Vec<Member>> {
    let doc = Document::parse(text).ok()?;
    let frame = doc.frame("part.frame")?;
    let back = |m: &Member| Member { from: m.from + frame.middle, to: m.to + frame.middle, ..m.clone() };
    Some(frame.members.iter().map(back).collect())
}

/// The frame as it stands, with the members that strokes go along.
fn frame(doc: &Document<'_>, lean: f64) -> Result<PartShape, JobError> {
    let Some(frame) = doc.frame("part.frame") else { return Err(doc.missing("part.frame")) };
    let mut frame = frame.standing(lean);
    if doc.has("stroke.members") {
        let wanted = doc.words("stroke.members");
        let names: Vec<&str> = frame.members.iter().map(|m| m.name.as_str()).collect();
        let allowed = format!("names of its tubes: {}", names.join("; "));
        if wanted.is_empty() {
            return Err(doc.refuse("stroke.members", "no tube is picked", &allowed));
        }
        if let Some(unknown) = wanted.iter().find(|w| !names.contains(&w.as_str())) {
            let problem = format!("the frame has no tube \"{unknown}\"");
            let near = nearest(unknown, &names).map(|n| format!("did you mean \"{n}\"?"));
            let error = doc.refuse("stroke.members", &problem, &allowed);
            return Err(near.into_iter().fold(error, JobError::hint));
        }
        for member in &mut frame.members {
            member.sprayed = wanted.contains(&member.name);
        }
    }
    Ok(PartShape::Frame(Arc::new(frame)))
}

pub(super) fn lean(doc: &Document<'_>) -> Result<f64, JobError> {
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
