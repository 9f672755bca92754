//! A try gives the same film and the same card however it is cut; a machine's track gets full marks.

use super::*;
use crate::state::TABLE_TOP;
use mistcoat::job::with_key;
use mistcoat::stroke::Moment;
use std::sync::OnceLock;

fn job() -> String {
    let text = with_key(TABLE_TOP, "part.stands", "upright").unwrap();
    with_key(&text, "run.droplets", "60000").unwrap()
}

/// A practice whose flights are done, and its plan.
fn flown() -> &'static (String, Plan) {
    static FLOWN: OnceLock<(String, Plan)> = OnceLock::new();
    FLOWN.get_or_init(|| {
        let mut task = Practising::start(&job()).unwrap();
        (String::new(), rested(&mut task).plan.expect("a plan"))
    })
}

/// Works until it rests; what it then knows.
fn rested(task: &mut Practising) -> Told {
    let mut pieces = 0;
    while !task.rests() {
        task.advance(&mut || false);
        pieces += 1;
        assert!(pieces < 100_000, "it never rests");
    }
    task.news = true;
    serde_json::from_str(&task.partial().expect("news")).unwrap()
}

fn machine(plan: &Plan) -> Vec<Moment> {
    let aim = Aim {
        size: plan.size,
        rows: plan.rows.clone(),
        pace: plan.pace,
        distance: plan.distance,
        lead: plan.lead,
        turn: 0.5,
        flow: 1.0,
    };
    aim.track(0.016).expect("a track").moments().to_vec()
}

/// A try told in slices of so many moments.
fn try_in(slice: usize, moments: &[Moment]) -> (Card, Vec<f32>) {
    let mut task = Practising::start(&job()).unwrap();
    rested(&mut task);
    task.hear(&Order::Begin.numbers());
    for slice in moments.chunks(slice) {
        task.hear(&Order::Moments(slice.to_vec()).numbers());
        assert!(task.film().is_some());
    }
    task.hear(&Order::Judge.numbers());
    let told = rested(&mut task);
    (told.card.expect("a card"), task.film().expect("the exact film").values)
}

#[test]
fn a_machines_track_gets_full_marks() {
    let plan = &flown().1;
    let (card, _) = try_in(64, &machine(plan));
    assert!(card.advice.is_empty(), "{:?}", card.advice);
    assert_eq!((card.passes.len(), card.still, card.short), (plan.rows.len(), 0.0, [0, 0]));
    let (right, best) = (card.shares.expect("a band")[1], plan.best.expect("laid by a machine"));
    assert!(best > 0.97 && (right - best).abs() < 0.01, "{right} of {best}");
    assert!((card.paint[0] / card.paint[1] - 1.0).abs() < 1e-6 && !card.beyond);
}

#[test]
fn slices_of_thirty_sixty_or_two_hundred_and_forty_a_second_give_the_same_bits() {
    // Moments 1/240 s apart, told eight, four or one at a time; and all at once, as a link is opened.
    let mut moments = machine(&flown().1);
    moments.truncate(240);
    let all = try_in(usize::MAX, &moments);
    for slice in [8, 4, 1] {
        let (card, film) = try_in(slice, &moments);
        assert_eq!(card, all.0);
        assert!(film.iter().zip(&all.1).all(|(a, b)| a.to_bits() == b.to_bits()));
    }
}

#[test]
fn what_is_told_before_the_flights_are_done_is_laid_again_when_they_are() {
    let moments: Vec<Moment> = machine(&flown().1).into_iter().take(200).collect();
    let mut early = Practising::start(&job()).unwrap();
    early.hear(&Order::Moments(moments.clone()).numbers());
    early.hear(&Order::Judge.numbers());
    let judged = rested(&mut early).card;
    let mut late = Practising::start(&job()).unwrap();
    rested(&mut late);
    late.hear(&Order::Moments(moments).numbers());
    late.hear(&Order::Judge.numbers());
    assert_eq!(judged, rested(&mut late).card);
    assert_eq!(early.live.film.dry, late.live.film.dry);
}

#[test]
fn a_replay_shows_the_film_on_its_way() {
    let moments = machine(&flown().1);
    let mut task = Practising::start(&job()).unwrap();
    rested(&mut task);
    task.hear(&Order::Moments(moments.clone()).numbers());
    let whole = task.film().expect("a film").values;
    let sum = |film: &[f32]| film.iter().sum::<f32>();
    let mut before = 0.0;
    for to in [100, 200, 150] {
        task.hear(&Order::Show(to).numbers());
        rested(&mut task);
        let now = sum(&task.film().expect("a film").values);
        assert!(if to == 150 { now < before } else { now > before && now < sum(&whole) }, "{to}");
        before = now;
    }
    task.hear(&Order::Show(moments.len()).numbers());
    assert_eq!(task.film().expect("a film").values, whole);
}

/// Means over squares of about 40 mm in the panel's core, 60 mm off its edges.
fn squares(film: &[f32], columns: usize, rows: usize, size: [f64; 2]) -> Vec<f64> {
    let (side, edge) = (0.04, 0.06);
    let counts = size.map(|v| ((v - 2.0 * edge) / side) as usize);
    let mut sums = vec![[0.0_f64; 2]; counts[0] * counts[1]];
    for (cell, &h) in film.iter().enumerate() {
        let at = [(cell % columns) as f64 + 0.5, (cell / columns) as f64 + 0.5];
        let place = [at[0] / columns as f64 * size[0], at[1] / rows as f64 * size[1]];
        let square = [0, 1].map(|i| ((place[i] - edge) / side).floor());
        if (0..2).all(|i| square[i] >= 0.0 && square[i] < counts[i] as f64) {
            let sum = &mut sums[square[1] as usize * counts[0] + square[0] as usize];
            *sum = [sum[0] + f64::from(h), sum[1] + 1.0];
        }
    }
    sums.iter().map(|[sum, n]| sum / n).collect()
}

/// The page blends poses that are the same for every try, a run poses fitted to its track: how far apart that is away from the job's
/// own distance and tilt. The figures stand in docs/methods/practice.md.
#[test]
fn away_from_the_jobs_pose_the_film_stays_near_the_librarys() {
    let plan = &flown().1;
    let mut task = Practising::start(&job()).unwrap();
    rested(&mut task);
    for (what, off, heel, bound) in [
        ("20 mm farther", 0.02, 0.0, 0.02),
        ("50 mm farther", 0.05, 0.0, 0.02),
        ("heel 15 deg", 0.0, 15.0, 0.02),
    ] {
        let moments: Vec<Moment> = machine(plan)
            .into_iter()
            .map(|m| {
                mistcoat::practice::rounded(&Moment {
                    distance: m.distance + off,
                    heel: f64::to_radians(heel),
                    ..m
                })
            })
            .collect();
        task.hear(&Order::Begin.numbers());
        task.hear(&Order::Moments(moments.clone()).numbers());
        task.hear(&Order::Judge.numbers());
        rested(&mut task);
        let ours = task.film().expect("the exact film");
        let text = with_key(&job(), "stroke.track", &mistcoat::practice::rows(&moments)).unwrap();
        let mut run = mistcoat::run::Run::new(Job::from_toml(&text).unwrap()).unwrap().only_laid();
        run.finish();
        let film = run.film();
        let (columns, rows) = (film.face().nx, film.face().ny);
        let theirs: Vec<f32> = (0..rows)
            .rev()
            .flat_map(|j| &film.dry[j * columns..(j + 1) * columns])
            .map(|&h| h as f32)
            .collect();
        let [a, b] = [&ours.values, &theirs].map(|film| squares(film, columns, rows, plan.size));
        let mean = b.iter().sum::<f64>() / b.len() as f64;
        let worst = a.iter().zip(&b).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max) / mean;
        let all = a.iter().sum::<f64>() / b.len() as f64 / mean - 1.0;
        println!("{what}: mean {:+.2} %, worst square {:.2} %", 100.0 * all, 100.0 * worst);
        assert!(worst < bound, "{what}: {worst}");
    }
}

#[test]
fn what_cannot_be_practised_is_refused_and_orders_are_read() {
    let refusal = Practising::start(crate::state::CHAIR_LEG).err().expect("a tube");
    assert_eq!(refusal.key.as_deref(), Some("part"));
    let moments = machine(&flown().1);
    for order in [Order::Begin, Order::Moments(moments[..3].to_vec()), Order::Judge, Order::Show(7)] {
        assert_eq!(Order::read(&order.numbers()), Some(order));
    }
    for bad in [&[][..], &[1.0, 2.0], &[9.0], &[3.0], &[3.0, f64::NAN]] {
        assert_eq!(Order::read(bad), None);
    }
    // A try without a pass is told as one.
    let mut task = Practising::start(&job()).unwrap();
    rested(&mut task);
    task.hear(&Order::Moments(vec![moments[0], Moment { time: 1.0, ..moments[0] }]).numbers());
    task.hear(&Order::Judge.numbers());
    assert_eq!(rested(&mut task).card, Some(Card::empty()));
}
