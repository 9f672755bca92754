//! Words of the film after it set.

/// The words.
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs, reason = "a field's text is its meaning")]
pub struct FinishWords {
    pub how_shown: &'static str,
    pub sprayed_so_far: &'static str,
    pub landing_note: &'static str,
    pub seen_note: &'static str,
    pub map_note: &'static str,
    pub marks_note: &'static str,
    pub texture_note: &'static str,
    pub nothing_wrong: &'static str,
    pub no_runs: &'static str,
    pub nothing_said: &'static str,
    /// Word of the report, name, and what its pattern on the map is.
    pub marks: [(&'static str, &'static str, &'static str); 3],
    /// Area, reason, where.
    pub mark_said: &'static str,
    pub worst: &'static str,
    pub run_said: &'static str,
    pub tears: &'static str,
    pub left: &'static str,
    pub right: &'static str,
    pub up: &'static str,
    pub down: &'static str,
    pub middle: &'static str,
    pub landed: &'static str,
    pub set: &'static str,
    pub from_to: &'static str,
    pub slid: &'static str,
    pub slid_beside: &'static str,
    pub sag_limit: &'static str,
    pub sag_beside: &'static str,
    pub peel: &'static str,
    pub dry_spray: &'static str,
    pub ours: &'static str,
    pub figures: &'static str,
}

/// In English.
pub(super) const ENGLISH: FinishWords = FinishWords {
    how_shown: "How the film is shown",
    sprayed_so_far: "Still spraying: runs, dry spray and texture come when it has set.",
    landing_note: "As it lands, to scale, over the old colour and a striped strip.",
    seen_note: "As it has set, to scale, over the old colour and a striped strip. Orange peel and dry spray are drawn stronger than true. \
                How far runs hang is the model's, which tear hangs longest is not.",
    map_note: "Dry film after it ran. Hatch: below the film wanted. Dots: above.",
    marks_note: "Outlined: runs (hanging strokes), dry spray (crosses), bare (outline alone).",
    texture_note: "Orange peel: waviness of the dry film between {} and {}. Dry spray: what is left of a droplet mark of {}, 0 to 1. \
                   Engineering criteria, ours: compare with them, do not measure by them.",
    nothing_wrong: "No runs, no dry spray, no bare places.",
    no_runs: "No runs, no dry spray.",
    nothing_said: "Runs and dry spray cannot be told with so few droplets.",
    marks: [("run", "Runs", "hanging strokes"), ("dry", "Dry spray", "crosses"), ("bare", "Bare", "outline")],
    mark_said: "{} of 100 of the area: {}.",
    worst: "Worst {}.",
    run_said: "Longest run {}, from {}.",
    tears: "Tears hang about {} apart.",
    left: "{} left of the middle",
    right: "{} right of the middle",
    up: "{} up",
    down: "{} down",
    middle: "at the middle",
    landed: "Dry film as landed",
    set: "Dry film after it ran",
    from_to: "{} to {}",
    slid: "Slid at most",
    slid_beside: "runs from {}",
    sag_limit: "Sags at once from",
    sag_beside: "wet, by {} a second",
    peel: "Orange peel",
    dry_spray: "Dry spray",
    ours: "our index",
    figures: "Figures of the film",
};
