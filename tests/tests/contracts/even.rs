//! A perfectly even film reports 0 %, not its counting noise.

use mistcoat::film::{FilmMap, evenness};
use mistcoat::run::Run;
use mistcoat::stream::{Purpose, Stream};
use mistcoat::stroke::{Lay, Pass, Strokes, Swept};
use mistcoat::tally::{Fate, Fates, Footprint, GROUPS, Grid};
use mistcoat_tests::scenes::example;

/// Passes every `spacing` [m] from well above to well below the film, trigger on far past it.
fn passes(spacing: f64) -> Strokes {
    let pass = |i: i32| Pass { from: -2.0, to: 2.0, offset: f64::from(i) * spacing, turn: 0.0, member: 0 };
    Strokes::Passes { passes: (-150..=150).map(pass).collect(), speed: 0.45, coats: 1 }
}

/// Footprint of `droplets` parcels of one height W spread by `place` of a uniform number, and its fates.
fn footprint(droplets: u64, place: impl Fn(f64) -> f64) -> (Footprint, Fates) {
    let grid = Grid { nx: 200, ny: 200, x0: -0.2, y0: -0.2, dx: 2e-3, dy: 2e-3 };
    let (mut footprint, mut fates) = (Footprint::new(grid), Fates::default());
    for droplet in 0..droplets {
        let mut draw = Stream::new(3, droplet, Purpose::Emission);
        let (x, y) = (0.04 * (draw.open01() - 0.5), place(draw.open01()));
        let group = (droplet % GROUPS as u64) as usize;
        fates.count(Fate::Landed, group);
        footprint.count(x, y, 1.0, group);
    }
    (footprint, fates)
}

fn lay(footprint: &Footprint, fates: &Fates, spacing: f64, film: &mut FilmMap) {
    let strokes = passes(spacing);
    Swept { footprint, fates, lay: Lay::Across, strokes: &strokes, flow: 3e-6, solids: 0.5, members: None }
        .lay(film);
}

fn film((footprint, fates): &(Footprint, Fates), spacing: f64) -> FilmMap {
    let mut film = FilmMap::bare(4, 60, 5e-3, 2e-3);
    lay(footprint, fates, spacing, &mut film);
    film
}

/// Standard deviation over mean as one would take it from the map: counting noise and all.
fn plain(film: &FilmMap) -> f64 {
    let mean = film.mean_dry().0;
    let square = film.dry.iter().map(|h| (h - mean) * (h - mean)).sum::<f64>() / film.len() as f64;
    square.sqrt() / mean
}

#[test]
fn a_flat_profile_of_few_droplets_at_half_overlap() {
    // Flat over 160 mm, passes 80 mm apart: exactly two passes over every point.
    let few = footprint(4_000, |u| 0.16 * (u - 0.5));
    let film = film(&few, 0.08);
    let e = evenness(&film).expect("a film");
    assert!(plain(&film) > 0.08, "there is noise to be taken out: {}", plain(&film));
    assert!(e.cv <= 3.0 * e.standard_error && e.square.abs() < 0.002, "{e:?}");
}

#[test]
fn a_true_unevenness_is_not_taken_out() {
    // Half the droplets in the middle third: 17.6 % at this overlap without noise.
    let profile = |u: f64| if u < 0.5 { 0.16 / 3.0 * (2.0 * u - 0.5) } else { 0.16 * (2.0 * u - 1.5) };
    let (few, many) = (footprint(4_000, profile), footprint(4_000_000, profile));
    let truth = evenness(&film(&many, 0.08)).expect("a film");
    let e = evenness(&film(&few, 0.08)).expect("a film");
    assert!(truth.cv > 0.10, "{truth:?}");
    assert!((e.cv - truth.cv).abs() < 4.0 * e.standard_error, "{e:?} against {truth:?}");
    assert!(e.cv > 5.0 * e.standard_error, "{e:?}");
}

#[test]
fn a_flown_footprint_at_very_high_overlap() {
    let mut job = example("table-top");
    // So many that the standard error lies below the bound.
    job.run.droplets = 400_000;
    let mut run = Run::new(job).expect("a job");
    run.finish();
    // The fan is about 190 mm high: passes 7 mm apart leave nothing of its shape. They reach a metre past the film, for
    // the last of the overspray too.
    let mut film = FilmMap::bare(20, 30, 5e-3, 5e-3);
    let part = run.part();
    lay(&part.footprint, &part.fates, 7e-3, &mut film);
    let e = evenness(&film).expect("a film");
    assert!(e.cv <= 3.0 * e.standard_error && e.cv < 0.002, "{e:?}");
}
