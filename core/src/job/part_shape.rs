//! What is painted.

use crate::part::Frame;
use std::sync::Arc;

/// The part's shape.
#[derive(Debug, Clone, PartialEq)]
pub enum PartShape {
    /// Flat panel.
    Panel {
        /// Along the strokes [m].
        width: f64,
        /// Across the strokes [m].
        height: f64,
    },
    /// Straight tube; strokes run along it.
    Tube {
        /// Outer diameter [m].
        diameter: f64,
        /// Length [m].
        length: f64,
    },
    /// Panel curved outwards about an axis along the strokes, as a lying barrel is.
    Curved {
        /// Outward radius of its face [m].
        radius: f64,
        /// Along the strokes and the axis of its curve [m].
        width: f64,
        /// Across the strokes, measured over the face [m].
        height: f64,
    },
    /// Frame of straight tubes; strokes run along each.
    Frame(Arc<Frame>),
}

impl PartShape {
    /// One flat face, before which the cap may be turned at will.
    #[must_use]
    pub fn is_flat(&self) -> bool {
        // Every shape by its name, so that a new one is asked for.
        match self {
            Self::Panel { .. } => true,
            Self::Tube { .. } | Self::Curved { .. } | Self::Frame(_) => false,
        }
    }

    /// The fan may lie along the strokes or across them and matters: before tubes.
    #[must_use]
    pub fn is_of_tubes(&self) -> bool {
        match self {
            Self::Tube { .. } | Self::Frame(_) => true,
            Self::Panel { .. } | Self::Curved { .. } => false,
        }
    }
}
