//! One droplet flown again by its number.

use mistcoat::run::{Prepared, replay};
use mistcoat_tests::scenes::{example, fly};

const DROPLETS: u64 = 4_000;

#[test]
fn a_droplet_flown_alone_is_the_droplet_of_the_run() {
    for name in ["table-top", "chair-leg-near-round", "chair-leg-wide-fan"] {
        let course = Prepared::new(example(name)).expect("a job").course;
        let mut flown = Vec::new();
        fly(&course, DROPLETS, |o| flown.push(*o));
        let (mut same, mut near) = (0u32, 0u32);
        for f32_one in &flown {
            let again = course.replay(f32_one.droplet);
            assert_eq!(again.droplet, f32_one.droplet);
            // The same droplet: its size is the same number, but for f32's rounding.
            let size = again.start_diameter / f32_one.start_diameter - 1.0;
            assert!(size.abs() < 1e-6, "{name}, droplet {}: size off {size:e}", again.droplet);
            if again.fate == f32_one.fate {
                same += 1;
                let gap = (0..3).map(|i| (again.position[i] - f32_one.position[i]).abs()).fold(0.0, f64::max);
                near += u32::from(gap < 2e-3);
            }
        }
        let share = |n: u32| f64::from(n) / DROPLETS as f64;
        println!("{name}: same fate {:.4}, and ends within 2 mm {:.4}", share(same), share(near));
        // The rest comes so close to the part's edge, or to the end of its time, that f32's rounding decides.
        assert!(share(same) > 0.99, "{name}: {}", share(same));
    }
}

#[test]
fn by_job_and_number() {
    let job = example("table-top");
    let course = Prepared::new(job.clone()).expect("a job").course;
    for droplet in [0, 1, 17, 4_095, 4_096, 123_456_789] {
        assert_eq!(replay(job.clone(), droplet).expect("a job"), course.replay(droplet));
    }
    let mut other = job.clone();
    other.run.seed += 1;
    assert_ne!(replay(job, 17).expect("a job"), replay(other, 17).expect("a job"));
}
