//! ISO 19840 and PSPC's 90/10.

use super::{even, job, judged, of_even, paint};
use mistcoat::job::Job;
use mistcoat::judge::{FilmVerdict, Rule, Verdict, iso_19840, words};
use mistcoat::units::System;

/// ISO 19840:2012: counts (10-30 m2 and more seen, the three smallest areas from memory).
#[test]
fn iso_19840_counts() {
    for (area, count) in
        [(0.24, 5), (1.0, 5), (2.0, 10), (3.0, 10), (5.0, 15), (10.0, 15), (10.5, 20), (30.0, 20), (50.0, 30)]
    {
        assert_eq!(iso_19840::readings(area), count, "{area} m2");
    }
    for (area, count) in [(100.0, 30), (101.0, 40), (200.0, 40), (500.0, 70)] {
        assert_eq!(iso_19840::readings(area), count, "{area} m2");
    }
}

/// The film of a job with `thin` of its readings at `um`, the rest at `rest`.
fn with_thin_readings(job: &Job, thin: usize, um: f64, rest: f64) -> FilmVerdict {
    let mut film = even(job, rest);
    let places = judged(job, &film).spots;
    let near = |x: f64, y: f64| {
        places[..thin].iter().any(|s| {
            let (dx, dy) = (x * 1e3 - s.place.x_mm, y * 1e3 - s.place.y_mm);
            (dx * dx + dy * dy).sqrt() < 10.0
        })
    };
    paint(&mut film, |x, y| if near(x, y) { um } else { rest });
    judged(job, &film)
}

/// Mean at least nominal; each at least 80 %; at most 20 % of the readings between; each at most the highest (the last from memory).
#[test]
fn iso_19840_at_its_limits() {
    // 2 m x 1.2 m are 10 readings: two of them may be below.
    let job = job("iso-19840", [2.0, 1.2], [100.0, 200.0], "");
    assert_eq!([of_even(&job, 100.1), of_even(&job, 99.9)], [Verdict::Pass, Verdict::Fail]);
    assert_eq!([of_even(&job, 199.9), of_even(&job, 200.1)], [Verdict::Pass, Verdict::Fail]);
    for (thin, um, verdict, rule) in [
        (2, 85.0, Verdict::Pass, None),
        (3, 85.0, Verdict::Fail, Some(Rule::ShareUnder)),
        (1, 80.1, Verdict::Pass, None),
        (1, 79.9, Verdict::Fail, Some(Rule::ReadingLow)),
    ] {
        let found = with_thin_readings(&job, thin, um, 120.0);
        assert_eq!(found.verdict, verdict, "{thin} at {um}: {}", found.sentence);
        let broken = found.decisions.iter().find(|d| d.verdict == Verdict::Fail).map(|d| d.rule);
        assert_eq!(broken, rule, "{thin} at {um}: {}", found.sentence);
    }
    // A share of 20 % itself passes: accounts differ, and this is our choice.
    let share = with_thin_readings(&job, 2, 85.0, 120.0);
    let under = share.decisions.iter().find(|d| d.rule == Rule::ShareUnder).unwrap();
    assert_eq!((under.found, under.limit, under.verdict), (20.0, 20.0, Verdict::Pass));
}

/// PSPC's 90/10: every reading at least 90 %, at most 10 % of them below the nominal film (IMO, seen).
#[test]
fn ninety_ten() {
    let job = job("iso-19840", [2.0, 1.2], [100.0, 200.0], "rule = \"90-10\"");
    for (thin, um, verdict) in [
        (1, 90.1, Verdict::Pass),
        (1, 89.9, Verdict::Fail),
        (2, 95.0, Verdict::Fail),
        (0, 0.0, Verdict::Pass),
    ] {
        assert_eq!(with_thin_readings(&job, thin, um, 120.0).verdict, verdict, "{thin} at {um}");
    }
}

#[test]
fn iso_19840_takes_the_profile_off_and_says_where_it_does_not_hold() {
    let job = job("iso-19840", [0.6, 0.4], [100.0, 200.0], "profile_correction = \"25 um\"");
    assert_eq!([of_even(&job, 125.1), of_even(&job, 124.9)], [Verdict::Pass, Verdict::Fail]);
    let thin = super::job("iso-19840", [0.6, 0.4], [20.0, 35.0], "");
    let found = judged(&thin, &even(&thin, 25.0));
    assert!(
        found.notes.iter().any(|n| n.contains("below 40 um") && n.contains("only indicates")),
        "{:?}",
        found.notes
    );
}

/// A nominal film of one's own is what the mean must reach; coat by coat where the film wanted is. The words are in the reader's units.
#[test]
fn iso_19840_takes_a_nominal_film() {
    let own = job("iso-19840", [0.6, 0.4], [60.0, 200.0], "nominal = \"100 um\"");
    assert_eq!([of_even(&own, 100.1), of_even(&own, 99.9)], [Verdict::Pass, Verdict::Fail]);
    let without = job("iso-19840", [0.6, 0.4], [60.0, 200.0], "");
    assert_eq!([of_even(&without, 60.1), of_even(&without, 59.9)], [Verdict::Pass, Verdict::Fail]);
    let mut coats = own.clone();
    coats.stroke.coats = 2;
    assert_eq!([of_even(&coats, 200.1), of_even(&coats, 199.9)], [Verdict::Pass, Verdict::Fail]);
    let thin = judged(&job("iso-19840", [0.6, 0.4], [20.0, 35.0], ""), &even(&own, 25.0));
    let us: Vec<String> = thin.notes.iter().map(|note| words::note(note, System::Us)).collect();
    assert!(us.iter().any(|n| n.contains("below 1.6 mil")) && us.iter().all(|n| !n.contains("um")), "{us:?}");
}
