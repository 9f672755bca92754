//! The swept footprint is the film that a direct run lays down, block by block.

use mistcoat::film::FilmMap;
use mistcoat::job::{FanAxis, Job};
use mistcoat::run::{Run, direct_film};
use mistcoat_tests::scenes::example;

const DROPLETS: u64 = 400_000;

/// Deviations of direct from swept film in standard errors, by block.
struct Blocks {
    deviations: Vec<f64>,
}

impl Blocks {
    /// `swept` and `direct` in blocks of about 20 mm. `direct` counts `droplets` parcels of `parcel` film each [m].
    fn new(swept: &FilmMap, direct: &FilmMap, parcel: f64) -> Self {
        let across = |cell: f64, n: usize| ((0.020 / cell).round() as usize).clamp(1, n);
        let (bx, by) =
            (across(swept.face().cell_x, swept.face().nx), across(swept.face().cell_y, swept.face().ny));
        let mut deviations = Vec::new();
        for j in (0..swept.face().ny).step_by(by) {
            for i in (0..swept.face().nx).step_by(bx) {
                let (mut a, mut b) = (0.0, 0.0);
                for y in j..(j + by).min(swept.face().ny) {
                    for x in i..(i + bx).min(swept.face().nx) {
                        a += swept.dry[y * swept.face().nx + x] / parcel;
                        b += direct.dry[y * swept.face().nx + x] / parcel;
                    }
                }
                // Poisson; a block that hardly any parcel reaches has no error worth the name.
                if a >= 25.0 {
                    deviations.push((b - a) / a.sqrt());
                }
            }
        }
        Self { deviations }
    }

    fn beyond(&self, errors: f64) -> usize {
        self.deviations.iter().filter(|d| d.abs() > errors).count()
    }

    /// Mean square deviation, 1 where only counting noise parts the two.
    fn mean_square(&self) -> f64 {
        self.deviations.iter().map(|d| d * d).sum::<f64>() / self.deviations.len() as f64
    }

    /// At 3 standard errors one block in 370 stands out by chance alone: so many may, no more; and none by more than 5.
    fn agree(&self) -> Result<(), String> {
        let n = self.deviations.len() as f64;
        let chance = n / 370.0;
        let most = chance + 4.0 * chance.sqrt() + 1.0;
        let (three, five, square) = (self.beyond(3.0), self.beyond(5.0), self.mean_square());
        let told = format!("{n} blocks: {three} beyond 3 errors, {five} beyond 5, mean square {square:.3}");
        // Deviation of the mean square: sqrt(2/n).
        let limit = 1.0 + 4.0 * (2.0 / n).sqrt();
        if (three as f64) <= most && five == 0 && square <= limit { Ok(()) } else { Err(told) }
    }
}

/// Both films, and the film of one parcel [m].
fn both(mut job: Job) -> (FilmMap, FilmMap, f64) {
    job.run.droplets = DROPLETS;
    let mut run = Run::new(job).expect("a job");
    run.finish();
    let prepared = run.prepared();
    let direct = direct_film(prepared, run.card(), DROPLETS);
    let sprayed = prepared.spray.volume_flow * prepared.strokes(run.card()).seconds();
    let parcel = sprayed * prepared.spray.volume_solids
        / DROPLETS as f64
        / (direct.face().cell_x * direct.face().cell_y);
    (run.film().into_owned(), direct, parcel)
}

fn agree(job: Job) {
    let (swept, direct, parcel) = both(job);
    Blocks::new(&swept, &direct, parcel).agree().unwrap();
}

#[test]
fn panel() {
    let (swept, direct, parcel) = both(example("table-top"));
    Blocks::new(&swept, &direct, parcel).agree().unwrap();
    // Planted faults: five per cent too much; moved by one block of 20 mm across the passes.
    let (mut more, mut moved) = (swept.clone(), swept);
    more.dry.iter_mut().for_each(|h| *h *= 1.05);
    let row = moved.face().nx;
    moved.dry.rotate_right(4 * row);
    for fault in [more, moved] {
        assert!(Blocks::new(&fault, &direct, parcel).agree().is_err());
    }
}

#[test]
fn panel_twice_with_the_fan_along() {
    let mut job = example("table-top");
    job.stroke.fan_axis = FanAxis::Along;
    job.stroke.coats = 2;
    agree(job);
}

#[test]
fn tube() {
    agree(example("chair-leg-wide-fan"));
}

#[test]
fn tube_from_three_sides() {
    let mut job = example("chair-leg-near-round");
    job.stroke.sides = 3;
    agree(job);
}

#[test]
fn burst() {
    let mut job = example("table-top");
    job.stroke.burst = Some(0.5);
    agree(job);
}
