//! Tracks laid from a shelf of imprints: as the exact sweep where both can be, the same however sliced.

use mistcoat::film::FilmMap;
use mistcoat::job::Job;
use mistcoat::run::{PoseRange, Prepared, Run};
use mistcoat::stroke::{Layer, Moment, Shelf, Strokes, Track};
use mistcoat_tests::scenes::PANEL;

fn panel() -> String {
    format!("{PANEL}droplets = 100000\n")
}

fn tube() -> String {
    panel().replace(
        r#"panel = { width = "600 mm", height = "400 mm" }"#,
        r#"tube = { diameter = "42 mm", length = "400 mm" }"#,
    )
}

fn none() -> PoseRange {
    PoseRange { distance: [0.18; 2], heel: [0.0; 2], swing: [0.0; 2], aside: [0.0; 2] }
}

fn flown(job: &str, range: &PoseRange) -> (Prepared, Shelf) {
    let prepared = Prepared::new(Job::from_toml(job).expect("a job")).expect("it sprays");
    let mut shelf = prepared.shelf(range, 100_000, 50_000).expect("a shelf");
    while !shelf.advance(30_000) {}
    (prepared, shelf)
}

/// The passes as a track.
fn track(strokes: &Strokes, distance: f64) -> Track {
    let Strokes::Passes { passes, speed, .. } = strokes else { panic!("passes") };
    let (mut moments, mut time) = (Vec::new(), 0.0);
    for pass in passes {
        let at = |x, time, trigger| Moment {
            time,
            x,
            y: pass.offset,
            distance,
            turn: pass.turn,
            trigger,
            ..Moment::default()
        };
        moments.push(at(pass.from, time, 1.0));
        time += pass.length() / speed;
        moments.push(at(pass.to, time, 0.0));
        time += 1.0;
    }
    Track::new(moments).expect("a track")
}

fn laid(shelf: &Shelf, track: &Track, mut film: FilmMap) -> FilmMap {
    Layer::full(shelf).lay_segments(track, 0..track.moments().len() - 1, 0, &mut film);
    film
}

/// Root mean square of the difference over the mean, over cells.
fn difference(a: &[f64], b: &[f64]) -> f64 {
    let mean = a.iter().sum::<f64>() / a.len() as f64;
    (a.iter().zip(b).map(|(x, y)| (x - y) * (x - y)).sum::<f64>() / a.len() as f64).sqrt() / mean
}

#[test]
fn a_machines_track_lays_what_the_exact_sweep_lays() {
    for (name, job) in [("panel", panel()), ("tube", tube())] {
        let mut run = Run::new(Job::from_toml(&job).expect("a job")).expect("it sprays");
        run.finish();
        let (prepared, shelf) = flown(&job, &none());
        let strokes = prepared.strokes(run.card());
        let start = std::time::Instant::now();
        let film = laid(&shelf, &track(&strokes, 0.18), prepared.bare_film());
        println!("{name}: laid in {:?}", start.elapsed());
        let swept = run.film();
        let means = (film.mean_dry().0, swept.mean_dry().0, film.mean_wet(), swept.mean_wet());
        println!(
            "{name}: {means:?}, rms {}, error {}",
            difference(&swept.dry, &film.dry),
            swept.cell_error() / means.1
        );
        assert!((means.0 / means.1 - 1.0).abs() < 0.005 && (means.2 / means.3 - 1.0).abs() < 0.005);
        assert!(difference(&swept.dry, &film.dry) < 0.03);
    }
}

#[test]
fn laying_as_it_comes_is_laying_it_all() {
    let (prepared, shelf) =
        flown(&panel(), &PoseRange { distance: [0.15, 0.21], heel: [-0.3, 0.3], ..none() });
    let moments: Vec<_> = (0..60)
        .map(|i| {
            let t = f64::from(i) * 0.016;
            Moment {
                time: t,
                x: t * 0.45 - 0.2,
                y: 0.02 * t,
                distance: 0.17 + 0.03 * t,
                heel: 0.2 * t,
                trigger: 1.0,
                ..Moment::default()
            }
        })
        .collect();
    let track = Track::new(moments).expect("a track");
    let all = laid(&shelf, &track, prepared.bare_film());
    let layer = Layer::full(&shelf);
    let mut sliced = prepared.bare_film();
    for (i, (from, to)) in track.segments().enumerate() {
        if i % 3 == 0 {
            layer.lay(from, to, 0, &mut sliced);
        } else {
            layer.lay_segments(&track, i..i + 1, 0, &mut sliced);
        }
    }
    assert_eq!(all, sliced);
    assert!(all.mean_dry().0 > 1e-7);
}
