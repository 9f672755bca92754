//! A curved panel: its film lies where the passes laid it and slides as its slope pulls.

use mistcoat::film::{Mark, QUANTA, WetFilm};
use mistcoat::job::Job;
use mistcoat::run::{Run, faces, wet_laws};
use mistcoat_tests::scenes::example;

fn curved(change: impl Fn(&mut Job)) -> Run {
    let mut job = example("curved-back");
    job.run.droplets = 40_000;
    change(&mut job);
    let mut run = Run::new(job).expect("a job");
    run.finish();
    run
}

#[test]
fn its_film_is_even_from_end_to_end_and_sets_to_what_landed() {
    let run = curved(|_| ());
    let (film, report) = (run.film(), run.report().expect("a report"));
    let cv = report.film.cv_percent.expect("a figure");
    assert!(cv.value < 8.0 + 3.0 * cv.standard_error, "{cv:?}");
    // Row by row over the curve: passes stand square to the face, so that its sides hold what its middle does.
    let face = film.face();
    let rows: Vec<f64> = (0..face.ny)
        .map(|row| (0..face.nx).map(|c| film.dry[row * face.nx + c]).sum::<f64>() / face.nx as f64)
        .collect();
    let third = face.ny / 3;
    let mean = |rows: &[f64]| rows.iter().sum::<f64>() / rows.len() as f64;
    let (low, middle, high) = (mean(&rows[..third]), mean(&rows[third..2 * third]), mean(&rows[2 * third..]));
    assert!((low / middle - 1.0).abs() < 0.06 && (high / middle - 1.0).abs() < 0.06, "{low} {middle} {high}");
    let set = run.set_film().expect("it set");
    let (landed, dried) = (film.dry.iter().sum::<f64>(), set.cells.iter().map(|c| c.dry).sum::<f64>());
    assert!((dried / landed - 1.0).abs() < 1e-12, "{dried} {landed}");
    assert!(set.cells.iter().all(|c| c.mark == Mark::Sound), "{:?}", report.finish);
}

#[test]
fn half_the_pace_runs_and_hangs_below() {
    let run = curved(|job| job.stroke.speed *= 0.45);
    let finish = run.report().expect("a report").finish.expect("cells counted well enough");
    assert!(finish.run_area_percent > 50.0, "{finish:?}");
    let (set, face) = (run.set_film().expect("it set"), run.film().face().clone());
    let row = |row: usize| (0..face.nx).map(|c| set.cells[row * face.nx + c].dry).sum::<f64>();
    assert!(row(0) > 1.5 * row(face.ny - 1), "{} {}", row(0), row(face.ny - 1));
}

/// Gravity along the face goes with the cosine of its turn from upright.
#[test]
fn its_slope_is_its_own() {
    let job = example("curved-back");
    let faces = faces(&job);
    let laws = wet_laws(&job, &faces).expect("laws");
    let weight = laws.density * mistcoat::film::GRAVITY;
    let mut film = WetFilm::new(&faces, laws);
    let face = &faces[0];
    for row in 1..face.ny - 1 {
        // Paint leaves a row over its lower edge.
        let cosine = ((face.y(row) - 0.5 * face.cell_y) / face.place.radius).cos();
        let pull = film.pull(0, row) / weight;
        assert!((pull - cosine).abs() < 1e-9, "row {row}: {pull} {cosine}");
    }
    let n = face.len();
    film.land(&vec![40e-6; n], &vec![85e-6; n], 1.0);
    film.wait(f64::INFINITY);
    let slid = |row: usize| film.cells()[row * face.nx + face.nx / 2].slid;
    // Above the middle nothing thicker comes down: by its own pull alone.
    assert!(slid(face.ny / 2) > 1.1 * slid(face.ny - 2), "{} {}", slid(face.ny / 2), slid(face.ny - 2));
    let [solids, _, _, landed] = film.sums();
    assert_eq!(solids, landed);
    assert!(solids as f64 / QUANTA > 0.0);
}
