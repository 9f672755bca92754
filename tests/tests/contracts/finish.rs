//! What painters know of runs, dry spray and orange peel (common practice): directions, and where clear runs.

use mistcoat::film::{FilmMap, RUN, WetFilm};
use mistcoat::flight::levels;
use mistcoat::job::{FanAxis, Job};
use mistcoat::report::FinishFigures;
use mistcoat::run::{Run, faces, wet_laws};
use mistcoat_tests::scenes::{example, job};
use std::f64::consts::FRAC_PI_2;

/// How far an even film of clear [m wet, landed at the usual loss in flight] slides on an upright panel [m].
fn slides(wet: f64) -> f64 {
    let job = Job { lean: FRAC_PI_2, ..job("hvlp-gravity-1.3", "two-pack-clear") };
    let faces = faces(&job);
    let mut film = WetFilm::new(&faces, wet_laws(&job, &faces).expect("laws"));
    let map = FilmMap::over(faces);
    let solids = job.paint.volume_solids;
    let landed = solids / (solids + 0.9 * (1.0 - solids));
    film.land(&vec![wet * landed; map.len()], &vec![wet; map.len()], 1.0);
    film.wait(f64::INFINITY);
    film.cells().iter().map(|c| c.slid).fold(0.0, f64::max)
}

#[test]
fn upright_clear_runs_from_75_to_100_um() {
    assert!(slides(40e-6) < 0.3 * RUN, "40 um stands");
    let runs_from = (60..=110).find(|&um| slides(f64::from(um) * 1e-6) > RUN).expect("it runs");
    assert!((75..=100).contains(&runs_from), "{runs_from} um");
    // A run is centimetres, not the millimetre or two of a sag.
    assert!((0.02..0.3).contains(&slides(150e-6)), "{}", slides(150e-6));
}

#[test]
fn classes_keep_inside_the_window_that_makes_40_um_stand_and_80_um_run() {
    for data in mistcoat::catalogue::paints() {
        let ratio = data.setting.setting_time.value / data.setting.film_viscosity.value;
        assert!((50.0..190.0).contains(&ratio), "{}: {ratio}", data.id);
    }
}

fn finish(change: impl Fn(&mut Job)) -> FinishFigures {
    let mut job = example("table-top");
    job.run.droplets = 40_000;
    job.lean = FRAC_PI_2;
    change(&mut job);
    let mut run = Run::new(job).expect("a job");
    run.finish();
    run.report().expect("a report").finish.expect("cells counted well enough")
}

#[test]
fn speed_distance_stand_and_air_do_what_painters_know() {
    let usual = finish(|_| ());
    assert!(usual.run_area_percent < 1.0 && usual.dry_area_percent < 1.0, "{usual:?}");
    let slow = finish(|j| j.stroke.speed *= 0.5);
    assert!(slow.run_area_percent > 90.0, "{slow:?}");
    let run = slow.longest_run.as_ref().expect("a run");
    assert!(run.mm > 10.0 && run.tears_mm.is_some_and(|mm| (5.0..15.0).contains(&mm)), "{run:?}");
    assert!(slow.set_um.max > Some(1.2 * slow.set_um.mean), "it hangs below: {:?}", slow.set_um);
    let flat = finish(|j| (j.stroke.speed, j.lean) = (0.5 * j.stroke.speed, 0.0));
    assert!(flat.run_area_percent == 0.0 && flat.longest_run.is_none() && flat.sag_limit_um.is_none());
    let near = finish(|j| j.stroke.distance = 0.1);
    assert!(near.run_area_percent > 50.0, "{near:?}");
    let far = finish(|j| j.stroke.distance = 0.3);
    assert!(far.run_area_percent == 0.0 && far.dry_spray_index > 20.0 * usual.dry_spray_index, "{far:?}");
    assert!(far.dry_spray_index > 0.1 && far.dry_area_percent > usual.dry_area_percent, "{far:?}");
    let warm = finish(|j| {
        j.stroke.distance = 0.3;
        (j.booth.temperature, j.booth.air) = (303.15, 0.6);
    });
    assert!(warm.dry_spray_index > far.dry_spray_index && warm.dry_area_percent > 50.0, "{warm:?}");
}

#[test]
fn orange_peel_grows_with_distance_low_pressure_and_thick_paint() {
    let peel = |change: &dyn Fn(&mut Job)| finish(change).orange_peel_um;
    let usual = peel(&|_| ());
    assert!(peel(&|j| j.stroke.distance = 0.25) > 1.1 * usual, "distance");
    assert!(peel(&|j| j.gun.inlet_pressure = 1.2e5) > 1.1 * usual, "pressure");
    let thick = peel(&|j| {
        j.paint = j.recipe.mixed(&mistcoat::paint::Mix { thinning: 0.0, ..j.mix }).expect("a mix");
    });
    assert!(thick > 1.1 * usual, "thick {thick}, usual {usual}");
}

#[test]
fn a_wait_between_coats_keeps_two_coats_from_running() {
    let coats = |flash: f64| finish(move |j| (j.stroke.coats, j.stroke.flash) = (2, flash)).run_area_percent;
    assert!(coats(5.0) > 90.0 && coats(480.0) < 1.0, "{} {}", coats(5.0), coats(480.0));
}

/// A comb meets what is wet after the last coat: a coat that flashed lies under it, one just sprayed flows with it.
#[test]
fn a_comb_reads_what_is_still_wet() {
    let comb = |coats: u32, flash: f64| {
        let mut job = example("table-top");
        job.run.droplets = 20_000;
        (job.lean, job.stroke.coats, job.stroke.flash) = (0.0, coats, flash);
        let mut run = Run::new(job).expect("a job");
        run.finish();
        let report = run.report().expect("a report");
        let comb = report.judgement.comb.expect("a comb");
        let (film, face) = (run.film(), run.film().face().clone());
        let near = |cell: &usize| face.x(cell % face.nx).hypot(face.y(cell / face.nx)) <= 10e-3;
        let under: Vec<usize> = face.cells().filter(near).collect();
        let mean = |of: &[f64]| 1e6 * under.iter().map(|&c| of[c]).sum::<f64>() / under.len() as f64;
        (comb.wet_um, comb.dry_share, mean(&film.wet), mean(&film.dry))
    };
    let (one, share, landed, dry) = comb(1, 0.0);
    // The middle is wetted some seconds before the last row: a little has left, no solids have.
    assert!(one < landed && one > 0.9 * landed, "{one} {landed}");
    assert!(share > dry / landed && share < 1.1 * dry / landed, "{share}");
    let (flashed, ..) = comb(2, 1200.0);
    assert!((flashed / one - 1.0).abs() < 0.01, "{flashed} {one}");
    let (wet_on_wet, ..) = comb(2, 5.0);
    assert!(wet_on_wet > 1.8 * one && wet_on_wet < 2.0 * one, "{wet_on_wet} {one}");
}

/// The told errors of the areas beside what other seeds give.
#[test]
fn areas_scatter_from_seed_to_seed_as_told() {
    let runs = |key: &str, change: &dyn Fn(&mut Job)| {
        let (mut values, mut told) = (Vec::new(), 0.0);
        for seed in 1..=12 {
            let mut job = example("table-top");
            (job.run.droplets, job.lean, job.run.seed) = (20_000, FRAC_PI_2, seed);
            change(&mut job);
            let mut run = Run::with_card(job, 50_000, levels()[0]).expect("a job");
            run.finish();
            let report = run.report().expect("a report");
            let finish = report.finish.as_ref().expect("cells counted well enough");
            values.push(if key.contains("run") { finish.run_area_percent } else { finish.dry_area_percent });
            told += report.standard_errors[key] / 12.0;
        }
        let mean = values.iter().sum::<f64>() / 12.0;
        let spread = (values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / 11.0).sqrt();
        println!("{key}: mean {mean:.2}, spread {spread:.2}, told {told:.2}");
        (mean, spread, told)
    };
    for (key, mean, spread, told) in [
        ("finish.run_area_percent", &(|j: &mut Job| j.stroke.speed *= 0.72) as &dyn Fn(&mut Job)),
        ("finish.dry_area_percent", &|j: &mut Job| j.stroke.distance = 0.3),
    ]
    .map(|(key, change)| {
        let (mean, spread, told) = runs(key, change);
        (key, mean, spread, told)
    }) {
        assert!((2.0..98.0).contains(&mean), "{key}: {mean} shows nothing");
        assert!((0.5..2.0).contains(&(told / spread)), "{key}: {spread} {told}");
    }
}

#[test]
fn bare_places_are_told_with_their_reason() {
    // Half the overlap is missing: stripes without film.
    let gaps = finish(|j| {
        j.stroke.overlap = 0.0;
        j.stroke.fan_axis = FanAxis::Along;
    });
    let bare = gaps.marks.iter().find(|m| m.mark == "bare");
    assert_eq!(bare.is_some(), gaps.bare_area_percent > 0.0);
    let sum: f64 = gaps.marks.iter().map(|m| m.area_percent).sum();
    let all = gaps.run_area_percent + gaps.dry_area_percent + gaps.bare_area_percent;
    assert!((sum - all).abs() < 1e-9 && gaps.marks.iter().all(|m| !m.reason.is_empty()), "{gaps:?}");
}
