//! Every word the page shows, in one place; a second language is a second [`Words`].

mod advice;
mod air;
pub mod booth;
pub mod class_hour;
pub mod faults;
mod finish;
mod gun;
pub mod hand;
mod judge;
pub mod kept;
pub mod match_gun;
mod paint;
mod parts;
pub mod sheet;
mod stroke;

pub use advice::AdviceWords;
pub use air::AirWords;
pub use finish::FinishWords;
pub use gun::GunWords;
pub use judge::JudgeWords;
pub use paint::PaintWords;
pub use parts::PartsWords;
pub use stroke::StrokeWords;
mod side;
pub use side::SideWords;
pub mod search;
mod sweep;
pub mod why;
pub use sweep::SweepWords;

/// The page's words. Places for figures are written `{}`, filled in order by [`fill`].
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs, reason = "a field's text is its meaning")]
pub struct Words {
    pub advice: AdviceWords,
    pub air: AirWords,
    pub booth: booth::BoothWords,
    pub hand: hand::HandWords,
    /// Runs put aside.
    pub kept_runs: kept::KeptWords,
    /// The set-up sheet.
    pub sheet: sheet::SheetWords,
    pub class_hour: class_hour::ClassWords,
    pub side: SideWords,
    /// What should I set?
    pub search: search::SearchWords,
    pub sweep: SweepWords,
    /// Why one run takes less paint.
    pub why: why::WhyWords,
    pub menu: &'static str,
    pub card: &'static str,
    pub part: &'static str,
    pub undo: &'static str,
    pub redo: &'static str,
    pub link: &'static str,
    pub units: &'static str,
    pub metric: &'static str,
    pub us: &'static str,
    pub dark: &'static str,
    pub light: &'static str,
    pub questions: &'static str,
    pub ask_fan: &'static str,
    pub ask_pattern: &'static str,
    pub gun: &'static str,
    pub fan_knob: &'static str,
    pub air_knob: &'static str,
    pub fluid_knob: &'static str,
    pub fan_does: &'static str,
    pub air_does: &'static str,
    pub fluid_does: &'static str,
    pub turns_out: &'static str,
    pub turn_out: &'static str,
    pub open_of_100: &'static str,
    pub shut: &'static str,
    pub wide_open: &'static str,
    pub at_the_gun: &'static str,
    pub turns_wrong: &'static str,
    pub less: &'static str,
    pub more: &'static str,
    pub order: &'static str,
    pub elsewhere: &'static str,
    pub left_hand: &'static str,
    pub right_hand: &'static str,
    pub cup: &'static str,
    pub cup_left: &'static str,
    pub vent: &'static str,
    pub vent_does: &'static str,
    pub air_cap: &'static str,
    pub cap_clicks: [&'static str; 4],
    pub cap_cut: &'static str,
    pub cap_front: &'static str,
    pub tip: &'static str,
    pub tip_does: &'static str,
    pub closer: &'static str,
    pub closer_does: &'static str,
    pub trigger: &'static str,
    pub trigger_does: &'static str,
    pub trigger_short: &'static str,
    pub turn_cap: &'static str,
    pub stages: [&'static str; 3],
    pub gauge: &'static str,
    pub air_way: &'static str,
    pub air_way_does: &'static str,
    pub paint_way: &'static str,
    pub paint_way_does: &'static str,
    pub hose: &'static str,
    pub gun_closer: &'static str,
    pub turn_this: &'static str,
    pub same_film: &'static str,
    pub fan_names: [&'static str; 4],
    pub ml_for_tube: &'static str,
    pub ml_for_panel: &'static str,
    pub on_it: &'static str,
    pub first_figures: &'static str,
    pub to_go: &'static str,
    pub setting: &'static str,
    pub card_first: &'static str,
    pub runs_too: &'static str,
    pub likely: &'static str,
    pub at_film: &'static str,
    pub of_100: &'static str,
    pub end_panel_says: &'static str,
    pub dry_mean: &'static str,
    pub wanted: &'static str,
    pub thinnest: &'static str,
    pub trigger_on: &'static str,
    pub runs: &'static str,
    pub none: &'static str,
    pub wet_film: &'static str,
    pub where_went: &'static str,
    pub on_part: &'static str,
    pub passed: &'static str,
    pub fog: &'static str,
    pub this_job: &'static str,
    pub large_panel: &'static str,
    pub keep: &'static str,
    pub kept: &'static str,
    pub now: &'static str,
    pub stop: &'static str,
    pub stopped: &'static str,
    pub given_up: &'static str,
    pub no_worker: &'static str,
    pub flown: &'static str,
    pub waiting: &'static str,
    pub end_tube: &'static str,
    pub end_panel: &'static str,
    pub end_says: &'static str,
    pub end_compare: &'static str,
    pub to_scale: &'static str,
    pub fan_at: &'static str,
    pub yours: &'static str,
    pub field_kit: &'static str,
    pub field_paint: &'static str,
    pub field_shape: &'static str,
    pub shape_tube: &'static str,
    pub shape_panel: &'static str,
    pub field_diameter: &'static str,
    pub field_length: &'static str,
    pub field_width: &'static str,
    pub field_height: &'static str,
    pub field_distance: &'static str,
    pub field_speed: &'static str,
    pub field_sides: &'static str,
    pub field_overlap: &'static str,
    pub field_coats: &'static str,
    pub film_map_tube: &'static str,
    pub film_map_panel: &'static str,
    pub map_note: &'static str,
    pub map_of: &'static str,
    pub finer: &'static str,
    pub wet_pass: &'static str,
    pub burst: &'static str,
    pub how_sprayed: &'static str,
    pub burst_seconds: &'static str,
    pub upright: &'static str,
    pub flat: &'static str,
    pub how_shown: &'static str,
    pub as_seen: &'static str,
    pub as_map: &'static str,
    pub both: &'static str,
    pub along: &'static str,
    pub across: &'static str,
    pub measured: &'static str,
    pub fan_height: &'static str,
    pub fan_thickness: &'static str,
    pub drops_half: &'static str,
    pub peak_film: &'static str,
    pub what_to_turn: &'static str,
    pub patterns: [(&'static str, &'static str); 9],
    pub middle_sentence: (&'static str, &'static str),
    pub height_sentence: (&'static str, &'static str),
    pub thin: &'static str,
    pub wanted_short: &'static str,
    pub thick: &'static str,
    pub caution_part: &'static str,
    pub caution_start: &'static str,
    pub caution_gun: &'static str,
    pub caution_two_pack: &'static str,
    pub data_table: &'static str,
    pub place: &'static str,
    pub film_at: &'static str,
    pub skip: &'static str,
    pub coats_words: [&'static str; 2],
    pub paint: PaintWords,
    pub parts: PartsWords,
    pub judge: JudgeWords,
    pub stroke: StrokeWords,
    pub finish: FinishWords,
    pub faults: faults::FaultWords,
    pub matching: match_gun::MatchWords,
    pub kits: GunWords,
}

/// Fills the places of a sentence, in order; a place with no figure stays empty.
pub fn fill(sentence: &str, figures: &[&str]) -> String {
    let mut figures = figures.iter();
    let mut out = String::with_capacity(sentence.len() + 16);
    for (i, piece) in sentence.split("{}").enumerate() {
        if i > 0 {
            out.push_str(figures.next().copied().unwrap_or_default());
        }
        out.push_str(piece);
    }
    out
}

/// A cup's name as it is said: "DIN 4" for "din-4".
pub fn cup_name(id: &'static str) -> &'static str {
    const NAMES: [(&str, &str); 15] = [
        ("iso-3", "ISO 3 mm"),
        ("iso-4", "ISO 4 mm"),
        ("iso-5", "ISO 5 mm"),
        ("iso-6", "ISO 6 mm"),
        ("din-4", "DIN 4 mm"),
        ("ford-1", "Ford 1"),
        ("ford-2", "Ford 2"),
        ("ford-3", "Ford 3"),
        ("ford-4", "Ford 4"),
        ("ford-5", "Ford 5"),
        ("zahn-1", "Zahn 1"),
        ("zahn-2", "Zahn 2"),
        ("zahn-3", "Zahn 3"),
        ("zahn-4", "Zahn 4"),
        ("zahn-5", "Zahn 5"),
    ];
    NAMES.iter().find(|(known, _)| *known == id).map_or(id, |(_, name)| name)
}

/// The words in use.
pub fn words() -> &'static Words {
    &ENGLISH
}

static ENGLISH: Words = Words {
    advice: advice::ENGLISH,
    air: air::ENGLISH,
    booth: booth::ENGLISH,
    hand: hand::ENGLISH,
    kept_runs: kept::ENGLISH,
    sheet: sheet::ENGLISH,
    class_hour: class_hour::ENGLISH,
    side: side::ENGLISH,
    search: search::ENGLISH,
    sweep: sweep::ENGLISH,
    why: why::ENGLISH,
    menu: "Views",
    card: "Card",
    part: "Part",
    undo: "Undo",
    redo: "Redo",
    link: "Link to this job",
    units: "Units",
    metric: "Metric",
    us: "US",
    dark: "Dark",
    light: "Light",
    questions: "Start with a question",
    ask_fan: "What fan for this part?",
    ask_pattern: "What is wrong with my pattern?",
    gun: "The gun",
    fan_knob: "Fan knob",
    air_knob: "Air knob",
    fluid_knob: "Fluid knob",
    fan_does: "Lets air to the horns. In: round spot. Out: tall fan.",
    air_does: "At the foot of the handle, behind the gauge. A throttle: leave it open and set the pressure at the gauge.",
    fluid_does: "On the needle’s axis. A stop for the trigger: how far the needle may come back.",
    turns_out: "turns out",
    turn_out: "turn out",
    open_of_100: "{} of 100 open",
    shut: "shut",
    wide_open: "fully open",
    at_the_gun: "at the gun",
    turns_wrong: "{} is not a number of turns. Allowed: 0 to {}, such as 1 1/4.",
    less: "{}: in, an eighth of a turn",
    more: "{}: out, an eighth of a turn",
    order: "Turn the knobs. Out, anticlockwise, is more. Set in the order 1, 2, 3, the gauge read with the trigger pulled.",
    elsewhere: "Yours may sit elsewhere: follow the names.",
    left_hand: "Left-hand gun",
    right_hand: "Right-hand gun",
    cup: "Cup, gravity feed",
    cup_left: "{} left of {}",
    vent: "Vent",
    vent_does: "Blocked: the flow dies.",
    air_cap: "Air cap",
    cap_clicks: [
        "Horns left and right: upright fan.",
        "Between clicks: the fan leans.",
        "Horns up and down: the fan lies flat.",
        "Between clicks: the fan leans.",
    ],
    cap_cut: "Drawn cut through its horns. Turns in clicks; faults turn with it.",
    cap_front: "Cap, from the front",
    tip: "Tip and needle",
    tip_does: "Bore {}. Pulled, the needle comes back and paint runs between them.",
    closer: "Cap and tip, closer",
    closer_does: "Air leaves round the tip and from the horn holes. The needle’s way is drawn longer than it is.",
    trigger: "Trigger",
    trigger_short: "First air, then paint, as far as the fluid knob lets it.",
    turn_cap: "Turn the cap a quarter",
    trigger_does: "Two stages: air first, then paint. On release the paint stops first. Pulled to the fluid knob’s stop.",
    stages: ["rest", "air", "paint"],
    gauge: "Gauge",
    air_way: "Air passage",
    air_way_does: "One way to the cap, one past the fan knob to the horns.",
    paint_way: "Paint way",
    paint_way_does: "Cup to tip, in the paint’s own colour.",
    hose: "Hose, to the compressor",
    gun_closer: "The gun, piece by piece",
    turn_this: "Turn this.",
    same_film: "Same film. Why?",
    fan_names: ["Round spot", "Near round", "Half fan", "Wide fan"],
    ml_for_tube: "{} for one tube.",
    ml_for_panel: "{} for one panel.",
    on_it: "On it: {}.",
    first_figures: "The first figures come when the run is done.",
    to_go: "{}, about {} to go",
    card_first: "a card first, to find the fan",
    setting: "All flown; the film is laid and sets.",
    runs_too: "It runs on {} of 100 of the area.",
    likely: "Likely {} to {}. The range is the model’s.",
    at_film: "Brought to {} dry, the middle of the film wanted.",
    of_100: "of 100",
    end_panel_says: "Of 100 mL sprayed, {} stay on it.",
    dry_mean: "Dry film, mean",
    wanted: "wanted {}–{}",
    thinnest: "Dry film, thinnest",
    trigger_on: "Trigger on",
    runs: "Runs",
    none: "none",
    wet_film: "wet film {}",
    where_went: "Where the paint went",
    on_part: "on the part",
    passed: "passed it by",
    fog: "fog, bounce",
    this_job: "This job: {} of 100 stayed on the part.",
    large_panel: "Same gun on a large panel: {} of 100.",
    keep: "Keep this run",
    kept: "kept",
    now: "now",
    stop: "Stop",
    stopped: "Stopped.",
    given_up: "The program itself failed on this job and gave it up; its link still opens it. It said:",
    no_worker: "This browser gives the page no worker, so nothing can be flown. It said:",
    flown: "{} of 100 flown",
    waiting: "Flying the first droplets.",
    end_tube: "Seen from the end of the tube",
    end_panel: "Seen from the edge of the panel",
    end_says: "Of 100 mL sprayed, {} stay on it. The fan is {} times as tall as the tube. What does not meet it flies on to the filter.",
    end_compare: "The tube needs the same {}. {}, {} of 100 mL sprayed meet it. {}, {} did. The rest flew past.",
    to_scale: "Drawn to scale. Each dot is a droplet of the run, all at one moment; dark ones land.",
    fan_at: "fan height {} at {}",
    yours: "Now yours.",
    field_kit: "Gun and nozzle set",
    field_paint: "Paint",
    field_shape: "Part",
    shape_tube: "tube",
    shape_panel: "panel",
    field_diameter: "Tube diameter",
    field_length: "Tube length",
    field_width: "Panel width",
    field_height: "Panel height",
    field_distance: "Distance, tip to part",
    field_speed: "Gun speed",
    field_sides: "Passes from this many sides",
    field_overlap: "Overlap",
    field_coats: "Coats",
    film_map_tube: "Dry film, tube unrolled",
    film_map_panel: "Dry film on the panel",
    map_of: "dry film, wanted {}–{}",
    finer: "drops or finer",
    wet_pass: "Wet film, thickest",
    map_note: "Dry film. Hatch: below the film wanted. Dots: above.",
    burst: "Burst",
    how_sprayed: "How the card is sprayed",
    burst_seconds: "Burst",
    upright: "Card upright",
    flat: "Card flat",
    how_shown: "How the film is shown",
    as_seen: "As seen",
    as_map: "As map",
    both: "Both",
    along: "along",
    across: "across",
    measured: "Measured between the lines where the profile is a tenth of its peak.",
    fan_height: "Fan height",
    fan_thickness: "Fan thickness",
    drops_half: "Half the paint",
    peak_film: "Dry film, thickest",
    what_to_turn: "What to turn",
    patterns: [
        ("balanced", "Nothing to turn. Spray the part."),
        (
            "heavy centre",
            "Fan knob out, an eighth at a time. If it is still heavy in the middle, fluid knob in.",
        ),
        ("split", "Fan knob in, an eighth at a time. If the film is then too slow to build, fluid knob out."),
        (
            "crescent",
            "Turn the cap half round and spray again. The belly swaps sides: a horn hole is blocked, clean the cap. It stays: look at the tip.",
        ),
        (
            "heavy end",
            "Turn the cap half round and spray again. The heavy end swaps: clean the cap. It stays: clean the tip, or renew it.",
        ),
        ("starved", "Fluid knob out, or less air. Look at the cup: empty, too thick, its vent blocked?"),
        ("flooded", "Fluid knob in, or more pressure; thin the paint if the data sheet lets you."),
        (
            "spitting",
            "Air is in the paint. Tighten the fluid tip, then the packing; look at how full the cup is.",
        ),
        ("round", "Right for thin tubes. Fan knob out for a tall fan."),
    ],
    middle_sentence: ("{}. The middle:", "of what the ends hold."),
    height_sentence: ("{}. Fan height:", "at {}."),
    thin: "thin",
    wanted_short: "wanted",
    thick: "thick",
    caution_part: "Mist burns: no flame, heater or switch in the cloud; booth with extract; earth metal parts.",
    caution_start: "A start point for a test card. The data sheet, the maker’s limits, local code and licensed practice win.",
    caution_gun: "Never above the pressure stamped on gun, hose or pot. Never at a person.",
    caution_two_pack: "Two-pack: isocyanates can make one allergic for life. Supplied air and covered skin, also for mixing and cleaning; filter masks only where data sheet and local rule allow. This page is not the training the law asks for.",
    data_table: "Figures as a table",
    place: "place",
    film_at: "dry film",
    skip: "Skip to the view",
    coats_words: ["one coat", "{} coats"],
    paint: paint::ENGLISH,
    parts: parts::ENGLISH,
    judge: judge::ENGLISH,
    stroke: stroke::ENGLISH,
    finish: finish::ENGLISH,
    faults: faults::ENGLISH,
    matching: match_gun::ENGLISH,
    kits: gun::ENGLISH,
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sentences_fill_in_order() {
        assert_eq!(fill("{} left of {}.", &["3", "5"]), "3 left of 5.");
        assert_eq!(fill("{} and {}", &["3"]), "3 and ");
        assert_eq!(fill("plain", &["3"]), "plain");
    }

    #[test]
    fn every_cup_has_a_name() {
        for cup in mistcoat::flow_cup::Cup::all() {
            assert_ne!(cup_name(cup.id()), cup.id());
        }
    }

    #[test]
    fn every_pattern_has_a_sign() {
        for (word, advice) in words().patterns {
            assert!(crate::draw::sign::pattern(word).is_some(), "{word}");
            assert!(!advice.is_empty());
        }
    }
}
