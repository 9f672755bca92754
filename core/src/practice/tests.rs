//! A machine's track gets full marks; each single fault is found, and only that.

use super::*;
use crate::film::FilmMap;
use crate::stroke::{Moment, Track};

const BAND: [f64; 2] = [20e-6, 35e-6];

fn aim() -> Aim {
    let rows = (0..9).map(|i| 0.4 - 0.1 * f64::from(i)).collect();
    Aim { size: [0.6, 0.8], rows, pace: 2.0, distance: 0.2, lead: 0.06, turn: 0.6, flow: 6.75e-6 }
}

/// A plain fan: a cosine 0.2 m tall across the pass at 0.2 m, a bell 25 mm wide along it, growing with the distance; of what
/// lands a quarter is lost for each 0.1 m more.
fn film(track: &Track, aim: &Aim) -> FilmMap {
    let mut film = FilmMap::bare(60, 80, 0.01, 0.01);
    let face = film.face().clone();
    for (a, b) in track.segments().filter(|(a, b)| a.trigger > 0.0 && b.time > a.time) {
        let pieces = ((b.x - a.x).abs() / 0.01).ceil().max(1.0) as usize;
        for k in 0..pieces {
            let m = a.towards(b, (k as f64 + 0.5) / pieces as f64);
            let grown = m.distance / 0.2 / crate::math::cos(m.swing);
            let (x, y) = (m.x + m.distance * crate::math::tan(m.swing), m.y);
            let (half, wide) = (0.1 * grown, 0.012 * grown);
            let lands = (1.0 - 2.5 * (0.2 * grown - 0.2)).max(0.0);
            let volume = 0.2 * lands * aim.flow * m.trigger * (b.time - a.time) / pieces as f64;
            let peak =
                volume / (half * 4.0 / core::f64::consts::PI * wide * (2.0 * core::f64::consts::PI).sqrt());
            for j in 0..face.ny {
                let dy = (face.y(j) - y) / half;
                if dy.abs() >= 1.0 {
                    continue;
                }
                for i in 0..face.nx {
                    let dx = (face.x(i) - x) / wide;
                    film.dry[j * face.nx + i] += peak
                        * crate::math::cos(0.5 * core::f64::consts::PI * dy)
                        * crate::math::exp(-0.5 * dx * dx);
                }
            }
        }
    }
    film
}

fn told(track: &Track, aim: &Aim) -> (Figures, Vec<Advice>) {
    let figures = figures(track, aim).expect("passes");
    let right = |track: &Track| shares(&film(track, aim), BAND).right;
    let laid = trials(track, &figures, aim)
        .into_iter()
        .map(|t| {
            let r = right(&t.track);
            (t, r)
        })
        .collect();
    let advice = advise(right(track), laid);
    (figures, advice)
}

/// The machine's track with its moments changed.
fn with(change: impl Fn(&mut Vec<Moment>, &[HandPass])) -> Track {
    let aim = aim();
    let track = aim.track(0.02).expect("a track");
    let passes = passes(&track, &aim);
    let mut moments = track.moments().to_vec();
    change(&mut moments, &passes);
    Track::new(moments).expect("a track")
}

fn only(track: &Track) -> Fault {
    let (_, advice) = told(track, &aim());
    assert_eq!(advice.len(), 1, "{advice:?}");
    assert!(advice[0].gain >= LEAST_GAIN);
    advice[0].fault.clone()
}

#[test]
fn a_machine_gets_full_marks() {
    let aim = aim();
    let track = aim.track(0.02).expect("a track");
    let (figures, advice) = told(&track, &aim);
    assert!(advice.is_empty(), "{advice:?}");
    assert_eq!(shares(&film(&track, &aim), BAND).right, 1.0);
    assert_eq!((figures.passes.len(), figures.still), (9, 0.0));
    assert!((figures.pace - 2.0).abs() < 1e-9 && (figures.slowest_third - 2.0).abs() < 1e-9);
    assert!(figures.spacing.iter().all(|s| (s - 0.1).abs() < 1e-9));
    assert!(figures.distance.iter().all(|d| (d - 0.2).abs() < 1e-12));
    assert!(figures.lead_short.is_empty() && figures.run_out_short.is_empty());
    assert!((figures.paint / figures.best_paint - 1.0).abs() < 1e-9);
    // Where a pass begins its edge waits for the rest of it, the turn, and the next pass as far as there.
    let wait = figures.longest_wait.expect("passes beside each other");
    assert!((wait - (2.0 * 2.0 * 0.66 + 0.6)).abs() < 1e-6, "{wait}");
}

#[test]
fn a_pass_too_low_is_named() {
    let track = with(|m, p| m[p[4].segments.start..=p[4].segments.end].iter_mut().for_each(|m| m.y -= 0.04));
    let Fault::Row { pass: 4, low } = only(&track) else { panic!("{:?}", only(&track)) };
    assert!((low - 0.04).abs() < 1e-9);
}

#[test]
fn spacing_all_along_is_named() {
    let track = with(|m, p| {
        for (i, pass) in p.iter().enumerate() {
            m[pass.segments.start..=pass.segments.end].iter_mut().for_each(|m| m.y += 0.018 * i as f64);
        }
    });
    let (_, advice) = told(&track, &aim());
    assert!(matches!(advice[0].fault, Fault::Spacing { mean } if (mean - 0.082).abs() < 1e-9), "{advice:?}");
    // What is left bare below it is named too, and nothing else.
    assert!(advice[1..].iter().all(|a| matches!(a.fault, Fault::Missing { below: true, .. })), "{advice:?}");
}

#[test]
fn a_missing_pass_is_named() {
    let track = with(|m, p| m.truncate(p[7].segments.start));
    assert_eq!(only(&track), Fault::Missing { rows: 2, below: true });
}

#[test]
fn a_gun_that_stands_still_is_named() {
    let track = with(|m, p| {
        let at = p[5].segments.end - 6;
        let stay = m[at];
        m[at + 1..].iter_mut().for_each(|m| m.time += 0.6);
        m.insert(at + 1, Moment { time: stay.time + 0.6, ..stay });
    });
    let Fault::Still { pass: 5, seconds } = only(&track) else { panic!("{:?}", only(&track)) };
    assert!((seconds - 0.6).abs() < 1e-6);
}

#[test]
fn pace_is_named_whole_and_by_pass() {
    let slower = |from: usize, to: usize, factor: f64| {
        with(|m, p| {
            for pass in &p[from..=to] {
                let more = (pass.to - pass.from) * (factor - 1.0);
                let (start, end) = (pass.segments.start, pass.segments.end);
                let first = m[start].time;
                m[start..=end].iter_mut().for_each(|m| m.time = first + (m.time - first) * factor);
                m[end + 1..].iter_mut().for_each(|m| m.time += more);
            }
        })
    };
    assert!(matches!(only(&slower(0, 8, 1.5)), Fault::Pace { mean } if (mean - 3.0).abs() < 1e-6));
    assert!(
        matches!(only(&slower(3, 3, 2.2)), Fault::PassPace { pass: 3, pace } if (pace - 4.4).abs() < 1e-6)
    );
}

#[test]
fn a_pass_that_slows_down_is_named() {
    let track = with(|m, p| {
        let (start, end) = (p[2].segments.start, p[2].segments.end);
        let (first, took) = (m[start].time, m[end].time - m[start].time);
        // Twice as fast at its begin as at its end, in the same time.
        m[start..=end].iter_mut().for_each(|m| {
            let s = (m.time - first) / took;
            m.time = first + took * (0.35 * s + 0.65 * s * s * s);
        });
    });
    assert!(matches!(only(&track), Fault::Uneven { pass: 2, .. }));
}

#[test]
fn distance_is_named_whole_and_by_pass() {
    let farther = |range: core::ops::RangeInclusive<usize>, more: f64| {
        with(|m, p| {
            for pass in &p[range.clone()] {
                m[pass.segments.start..=pass.segments.end].iter_mut().for_each(|m| m.distance += more);
            }
        })
    };
    assert!(matches!(only(&farther(0..=8, 0.08)), Fault::Distance { mean } if (mean - 0.28).abs() < 1e-9));
    let one = only(&farther(6..=6, -0.11));
    assert!(matches!(one, Fault::PassDistance { pass: 6, mean } if (mean - 0.09).abs() < 1e-9));
}

#[test]
fn an_elbow_is_named_as_a_tilt_alone() {
    // A painter who stands at the right and does not step.
    let track = with(|m, _| m.iter_mut().for_each(|m| *m = Elbow { x: 0.2 }.swung(m)));
    assert!(matches!(only(&track), Fault::Tilt { .. }));
}

#[test]
fn short_leads_are_named() {
    let track = with(|m, p| {
        let (start, end) = (p[2].segments.start, p[2].segments.end);
        m[start..end].iter_mut().filter(|m| m.x < -0.22).for_each(|m| m.trigger = 0.0);
    });
    assert_eq!(only(&track), Fault::LeadIn { passes: vec![2] });
    let track = with(|m, p| {
        let (start, end) = (p[3].segments.start, p[3].segments.end);
        m[start..end].iter_mut().filter(|m| m.x < -0.22).for_each(|m| m.trigger = 0.0);
    });
    assert_eq!(only(&track), Fault::RunOut { passes: vec![3] });
}

#[test]
fn a_trigger_half_pulled_is_named() {
    let track = with(|m, _| m.iter_mut().for_each(|m| m.trigger *= 0.5));
    assert!(matches!(only(&track), Fault::Trigger { mean } if (mean - 0.5).abs() < 1e-9));
}

#[test]
fn an_elbow_leaves_less_at_its_ends() {
    let square = Moment { x: 0.3, distance: 0.18, ..Moment::default() };
    let swung = Elbow { x: 0.0 }.swung(&square);
    // The aim stays where it was.
    assert!((swung.x + swung.distance * crate::math::tan(swung.swing) - 0.3).abs() < 1e-12);
    let along_axis = swung.distance / crate::math::cos(swung.swing);
    let cos = crate::math::cos(swung.swing);
    // One pass: fan height by the way along the axis, speed of the aim at an even swing by 1 / cos2: 0.70. An overlapped
    // coat loses by the speed alone: 0.90.
    assert!((cos * cos * 0.18 / along_axis - 0.70).abs() < 0.7 * 0.05);
    assert!((cos * cos - 0.90).abs() < 0.9 * 0.05);
}

#[test]
fn turns_with_the_trigger_held_part_passes() {
    let track = with(|m, _| m.iter_mut().for_each(|m| m.trigger = 1.0));
    assert_eq!(passes(&track, &aim()).len(), 9);
}

#[test]
fn spread_is_a_standard_deviation() {
    assert_eq!((spread(&[]), spread(&[3.0])), (None, None));
    let five = spread(&[48.0, 57.0, 55.0, 66.0, 79.0]).expect("five");
    assert!((five - 142.5_f64.sqrt()).abs() < 1e-9);
}

#[test]
fn a_recorder_rounds_once_and_leaves_out_what_says_nothing() {
    let mut recorder = Recorder::default();
    let at =
        |time: f64, x: f64, trigger: f64| Moment { time, x, distance: 0.18, trigger, ..Moment::default() };
    let first = recorder.take(at(0.000_04, 0.123_456, 0.0)).expect("the first");
    assert_eq!(first, rounded(&first));
    assert!((first.x - 0.1235).abs() < 1e-12);
    assert_eq!(recorder.take(at(0.02, 0.2, 0.0)), None);
    assert!(recorder.take(at(0.021, 0.2, 1.0)).is_some());
    assert_eq!(recorder.take(at(0.025, 0.21, 1.0)), None);
    assert!(recorder.take(at(0.037, 0.22, 1.0)).is_some());
    // Out of order: taken at the time of the one before.
    assert_eq!(recorder.take(at(0.0, 0.22, 0.0)).expect("trigger off").time, 0.037);
    assert_eq!(recorder.moments().len(), 4);
}
