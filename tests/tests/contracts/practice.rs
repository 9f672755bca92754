//! A hand's track is the same numbers as recorded, as laid and as read from the job file, and the library lays the same film.

use mistcoat::job::{Job, with_key};
use mistcoat::practice::{Recorder, rounded, rows};
use mistcoat::run::{PoseRange, Prepared, Run};
use mistcoat::stroke::{Layer, Moment};

const TEXT: &str = include_str!("../../../core/examples/jobs/table-top.toml");

/// A hand that wavers: three passes over the panel, moments as a pointer would give them.
fn hand() -> Vec<Moment> {
    let mut recorder = Recorder::default();
    for i in 0..900 {
        let t = f64::from(i) * 8.333e-3;
        let (pass, share) = ((t / 2.5).floor(), (t / 2.5).fract());
        let x = if pass % 2.0 < 1.0 { share } else { 1.0 - share } * 0.74 - 0.37;
        let moment = Moment {
            time: t,
            x: x + 1.234_5e-3 * (7.0 * t).sin(),
            y: 0.1 - 0.1 * pass + 2.345_6e-3 * (3.0 * t).sin(),
            distance: 0.18,
            trigger: f64::from(u8::from((0.02..0.98).contains(&share))),
            ..Moment::default()
        };
        recorder.take(moment);
    }
    recorder.moments().to_vec()
}

#[test]
fn a_recorded_track_is_the_job_files_and_leaves_the_librarys_film_to_the_bit() {
    let moments = hand();
    assert!(moments.len() > 300);
    assert!(moments.iter().all(|m| rounded(m) == *m), "rounded once, on entry");
    let text = with_key(TEXT, "run.droplets", "20000").expect("a job");
    let text = with_key(&text, "stroke.track", &rows(&moments)).expect("a job with a track");
    let job = Job::from_toml(&text).expect("a job");
    let track = job.track.as_ref().expect("the track");
    assert_eq!(track.moments(), moments);

    // As the page lays it: from a shelf of all poses that a hand may take.
    let machine = Job::from_toml(&with_key(TEXT, "run.droplets", "20000").expect("a job")).expect("a job");
    let prepared = Prepared::new(machine).expect("it sprays");
    let range = PoseRange { distance: [0.12, 0.3], heel: [-0.4, 0.4], swing: [-0.4, 0.4], aside: [0.0, 0.0] };
    let mut shelf = prepared.shelf(&range, 20_000, 2_000).expect("poses in range");
    while !shelf.advance(4_096) {}
    let (layer, mut live) = (Layer::full(&shelf), prepared.bare_film());
    for pair in moments.windows(2) {
        layer.lay(&pair[0], &pair[1], 0, &mut live);
    }

    let mut run = Run::new(job).expect("it sprays");
    run.finish();
    let film = run.film();
    assert!(film.mean_dry().0 > 1e-6);
    assert!(film.dry.iter().zip(&live.dry).all(|(a, b)| a.to_bits() == b.to_bits()), "the same film");
}
