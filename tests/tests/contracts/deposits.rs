//! What lands pass by pass is the film as landed, in order of time.

use mistcoat::job::Job;
use mistcoat::run::Run;
use mistcoat_tests::scenes::example;

fn flown(mut job: Job) -> Run {
    job.run.droplets = 4_000;
    let mut run = Run::new(job).expect("a job");
    run.finish();
    run
}

#[test]
fn deposits_add_up_to_the_film_and_keep_their_times() {
    let mut two_coats = example("table-top");
    two_coats.stroke.coats = 2;
    two_coats.stroke.flash = 300.0;
    let mut burst = example("table-top");
    burst.stroke.burst = Some(1.5);
    let mut tube = example("table-top");
    tube.part = mistcoat::job::PartShape::Tube { diameter: 0.022, length: 0.4 };
    tube.stroke.sides = 3;
    for (job, flash) in [(two_coats, 300.0), (burst, 0.0), (tube, 0.0)] {
        let run = flown(job);
        let film = run.film();
        let (mut dry, mut wet) = (vec![0.0; film.len()], vec![0.0; film.len()]);
        let (mut last, mut longest_wait, mut on) = (0.0, 0.0f64, 0.0);
        run.deposits(&mut |deposit| {
            assert!(deposit.from >= last && deposit.to > deposit.from, "{} after {last}", deposit.from);
            longest_wait = longest_wait.max(deposit.from - last);
            (last, on) = (deposit.to, on + deposit.to - deposit.from);
            for cell in 0..film.len() {
                dry[cell] += deposit.dry[cell];
                wet[cell] += deposit.wet[cell];
            }
        });
        let thickest = film.wet.iter().copied().fold(0.0, f64::max);
        for cell in 0..film.len() {
            assert!((dry[cell] - film.dry[cell]).abs() < 1e-12 * thickest, "{cell}");
            assert!((wet[cell] - film.wet[cell]).abs() < 1e-12 * thickest, "{cell}");
        }
        let seconds = run.prepared().strokes(run.card()).seconds();
        assert!((on - seconds).abs() < 1e-9 * seconds, "{on} of {seconds} s");
        assert!(flash == 0.0 || longest_wait == flash, "{longest_wait}");
    }
}
