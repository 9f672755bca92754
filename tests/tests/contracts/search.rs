//! The search: the same digits however it is cut, never outside the data sheet, better than chance, and quick films that are those laid in full.

use mistcoat::job::{Job, with_key};
use mistcoat::search::{Asked, Flight, Look, Paced, Search, Way, words};
use mistcoat::units::System;
use mistcoat_tests::scenes::example;
use mistcoat_tests::search_check::{held, job_of};
use std::sync::OnceLock;

fn with(name: &str, keys: &[(&str, &str)]) -> Job {
    let text = keys
        .iter()
        .fold(example(name).text, |text, (key, value)| with_key(&text, key, value).expect("a key"));
    Job::from_toml(&text).expect("a job")
}

fn searched(job: &Job, most: Option<u64>) -> Search {
    let mut search = Search::new(job.clone()).expect("a job");
    match most {
        None => search.finish().expect("a search"),
        Some(most) => while !search.advance(most).expect("a search") {},
    }
    assert!((search.done() - 1.0).abs() < 1e-12);
    search
}

/// Row of the checked jobs that is a leg by a machine's hand.
const LEG: usize = 3;

/// Its search, one for all that look at it.
fn leg() -> &'static Search {
    static SEARCH: OnceLock<Search> = OnceLock::new();
    SEARCH.get_or_init(|| searched(&job_of(LEG), None))
}

#[test]
fn every_slicing_and_all_threads_give_the_same_digits() {
    let (job, whole) = (job_of(LEG), leg().answer());
    assert_eq!(whole.to_json(), searched(&job, Some(3_000)).answer().to_json());
    let best = whole.best.as_ref().expect("a set-up");
    assert!(best.stops.is_empty() && best.ml < whole.now.as_ref().expect("as it is").ml, "{best:?}");
    // What it says to write is a job, and sprays what it says.
    let set = best.job(&job).expect("keys that the job takes");
    assert!(set.notes.iter().all(|note| !note.contains("outside")), "{:?}", set.notes);
    assert!(words(whole, System::Metric).contains("mL"));
    let us = words(whole, System::Us);
    assert!([" um", " mm", " bar", " mL"].iter().all(|unit| !us.contains(unit)), "{us}");
}

#[test]
fn chance_finds_nothing_better() {
    // A painter's hand on a panel, a machine's on a tube. The rest of the twenty jobs: `search_best`, figures in docs/methods/search.md.
    let top = searched(&job_of(0), None);
    let keys = &top.answer().best.as_ref().expect("a set-up").keys;
    assert!(keys.contains(&("stroke.hand".into(), "steady".into())), "{keys:?}");
    for (row, search) in [(0, &top), (LEG, leg())] {
        let checked = held(&job_of(row), search, 100, false);
        let best = checked.best.as_ref().expect("a set-up");
        assert!(best.rank().0 == 0, "{:?} {:?}", best.stops, best.unsure);
        assert!(checked.five.len() >= 3, "job {row}: {:?} of {}", checked.five, checked.drawn);
        assert!(checked.missed().is_empty(), "job {row}: {:?}", checked.again);
        assert!(checked.broken.is_empty(), "job {row}: on other parts {:?}", checked.broken);
    }
}

#[test]
fn nothing_outside_the_data_sheet_and_the_nearest_where_nothing_does() {
    let job = with(
        "chair-leg-wide-fan",
        &[
            ("stroke.hand", "machine"),
            ("paint.sheet.pressure", "[\"1.6 bar\", \"2.2 bar\"]"),
            ("spec.thinnest", "0.95"),
            ("spec.right_on", "100 %"),
        ],
    );
    let search = searched(&job, None);
    let answer = search.answer();
    let best = answer.best.as_ref().expect("a set-up, if only the nearest");
    let set = best.job(&job).expect("a job");
    assert!((1.6e5 - 1.0..=2.2e5 + 1.0).contains(&set.gun.inlet_pressure), "{}", set.gun.inlet_pressure);
    for point in &answer.front {
        let bar =
            point.keys.iter().find(|k| k.0 == "gun.inlet_pressure").map(|k| k.1.clone()).expect("a pressure");
        let value: f64 = bar.split(' ').next().and_then(|v| v.parse().ok()).expect("a number");
        assert!((1.6..=2.2).contains(&value), "{bar}");
    }
    if !best.stops.is_empty() {
        assert!(words(answer, System::Metric).contains("what stops it"), "{}", words(answer, System::Metric));
    }
}

#[test]
fn columns_by_single_passes_are_the_film_laid_piece_by_piece() {
    for (name, hand) in
        [("table-top", "steady"), ("chair-leg-wide-fan", "steady"), ("curved-back", "machine")]
    {
        let job = with(name, &[("stroke.hand", hand)]);
        let asked = Asked::of(&job).expect("a job");
        let mut flight = Flight::new(job.clone(), 16_384, 8_192).expect("a flight");
        while !flight.fly(u64::MAX, true) {}
        let (way, look) = (Way::of(&job), Look::whole(12, 3));
        let paced = |films: &mistcoat::search::Films| {
            Paced::of(films, way.speed, flight.prepared().spray.volume_flow, &asked).expect("a film")
        };
        let (quick, full) = (flight.lay(way, look), flight.lay_in_full(way, look));
        let mean = |films: &mistcoat::search::Films| films.films.iter().map(|f| f.mean_dry().0).sum::<f64>();
        let off = mean(&quick) / mean(&full) - 1.0;
        assert!(off.abs() < 0.012, "{name}: mean off by {off}");
        assert!(
            (quick.seconds / full.seconds - 1.0).abs() < 0.01,
            "{name}: {} {}",
            quick.seconds,
            full.seconds
        );
        let (a, b) = (paced(&quick), paced(&full));
        assert!((a.volume / b.volume - 1.0).abs() < 0.03, "{name}: {} {}", a.volume, b.volume);
        assert!((a.thinnest - b.thinnest).abs() < 0.04, "{name}: {} {}", a.thinnest, b.thinnest);
    }
}

#[test]
fn what_cannot_be_searched_is_said_by_key() {
    let refused = |job: Job| Search::new(job).err().expect("an error").key;
    assert_eq!(refused(with("table-top", &[("stroke.burst", "1 s")])), "stroke.burst");
    assert_eq!(refused(example("chair-frame")), "part.frame");
}
