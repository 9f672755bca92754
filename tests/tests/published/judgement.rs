//! Counts, limits and verdicts of the standards, the comb's teeth.

mod iso;

use crate::table::close;
use mistcoat::film::FilmMap;
use mistcoat::job::Job;
use mistcoat::judge::pa_2::{self, AreaUnit, READINGS, SPOTS, areas, limits};
use mistcoat::judge::{Comb, Film, FilmVerdict, Rule, Source, Verdict, judge};
use mistcoat::units::System;

const MIL: f64 = 25.4;

/// A job judged so, on a panel [m], with a film wanted [um].
fn job(method: &str, [width, height]: [f64; 2], [low, high]: [f64; 2], more: &str) -> Job {
    let text = format!(
        "version = 1\n[gun]\nkit = \"hvlp-gravity-1.3\"\n[paint]\nkind = \"epoxy-primer\"\n[part]\npanel = {{ width = \"{width} m\", \
         height = \"{height} m\" }}\n[stroke]\ndistance = \"180 mm\"\nspeed = \"450 mm/s\"\n[spec]\ndry_film = [\"{low} um\", \
         \"{high} um\"]\njudge = \"{method}\"\n{more}\n"
    );
    Job::from_toml(&text).unwrap_or_else(|e| panic!("{e}"))
}

/// An even film [um] over the job's panel, without any counting error.
fn even(job: &Job, um: f64) -> FilmMap {
    let mistcoat::job::PartShape::Panel { width, height } = job.part else { panic!("no panel") };
    let cell = if width > 2.0 { 0.05 } else { 0.005 };
    let mut film = FilmMap::bare((width / cell) as usize, (height / cell) as usize, cell, cell);
    paint(&mut film, |_, _| um);
    film
}

/// Lays a film [um] by place [m]; no counting error.
fn paint(film: &mut FilmMap, um: impl Fn(f64, f64) -> f64) {
    let face = film.face().clone();
    let n = film.len();
    for cell in 0..n {
        let dry = um(face.x(cell % face.nx), face.y(cell / face.nx)) * 1e-6;
        film.dry[cell] = dry;
        film.wet[cell] = 2.0 * dry;
        (0..film.groups.len() / n).for_each(|g| film.groups[g * n + cell] = dry);
    }
}

fn judged(job: &Job, film: &FilmMap) -> FilmVerdict {
    let film =
        Film { landed: film, dry: &film.dry, fresh_wet: &film.wet, fresh_dry: &film.dry, droplets: 1 << 20 };
    judge(film, job).film.expect("the job says what is wanted")
}

fn of_even(job: &Job, um: f64) -> Verdict {
    judged(job, &even(job, um)).verdict
}

/// SSPC-PA 2, text of 2012 to 2018 (seen in published accounts).
#[test]
fn pa_2_counts_areas_spots_and_readings() {
    // A worked example, seen: 12 500 ft2 are 15 areas, 75 spots, at least 225 readings.
    let n = areas(12_500.0, AreaUnit::SquareFeet);
    assert_eq!((n, n * SPOTS, n * SPOTS * READINGS), (15, 75, 225));
    for (feet, count) in
        [(1.0, 1), (100.0, 1), (250.0, 3), (300.0, 3), (301.0, 3), (1000.0, 3), (1001.0, 4), (2000.0, 4)]
    {
        assert_eq!(areas(feet, AreaUnit::SquareFeet), count, "{feet} ft2");
    }
    for (metres, count) in
        [(0.24, 1), (10.0, 1), (10.1, 2), (29.0, 3), (30.0, 3), (55.0, 3), (100.0, 3), (101.0, 4), (300.0, 5)]
    {
        assert_eq!(areas(metres, AreaUnit::SquareMetres), count, "{metres} m2");
    }
    // On a part: a table top is one area of five spots of three readings, all inside a circle of 4 cm.
    let job = job("pa-2", [0.6, 0.4], [50.0, 75.0], "");
    let found = judged(&job, &even(&job, 60.0));
    assert_eq!((found.areas.len(), found.spots.len()), (1, 5));
    for spot in &found.spots {
        assert_eq!(spot.readings.len(), 3);
        for r in &spot.readings {
            let (dx, dy) = (r.place.x_mm - spot.place.x_mm, r.place.y_mm - spot.place.y_mm);
            assert!((dx * dx + dy * dy).sqrt() <= 20.0, "{spot:?}");
        }
    }
}

/// 8 to 12 mil: a spot from 6.4 to 14.4 mil (worked example of a course on PA 2, seen).
#[test]
fn level_3_lets_a_spot_go_to_80_and_120_percent() {
    let l = limits(3, (8.0, 12.0));
    close("lowest spot", l.spot[0], 6.4, 1e-12);
    close("highest spot", l.spot[1], 14.4, 1e-12);
    assert_eq!((l.area, l.source), ([8.0, 12.0], Source::Seen));
    let job = job("pa-2", [1.2, 0.8], [8.0 * MIL, 12.0 * MIL], "");
    // The left third thin, the rest so that the area stays inside.
    let with_left = |left: f64, rest: f64| {
        let mut film = even(&job, 0.0);
        paint(&mut film, |x, _| if x < -0.2 { left * MIL } else { rest * MIL });
        judged(&job, &film)
    };
    for (left, rest, verdict, rule) in [
        (6.41, 11.0, Verdict::Pass, None),
        (6.39, 11.0, Verdict::Fail, Some(Rule::SpotLow)),
        (14.39, 9.0, Verdict::Pass, None),
        (14.41, 9.0, Verdict::Fail, Some(Rule::SpotHigh)),
        (7.99, 7.99, Verdict::Fail, Some(Rule::AreaLow)),
        (8.01, 8.01, Verdict::Pass, None),
        (11.99, 11.99, Verdict::Pass, None),
        (12.01, 12.01, Verdict::Fail, Some(Rule::AreaHigh)),
    ] {
        let found = with_left(left, rest);
        let ends = found.spots.iter().filter(|s| (s.um - left * MIL).abs() < 1e-6).count();
        assert!(ends >= 1, "no spot lies wholly on the left");
        assert_eq!(found.verdict, verdict, "{left} {rest}: {}", found.sentence);
        let broken = found.decisions.iter().find(|d| d.verdict == Verdict::Fail).map(|d| d.rule);
        assert_eq!(broken, rule, "{left} {rest}: {}", found.sentence);
    }
}

/// All but level 3 from memory: a job is told so.
#[test]
fn the_other_levels_at_their_limits() {
    let (low, high) = (50.0, 75.0);
    for (level, spot, area) in [
        (1, [50.0, 75.0], [50.0, 75.0]),
        (2, [50.0, 90.0], [50.0, 75.0]),
        (4, [40.0, 112.5], [50.0, 75.0]),
        (5, [40.0, f64::INFINITY], [50.0, f64::INFINITY]),
    ] {
        let l = limits(level, (low, high));
        assert_eq!((l.spot, l.area, l.source), (spot, area, Source::FromMemory), "level {level}");
    }
    // A film half at 80 and half at 60 um: its area passes every level, its spots only those that let 80 um go.
    for (level, verdict) in
        [(1, Verdict::Fail), (2, Verdict::Pass), (3, Verdict::Pass), (4, Verdict::Pass), (5, Verdict::Pass)]
    {
        let job = job("pa-2", [1.2, 0.8], [low, high], &format!("level = {level}"));
        let mut film = even(&job, 0.0);
        paint(&mut film, |x, _| if x < 0.0 { 80.0 } else { 60.0 });
        assert_eq!(judged(&job, &film).verdict, verdict, "level {level}");
    }
    // Half at 45: only levels that let a spot go below.
    for (level, verdict) in
        [(1, Verdict::Fail), (2, Verdict::Fail), (3, Verdict::Pass), (4, Verdict::Pass), (5, Verdict::Pass)]
    {
        let job = job("pa-2", [1.2, 0.8], [low, high], &format!("level = {level}"));
        let mut film = even(&job, 0.0);
        paint(&mut film, |x, _| if x < 0.0 { 45.0 } else { 65.0 });
        assert_eq!(judged(&job, &film).verdict, verdict, "level {level}");
    }
    // Far too thick passes level 5 alone.
    for level in 1..=5 {
        let job = job("pa-2", [0.6, 0.4], [low, high], &format!("level = {level}"));
        assert_eq!(of_even(&job, 200.0) == Verdict::Pass, level == 5, "level {level}");
    }
}

/// Spots each 1.5 m outwards until two in a row are right (seen; eight directions from memory).
#[test]
fn a_failed_area_is_followed_outwards_where_there_is_room() {
    let large = job("pa-2", [5.0, 5.0], [50.0, 75.0], "");
    let mut film = even(&large, 60.0);
    // The lowest 10 m2 are thin.
    paint(&mut film, |_, y| if y < -0.8 { 30.0 } else { 60.0 });
    let found = judged(&large, &film);
    assert_eq!((found.verdict, found.areas.len(), found.spots.len()), (Verdict::Fail, 3, 15));
    let failed: Vec<_> = found.areas.iter().filter(|a| a.verdict == Verdict::Fail).collect();
    assert!(!failed.is_empty());
    for area in failed {
        assert!(!area.follow_up.is_empty());
        for direction in &area.follow_up {
            let right: Vec<bool> = direction.spots.iter().map(|s| s.verdict == Verdict::Pass).collect();
            let in_a_row = right.windows(2).position(|pair| pair == [true, true]);
            assert_eq!(in_a_row.is_some(), direction.closed, "{right:?}");
            assert!(
                in_a_row.is_none_or(|at| at + 2 == right.len()),
                "it went on after two in a row: {right:?}"
            );
        }
        assert!(area.follow_up.iter().any(|d| d.closed || d.degrees == 90), "{:?}", area.follow_up.len());
    }
    let small = job("pa-2", [0.6, 0.4], [50.0, 75.0], "");
    let found = judged(&small, &even(&small, 30.0));
    assert!(
        found.areas[0].follow_up.is_empty() && found.notes.iter().any(|n| n.contains("1.5 m")),
        "{:?}",
        found.notes
    );
}

/// Two readings in each third, 12 mm off the edges, 25 mm apart (from memory).
#[test]
fn the_test_panel_of_pa_2() {
    let job = job("pa-2-panel", [0.15, 0.3], [50.0, 75.0], "");
    let found = judged(&job, &even(&job, 60.0));
    assert_eq!((found.verdict, found.spots.len()), (Verdict::Pass, 6));
    for (i, spot) in found.spots.iter().enumerate() {
        assert!(spot.place.x_mm.abs() <= 63.0 + 1e-9 && spot.place.y_mm.abs() <= 138.0 + 1e-9, "{spot:?}");
        let third = [50.0, -50.0, -150.0][i / 2];
        assert!((third..=third + 100.0).contains(&spot.place.y_mm), "{i} {spot:?}");
    }
    for pair in found.spots.chunks(2) {
        let (dx, dy) = (pair[0].place.x_mm - pair[1].place.x_mm, pair[0].place.y_mm - pair[1].place.y_mm);
        assert!((dx * dx + dy * dy).sqrt() >= 25.0 - 1e-9, "{pair:?}");
    }
    assert!(found.decisions.iter().all(|d| d.source == Source::FromMemory));
    assert_eq!([of_even(&job, 49.9), of_even(&job, 75.1)], [Verdict::Fail; 2]);
}

/// D4414-95(2020) 7.1.2 and procedure A (seen): steps of 13, 25, 50, 125 um up to 150, 250, 750, 2000 um.
#[test]
fn comb_brackets_at_each_change_of_step() {
    let comb = Comb::of(System::Metric);
    let um = |x: f64| x * 1e-6;
    for (wet, tooth, next) in [
        (0.0, 0.0, 13.0),
        (12.9, 0.0, 13.0),
        (13.0, 13.0, 26.0),
        (142.9, 130.0, 143.0),
        (149.9, 143.0, 150.0),
        (150.0, 150.0, 175.0),
        (249.9, 225.0, 250.0),
        (250.0, 250.0, 300.0),
        (749.9, 700.0, 750.0),
        (750.0, 750.0, 875.0),
        (1999.0, 1875.0, 2000.0),
    ] {
        let (reading, upper) = comb.bracket(um(wet));
        assert!((reading - um(tooth)).abs() < 1e-12, "{wet}: {reading}");
        assert!((upper.unwrap() - um(next)).abs() < 1e-12, "{wet}: {upper:?}");
    }
    assert_eq!(comb.bracket(um(2500.0)).1, None);
    let inch = Comb::of(System::Us);
    for (mil, tooth, next) in [
        (0.4, 0.0, 0.5),
        (5.9, 5.5, 6.0),
        (6.0, 6.0, 7.0),
        (10.0, 10.0, 12.0),
        (30.0, 30.0, 35.0),
        (79.0, 75.0, 80.0),
    ] {
        let (reading, upper) = inch.bracket(um(mil * MIL));
        assert!(
            (reading - um(tooth * MIL)).abs() < 1e-12 && (upper.unwrap() - um(next * MIL)).abs() < 1e-12,
            "{mil} mil"
        );
    }
    // A true film always lies in its bracket.
    for tenth in 0..20_000 {
        let wet = um(0.1 * f64::from(tenth));
        let (reading, next) = comb.bracket(wet);
        assert!(reading <= wet + 1e-12 && next.is_none_or(|n| wet < n), "{wet}");
    }
}

/// The spots' circle of 4 cm and the counts do not depend on the level.
#[test]
fn spots_stay_when_the_level_changes() {
    let places = |level: &str| {
        let job = job("pa-2", [0.6, 0.4], [50.0, 75.0], level);
        judged(&job, &even(&job, 60.0)).spots.iter().map(|s| (s.place.clone(), s.um)).collect::<Vec<_>>()
    };
    assert_eq!(places("level = 1"), places("level = 5"));
    assert_eq!(pa_2::SPOTS, 5);
}
