//! Words of the part's choice.

/// The words.
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs, reason = "a field's text is its meaning")]
pub struct PartsWords {
    pub curved_said: &'static str,
    pub frames: [(&'static str, &'static str); 4],
    pub own_frame: &'static str,
    pub frame_said: &'static str,
}

/// In English.
pub(super) const ENGLISH: PartsWords = PartsWords {
    curved_said: "curved panel {} × {}, radius {}",
    frames: [
        ("chair", "chair frame"),
        ("bicycle", "bicycle frame"),
        ("railing", "railing"),
        ("rack", "small parts on a rack"),
    ],
    own_frame: "frame",
    frame_said: "{}: {} tubes, {} together",
};
