//! A curved panel as its radius grows: it tends to the flat one, droplet by droplet on the same streams.

use mistcoat::airflow::AirFlow;
use mistcoat::course::{Course, Outcome};
use mistcoat::flight::Scene;
use mistcoat::job::{Job, with_key};
use mistcoat::run::Prepared;
use mistcoat::tally::Fate;
use mistcoat_tests::scenes::{PANEL, fly, landings, paired};

const DROPLETS: u64 = 60_000;

fn course(part: &str) -> Course {
    let shape = r#"panel = { width = "600 mm", height = "400 mm" }"#;
    let job = Job::from_toml(&PANEL.replace(shape, part)).expect("a job");
    Prepared::new(job).expect("it sprays").course
}

/// In the fan's reach over the face: farther out only fog lands.
fn near(o: &Outcome, radius: Option<f64>) -> Option<[f64; 2]> {
    let y = radius.map_or(o.place.y, |r| r * o.place.y);
    (o.place.x.abs() < 0.06 && y.abs() < 0.2).then_some([o.place.x, y])
}

/// Root mean square place of what lands there, across and along the fan [mm].
fn spread(course: &Course, radius: Option<f64>) -> [f64; 2] {
    let (mut n, mut sums) = (0.0, [0.0; 2]);
    fly(course, DROPLETS, |o| {
        if let Some([x, y]) = near(o, radius).filter(|_| o.fate == Fate::Landed) {
            (n, sums) = (n + 1.0, [sums[0] + x * x, sums[1] + y * y]);
        }
    });
    sums.map(|s| (s / n).sqrt() * 1e3)
}

#[test]
fn a_wide_curve_is_a_flat_panel() {
    let flat = course(r#"panel = { width = "600 mm", height = "400 mm" }"#);
    let on_flat = landings(&flat, DROPLETS, |o| near(o, None).is_some());
    let flat_spread = spread(&flat, None);
    println!(
        "flat: {:.4} {flat_spread:.1?}",
        on_flat.iter().filter(|l| **l).count() as f64 / DROPLETS as f64
    );
    let mut off = Vec::new();
    for radius in [0.4, 2.0, 10.0] {
        let curved = course(&format!(
            "curved = {{ radius = \"{radius} m\", width = \"600 mm\", height = \"400 mm\" }}"
        ));
        let on_curved = landings(&curved, DROPLETS, |o| near(o, Some(radius)).is_some());
        let (more, error) = paired(&on_curved, &on_flat);
        let wide = spread(&curved, Some(radius));
        println!("{radius} m: landed {more:+.4} +- {error:.4}; spread {wide:.1?}");
        // What a curve does goes with the layer over the radius, and with the fan's half height over it, squared.
        let bend = 0.02 / radius + 0.5 * (0.1 / radius) * (0.1 / radius);
        assert!(more.abs() < bend + 3.0 * error, "{radius} m: {more} +- {error}");
        for (wide, flat) in wide.iter().zip(flat_spread) {
            assert!((wide / flat - 1.0).abs() < 0.01 + bend, "{radius} m: {wide} {flat}");
        }
        off.push((more.abs(), error));
    }
    let ((tight, a), (wide, b)) = (off[0], off[2]);
    assert!(wide < 3.0 * b && wide < tight + 3.0 * (a * a + b * b).sqrt(), "{off:?}");
}

/// curl(h A): no divergence of its own and no flow through the face, whichever way the fan lies.
#[test]
fn the_air_before_a_curved_face_keeps_its_volume() {
    for turn in ["0 deg", "90 deg"] {
        let part = "curved = { radius = \"150 mm\", width = \"600 mm\", height = \"400 mm\" }";
        let shape = r#"panel = { width = "600 mm", height = "400 mm" }"#;
        let text = with_key(&PANEL.replace(shape, part), "gun.cap_turn", turn).expect("a key");
        let course = Prepared::new(Job::from_toml(&text).expect("a job")).expect("it sprays").course;
        let Scene::Curved(flow, _) = course.scene else { panic!("a curved face") };
        let at = |p: [f64; 3]| AirFlow::<f64>::at(&flow, p).velocity;
        let section = flow.jet.section(0.18);
        let scale = section.centre / section.bx;
        for x in [-0.02, 0.007] {
            for angle in [-0.5_f64, -0.1, 0.2, 0.6] {
                let place = |rad: f64| [x, flow.axis_y + rad * angle.sin(), flow.axis_z - rad * angle.cos()];
                for gap in [1e-3, 5e-3, 0.02, 0.06] {
                    let (p, step) = (place(flow.radius + gap), 2e-6);
                    let divergence: f64 = (0..3)
                        .map(|axis| {
                            let (mut low, mut high) = (p, p);
                            low[axis] -= step;
                            high[axis] += step;
                            (at(high)[axis] - at(low)[axis]) / (2.0 * step)
                        })
                        .sum();
                    assert!(divergence.abs() < 1e-5 * scale, "{turn} {p:?}: {divergence} of {scale}");
                }
                let v = at(place(flow.radius));
                let through = v[1] * angle.sin() - v[2] * angle.cos();
                assert!(through.abs() < 1e-7 * section.centre, "{turn}, through the face: {through}");
            }
        }
    }
}
