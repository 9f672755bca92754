//! Frames against what must hold of them: one tube alone, two in line, two far apart (geometry); a wide fan wastes most on thin tubes
//! (common practice, no source; the sizes are this model's own).

use mistcoat::job::Job;
use mistcoat::run::Run;
use mistcoat::tally::Fate;

const GUN: &str = r#"
version = 1
[gun]
kit = "hvlp-gravity-1.3"
inlet_pressure = "1.0 bar"
fan = 0.15
fluid = 0.35
[paint]
kind = "two-pack-clear"
mix = "2:1"
thinning = "10 %"
"#;

fn flown(part: &str, stroke: &str, droplets: u64) -> Run {
    let text = format!(
        "{GUN}\n[part]\n{part}\n[stroke]\ndistance = \"150 mm\"\nspeed = \"490 mm/s\"\n{stroke}\n[run]\ndroplets = {droplets}\n"
    );
    let mut run = Run::new(Job::from_toml(&text).unwrap_or_else(|e| panic!("{e}\n{text}"))).expect("a run");
    run.finish();
    run
}

/// Upright tubes of 22 mm and 600 mm, at x and z [mm].
fn uprights(at: &[(f64, f64)]) -> String {
    let tube = |(x, z): &(f64, f64)| {
        format!(
            "{{ from = [\"{x} mm\", \"0 mm\", \"{z} mm\"], to = [\"{x} mm\", \"600 mm\", \"{z} mm\"], diameter = \"22 mm\" }}"
        )
    };
    format!("frame = {{ tubes = [{}] }}", at.iter().map(tube).collect::<Vec<_>>().join(", "))
}

fn on(run: &Run, member: usize) -> f64 {
    run.part().members.as_ref().expect("a frame").on(member) as f64
}

#[test]
fn a_frame_of_one_tube_is_that_tube() {
    for sides in ["sides = 1", "sides = 4"] {
        let frame = flown(&uprights(&[(0.0, 0.0)]), sides, 100_000);
        let tube = flown("tube = { diameter = \"22 mm\", length = \"600 mm\" }", sides, 100_000);
        // Droplet by droplet the same flight: what drifts and bounces is the same to the last one.
        for fate in [Fate::Drifted, Fate::Bounced, Fate::Dried] {
            let counts = [frame.part().fates.of(fate), tube.part().fates.of(fate)];
            assert_eq!(counts[0], counts[1], "{sides} {fate:?}");
        }
        let past_the_ends = tube.part().fates.of(Fate::Landed) - frame.part().fates.of(Fate::Landed);
        println!("{sides}: {past_the_ends} of 100000 land past the ends");
        let (a, b) = (frame.report().expect("a report"), tube.report().expect("a report"));
        let (a, b) = (a.transfer_efficiency, b.transfer_efficiency);
        let error = a.standard_error.unwrap_or(0.0).hypot(b.standard_error.unwrap_or(0.0));
        println!("{sides}: frame {:.5}, tube {:.5}, +- {error:.5}", a.value, b.value);
        assert!((a.value - b.value).abs() < 3.0 * error, "{} {}", a.value, b.value);
    }
}

#[test]
fn the_tube_behind_another_gets_little() {
    // One behind the other, 60 mm apart; only the front one is sprayed.
    let stroke = "sides = 1\nmembers = [\"tube 1\"]";
    let both = flown(&uprights(&[(0.0, 0.0), (0.0, -60.0)]), stroke, 100_000);
    let front = flown(&uprights(&[(0.0, 0.0)]), "sides = 1", 100_000);
    let (first, second) = (on(&both, 0), on(&both, 1));
    println!("front {first}, behind {second}; front alone {}", on(&front, 0));
    assert!(second < 0.35 * first, "front {first}, behind {second}");
    assert!((first / on(&front, 0) - 1.0).abs() < 0.06, "{first} {}", on(&front, 0));
}

#[test]
fn tubes_far_apart_are_tubes_alone() {
    let both = flown(&uprights(&[(-900.0, 0.0), (900.0, 0.0)]), "sides = 2", 100_000);
    let alone = flown(&uprights(&[(0.0, 0.0)]), "sides = 2", 50_000);
    for member in 0..2 {
        let (n, m) = (on(&both, member), on(&alone, 0));
        assert!((n - m).abs() < 4.0 * (n + m).sqrt(), "{n} {m}");
    }
}

#[test]
fn a_wide_fan_on_a_chair_wastes_most_of_it() {
    let chair = |setting: &str| {
        let text = include_str!("../../../core/examples/jobs/chair-frame.toml");
        let text = text.replace("fan = 0.15\nfluid = 0.35", setting).replace("\"1.0 bar\"", "\"2.0 bar\"");
        let mut job = Job::from_toml(&text).expect("a job");
        job.run.droplets = 60_000;
        let mut run = Run::new(job).expect("a run");
        run.finish();
        run.report().expect("a report").transfer_efficiency.value
    };
    let (wide, spot) = (chair("fan = 1.0\nfluid = 0.8"), chair("fan = 0.15\nfluid = 0.35"));
    println!("on a chair: wide fan {wide:.3}, near-round spot {spot:.3}");
    assert!(wide < 0.3 && spot > 1.5 * wide, "{wide} {spot}");
}
