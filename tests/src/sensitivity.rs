//! What each uncertain constant changes: efficiency, film and pattern at the lowest and the highest it may be.
//!
//! One set-up: the reference gun and paint as rated, 190 mm off a large card, and the same gun 150 mm off a 22 mm tube.

use crate::scenes::{card, card_of, job, landings, share, tube_of};
use mistcoat::airflow::{FanJet, PanelFlow, SPREAD, TIME_SCALE, TubeFlow};
use mistcoat::constants::Constants;
use mistcoat::course::Course;
use mistcoat::flight::Scene;
use mistcoat::part::{PanelPart, TubePart};
use mistcoat::report::pattern_sizes;
use mistcoat::report::{REST_FAN, REST_FLAT, REST_TUBES};
use mistcoat::set_up::{
    KINETIC_LOSS_ENDS, Model, NEEDLE_GAP_ENDS, REFERENCE_KIT, REFERENCE_PAINT, TIP_SUCTION_ENDS,
};
use mistcoat::tally::Fate;

/// Droplets a set-up; the same streams at each, so that differences are sharper than figures.
const DROPLETS: u64 = 60_000;
/// Tube [m] and the gun's distance from it [m].
const TUBE: (f64, f64) = (0.022, 0.15);
/// Fan and fluid of a near-round spot [-].
const SPOT: (f64, f64) = (0.1, 0.4);

/// A change of the gun's side.
type OfGun = fn(&mut Constants, f64);
/// A change of the air's side.
type OfAir = fn(&mut Scene<f64>, f64);

enum Change {
    Gun(OfGun),
    Air(OfAir),
}

/// One constant, how low and how high it may be, why, and how it is changed.
struct Row {
    name: &'static str,
    unit: &'static str,
    ends: [f64; 2],
    why: &'static str,
    change: Change,
}

macro_rules! gun {
    ($name:ident, $unit:literal, $scale:literal, $ends:expr, $why:literal) => {
        Row {
            name: stringify!($name),
            unit: $unit,
            ends: $ends,
            why: $why,
            change: Change::Gun(|c, x| c.$name = x * $scale),
        }
    };
}

fn air(name: &'static str, unit: &'static str, ends: [f64; 2], why: &'static str, change: OfAir) -> Row {
    Row { name, unit, ends, why, change: Change::Air(change) }
}

fn rows() -> Vec<Row> {
    vec![
        gun!(
            sauter_reference,
            "um",
            1e-6,
            [24.0 / 1.35, 24.0 * 1.35],
            "x/: 1.35, what the published landed share leaves open"
        ),
        gun!(sigma_g, "", 1.0, [1.8, 2.0], "published practice (inferred)"),
        gun!(largest_droplet, "", 1.0, [3.0, 5.0], "ours"),
        gun!(tip_suction, "", 1.0, TIP_SUCTION_ENDS, "suction of 4-6 kPa (common practice)"),
        gun!(kinetic_loss, "", 1.0, KINETIC_LOSS_ENDS, "Hagenbach's term 1.1-1.2 (from memory)"),
        gun!(needle_gap_length, "mm", 1e-3, NEEDLE_GAP_ENDS.map(|x| 1e3 * x), "ours"),
        gun!(fan_slope, "", 1.0, [1.0, 1.2], "full fan 190-240 mm (common practice)"),
        gun!(ray_spread_open, "", 1.0, [0.04, 0.06], "full fan 25-45 mm thick (common practice)"),
        gun!(ray_spread_closed, "", 1.0, [0.08, 0.12], "closed fan 40-60 mm (common practice)"),
        gun!(ray_spread_slope, "", 1.0, [0.3, 0.5], "ours"),
        gun!(balanced_exponent, "", 1.0, [1.0, 2.0], "parabola to bell (ours)"),
        air("wall strain", "times", [0.8, 1.2], "uncertain by 15-20 %", strain),
        air("INTENSITY", "", [0.19, 0.28], "u' 0.24-0.28, v' 0.19-0.25 Uc (from memory)", |scene, x| {
            jet_changed(scene, |jet| jet.intensity = x);
        }),
        air("TIME_SCALE", "", [0.87, 1.11], "turbulent Schmidt number (from memory)", |scene, x| {
            jet_changed(scene, |jet| jet.time *= x / TIME_SCALE);
        }),
        air("SPREAD", "", [0.101, 0.120], "half-width 0.084-0.10 z by source (from memory)", |scene, x| {
            jet_changed(scene, |jet| {
                for growth in [&mut jet.growth_x, &mut jet.growth_y] {
                    let sum = growth.sqrt() - SPREAD * SPREAD + x * x;
                    *growth = sum * sum;
                }
            });
        }),
        air("wall damping length", "times", [0.5, 2.0], "ours", |scene, x| match scene {
            Scene::Panel(flow, _) => flow.damping *= x,
            Scene::Tube(flow, _) => flow.damping *= x,
            _ => {}
        }),
        air(
            "strains round a tube, 0 plain, 1 as squares",
            "",
            [0.0, 1.0],
            "how they blend is not known",
            |scene, x| {
                if let (Scene::Tube(flow, _), true) = (scene, x > 0.5) {
                    let squares = flow.round * flow.round + (1.0 - flow.round) * (1.0 - flow.round);
                    let all = flow.power * squares.sqrt();
                    flow.round = flow.round * flow.round / squares;
                    flow.power = all;
                }
            },
        ),
    ]
}

/// The same scene in another jet.
fn jet_changed(scene: &mut Scene<f64>, change: impl Fn(&mut FanJet<f64>)) {
    match scene {
        Scene::Panel(flow, part) => {
            let mut jet = flow.jet;
            change(&mut jet);
            *flow = PanelFlow::new(jet, flow.distance).expect("a panel");
            *part = PanelPart { layer: 1.0 / flow.inverse_layer, ..*part };
        }
        Scene::Tube(flow, part) => {
            let mut jet = flow.jet;
            change(&mut jet);
            *flow = TubeFlow::new(jet, flow.axis_z - flow.radius, flow.radius, flow.axis_y).expect("a tube");
            *part = TubePart { behind: 3.0 * flow.damping + flow.radius, ..*part };
        }
        _ => {}
    }
}

/// Wall-normal strain times `x`; round a tube its two parts beside 2 Uc/R, which is exact.
fn strain(scene: &mut Scene<f64>, x: f64) {
    match scene {
        Scene::Panel(flow, part) => {
            *flow = flow.with_strain(x);
            part.layer = 1.0 / flow.inverse_layer;
        }
        Scene::Tube(flow, _) => {
            let (all, round) = (flow.power, flow.power * flow.round);
            let (across, along) = (x * (round - 2.0) + 2.0, x * (all - round));
            (flow.power, flow.round) = (across + along, across / (across + along));
        }
        _ => {}
    }
}

/// The constant of the drop size: its range is flown by weight in every run.
const SIZE: &str = "sauter_reference";

/// What one set of constants gives.
struct Figures {
    /// Landed share on the large card [-].
    efficiency: f64,
    /// Paint on it in a second [m3/s], as the film of a pass goes.
    film: f64,
    /// Fan's height and thickness [m].
    fan: [f64; 2],
    /// Landed share on the tube, full fan and near-round spot [-].
    tube: [f64; 2],
}

fn figures(constants: &Constants, change: impl Fn(&mut Scene<f64>)) -> Figures {
    let model = Model { constants: *constants, ..Model::default() };
    let set = |course: Course| {
        let mut scene = course.scene;
        change(&mut scene);
        Course::new(scene, course.settings, course.emission, course.spray, course.seed, course.purposes)
    };
    let job = job(REFERENCE_KIT, REFERENCE_PAINT);
    let spray = model.spray(&job.kit, &job.gun, &job.paint, &job.booth).expect("a spray");
    let flow = spray.volume_flow;
    let course = set(card_of(&job, spray));
    let tally = card(&course, DROPLETS);
    let sizes = pattern_sizes(&tally, None);
    let efficiency = tally.fates.share(Fate::Landed);
    let tube = [(job.gun.fan, job.gun.fluid), SPOT].map(|(fan, fluid)| {
        let mut job = job.clone();
        (job.gun.fan, job.gun.fluid, job.stroke.distance) = (fan, fluid, TUBE.1);
        let spray = model.spray(&job.kit, &job.gun, &job.paint, &job.booth).expect("a spray");
        share(&landings(&set(tube_of(&job, spray, TUBE.0)), DROPLETS, |_| true)).0
    });
    Figures { efficiency, film: flow * efficiency, fan: [sizes.length, sizes.width], tube }
}

/// A value with three figures behind the point at most.
fn short(x: f64) -> String {
    format!("{x:.3}").trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Table of `docs/validation.md`, the constant that efficiency feels most first.
#[must_use]
pub fn table() -> String {
    let base = figures(&Constants::STANDARD, |_| {});
    // What all constants but the size leave open in a landed share: card, tube under the full fan, under the spot.
    let mut rest = [0.0; 3];
    let mut fan = [0.0; 2];
    let mut all: Vec<(f64, String)> = rows()
        .iter()
        .map(|row| {
            let ends = row.ends.map(|x| {
                let mut constants = Constants::STANDARD;
                match row.change {
                    Change::Gun(change) => {
                        change(&mut constants, x);
                        figures(&constants, |_| {})
                    }
                    Change::Air(change) => figures(&constants, |scene| change(scene, x)),
                }
            });
            for (i, square) in fan.iter_mut().enumerate() {
                let felt = ends.iter().map(|f| (f.fan[i] / base.fan[i]).ln().abs()).sum::<f64>() / 2.0;
                *square += felt * felt;
            }
            if row.name != SIZE {
                let of = |f: &Figures| [f.efficiency, f.tube[0], f.tube[1]];
                for (i, square) in rest.iter_mut().enumerate() {
                    let felt = ends.iter().map(|f| (of(f)[i] / of(&base)[i]).ln().abs()).sum::<f64>() / 2.0;
                    *square += felt * felt;
                }
            }
            let points = |of: fn(&Figures) -> f64| {
                let [a, b] = [&ends[0], &ends[1]].map(|f| 1e2 * (of(f) - of(&base)));
                format!("{a:+.1} / {b:+.1}")
            };
            let share = |of: fn(&Figures) -> f64| {
                let [a, b] = [&ends[0], &ends[1]].map(|f| 1e2 * (of(f) / of(&base) - 1.0));
                format!("{a:+.1} / {b:+.1}")
            };
            let text = format!(
                "| {} | {} / {} {} | {} | {} | {} | {} | {} | {} | {} |",
                row.name,
                short(row.ends[0]),
                short(row.ends[1]),
                row.unit,
                points(|f| f.efficiency),
                share(|f| f.film),
                share(|f| f.fan[0]),
                share(|f| f.fan[1]),
                points(|f| f.tube[0]),
                share(|f| f.tube[1] / f.tube[0]),
                row.why
            );
            let felt = ends.iter().map(|f| (f.efficiency - base.efficiency).abs()).fold(0.0, f64::max);
            (felt, text)
        })
        .collect();
    all.sort_by(|a, b| b.0.total_cmp(&a.0));
    let rows: Vec<String> = all.into_iter().map(|(_, text)| text).collect();
    format!(
        "As it is: efficiency {:.1} %, fan {:.0} x {:.0} mm; 22 mm tube {:.1} % under the full fan, {:.1} % under a near-round spot. \
         Points of efficiency; film, fan and ratio in % of their figure; low / high.\n\n\
         | constant | low / high | efficiency, card | film of a pass | fan's height | fan's thickness | 22 mm tube, full fan | spot over fan, \
         tube | how far it is known |\n|---|---|---|---|---|---|---|---|---|\n{}\n\n\
         All but `{SIZE}` together, as independent errors add, in shares of the landed share: card {:.1} %, tube under the full fan {:.1} %, \
         under the spot {:.1} %. The likely range that the page shows takes {:.0}, {:.0} and {:.0} % for them, and flies other sizes anew \
         by weight (`core/src/report/model_range.rs`); the paint flow's range is reckoned for each gun as set (`set_up/flow_range.rs`). \
         All together leave {:.1} % open in a fan's height and {:.1} % in its thickness; the page takes {:.0} and {:.0} %.",
        1e2 * base.efficiency,
        1e3 * base.fan[0],
        1e3 * base.fan[1],
        1e2 * base.tube[0],
        1e2 * base.tube[1],
        rows.join("\n"),
        1e2 * rest[0].sqrt(),
        1e2 * rest[1].sqrt(),
        1e2 * rest[2].sqrt(),
        1e2 * REST_FLAT,
        1e2 * REST_TUBES[1],
        1e2 * REST_TUBES[0],
        1e2 * fan[0].sqrt(),
        1e2 * fan[1].sqrt(),
        1e2 * REST_FAN[0],
        1e2 * REST_FAN[1],
    )
}
