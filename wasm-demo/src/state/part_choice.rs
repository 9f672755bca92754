//! Which part: words for the choice, and what a change of it does to the job.

use mistcoat::job::{Job, JobError, PartShape, drawn_tubes, with_key, without_key};
use mistcoat::part::{Frame, Member};

/// The parts one can choose; "own" is a list of tubes.
pub const PART_WORDS: [&str; 8] = ["panel", "curved", "tube", "chair", "bicycle", "railing", "rack", "own"];

/// The word of a job's part.
pub fn part_word(job: &Job) -> &'static str {
    match &job.part {
        PartShape::Panel { .. } => "panel",
        PartShape::Curved { .. } => "curved",
        PartShape::Tube { .. } => "tube",
        PartShape::Frame(frame) => frame.shape.unwrap_or("own"),
    }
}

/// Keys of the sizes of a part, with the sizes it begins with.
fn sizes(word: &str) -> &'static [(&'static str, &'static str)] {
    match word {
        "panel" => &[("part.panel.width", "600 mm"), ("part.panel.height", "400 mm")],
        "curved" => &[
            ("part.curved.radius", "400 mm"),
            ("part.curved.width", "350 mm"),
            ("part.curved.height", "450 mm"),
        ],
        "tube" => &[("part.tube.diameter", "22 mm"), ("part.tube.length", "600 mm")],
        _ => &[],
    }
}

/// The same job with another part. A list of one's own begins with the tubes of the frame that was there, else with a post and an arm.
///
/// # Errors
/// `JobError` when the text is no job, or the new one is none.
pub fn with_part(text: &str, word: &str) -> Result<String, JobError> {
    let own = drawn_tubes(text).unwrap_or_else(|| {
        let at = |x: f64, y: f64| glam::DVec3::new(x, y, 0.0);
        vec![
            Member::new("post", at(0.0, 0.0), at(0.0, 0.6), 0.022),
            Member::new("arm", at(0.0, 0.4), at(0.3, 0.4), 0.022),
        ]
    });
    let mut text = text.to_string();
    for key in ["part.panel", "part.tube", "part.curved", "part.frame", "stroke.members"] {
        text = without_key(&text, key)?;
    }
    for (key, value) in sizes(word) {
        text = with_key(&text, key, value)?;
    }
    if Frame::SHAPES.contains(&word) {
        text = with_key(&text, "part.frame", word)?;
    } else if word == "own" {
        text = with_key(&text, "part.frame", &tubes_literal(&own))?;
    }
    let tubes = !matches!(word, "panel" | "curved");
    if !tubes {
        for key in ["stroke.sides", "stroke.fan_axis"] {
            text = without_key(&text, key)?;
        }
    }
    // What means something on a panel alone, or cannot be flown along a frame.
    if word != "panel" {
        for key in ["stroke.plan", "stroke.heel"] {
            text = without_key(&text, key)?;
        }
    }
    if tubes && word != "tube" {
        for key in ["stroke.track", "stroke.burst"] {
            text = without_key(&text, key)?;
        }
    }
    Ok(text)
}

/// A list of tubes as the job file has it, lengths in mm.
pub fn tubes_literal(tubes: &[Member]) -> String {
    let mm = |v: f64| format!("\"{} mm\"", (v * 1e6).round() / 1e3);
    let point = |p: glam::DVec3| format!("[{}, {}, {}]", mm(p.x), mm(p.y), mm(p.z));
    let one = |t: &Member| {
        let name = t.name.replace(['"', '\\'], "'");
        format!(
            "{{ name = \"{name}\", from = {}, to = {}, diameter = {} }}",
            point(t.from),
            point(t.to),
            mm(t.diameter)
        )
    };
    format!("{{ tubes = [{}] }}", tubes.iter().map(one).collect::<Vec<_>>().join(", "))
}

/// The job with a member of its frame sprayed or not.
///
/// # Errors
/// `JobError` when the text is no job with a frame, or no member would be left.
pub fn with_member(text: &str, name: &str, sprayed: bool) -> Result<String, JobError> {
    let job = Job::from_toml(text)?;
    let PartShape::Frame(frame) = &job.part else { return Ok(text.into()) };
    let kept = |m: &&Member| if m.name == name { sprayed } else { m.sprayed };
    let names: Vec<String> =
        frame.members.iter().filter(kept).map(|m| format!("\"{}\"", m.name.replace('"', "\\\""))).collect();
    let text = with_key(text, "stroke.members", &format!("[{}]", names.join(", ")))?;
    Job::from_toml(&text)?;
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::{CHAIR_LEG, TABLE_TOP};

    #[test]
    fn every_part_can_be_chosen_from_every_other() {
        for start in [CHAIR_LEG, TABLE_TOP] {
            let mut text = start.to_string();
            for word in PART_WORDS.into_iter().chain(PART_WORDS) {
                text = with_part(&text, word).unwrap();
                let job = Job::from_toml(&text).unwrap_or_else(|e| panic!("{word}: {e}\n{text}"));
                assert_eq!(part_word(&job), word);
            }
        }
    }

    #[test]
    fn a_list_of_ones_own_keeps_its_measures() {
        let chair = with_part(CHAIR_LEG, "chair").unwrap();
        let own = with_part(&chair, "own").unwrap();
        let (a, b) = (drawn_tubes(&chair).unwrap(), drawn_tubes(&own).unwrap());
        assert_eq!(a.len(), b.len());
        for (a, b) in a.iter().zip(&b) {
            assert!(a.name == b.name && (a.from - b.from).length() < 1e-6 && (a.to - b.to).length() < 1e-6);
        }
    }

    #[test]
    fn members_are_picked_by_name_and_one_is_left() {
        let chair = with_part(CHAIR_LEG, "chair").unwrap();
        let text = with_member(&chair, "rung, left", false).unwrap();
        let sprayed = |text: &str| match Job::from_toml(text).unwrap().part {
            PartShape::Frame(frame) => frame.members.iter().filter(|m| m.sprayed).count(),
            _ => 0,
        };
        assert_eq!((sprayed(&chair), sprayed(&text)), (14, 13));
        let mut last = text;
        let frame = Frame::named("chair").unwrap();
        for member in &frame.members[..13] {
            last = with_member(&last, &member.name, false).unwrap_or(last);
        }
        assert!(with_member(&last, &frame.members[13].name, false).is_err());
    }
}
