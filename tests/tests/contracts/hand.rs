//! What hands do to a film: directions a painter knows, and what a run promises whoever moves the gun.

use mistcoat::film::FilmMap;
use mistcoat::job::{Job, with_key};
use mistcoat::run::Run;
use mistcoat_tests::scenes::PANEL;

fn job(keys: &[(&str, &str)]) -> Job {
    let mut text = format!("{PANEL}droplets = 60000\n");
    for (path, value) in keys {
        text = with_key(&text, path, value).expect("a key");
    }
    Job::from_toml(&text).unwrap_or_else(|e| panic!("{e}"))
}

fn flown(keys: &[(&str, &str)]) -> Run {
    let mut run = Run::new(job(keys)).expect("it sprays");
    run.finish();
    run
}

/// Variation over the film, and its thinnest 2 % over its mean.
fn evenness(film: &FilmMap) -> (f64, f64) {
    let (mean, _) = film.mean_dry();
    let cv = mistcoat::film::evenness(film).expect("a film").cv;
    let mut sorted = film.dry.clone();
    sorted.sort_by(f64::total_cmp);
    (cv, sorted[sorted.len() / 50] / mean)
}

#[test]
fn a_steady_hands_film_is_evened_by_overlap() {
    let of = |hand, overlap| evenness(&flown(&[("stroke.hand", hand), ("stroke.overlap", overlap)]).film());
    let steady = ["30 %", "50 %", "67 %", "75 %"].map(|overlap| of("steady", overlap));
    let machine = of("machine", "50 %");
    println!("steady {steady:?}, machine {machine:?}");
    assert!(steady[0].1 < steady[1].1 && steady[1].1 < steady[2].1, "thinnest over mean: {steady:?}");
    assert!(steady[1].0 < steady[0].0 && steady[3].0 < steady[1].0, "variation: {steady:?}");
    assert!(machine.0 < steady[1].0, "a machine is evener");
    let beginner = of("beginner", "50 %");
    assert!(beginner.0 > 1.5 * steady[1].0, "{beginner:?}");
}

#[test]
fn nearer_is_thicker_and_farther_is_thinner() {
    let mean = |d| flown(&[("stroke.hand", "steady"), ("stroke.distance", d)]).film().mean_dry().0;
    let [near, right, far] = ["100 mm", "180 mm", "300 mm"].map(mean);
    println!("{near:e} {right:e} {far:e}");
    assert!(near > 1.2 * right && far < 0.9 * right);
}

#[test]
fn a_run_by_hand_is_the_same_however_sliced() {
    let keys = [
        ("stroke.hand", "heeling"),
        ("run.droplets", "20000"),
        ("stroke.plan", "cross"),
        ("stroke.coats", "2"),
    ];
    let whole = flown(&keys);
    let mut sliced = Run::new(job(&keys)).expect("it sprays");
    let mut most = 1;
    let before = sliced.progress().1;
    while !sliced.advance(most) {
        most = most * 3 % 7919 + 1;
    }
    assert_eq!(sliced.progress(), (before, before));
    assert_eq!(whole.digest().expect("a report"), sliced.digest().expect("a report"));
    let (mut dry, mut last, mut count) = (vec![0.0; whole.film().len()], 0.0, 0);
    whole.deposits(&mut |deposit| {
        assert!(deposit.from >= last && deposit.to > deposit.from);
        last = deposit.to;
        count += 1;
        dry.iter_mut().zip(&deposit.dry).for_each(|(sum, h)| *sum += h);
    });
    let film = whole.film();
    let thickest = film.dry.iter().copied().fold(0.0, f64::max);
    assert!(dry.iter().zip(&film.dry).all(|(a, b)| (a - b).abs() < 1e-5 * thickest));
    let report = whole.report().expect("a report");
    let stroke = report.stroke.clone().expect("a hand");
    println!("{}", serde_json::to_string(&stroke).expect("json"));
    assert_eq!((stroke.passes, stroke.hand.as_str()), (count, "heeling"));
    let sum = {
        let f = report.fates;
        f.landed + f.missed + f.bounced + f.drifted + f.dried + f.lost
    };
    assert!((sum - 1.0).abs() < 1e-9 && report.fates.missed > 0.02, "{:?}", report.fates);
}

#[test]
fn a_recorded_track_is_sprayed_as_it_was() {
    // The steady hand's own track, written down and read again.
    let run = flown(&[("stroke.hand", "steady")]);
    let mistcoat::stroke::Strokes::Track(track) = run.prepared().strokes(run.card()) else {
        panic!("a track")
    };
    let row = |m: &mistcoat::stroke::Moment| {
        let mm = |v: f64| v * 1e3;
        format!(
            "[{:?}, {:?}, {:?}, {:?}, {:?}, {:?}, {:?}, {:?}]",
            m.time,
            mm(m.x),
            mm(m.y),
            mm(m.distance),
            m.heel.to_degrees(),
            m.swing.to_degrees(),
            m.trigger,
            m.turn.to_degrees()
        )
    };
    let rows = format!("[{}]", track.moments().iter().map(row).collect::<Vec<_>>().join(", "));
    let again = flown(&[("stroke.track", &rows)]);
    let (a, b) = (run.film(), again.film());
    // Poses flown beside the middle are chosen from the track, not from the hand: not the same to the bit.
    let mean = a.mean_dry().0;
    let rms = (a.dry.iter().zip(&b.dry).map(|(x, y)| (x - y) * (x - y)).sum::<f64>() / a.len() as f64).sqrt();
    println!("rms {}", rms / mean);
    assert!((b.mean_dry().0 / mean - 1.0).abs() < 0.003 && rms < 0.01 * mean);
    let digest = |run: &Run| run.digest().expect("a report");
    let mut sliced = Run::new(job(&[("stroke.track", &rows)])).expect("it sprays");
    while !sliced.advance(4999) {}
    assert_eq!(digest(&again), digest(&sliced));
}

#[test]
fn a_gun_tipped_up_and_one_tipped_down_leave_mirrored_films() {
    // Flat, so that gravity takes no side; a cross of one pass.
    let keys = |heel| {
        [("part.stands", "flat"), ("stroke.heel", heel), ("stroke.overlap", "0"), ("run.droplets", "200000")]
    };
    let rows = |run: &Run| -> Vec<f64> {
        let film = run.film();
        let face = film.face();
        (0..face.ny).map(|j| film.dry[j * face.nx..(j + 1) * face.nx].iter().sum::<f64>()).collect()
    };
    let (up, down, square) = (flown(&keys("25 deg")), flown(&keys("-25 deg")), flown(&keys("0 deg")));
    let (a, b) = (rows(&up), rows(&down));
    let mean = a.iter().sum::<f64>() / a.len() as f64;
    let worst = a.iter().zip(b.iter().rev()).map(|(x, y)| (x - y).abs() / mean).fold(0.0, f64::max);
    let uneven = a.iter().zip(a.iter().rev()).map(|(x, y)| (x - y).abs() / mean).fold(0.0, f64::max);
    let landed = [&up, &square].map(|run| run.fates().share(mistcoat::tally::Fate::Landed));
    println!(
        "mirror {worst}, own {uneven}, landed {landed:?}, on part {} {}",
        up.film().mean_dry().0,
        square.film().mean_dry().0
    );
    assert!(worst < 0.08, "mirrored within counting: {worst}");
    assert!(uneven > 0.2, "a tilt leaves one side thicker: {uneven}");
    assert!(landed[0] > 0.5 && landed[0] < landed[1] + 0.03, "{landed:?}");
}
