//! Words of the runs put aside.

/// Words of the shelf.
#[derive(Debug, Clone, Copy)]
pub struct KeptWords {
    /// Heading.
    pub title: &'static str,
    /// What it is for.
    pub about: &'static str,
    /// The run in hand.
    pub now: &'static str,
    /// A run by its number.
    pub run: &'static str,
    /// Column heads, in the order of `state::kept::Column::ALL`; the units stand in the figures.
    pub columns: [&'static str; 6],
    /// Head of the column with what was set differently.
    pub set: &'static str,
    /// Nothing was set differently.
    pub alike: &'static str,
    /// The same inside counting.
    pub same: &'static str,
    /// A key that one of the jobs leaves out.
    pub left_out: &'static str,
    /// More keys than are shown.
    pub more: &'static str,
    /// Compares with it.
    pub compare: &'static str,
    /// Loads its job.
    pub load: &'static str,
    /// Takes it off the shelf.
    pub drop: &'static str,
    /// Labels of keys, for those that are turned most.
    pub keys: [(&'static str, &'static str); 18],
}

/// English.
pub const ENGLISH: KeptWords = KeptWords {
    title: "Kept runs",
    about: "Paint is for one part at the middle of the film wanted, as on the clipboard. Below each figure of a kept run: how much more or less it is now.",
    now: "now",
    run: "run {}",
    columns: [
        "paint for a part",
        "stays, of 100",
        "dry film",
        "uneven",
        "runs, of 100 of the area",
        "trigger on",
    ],
    set: "set differently",
    alike: "nothing",
    same: "same",
    left_out: "not given",
    more: "and {} more",
    compare: "Compare",
    load: "Load",
    drop: "Drop",
    keys: [
        ("gun.kit", "gun"),
        ("gun.fan", "fan knob"),
        ("gun.fluid", "fluid knob"),
        ("gun.air_knob", "air knob"),
        ("gun.inlet_pressure", "pressure"),
        ("gun.cap_turn", "cap turned"),
        ("gun.faults", "faults"),
        ("paint.kind", "paint"),
        ("paint.thinning", "thinner"),
        ("paint.mix", "mix"),
        ("stroke.distance", "distance"),
        ("stroke.speed", "speed"),
        ("stroke.overlap", "overlap"),
        ("stroke.coats", "coats"),
        ("stroke.sides", "sides"),
        ("stroke.fan_axis", "fan lies"),
        ("stroke.hand", "hand"),
        ("run.seed", "seed"),
    ],
};

impl KeptWords {
    /// What a key is called; its own path where it has no word.
    pub fn key(&self, path: &'static str) -> &'static str {
        self.keys.iter().find(|(key, _)| *key == path).map_or(path, |(_, word)| word)
    }
}
