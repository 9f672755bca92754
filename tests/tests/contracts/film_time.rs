//! A film in time: whole quanta, nothing lost, the same bits however it is sliced; it slides as the closed forms say.

use mistcoat::film::{DryingLaws, FilmMap, GRAVITY, QUANTA, Slide, WetFilm, WetLaws};
use mistcoat::job::{Job, PartShape};
use mistcoat::run::{Run, faces, wet_laws};
use mistcoat_tests::scenes::{example, job};
use std::f64::consts::{FRAC_PI_2, PI};

fn upright(paint: &str) -> Job {
    Job { lean: FRAC_PI_2, ..job("hvlp-gravity-1.3", paint) }
}

fn balanced(film: &WetFilm) {
    let [solids, solvents, landed, landed_solids] = film.sums();
    assert_eq!(solids, landed_solids, "solids");
    assert_eq!(solids + solvents + film.evaporated(), landed, "wet and evaporated");
}

/// Uneven deposits, thick and thin, on all kinds of slopes: nothing is lost at any moment.
#[test]
fn solids_and_wet_volume_are_kept_to_the_quantum() {
    let tube = PartShape::Tube { diameter: 0.06, length: 0.2 };
    for (lean, part) in
        [(FRAC_PI_2, None), (0.6, None), (PI, None), (0.0, Some(tube.clone())), (1.0, Some(tube))]
    {
        let mut job = upright("two-pack-clear");
        job.lean = lean;
        job.part = part.unwrap_or(PartShape::Panel { width: 0.2, height: 0.15 });
        let faces = faces(&job);
        let mut film = WetFilm::new(&faces, wet_laws(&job, &faces).expect("laws"));
        let map = FilmMap::over(faces);
        for coat in 0..3 {
            let wet: Vec<f64> =
                (0..map.len()).map(|c| 1.7e-6 * ((c * 37 + coat * 11) % 101) as f64).collect();
            let dry: Vec<f64> =
                wet.iter().enumerate().map(|(c, h)| h * (0.4 + 0.003 * (c % 7) as f64)).collect();
            film.land(&dry, &wet, 1.0);
            // A wet-on-wet coat, then one after the first has set.
            let until = film.time() + [20.0, 600.0, 5.0][coat];
            let mut pieces = 0;
            while !film.step(until) {
                pieces += 1;
                if pieces % 7 == 0 {
                    balanced(&film);
                }
            }
        }
        film.wait(f64::INFINITY);
        balanced(&film);
        assert!(film.evaporated() > 0);
        let moved = film.cells().iter().any(|c| c.slid_in > 0);
        assert_eq!(moved, lean != PI, "lean {lean}");
    }
}

/// A gun that is held for minutes on a thin tube, told by few droplets, lays metres into one cell: one random job of ten thousand.
#[test]
fn metres_in_a_cell_are_borne() {
    let mut job = upright("epoxy-primer");
    job.part = PartShape::Tube { diameter: 0.006, length: 0.05 };
    let faces = faces(&job);
    let mut film = WetFilm::new(&faces, wet_laws(&job, &faces).expect("laws"));
    let map = FilmMap::over(faces);
    let wet: Vec<f64> = (0..map.len()).map(|c| if c % 5 == 0 { 60.0 } else { 1e-4 }).collect();
    for _ in 0..8 {
        film.land(&wet, &wet, 0.5);
        film.wait(film.time() + 2.0);
        balanced(&film);
    }
    let most = film.cells().iter().map(|c| c.solids + c.solvents + c.under + c.under_solvents).max();
    assert!(most.is_some_and(|most| most as f64 <= 4.0 * QUANTA), "{most:?}");
}

#[test]
fn a_run_sets_to_the_same_bits_however_it_is_sliced_and_leaves_its_tally_alone() {
    let mut job = example("table-top");
    (job.lean, job.run.droplets, job.stroke.coats, job.stroke.flash) = (1.2, 6_000, 2, 40.0);
    let mut whole = Run::new(job.clone()).expect("a job");
    whole.finish();
    let mut sliced = Run::new(job).expect("a job");
    while !sliced.advance(777) {}
    assert_eq!(whole.set_film(), sliced.set_film());
    let film = whole.film();
    assert_eq!(*film, *sliced.film());
    // What has set is what landed, to 1e-12.
    let set = whole.set_film().expect("a set film");
    let landed: f64 = film.dry.iter().sum();
    let dried: f64 = set.cells.iter().map(|c| c.dry).sum();
    assert!((dried / landed - 1.0).abs() < 1e-12, "{dried} {landed}");
    let strokes = whole.prepared().strokes(whole.card());
    let mut again = whole.prepared().bare_film();
    whole.prepared().swept(whole.part(), &strokes).lay(&mut again);
    assert_eq!(again.dry, film.dry);
}

/// Next to no solvents, lost evenly: the viscosity rises as mu0 exp(t/tau) and the film keeps its thickness.
fn exponential(setting: f64, folds: f64) -> DryingLaws {
    let (r, film) = (1e-3, 1e-4);
    DryingLaws {
        per_unit: 1.0 / r,
        loss: vec![film * r / (setting * folds); 2],
        diffusivity: vec![1.0; 2],
        stiffness: vec![folds, 0.0],
        landed: r,
        thinning: 1.0,
    }
}

#[test]
fn an_even_film_slides_as_far_as_the_closed_form() {
    let (density, viscosity, setting, wet) = (1050.0, 1.0, 60.0, 1e-4);
    let laws = WetLaws {
        drying: exponential(setting, 12.0),
        setting_time: setting,
        ..WetLaws::unchanging(density, viscosity, 1.0)
    };
    let map = FilmMap::bare(3, 200, 5e-3, 5e-3);
    let mut film = WetFilm::new(map.faces(), laws);
    film.land(&vec![wet / 1.001; map.len()], &vec![wet; map.len()], 1.0);
    film.wait(f64::INFINITY);
    let slid = film.cells()[100 * 3 + 1].slid;
    let closed = Slide::newtonian(density * GRAVITY, viscosity).slides(wet, setting);
    assert!((slid / closed - 1.0).abs() < 0.01, "{slid} {closed}");
    // The volume past the middle: two thirds of the surface's way.
    let below: u64 = film.cells()[..300].iter().map(|c| c.solids).sum();
    let landed: u64 = film.cells()[..300].iter().map(|c| c.landed_solids).sum();
    let way = (below - landed) as f64 / QUANTA / 3.0 / (wet / 1.001) * 5e-3;
    assert!((way / (closed * 2.0 / 3.0) - 1.0).abs() < 0.02, "{way} {closed}");
}

#[test]
fn an_even_film_falls_by_its_own_flux() {
    // A long even film of h drains past its first lower edge at rho g h^3/(3 mu) (Nusselt).
    let (h, density, viscosity) = (2e-4, 1000.0, 0.05);
    let map = FilmMap::bare(1, 400, 4e-3, 4e-3);
    let landing: Vec<f64> = (0..400).map(|row| if row >= 200 { h } else { 0.0 }).collect();
    let mut film = WetFilm::new(map.faces(), WetLaws::unchanging(density, viscosity, 0.05));
    film.land(&landing, &landing, 1.0);
    film.wait(4.0);
    let passed: f64 = film.cells()[..200].iter().map(|c| c.film()).sum::<f64>() * 4e-3;
    let wanted = Slide::newtonian(density * GRAVITY, viscosity).flux(h) * 4.0;
    assert!((passed / wanted - 1.0).abs() < 0.01, "{passed} {wanted}");
}

#[test]
fn a_yield_stress_holds_a_film_up_and_lets_more_go() {
    let mut laws = WetLaws::unchanging(1050.0, 0.2, 1.0);
    laws.yield_stress = 1.0;
    let map = FilmMap::bare(1, 60, 5e-3, 5e-3);
    for (um, moves) in [(95.0, false), (110.0, true)] {
        let mut film = WetFilm::new(map.faces(), laws.clone());
        film.land(&vec![um * 1e-6; 60], &vec![um * 1e-6; 60], 1.0);
        film.wait(20.0);
        assert_eq!(film.cells().iter().any(|c| c.slid_in > 0), moves, "{um}");
    }
}

#[test]
fn round_a_level_tube_paint_gathers_underneath() {
    let mut job = upright("two-pack-clear");
    (job.part, job.lean) = (PartShape::Tube { diameter: 0.1, length: 0.1 }, 0.0);
    let faces = faces(&job);
    let mut film = WetFilm::new(&faces, wet_laws(&job, &faces).expect("laws"));
    let n = faces[0].len();
    film.land(&vec![85e-6; n], &vec![180e-6; n], 1.0);
    film.wait(f64::INFINITY);
    let face = &faces[0];
    let ring: Vec<f64> = (0..face.ny).map(|row| film.cells()[row * face.nx].dry()).collect();
    // y = 0 is the top; the seam, at both ends, the bottom.
    let (top, side, bottom) = (ring[face.ny / 2], ring[face.ny / 4], ring[0]);
    assert!(bottom > 5.0 * side && bottom > 5.0 * top, "{top} {side} {bottom}");
    let mirrored = ring.iter().zip(ring.iter().rev()).all(|(a, b)| (a - b).abs() < 1e-9);
    assert!(mirrored, "{ring:?}");
}
