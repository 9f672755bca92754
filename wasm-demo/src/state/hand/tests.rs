//! Events into moments, and moments into a job.

use super::*;

#[test]
fn the_trigger_gives_air_first_and_lets_paint_go_first() {
    let mut gun = Sprayer::new(0.18);
    gun.move_to(0.0, [-0.35, 0.2]);
    assert!(gun.moments().is_empty());
    gun.trigger(100.0, Pull::Since(100.0));
    gun.move_to(150.0, [-0.34, 0.2]);
    assert!(gun.moments().is_empty() && gun.pull.air(), "air alone");
    gun.move_to(230.0, [-0.3, 0.2]);
    gun.move_to(330.0, [-0.2, 0.2]);
    gun.trigger(340.0, Pull::Off);
    let triggers: Vec<f64> = gun.moments().iter().map(|m| m.trigger).collect();
    assert_eq!(triggers, [1.0, 1.0, 0.0]);
    assert_eq!((gun.moments()[0].time, gun.moments()[1].time), (0.0, 0.1));
    assert_eq!(gun.off_since(), Some(340.0));
    assert_eq!((Pull::Pressed(0.1).paint(0.0), Pull::Pressed(0.9).paint(0.0)), (0.0, 1.0));
}

#[test]
fn a_gun_held_still_sprays_on_and_a_pause_takes_no_time() {
    let mut gun = Sprayer::new(0.18);
    gun.trigger(0.0, Pull::Since(0.0));
    for frame in 1..60 {
        gun.tick(f64::from(frame) * 16.0);
    }
    assert!(gun.moments().len() > 10);
    let before = gun.moments().last().unwrap().time;
    gun.pause(1000.0);
    gun.resume(1000.0, 61_000.0);
    gun.trigger(61_000.0, Pull::Pressed(1.0));
    let after = gun.moments().last().unwrap().time;
    assert!(after - before < 0.2, "{before} {after}");
    assert_eq!(gun.untold().len(), gun.moments().len());
    assert!(gun.untold().is_empty());
}

#[test]
fn a_try_stands_in_the_job_and_comes_back_to_the_bit() {
    let mut gun = Sprayer::new(0.1817);
    gun.elbow = Some(Elbow { x: 0.05 });
    gun.trigger(0.0, Pull::Pressed(0.5));
    for i in 0..400 {
        let t = f64::from(i) * 16.7;
        gun.move_to(t, [-0.33 + 1.7e-3 * f64::from(i), 0.123_456]);
    }
    gun.trigger(6700.0, Pull::Off);
    let text = with_try(&practice_job(), gun.moments(), Some(0.791_23)).unwrap();
    let job = Job::from_toml(&text).unwrap();
    let track = job.track.as_ref().expect("the try");
    assert_eq!(track.moments(), gun.moments());
    assert_eq!(job.practice.tries, [0.791]);
    assert_eq!(without_try(&text), without_try(&practice_job()));
    // Ten are kept.
    let many = (0..12).fold(text, |t, _| with_try(&t, gun.moments(), Some(0.5)).unwrap());
    assert_eq!(Job::from_toml(&many).unwrap().practice.tries.len(), 10);
}

#[test]
fn the_clock_runs_between_coats_and_the_fan_is_turned() {
    let mut gun = Sprayer::new(0.18);
    let spray = |gun: &mut Sprayer, at: f64| {
        gun.trigger(at, Pull::Pressed(1.0));
        gun.move_to(at + 100.0, [0.1, 0.0]);
        gun.trigger(at + 200.0, Pull::Off);
    };
    spray(&mut gun, 0.0);
    assert!(gun.off_since().is_some());
    gun.next_coat(300.0, 600.0, 1.5);
    assert!(gun.off_since().is_none(), "nothing ends while a coat is to come");
    spray(&mut gun, 1000.0);
    let moments = gun.moments();
    let second = moments.iter().position(|m| m.turn > 1.0 && m.trigger > 0.0).expect("a second coat");
    assert!((moments[second].time - 601.0).abs() < 1e-3, "{:?}", moments[second]);
    assert_eq!((gun.coats, moments[0].turn), (2, 0.0));
    gun.begin();
    assert_eq!((gun.coats, gun.turn), (1, 0.0));
}
