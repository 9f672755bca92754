//! The report's figures agree with one another and with what one can work out by hand.

use mistcoat::job::Job;
use mistcoat::report::pattern_sizes;
use mistcoat::run::Run;
use mistcoat::tally::Fate;

fn demo(name: &str) -> String {
    let path = format!("{}/../core/examples/jobs/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path}: {e}"))
}

fn flown(text: &str) -> Run {
    let job = Job::from_toml(text).unwrap_or_else(|e| panic!("{e}"));
    let mut run = Run::new(job).unwrap_or_else(|e| panic!("{e}"));
    run.finish();
    run
}

#[test]
fn solids_and_paint_balance() {
    let demos = ["table-top", "chair-leg-wide-fan", "chair-leg-near-round", "curved-back"];
    let burst = demo("table-top").replace("speed = \"350 mm/s\"", "burst = \"0.5 s\"");
    for text in demos.map(demo).into_iter().chain([burst]) {
        let run = flown(&text);
        let r = run.report().expect("finite figures");
        let f = r.fates;
        let sum = f.landed + f.missed + f.bounced + f.drifted + f.dried + f.lost;
        assert!((sum - 1.0).abs() < 1e-12, "{}: fates sum to {sum}", r.name);
        assert!([f.landed, f.missed, f.bounced, f.drifted, f.dried].iter().all(|s| *s >= 0.0), "{f:?}");
        assert_eq!(f.lost, 0.0);
        assert_eq!(run.part().fates.of(Fate::Lost) + run.card().fates.of(Fate::Lost), 0);
        assert_eq!(f.landed, r.transfer_efficiency.value);

        let p = r.paint;
        let close =
            |a: f64, b: f64, what: &str| assert!((a - b).abs() <= 1e-9 * b.abs(), "{what}: {a} and {b}");
        close(p.on_part_ml + p.lost_ml, p.sprayed_ml, "on the part and lost are all");
        close(p.sprayed_ml, r.gun.fluid_ml_min / 60.0 * p.seconds, "flow times time");
        // Dry film over the area is the solids of the paint on the part: 1 um on 1 m2 is 1 mL.
        let dry_ml = r.film.dry_um.mean * run.film().area();
        close(dry_ml, p.on_part_ml * p.volume_solids, "dry film and paint on the part");
        // What lies wet holds all its solids and not more than came out of the tip.
        assert!(r.film.wet_um.mean > r.film.dry_um.mean);
        assert!(r.film.wet_um.mean <= r.film.dry_um.mean / p.volume_solids * (1.0 + 1e-6));
    }
}

/// Far from the edges of a large panel, over whole distances between passes, the mean film is what lands on an endless
/// face, spread evenly: (share landed) x (flow) x (solids) / (speed x fan height x (1 - overlap)).
#[test]
fn the_interior_film_is_flow_over_swept_area() {
    for overlap in [0.5, 0.62] {
        let text = demo("table-top")
            .replace("width = \"600 mm\", height = \"400 mm\"", "width = \"100 mm\", height = \"1.6 m\"")
            .replace("lead = \"60 mm\"", "lead = \"500 mm\"")
            .replace("overlap = \"50 %\"", &format!("overlap = {overlap}"));
        let run = flown(&text);
        let (spray, film) = (&run.prepared().spray, run.film());
        let spacing = pattern_sizes(run.card(), None).length * (1.0 - overlap);
        // A few land further from the gun's axis than the footprint reaches (0.5 m).
        let part = run.part();
        let within = part.footprint.profile(true).iter().sum::<f64>();
        let landed = within / part.fates.total() as f64;
        assert!(within > 0.99 * part.fates.of(Fate::Landed) as f64, "{within} parcels within the footprint");
        let expected = landed * spray.volume_flow * spray.volume_solids / (0.35 * spacing);

        // Rows within a whole number of spacings about the middle, the outermost by their share.
        let half = 0.5 * spacing * (0.55 / spacing).floor();
        let (mut sum, mut weight) = (0.0, 0.0);
        for j in 0..film.face().ny {
            let low = (j as f64 - 0.5 * film.face().ny as f64) * film.face().cell_y;
            let share = ((low + film.face().cell_y).min(half) - low.max(-half)).max(0.0) / film.face().cell_y;
            sum += share * film.dry[j * film.face().nx + film.face().nx / 2];
            weight += share;
        }
        let got = sum / weight;
        assert!((got / expected - 1.0).abs() < 1e-3, "overlap {overlap}: {got:e} m, by hand {expected:e} m");
    }
}
