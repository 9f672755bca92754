//! Transfer efficiency against distance, and a tube against its card, found through sweeps.

use mistcoat::job::Job;
use mistcoat::sweep::{Axis, Plan, Sweep};

const LANDED: &str = "transfer_efficiency.value";

fn swept(text: &str, axis: &str, columns: &[&str]) -> mistcoat::sweep::Answer {
    let job = Job::from_toml(text).expect("a job");
    let plan = Plan::new(&job, vec![Axis::read(axis).expect("an axis")], columns).expect("a plan");
    let mut sweep = Sweep::new(plan);
    sweep.finish();
    sweep.answer()
}

fn text(part: &str, stroke: &str, droplets: u32) -> String {
    format!(
        "version = 1\ngun.kit = \"hvlp-gravity-1.3\"\npaint.kind = \"two-pack-clear\"\npart = {{ {part} }}\n\
         stroke = {{ distance = \"180 mm\", {stroke} }}\nrun.droplets = {droplets}\n"
    )
}

/// It falls with distance (common practice; measured by every transfer test that moved the gun). Held still before a card of 1.2 m,
/// and in passes round a tube; on a panel under passes the number of passes jumps with the fan's height.
#[test]
fn transfer_efficiency_falls_at_every_step_of_distance() {
    for (part, stroke, axis) in [
        (
            "panel = { width = \"1.2 m\", height = \"1.2 m\" }",
            "burst = \"1 s\"",
            "stroke.distance=150..300 mm:7",
        ),
        (
            "tube = { diameter = \"42 mm\", length = \"600 mm\" }",
            "speed = \"400 mm/s\"",
            "stroke.distance=150..300 mm:7",
        ),
    ] {
        let answer = swept(&text(part, stroke, 20_000), axis, &[LANDED]);
        for number in 1..answer.points.len() {
            let (step, error) = answer.difference(LANDED, number, number - 1).expect("replicates");
            let at = &answer.points[number].settings;
            println!("{part}: to {at:?} by {step:.4}, standard error {error:.4}");
            assert!(error > 0.0 && step < -3.0 * error, "{part} to {at:?}: {step} +- {error}");
        }
    }
}

/// Gun held still: a tube never keeps more than lies on the card within its own width (geometry: it shades no more; its air only turns
/// droplets away), at any distance, beyond three paired standard errors. A strip as high as the tube is thick, read from the film before
/// an endless flat face, is the card's share; both have the same seed, so the same droplets.
#[test]
fn a_tube_never_beats_its_width_of_the_card() {
    let burst = "burst = \"1 s\"";
    for millimetres in [22, 42] {
        let tube = format!("tube = {{ diameter = \"{millimetres} mm\", length = \"1 m\" }}");
        let strip = format!("panel = {{ width = \"1 m\", height = \"{millimetres} mm\" }}");
        let [mut both, mut on_card] = [&tube, &strip]
            .map(|part| swept(&text(part, burst, 20_000), "stroke.distance=150..300 mm:3", &[LANDED]));
        let count = both.points.len();
        for point in &mut on_card.points {
            point.number += count;
        }
        both.points.append(&mut on_card.points);
        for number in 0..count {
            let (more, error) = both.difference(LANDED, number, number + count).expect("replicates");
            let at = &both.points[number].settings;
            println!("{millimetres} mm tube at {at:?}: {more:.4} of the card's, standard error {error:.4}");
            assert!(error > 0.0 && more < 3.0 * error, "{millimetres} mm at {at:?}: {more} +- {error}");
        }
    }
}

/// A tube keeps less than the card, whatever the fan, and the less the wider the fan stands across it.
#[test]
fn a_tube_never_beats_its_card() {
    let tube = text(
        "tube = { diameter = \"22 mm\", length = \"600 mm\" }",
        "speed = \"400 mm/s\", lead = \"0 mm\"",
        20_000,
    );
    let card = "large_panel_efficiency.value";
    let answer = swept(&tube, "gun.fan=0..1:5", &[LANDED, card]);
    let mut before = f64::INFINITY;
    for point in &answer.points {
        let [on_tube, on_card] = [0, 1].map(|i| point.figures[i].number().expect("a share"));
        let error = [0, 1].map(|i| point.figures[i].standard_error.expect("counted"));
        let both = (error[0] * error[0] + error[1] * error[1]).sqrt();
        println!("fan {:?}: tube {on_tube:.4}, card {on_card:.4}", point.settings);
        assert!(
            on_tube < on_card - 3.0 * both,
            "{:?}: {on_tube} on the tube, {on_card} on the card",
            point.settings
        );
        assert!(on_tube < before, "{:?}: a wider fan lands more on a thin tube", point.settings);
        before = on_tube;
    }
}
