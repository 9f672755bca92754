//! Match my gun against guns whose constants are known: one hundred cards of four set-ups, made by the whole model with streams of their
//! own (never by the surface), guns drawn from the prior, readings off by 5 %.

use mistcoat::fit::{MatchedGun, Matching, Surfaces, Unknown, model_card};
use mistcoat::job::{Job, Measurement, Reading};
use mistcoat::math::exp;
use mistcoat::normal;
use mistcoat::set_up;
use mistcoat::stream::{Purpose, Stream};

const CARDS: u64 = 100;
const NOISE: f64 = 0.05;
/// Droplets of a true card.
const DROPLETS: u64 = 65_536;
const SPEED: f64 = 0.45;
const SECONDS: f64 = 15.0;

/// Kit, fan knob and distance [mm] of the set-ups.
const SET_UPS: [(&str, f64, f64); 4] = [
    ("hvlp-gravity-1.3", 1.0, 200.0),
    ("lvlp-gravity-1.2", 0.8, 170.0),
    ("conventional-gravity-1.4", 1.0, 230.0),
    ("hvlp-gravity-1.3", 0.0, 200.0),
];

fn job((kit, fan, distance): (&str, f64, f64)) -> Job {
    let text = format!(
        "version = 1\ngun.kit = \"{kit}\"\ngun.fan = {fan}\npaint.kind = \"two-pack-clear\"\n\
         part.panel = {{ width = \"600 mm\", height = \"400 mm\" }}\n\
         stroke = {{ distance = \"{distance} mm\", speed = \"450 mm/s\" }}\n"
    );
    Job::from_toml(&text).unwrap_or_else(|e| panic!("{kit}: {e}"))
}

/// The true logarithms of a gun, and the readings of its card.
fn card(job: &Job, number: u64) -> ([f64; 4], Vec<Reading>) {
    let mut draw = Stream::new(20_260_401, number, Purpose::Emission);
    let mut normal = || normal::quantile(draw.open01());
    let unknowns = Unknown::of(&job.kit);
    let truth: [f64; 4] = unknowns.map(|u| u.prior() * normal());
    let mut own = job.clone();
    for (unknown, log) in unknowns.into_iter().zip(truth) {
        unknown.set(&mut own.kit.matched, exp(log));
    }
    own.run.seed = 1_000_003 + number;
    let flow = set_up::state(&own.kit, &own.gun, &own.paint, &own.booth).expect("a state").paint_flow;
    let density = own.paint.density;
    let distance = own.stroke.distance;
    let logs = model_card(own, DROPLETS).expect("a card").logs;
    let mut reading = |key, name, what, value: f64| Reading {
        key,
        name,
        what,
        value: value * exp(NOISE * normal()),
        uncertainty: NOISE,
        kept_back: false,
    };
    let readings = vec![
        reading("card.fan_height", "fan-height", Measurement::FanHeight { distance }, exp(logs[0])),
        reading("card.fan_thickness", "fan-thickness", Measurement::FanThickness { distance }, exp(logs[1])),
        reading("card.weighed", "flow", Measurement::Weighed { seconds: SECONDS }, flow * SECONDS * density),
        reading(
            "card.wet_film",
            "film",
            Measurement::WetFilm { distance, speed: SPEED },
            flow / SPEED * exp(logs[2]),
        ),
    ];
    (truth, readings)
}

fn matched(job: &Job, surfaces: &mut Surfaces) -> MatchedGun {
    let mut matching = Matching::new(job.clone()).expect("a fit").model_error(0.0).with_surfaces(surfaces);
    matching.finish();
    *surfaces = matching.surfaces();
    matching.matched().expect("an end").clone().unwrap_or_else(|e| panic!("{e}"))
}

#[test]
fn over_a_hundred_cards_the_truth_lies_in_the_interval() {
    let (mut inside, mut told, mut told_inside) = ([0; 4], [0; 4], [0; 4]);
    let (mut kept_inside, mut good, mut fewest) = (0, 0, f64::INFINITY);
    for (set_up, &what) in SET_UPS.iter().enumerate() {
        let mut job = job(what);
        let (mut surfaces, mut others) = (Surfaces::default(), Surfaces::default());
        for number in (set_up as u64..CARDS).step_by(SET_UPS.len()) {
            let (truth, readings) = card(&job, number);
            job.card = readings;
            let gun = matched(&job, &mut surfaces);
            good += u32::from(gun.misfit <= gun.misfit_limit);
            fewest = fewest.min(gun.guns);
            for (i, (c, log)) in gun.constants.iter().zip(truth).enumerate() {
                let is_inside = (c.factor.low_95..=c.factor.high_95).contains(&exp(log));
                inside[i] += u32::from(is_inside);
                told[i] += u32::from(c.told);
                told_inside[i] += u32::from(c.told && is_inside);
            }
            // The same card with each reading kept back in turn.
            let back = (number as usize / SET_UPS.len()) % job.card.len();
            job.card[back].kept_back = true;
            if others.is_empty() {
                others = surfaces.clone();
            }
            let gun = matched(&job, &mut others);
            kept_inside += u32::from(gun.readings[back].agrees());
        }
    }
    let names = Unknown::of(&job(SET_UPS[0]).kit).map(Unknown::name);
    println!(
        "of {CARDS} cards, truth inside the 95 % interval of {names:?}: {inside:?}; told {told:?}, of these inside {told_inside:?}"
    );
    println!(
        "reading kept back inside its 95 % interval: {kept_inside}; misfit below its 95 % limit: {good}"
    );
    for i in 0..4 {
        assert!((88..=100).contains(&inside[i]), "{}: {} of {CARDS}", names[i], inside[i]);
        let least = (0.88 * f64::from(told[i])).floor() as u32;
        assert!(told_inside[i] >= least, "{}: told {}, inside {}", names[i], told[i], told_inside[i]);
    }
    assert!((88..=100).contains(&kept_inside), "kept back: {kept_inside}");
    assert!((88..=100).contains(&good), "misfit: {good}");
}
