use super::marking::chosen_of;
use super::*;
use crate::compare::{Candidate, Comparison, Money};
use crate::job::{Job, with_key};

const TABLE_TOP: &str = include_str!("../../examples/jobs/table-top.toml");
const AIR: &str = include_str!("../../examples/jobs/cafe-workshop-air.toml");
const LEG: &str = include_str!("../../examples/jobs/chair-leg-near-round.toml");

fn job(text: &str, exercise: &str, keys: &[(&str, &str)]) -> Job {
    let mut text = with_key(text, "practice.exercise", exercise).unwrap();
    for (key, value) in keys {
        text = with_key(&text, key, value).unwrap();
    }
    Job::from_toml(&text).unwrap()
}

fn marked(job: Job) -> Mark {
    let mut marking = Marking::new(job).unwrap();
    while !marking.advance(1 << 16).unwrap() {
        assert!((0.0..=1.0).contains(&marking.done()));
    }
    assert_eq!(marking.done(), 1.0);
    marking.mark().unwrap().clone()
}

#[test]
fn a_spoiled_pattern_is_marked_by_its_name_and_the_turns() {
    let split = marked(job(TABLE_TOP, "balance", &[("gun.fluid", "0.3"), ("practice.turns", "2")]));
    assert_eq!((split.said.as_deref(), split.reached), (Some("split"), false));
    let balanced = marked(job(TABLE_TOP, "balance", &[("practice.turns", "3")]));
    assert_eq!((balanced.said.as_deref(), balanced.reached, balanced.off), (Some("balanced"), true, 3.0));
    let late = marked(job(TABLE_TOP, "balance", &[("practice.turns", "7")]));
    assert!(!late.reached);
}

#[test]
fn a_wide_fan_on_a_thin_tube_is_far_from_the_best() {
    let wide = marked(job(LEG, "fan-for-tube", &[("gun.fan", "1.0")]));
    let near = marked(job(LEG, "fan-for-tube", &[("gun.fan", "0.1")]));
    assert!(!wide.reached && wide.off > 0.5, "{wide:?}");
    assert!(near.reached && near.wanted == wide.wanted, "{near:?} {wide:?}");
}

#[test]
fn a_guess_of_the_wall_pressure_is_right_within_three_tenths() {
    let truth = marked(job(AIR, "wall-pressure", &[("practice.answer", "3 bar")])).wanted.unwrap();
    for (off, right) in [(0.0, true), (0.29e5, true), (-0.31e5, false)] {
        let said = format!("{} bar", (truth + off) * 1e-5);
        let mark = marked(job(AIR, "wall-pressure", &[("practice.answer", &said)]));
        assert_eq!(mark.reached, right, "{said}: {mark:?}");
    }
    let psi = marked(job(AIR, "wall-pressure", &[("practice.answer", "40 psi")]));
    assert!((psi.figure - 275_790.0).abs() < 10.0);
}

#[test]
fn an_amount_is_right_within_a_tenth() {
    let keys = [("mix.parts", "6"), ("run.droplets", "20000"), ("practice.answer", "1 mL")];
    let truth = marked(job(TABLE_TOP, "mix-for-six", &keys)).wanted.unwrap();
    for (share, right) in [(1.0, true), (1.09, true), (0.7, false), (1.2, false)] {
        let said = format!("{} mL", truth * share * 1e6);
        let keys = [("mix.parts", "6"), ("run.droplets", "20000"), ("practice.answer", &said)];
        let mark = marked(job(TABLE_TOP, "mix-for-six", &keys));
        assert_eq!(mark.reached, right, "{said}: {mark:?}");
    }
}

#[test]
fn five_tries_need_the_last_right_and_all_close() {
    let tries = |list| job(TABLE_TOP, "five-tries", &[("practice.tries", list)]);
    assert!(marked(tries("[0.2, 0.8, 0.84, 0.86, 0.87, 0.9]")).reached);
    assert!(!marked(tries("[0.5, 0.6, 0.9, 0.7, 0.9]")).reached, "too far apart");
    assert!(!marked(tries("[0.9, 0.9, 0.9, 0.9, 0.84]")).reached);
    assert!(Marking::new(tries("[0.9, 0.9]")).err().unwrap().to_string().contains("2 tries"));
}

#[test]
fn what_cannot_be_marked_says_why() {
    let why = |job: Job| Marking::new(job).err().unwrap().to_string();
    assert!(why(Job::from_toml(TABLE_TOP).unwrap()).contains("practice.exercise"));
    assert!(why(job(AIR, "wall-pressure", &[])).contains("practice.answer"));
    assert!(why(job(AIR, "wall-pressure", &[("practice.answer", "three")])).contains("\"three\""));
    assert!(why(job(TABLE_TOP, "two-boxes", &[("practice.answer", "C")])).contains("\"C\""));
    assert!(why(job(TABLE_TOP, "two-boxes", &[("practice.answer", "A")])).contains("compare.kits"));
}

#[test]
fn each_spoiled_pattern_is_spoiled_as_it_says_and_its_knobs_can_mend_it() {
    for spoiled in SPOILED {
        let keys: Vec<_> = spoiled.knobs.to_vec();
        let mark = marked(job(TABLE_TOP, "balance", &keys));
        assert_eq!((mark.said.as_deref(), mark.reached), (Some(spoiled.pattern), false), "{spoiled:?}");
        // The table top's own setting mends each of them, a turn a knob.
        let mended: Vec<_> = keys
            .iter()
            .map(|&(key, _)| (key, if key == "gun.fluid" { "0.8" } else { "1.0" }))
            .chain([("practice.turns", "2")])
            .collect();
        assert!(marked(job(TABLE_TOP, "balance", &mended)).reached, "{spoiled:?}");
    }
}

#[test]
fn the_box_that_holds_and_takes_least_is_the_right_one() {
    let text = include_str!("../../examples/jobs/chair-leg-which-gun.toml");
    let kits = r#"[{ kit = "conventional-gravity-3.0" }, { kit = "lvlp-gravity-1.2" }]"#;
    let keys = [("compare.kits", kits), ("run.droplets", "4000"), ("supply.compressor", "workshop-1.1kW")];
    let job = job(text, "two-boxes", &keys);
    let mut comparison = Comparison::new(job.clone(), Candidate::of(&job).unwrap(), Money::of(&job)).unwrap();
    comparison.finish();
    let rows = comparison.answer().rows;
    let [a, b] = [0, 1].map(|chosen| chosen_of(&rows, chosen).unwrap());
    println!("{a:?}\n{b:?}");
    assert!(b.reached && !a.reached && b.off == 0.0, "{a:?} {b:?}");
    assert_eq!((a.said.as_deref(), b.said.as_deref()), (Some("A"), Some("B")));
}
