//! What a panel's edge does that the plain cut leaves out: flown with an edge and without, droplet by droplet.
//!
//! The figures of `docs/decisions/edges.md` are this test's with `MISTCOAT_DROPLETS=2500`.

use mistcoat::course::Course;
use mistcoat::flight::{Batch, END_HIT, Noise, Scene, fly_lanes};
use mistcoat::job::{Job, with_key};
use mistcoat::part::PanelPart;
use mistcoat::set_up::Model;
use mistcoat_tests::edged::{Edge, EdgedFlow, EdgedPart};
use mistcoat_tests::scenes::{card_course, example};

/// Places of the gun, evenly to both sides of the edge, that a pass is summed from.
const PLACES: u64 = 160;
/// Cells of the film by their distance from the edge [m].
const CELL: f64 = 5e-3;
const CELLS: usize = 12;

/// Landed droplets by cell from the edge inwards.
#[derive(Default)]
struct Film {
    /// Of a panel without end, cut at the edge.
    cut: [f64; CELLS],
    /// Of a panel that ends there.
    edged: [f64; CELLS],
    /// Droplets that count in one and not in the other.
    differ: [f64; CELLS],
}

impl Film {
    /// What the edge takes of the cells `from..to` [-], and its paired standard error.
    fn takes(&self, from: usize, to: usize) -> (f64, f64) {
        let sum = |of: &[f64; CELLS]| of[from..to].iter().sum::<f64>();
        let cut = sum(&self.cut);
        ((sum(&self.edged) - cut) / cut, sum(&self.differ).sqrt() / cut)
    }
}

/// The course's droplets, before a panel with an edge and one without, from `PLACES` of the gun as far as `reach` past the edge and
/// before it; `each` gets each droplet's two ends: how deep over the face it landed [m], if it did.
fn pass(
    course: &Course,
    along_x: bool,
    reach: [f64; 2],
    droplets: u64,
    mut each: impl FnMut(Option<f64>, Option<f64>),
) {
    let Scene::Panel(panel, part) = course.scene else { panic!("a panel") };
    let PanelPart { distance, half, layer } = part;
    let axis = usize::from(!along_x);
    for place in 0..PLACES {
        let at = reach[0] + (reach[1] - reach[0]) * (place as f64 + 0.5) / PLACES as f64;
        let edge = Edge { along_x, at };
        let mut cut = Batch::<f64>::default();
        for number in place * droplets..(place + 1) * droplets {
            cut.push(&course.emission.start(course.seed, number, course.purposes[0], course.purposes[1]));
        }
        let mut edged = cut.clone();
        let set = &course.settings;
        fly_lanes(0.0f64, &panel, &part, set, Noise::Sum2, &mut cut);
        let with = EdgedPart { distance, half, layer, edge };
        fly_lanes(0.0f64, &EdgedFlow { panel, edge }, &with, set, Noise::Sum2, &mut edged);
        let depth = |batch: &Batch<f64>, k: usize| {
            let deep = at - batch.end_position[axis][k];
            (batch.end[k] == END_HIT && deep >= 0.0).then_some(deep)
        };
        (0..cut.len()).for_each(|k| each(depth(&cut, k), depth(&edged, k)));
    }
}

fn swept(course: &Course, along_x: bool, reach: f64, droplets: u64) -> Film {
    let mut film = Film::default();
    let cell = |deep: Option<f64>| deep.map(|d| (d / CELL) as usize).filter(|c| *c < CELLS);
    pass(course, along_x, [-reach, reach], droplets, |cut, edged| {
        let (a, b) = (cell(cut), cell(edged));
        a.iter().for_each(|&c| film.cut[c] += 1.0);
        b.iter().for_each(|&c| film.edged[c] += 1.0);
        if a != b {
            a.iter().chain(&b).for_each(|&c| film.differ[c] += 1.0);
        }
    });
    film
}

fn course(name: &str, keys: &[(&str, &str)]) -> Course {
    let text = keys.iter().fold(example(name).text, |t, (k, v)| with_key(&t, k, v).expect("a key"));
    card_course(&Job::from_toml(&text).expect("a job"), &Model::default())
}

#[test]
fn an_edge_takes_little_and_only_near_it() {
    let told = std::env::var("MISTCOAT_DROPLETS").ok().and_then(|n| n.parse().ok());
    let droplets = told.unwrap_or(300);
    let jobs: [(&str, &[(&str, &str)]); 3] =
        [("table-top", &[]), ("table-top", &[("stroke.distance", "250 mm")]), ("chair-leg-near-round", &[])];
    for (name, keys) in jobs.iter().take(if told.is_some() { 3 } else { 1 }) {
        let course = course(name, keys);
        for (along_x, reach, what) in [(true, 0.08, "end of a pass"), (false, 0.2, "edge along the passes")] {
            let film = swept(&course, along_x, reach, droplets);
            println!("{name} {keys:?}, {what}");
            for (from, to) in [(0, 1), (1, 2), (2, 3), (3, 4), (4, 8), (8, 12)] {
                let (off, error) = film.takes(from, to);
                println!("  {:>2} to {:>2} mm: {:+.3} +- {error:.3}", 5 * from, 5 * to, off);
            }
            let ((near, near_error), (far, far_error)) = (film.takes(0, 2), film.takes(8, 12));
            assert!(near < 0.0 && near > -0.1 - 3.0 * near_error, "{what}: {near} +- {near_error}");
            assert!(far > -0.015 - 3.0 * far_error && far < 3.0 * far_error, "{what}: {far} +- {far_error}");
        }
    }
}

#[test]
fn over_the_panel_an_edge_is_not_felt_and_far_past_it_nothing_lands() {
    let course = course("table-top", &[]);
    // The gun 0.25 to 0.5 m over the panel: droplet by droplet the same.
    let (mut landed, mut moved) = (0, 0);
    pass(&course, true, [0.25, 0.5], 40, |cut, edged| {
        landed += u32::from(cut.is_some());
        moved += u32::from(cut != edged);
    });
    // What differs is the fog that drifts along the wall as far as the edge and back.
    assert!(landed > 4000 && moved <= 5, "{moved} of {landed}");
    let mut landed = 0;
    pass(&course, true, [-0.5, -0.25], 40, |_, edged| landed += u32::from(edged.is_some()));
    assert_eq!(landed, 0, "far past the edge");
}

/// curl(h A): no divergence of its own, and no flow through the face.
#[test]
fn the_air_at_an_edge_keeps_its_volume() {
    use mistcoat::airflow::AirFlow;
    let Scene::Panel(panel, _) = course("table-top", &[]).scene else { panic!("a panel") };
    for along_x in [true, false] {
        let flow = EdgedFlow { panel, edge: Edge { along_x, at: 0.004 } };
        let at = |p: [f64; 3]| AirFlow::<f64>::at(&flow, p).velocity;
        let section = panel.jet.section(panel.distance);
        let scale = section.centre / section.bx;
        for past in [-0.01, 0.002, 0.006, 0.011, 0.018, 0.03] {
            for z in [0.1, 0.15, panel.distance - 0.012, panel.distance - 0.003] {
                for beside in [-0.02, 0.013] {
                    let s = flow.edge.at + past;
                    let p = if along_x { [s, beside, z] } else { [beside, s, z] };
                    let step = 2e-6;
                    let divergence: f64 = (0..3)
                        .map(|axis| {
                            let mut low = p;
                            let mut high = p;
                            low[axis] -= step;
                            high[axis] += step;
                            (at(high)[axis] - at(low)[axis]) / (2.0 * step)
                        })
                        .sum();
                    assert!(divergence.abs() < 1e-4 * scale, "{p:?}: {divergence} of {scale}");
                }
            }
        }
        for s in [-0.03, -0.005, 0.0] {
            let p = if along_x { [s, 0.01, panel.distance] } else { [0.01, s, panel.distance] };
            assert!(at(p)[2].abs() < 1e-9 * section.centre, "through the face at {p:?}");
        }
    }
}
