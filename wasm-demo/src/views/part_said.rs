//! A part in words, short.

use mistcoat::job::PartShape;
use mistcoat::units::{Quantity, System};

use crate::figures::{far, said};
use crate::words::{fill, words};

/// "tube 22 mm, 600 mm", "chair frame: 14 tubes, 5.6 m together".
pub fn part_said(part: &PartShape, system: System) -> String {
    let w = words();
    let say = |v: f64| said(Quantity::Length, v, system);
    match part {
        &PartShape::Tube { diameter, length } => {
            format!("{} {}, {}", w.shape_tube, say(diameter), say(length))
        }
        &PartShape::Panel { width, height } => format!("{} {} × {}", w.shape_panel, say(width), say(height)),
        &PartShape::Curved { radius, width, height } => {
            fill(w.parts.curved_said, &[&say(width), &say(height), &say(radius)])
        }
        PartShape::Frame(frame) => {
            let known = w.parts.frames.iter().find(|(word, _)| frame.shape == Some(*word));
            let name = known.map_or(w.parts.own_frame, |(_, name)| name);
            fill(w.parts.frame_said, &[name, &frame.members.len().to_string(), &far(frame.length(), system)])
        }
    }
}
