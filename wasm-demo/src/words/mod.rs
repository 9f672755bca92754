//! Every word the page shows, in one place; a second language is a second [`Words`].

mod advice;
mod air;
pub mod booth;
pub mod class_hour;
mod english;
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
    pub ml_for_chair: &'static str,
    pub a_chair: &'static str,
    pub as_it_stands: &'static str,
    pub likely_film: &'static str,
    pub likely_short: &'static str,
    pub by_the_plan: &'static str,
    pub ranges_note: &'static str,
    pub page_failed: &'static str,
    pub ml_for_tube: &'static str,
    pub ml_for_panel: &'static str,
    pub on_it: &'static str,
    pub first_figures: &'static str,
    pub so_far: &'static str,
    pub so_far_on_line: &'static str,
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

/// The words in use.
pub fn words() -> &'static Words {
    &english::ENGLISH
}

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
    fn every_pattern_has_a_sign() {
        for (word, advice) in words().patterns {
            assert!(crate::draw::sign::pattern(word).is_some(), "{word}");
            assert!(!advice.is_empty());
        }
    }
}
