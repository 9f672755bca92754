//! A flight gives the same bits at every SIMD level and in every cut of the droplets into batches.

use fearless_simd::Level;
use mistcoat::airflow::{FanJet, JetSpec, PanelFlow, SPREAD, TubeFlow};
use mistcoat::catalogue;
use mistcoat::emission::Emission;
use mistcoat::flight::{Batch, FlightSettings, Noise, Scene, fly, levels};
use mistcoat::job::Booth;
use mistcoat::part::{CARD_HALF, PanelPart, TubePart};
use mistcoat::set_up;
use mistcoat::stream::Purpose;
use mistcoat::tally::Digest;

/// Not a multiple of any vector's lanes.
const DROPLETS: u64 = 1013;

fn take_in(digest: &mut Digest, batch: &Batch<f32>) {
    for k in 0..batch.len() {
        digest.count(u64::from(batch.end[k]));
        let vectors = [&batch.end_position, &batch.end_velocity];
        let numbers = vectors.into_iter().flatten().chain([&batch.end_exposure, &batch.end_time]);
        numbers.for_each(|of| digest.count(u64::from(of[k].to_bits())));
    }
}

struct Case {
    name: &'static str,
    scene: Scene<f32>,
    set: FlightSettings<f32>,
    emission: Emission,
}

/// A panel and a tube under a rated gun, with gravity and drying, so that every term of the step takes part.
fn cases() -> Vec<Case> {
    let kit = catalogue::kit("hvlp-gravity-1.3").expect("a kit");
    let paint = catalogue::paint("two-pack-clear").expect("a paint");
    let booth = Booth::at(293.15, 0.5);
    let spray = set_up::spray(&kit, &kit.rated(), &paint, &booth).expect("a spray");
    let jet = FanJet::new(&JetSpec {
        momentum: spray.axial_momentum / 1.2,
        exit_speed: spray.exit_speed,
        slope_x: 0.0,
        slope_y: spray.fan_slope,
        spread: SPREAD,
        turbulence: 1.0,
    })
    .expect("a jet");
    let mut set = FlightSettings::plain(1.2, 1.81e-5, spray.density);
    set.gravity = [0.3, -9.7, 1.0];
    (set.ventilation, set.shrink, set.half_exposure, set.volatile_density) = (0.4, 0.12, 4e6, 0.9);
    let panel = PanelFlow::new(jet, 0.19).expect("a panel");
    let face = PanelPart { distance: 0.19, half: CARD_HALF, layer: 1.0 / panel.inverse_layer };
    let tube = TubeFlow::new(jet, 0.19, 0.011, 0.004).expect("a tube");
    let pipe =
        TubePart { radius: 0.011, axis_y: tube.axis_y, axis_z: tube.axis_z, behind: 0.033, half: CARD_HALF };
    [("panel", Scene::Panel(panel, face)), ("tube", Scene::Tube(tube, pipe))]
        .map(|(name, scene)| Case {
            name,
            scene: scene.narrow(),
            set: set.cast(),
            emission: Emission::new(&spray, &jet, false),
        })
        .into()
}

/// Digest of all droplets, flown in batches of `size`.
fn digest(case: &Case, level: Level, noise: Noise, size: u64) -> u64 {
    let mut digest = Digest::default();
    let mut batch = Batch::default();
    let mut first = 0;
    while first < DROPLETS {
        batch.clear();
        for k in first..DROPLETS.min(first + size) {
            batch.push(&case.emission.start(11, k, Purpose::CardEmission, Purpose::CardFlight));
        }
        fly(level, &case.scene, &case.set, noise, &mut batch);
        take_in(&mut digest, &batch);
        first += size;
    }
    digest.value()
}

#[test]
fn every_simd_level_gives_the_same_bits() {
    let mut all = levels();
    all.push(Level::fallback());
    assert!(all.len() > 1);
    for case in cases() {
        for noise in [Noise::Sum2, Noise::Normal] {
            let of: Vec<u64> = all.iter().map(|level| digest(&case, *level, noise, DROPLETS)).collect();
            for (level, found) in all.iter().zip(&of) {
                assert_eq!(*found, of[0], "{} {noise:?}: {level:?} against {:?}", case.name, all[0]);
            }
        }
    }
}

#[test]
fn a_droplet_flies_the_same_whatever_flies_beside_it() {
    for case in cases() {
        let whole = digest(&case, Level::new(), Noise::Sum2, DROPLETS);
        for size in [1, 3, 64, 500] {
            assert_eq!(
                digest(&case, Level::new(), Noise::Sum2, size),
                whole,
                "{}, batches of {size}",
                case.name
            );
        }
    }
}

#[test]
fn one_bit_changes_the_digest() {
    let case = &cases()[0];
    let mut batch = Batch::default();
    batch.push(&case.emission.start(11, 0, Purpose::CardEmission, Purpose::CardFlight));
    fly(Level::new(), &case.scene, &case.set, Noise::Sum2, &mut batch);
    let of = |batch: &Batch<f32>| {
        let mut digest = Digest::default();
        take_in(&mut digest, batch);
        digest.value()
    };
    let before = of(&batch);
    batch.end_time[0] = f32::from_bits(batch.end_time[0].to_bits() ^ 1);
    assert_ne!(of(&batch), before);
}
