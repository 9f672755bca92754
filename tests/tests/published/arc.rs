//! Arcing: the gun swings about a pivot instead of moving square on.
//!
//! Geometry alone, computed here a second time in closed form (no published source): pivot 0.7 m behind the tip, 180 mm square
//! on; 0.3 m out the aimed point runs 1/cos^2 faster and the way along the ray is 230 mm instead of 180 mm, so that one pass leaves
//! 0.70 of the middle; where passes overlap, only the speed counts: 0.90.

use mistcoat::job::Job;
use mistcoat::run::{PoseRange, Prepared};
use mistcoat::stroke::{Hand, Layer, legs, moved};
use mistcoat_tests::scenes::PANEL;

/// A panel of 800 x 600 mm, the trigger on far past its ends.
fn large() -> String {
    PANEL
        .replace("width = \"600 mm\", height = \"400 mm\"", "width = \"800 mm\", height = \"600 mm\"")
        .replace("speed = \"450 mm/s\"", "speed = \"450 mm/s\"\nlead = \"200 mm\"")
}

#[test]
fn an_arc_leaves_seven_tenths_of_one_pass_and_nine_tenths_of_overlapped_ones_three_hundred_millimetres_out() {
    let prepared = Prepared::new(Job::from_toml(&large()).expect("a job")).expect("it sprays");
    // One pose: rays, no air.
    let none = PoseRange { distance: [0.18; 2], heel: [0.0; 2], swing: [0.0; 2], aside: [0.0; 2] };
    let mut shelf = prepared.shelf(&none, 200_000, 1).expect("a shelf");
    shelf.finish(mistcoat::flight::levels()[0], u64::MAX);
    let layer = Layer::full(&shelf);
    let hand = Hand { pivot: Some(0.7), ..Hand::default() };
    let plan = &prepared.job.stroke;
    let film = |only_middle: bool| {
        let mut legs = legs(plan, &prepared.job.part, 0.2);
        if only_middle {
            legs.retain(|leg| leg.offset.abs() < 0.01);
        }
        assert!(!legs.is_empty());
        let track = moved(plan, &legs, &hand, false, 1).expect("a track");
        let mut film = prepared.bare_film();
        layer.lay_segments(&track, 0..track.moments().len() - 1, 0, &mut film);
        film
    };
    // Mean film of the columns near x, over the rows within `half` of the middle.
    let at = |film: &mistcoat::film::FilmMap, x: f64, half: f64| {
        let face = film.face();
        let cells: Vec<f64> = (0..face.len())
            .filter(|c| (face.x(c % face.nx).abs() - x).abs() < 0.02 && face.y(c / face.nx).abs() < half)
            .map(|c| film.dry[c])
            .collect();
        cells.iter().sum::<f64>() / cells.len() as f64
    };
    let one = film(true);
    let overlapped = film(false);
    let single = at(&one, 0.3, 0.03) / at(&one, 0.0, 0.03);
    // Whole periods of the passes, 100 mm.
    let coat = at(&overlapped, 0.3, 0.15) / at(&overlapped, 0.0, 0.15);
    println!("one pass {single}, overlapped {coat}");
    assert!((single / 0.70 - 1.0).abs() < 0.05, "{single}");
    assert!((coat / 0.90 - 1.0).abs() < 0.05, "{coat}");
}
