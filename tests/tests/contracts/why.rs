//! Why one job takes less paint than another: the parts make the whole, and what changes nothing is exactly nothing.

use mistcoat::job::{Job, with_key};
use mistcoat::units::System;
use mistcoat::why::{Answer, Cause, Why, words};
use mistcoat_tests::scenes::example;

fn with(name: &str, keys: &[(&str, &str)]) -> Job {
    let text = keys
        .iter()
        .fold(example(name).text, |text, (key, value)| with_key(&text, key, value).expect("a key"));
    Job::from_toml(&text).expect("a job")
}

fn why(first: Job, second: Job) -> Answer {
    let mut why = Why::new(first, second).expect("two jobs");
    why.finish().expect("flights");
    why.answer().clone()
}

fn part(answer: &Answer, cause: Cause) -> &mistcoat::why::Part {
    answer.parts.iter().find(|p| p.cause == cause).expect("all causes are told")
}

#[test]
fn the_parts_make_the_whole_and_the_wide_fan_is_aimed_past_the_leg() {
    let answer = why(example("chair-leg-wide-fan"), example("chair-leg-near-round"));
    for order in 0..2 {
        let sum: f64 = answer.parts.iter().map(|p| p.ml_orders[order]).sum();
        assert!((sum - answer.ml).abs() < 1e-9 * answer.sides[0].ml, "order {order}: {sum} {}", answer.ml);
        let share: f64 = answer.parts.iter().map(|p| p.share_orders[order]).sum();
        assert!((share - answer.share).abs() < 1e-12, "order {order}: {share} {}", answer.share);
    }
    let aim = part(&answer, Cause::Aim);
    assert!(answer.ml < 0.0 && aim.ml < 0.5 * answer.ml, "{} of {}", aim.ml, answer.ml);
    assert!(words(&answer, System::Metric).contains("aimed past the part"));
    // Same paint, same booth: what hangs on them alone is exactly nothing.
    assert_eq!(part(&answer, Cause::Evaporation).ml_orders, [0.0, 0.0]);
}

#[test]
fn identical_jobs_differ_in_nothing() {
    let answer = why(example("chair-leg-near-round"), example("chair-leg-near-round"));
    assert_eq!((answer.ml, answer.share), (0.0, 0.0));
    assert!(answer.parts.iter().all(|p| p.ml_orders == [0.0; 2] && p.share_orders == [0.0; 2]));
}

#[test]
fn one_cause_alone_has_all_of_it() {
    // More lead-in is aim and nothing else; the film goes with it.
    let leg = example("chair-leg-near-round");
    let answer = why(leg.clone(), with("chair-leg-near-round", &[("stroke.lead", "120 mm")]));
    assert!(answer.ml > 0.0);
    for part in &answer.parts {
        let some = matches!(part.cause, Cause::Aim | Cause::Film);
        assert!(some || part.ml_orders == [0.0; 2], "{part:?}");
    }
    let aim = part(&answer, Cause::Aim).ml;
    assert!(aim > 0.8 * answer.ml, "{aim} of {}", answer.ml);
    let refused = Why::new(leg, example("table-top")).err().expect("two parts");
    assert_eq!(refused.key, "part");
}

#[test]
fn slices_and_threads_give_the_same_digits() {
    let jobs =
        || (example("chair-leg-near-round"), with("chair-leg-near-round", &[("stroke.distance", "170 mm")]));
    let (first, second) = jobs();
    let whole = why(first, second);
    let (first, second) = jobs();
    let mut sliced = Why::new(first, second).expect("two jobs");
    while !sliced.advance(9_000).expect("flights") {}
    assert_eq!(whole.to_json(), sliced.answer().to_json());
}
