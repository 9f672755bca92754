//! A frame's droplets: one fate each, booked on one member, the same digits however they are flown.

use mistcoat::job::Job;
use mistcoat::run::Run;
use mistcoat::tally::Fate;

/// The chair of the examples with so many droplets.
fn chair(droplets: u64) -> Job {
    let text = include_str!("../../../core/examples/jobs/chair-frame.toml");
    Job::from_toml(&text.replace("seed = 1", &format!("seed = 1\ndroplets = {droplets}"))).expect("a job")
}

#[test]
fn every_droplet_of_a_chair_has_one_fate_on_one_tube() {
    let droplets = 60_000;
    let mut run = Run::new(chair(droplets)).expect("a run");
    run.finish();
    let part = run.part();
    assert_eq!(part.fates.total(), droplets);
    assert_eq!(part.fates.of(Fate::Lost), 0);
    let members = part.members.as_ref().expect("a frame's counts");
    let faces = run.prepared().bare_film().faces().len();
    let on: Vec<u64> = (0..faces).map(|member| members.on(member)).collect();
    assert_eq!(on.iter().sum::<u64>(), part.fates.of(Fate::Landed), "{on:?}");
    assert!(on.iter().all(|&n| n > 500), "{on:?}");
    assert_eq!(members.of_all().map(|(_, n, _)| n).sum::<f64>(), part.fates.of(Fate::Landed) as f64);
    // The solids on the film are those of the landed parcels.
    let film = run.film();
    let strokes = run.prepared().strokes(run.card());
    let (spray, seconds) = (&run.prepared().spray, strokes.seconds());
    let sprayed = spray.volume_flow * spray.volume_solids * seconds;
    let on_film: f64 =
        film.faces().iter().map(|f| f.cell_area() * film.dry[f.cells()].iter().sum::<f64>()).sum();
    let landed = part.fates.share(Fate::Landed) * sprayed;
    assert!((on_film / landed - 1.0).abs() < 1e-9, "{on_film} {landed}");
}

#[test]
fn a_chair_in_pieces_is_the_same_chair() {
    let mut whole = Run::new(chair(20_000)).expect("a run");
    whole.finish();
    let mut pieces = Run::new(chair(20_000)).expect("a run");
    let mut most = 1;
    while !pieces.advance(most) {
        most = most % 1013 + 97;
    }
    assert_eq!(whole.part(), pieces.part());
    assert_eq!(whole.digest().expect("a report"), pieces.digest().expect("a report"));
    assert_eq!(*whole.film(), *pieces.film());
}

#[test]
fn the_passes_of_a_chair_sum_to_its_film() {
    let mut job = chair(20_000);
    job.stroke.coats = 2;
    let mut run = Run::new(job).expect("a run");
    run.finish();
    let film = run.film();
    let (mut dry, mut wet, mut count, mut last) = (vec![0.0; film.len()], vec![0.0; film.len()], 0, 0.0);
    run.deposits(&mut |deposit| {
        assert!(deposit.from >= last && deposit.to > deposit.from);
        last = deposit.to;
        count += 1;
        dry.iter_mut().zip(&deposit.dry).for_each(|(sum, h)| *sum += h);
        wet.iter_mut().zip(&deposit.wet).for_each(|(sum, h)| *sum += h);
    });
    assert_eq!(count, 2 * 4 * 14);
    let close = |a: &[f64], b: &[f64]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-12 + 1e-9 * b.abs());
    assert!(close(&dry, &film.dry) && close(&wet, &film.wet));
}

#[test]
fn members_that_no_stroke_goes_along_are_not_meant() {
    let mut text = include_str!("../../../core/examples/jobs/chair-frame.toml").to_string();
    text = text.replace("sides = 4", "sides = 4\nmembers = [\"front leg, left\", \"seat rail, left\"]");
    let mut job = Job::from_toml(&text).expect("a job");
    job.run.droplets = 20_000;
    let mut run = Run::new(job).expect("a run");
    run.finish();
    let film = run.film();
    for face in film.faces() {
        let meant = ["front leg, left", "seat rail, left"].contains(&face.name.as_str());
        let shown = face.cells().filter(|&cell| !film.is_hidden(cell)).count();
        assert_eq!(shown > 0, meant, "{}", face.name);
        // A few cells of the leg lie inside the rails and rungs that join it.
        assert!(!meant || shown < face.len());
    }
    assert!(film.mean_dry().0 > 5e-6);
}
