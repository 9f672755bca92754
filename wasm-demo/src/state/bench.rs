//! From the job's text to what the views draw and fly.

use mistcoat::job::{Job, JobError, PartShape, with_key, without_key};

/// A chair leg under a wide fan: what a first visitor sees.
pub const CHAIR_LEG: &str = include_str!("../../../core/examples/jobs/chair-leg-wide-fan.toml");
/// A table top: what "What is wrong with my pattern?" sprays its card with.
pub const TABLE_TOP: &str = include_str!("../../../core/examples/jobs/table-top.toml");

/// Size of the test card [mm].
pub const CARD_MM: (u32, u32) = (200, 400);

/// The same gun, paint and film wanted, on a test card: a burst with the gun held still at the middle.
///
/// # Errors
/// `JobError` when the burst is refused, or the text is no job.
pub fn card_job(text: &str, burst: &str, upright: bool) -> Result<String, JobError> {
    let text = with_key(&on_card(text, upright)?, "stroke.burst", burst)?;
    Job::from_toml(&text)?;
    Ok(text)
}

/// The same in one pass across the card's middle, at the job's pace, trigger on before its edge and off past it.
///
/// # Errors
/// `JobError` when the text is no job.
pub fn pass_job(text: &str, upright: bool) -> Result<String, JobError> {
    let text = without_key(&on_card(text, upright)?, "stroke.burst")?;
    let job = Job::from_toml(&text)?;
    let (end, distance) = (0.5 * f64::from(CARD_MM.0) + PASS_LEAD_MM, 1e3 * job.stroke.distance);
    let seconds = 2.0 * end / (1e3 * job.stroke.speed);
    let track =
        format!("[[0, -{end}, 0, {distance:.3}, 0, 0, 1], [{seconds:.4}, {end}, 0, {distance:.3}, 0, 0, 0]]");
    let text = with_key(&text, "stroke.track", &track)?;
    Job::from_toml(&text)?;
    Ok(text)
}

/// Way before the card and past it with the trigger on [mm].
const PASS_LEAD_MM: f64 = 80.0;

/// Gun and paint before the card in place of the part.
fn on_card(text: &str, upright: bool) -> Result<String, JobError> {
    let mut text = text.to_string();
    for key in [
        "part.tube",
        "part.panel",
        "part.curved",
        "part.frame",
        "stroke.members",
        "part.lean",
        "stroke.fan_axis",
        "stroke.sides",
        "stroke.hand",
        "stroke.plan",
        "stroke.heel",
        "stroke.swing",
        "stroke.feather",
        "stroke.track",
    ] {
        text = without_key(&text, key)?;
    }
    text = with_key(&text, "part.panel.width", &format!("{} mm", CARD_MM.0))?;
    text = with_key(&text, "part.panel.height", &format!("{} mm", CARD_MM.1))?;
    with_key(&text, "part.stands", if upright { "upright" } else { "flat" })
}

/// The same job with another hand: a word, or "own" for figures of one's own, at first a steady hand's.
///
/// # Errors
/// `JobError` when the text is no job.
pub fn with_hand(text: &str, hand: &str) -> Result<String, JobError> {
    let text = without_key(text, "stroke.hand")?;
    if hand != "own" {
        return with_key(&text, "stroke.hand", hand);
    }
    let figures = [("aim", "12 mm"), ("speed", "8 %"), ("distance", "12 mm")];
    figures
        .iter()
        .try_fold(text, |text, (name, value)| with_key(&text, &format!("stroke.hand.{name}"), value))
}

/// A job as the page offers it: by a steady hand, unless it says whose.
pub fn steadied(text: &str) -> String {
    let said =
        Job::from_toml(text).is_ok_and(|job| job.given.iter().any(|key| key.starts_with("stroke.hand")));
    let edited = if said { None } else { with_key(text, "stroke.hand", "steady").ok() };
    edited.unwrap_or_else(|| text.to_string())
}

/// Whether the job's part is a tube.
pub fn is_tube(job: &Job) -> bool {
    matches!(job.part, PartShape::Tube { .. })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::with_part;
    use mistcoat::report::chart::gun::face_of;

    #[test]
    fn the_presets_are_jobs() {
        let leg = Job::from_toml(CHAIR_LEG).unwrap();
        assert!(is_tube(&leg));
        assert!(!is_tube(&Job::from_toml(TABLE_TOP).unwrap()));
        let face = face_of(&leg);
        assert!(face.fan == 1.0 && face.cup_level == 0.5 && face.air == 1.0);
        assert!(face.pulled_bar < face.gauge_full_bar);
    }

    #[test]
    fn a_hand_is_chosen_by_word_or_by_figures() {
        let steady = steadied(CHAIR_LEG);
        let hand = |text: &str| Job::from_toml(text).unwrap().stroke.hand;
        assert_eq!(hand(&steady).word(), Some("steady"));
        assert_eq!(steadied(&steady), steady);
        let own = with_hand(&steady, "own").unwrap();
        assert!(hand(&own).word().is_none() && hand(&own).aim == 0.012);
        assert_eq!(hand(&with_hand(&own, "machine").unwrap()).word(), Some("machine"));
        // A card is sprayed from a gun held still: no word of a hand there.
        let card = Job::from_toml(&card_job(&own, "1 s", true).unwrap()).unwrap();
        assert!(card.notes.iter().all(|note| !note.contains("stroke.hand")), "{:?}", card.notes);
    }

    #[test]
    fn any_job_can_spray_a_card() {
        for text in [CHAIR_LEG, TABLE_TOP] {
            let card = Job::from_toml(&card_job(text, "0.5 s", true).unwrap()).unwrap();
            assert_eq!(card.part, PartShape::Panel { width: 0.2, height: 0.4 });
            assert_eq!(card.stroke.burst, Some(0.5));
            // The gun is the same but for how long its trigger is held.
            let mut gun = Job::from_toml(text).unwrap().gun;
            gun.held = 0.5;
            assert_eq!(card.gun, gun);
        }
        for text in [CHAIR_LEG, TABLE_TOP, crate::state::WORKSHOP] {
            let pass = Job::from_toml(&pass_job(text, false).unwrap()).unwrap();
            let track = pass.track.expect("one pass");
            assert_eq!(track.pieces().len(), 1);
            assert!((track.seconds() - 0.36 / pass.stroke.speed).abs() < 1e-3);
        }
        let refused = card_job(CHAIR_LEG, "5", true).unwrap_err();
        assert_eq!(refused.key, "stroke.burst");
    }

    #[test]
    fn the_part_can_be_swapped_and_back() {
        let panel = with_part(CHAIR_LEG, "panel").unwrap();
        assert!(!is_tube(&Job::from_toml(&panel).unwrap()));
        assert!(is_tube(&Job::from_toml(&with_part(&panel, "tube").unwrap()).unwrap()));
    }
}
