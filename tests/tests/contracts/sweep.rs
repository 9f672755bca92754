//! A sweep gives the same digits however it is done, and those of each point flown alone.

use mistcoat::job::{Job, with_key};
use mistcoat::run::Run;
use mistcoat::sweep::{Answer, Axis, Plan, Point, Shard, Sweep, header, line, to_csv};
use mistcoat_tests::scenes::example;

/// Every figure that has replicates, one that needs the card, one that needs the film to have set.
const COLUMNS: [&str; 11] = [
    "transfer_efficiency.value",
    "large_panel_efficiency.value",
    "pattern.length_mm",
    "pattern.kind",
    "film.dry_um.mean",
    "film.dry_um.min",
    "film.thinnest_over_mean",
    "film.cv_percent.value",
    "finish.run_area_percent",
    "paint.lost_ml",
    "gun.hvlp",
];

/// Without the card, which is flown in a fixed number of droplets.
const UNCARDED: [&str; 4] =
    ["transfer_efficiency.value", "film.dry_um.mean", "film.cv_percent.value", "finish.run_area_percent"];

fn job(name: &str, keys: &[(&str, &str)]) -> Job {
    let text =
        keys.iter().fold(example(name).text, |text, (key, value)| with_key(&text, key, value).expect(key));
    Job::from_toml(&text).expect("a job")
}

fn plan(job: &Job, axes: &[&str], columns: &[&str]) -> Plan {
    let axes = axes.iter().map(|text| Axis::read(text).expect(text)).collect();
    Plan::new(job, axes, columns).expect("a plan")
}

fn small(name: &str) -> Job {
    job(name, &[("run.droplets", "6007")])
}

fn on_threads(threads: usize, plan: &Plan) -> Answer {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
    pool.install(|| {
        let mut sweep = Sweep::new(plan.clone());
        sweep.finish();
        sweep.answer()
    })
}

/// Every point of an answer is the point flown alone, to the bit.
fn alone(plan: &Plan, answer: &Answer) {
    assert!(answer.complete && answer.points.len() == plan.len());
    for point in &answer.points {
        let alone = plan.fly(point.number).expect("a point");
        assert_eq!(&alone, point, "{:?}", point.settings);
    }
}

#[test]
fn threads_slices_and_one_by_one_are_one() {
    let plan = plan(&small("chair-leg-wide-fan"), &["gun.fan=0.2,1", "stroke.sides=1..3:3"], &UNCARDED);
    let one = on_threads(1, &plan);
    assert_eq!(one, on_threads(8, &plan));
    let mut sliced = Sweep::new(plan.clone());
    let mut last = 0.0;
    while !sliced.advance(777) {
        let done = sliced.done();
        assert!((last..=1.0).contains(&done), "{last} to {done}");
        last = done;
    }
    assert_eq!(one, sliced.answer());
    alone(&plan, &one);
}

#[test]
fn one_flight_laid_many_times_is_each_flown_alone() {
    for (name, keys, axes) in [
        ("table-top", &[][..], &["stroke.overlap=0.3,0.6", "stroke.speed=350,500 mm/s"][..]),
        ("table-top", &[("stroke.hand", "steady")][..], &["stroke.overlap=0.3,0.6"][..]),
        // Gravity pulls along the spray where a leaning tube is sprayed from one side alone: not one flight, for all the list says.
        ("chair-leg-wide-fan", &[("part.lean", "45 deg")][..], &["stroke.sides=1,2,3"][..]),
    ] {
        let mut base = small(name);
        for (key, value) in keys {
            let text = match *key {
                "part.lean" => mistcoat::job::without_key(&base.text, "part.stands").expect("text"),
                _ => base.text.clone(),
            };
            base = Job::from_toml(&with_key(&text, key, value).expect(key)).expect("a job");
        }
        let plan = plan(&base, axes, &COLUMNS);
        alone(&plan, &on_threads(2, &plan));
    }
}

/// Figures that follow from the film as it lies are laid from tables after the first point.
#[test]
fn the_short_way_of_laying_has_the_same_digits() {
    let columns = [
        "droplets",
        "transfer_efficiency.value",
        "gun.fluid_ml_min",
        "film.dry_um.mean",
        "film.dry_um.min",
        "film.thinnest_over_mean",
        "film.cv_percent.value",
        "film.in_band_percent",
        "paint.sprayed_ml",
        "paint.on_part_ml",
        "paint.lost_ml",
        "paint.seconds",
    ];
    for turn in ["0 deg", "90 deg"] {
        let base = job("table-top", &[("run.droplets", "20011"), ("gun.cap_turn", turn)]);
        let plan = plan(&base, &["stroke.overlap=0.2,0.45,0.9", "stroke.speed=200,333 mm/s"], &columns);
        let answer = on_threads(1, &plan);
        for number in [1, 2, 5] {
            assert_eq!(plan.fly(number).as_ref(), answer.point(number), "{turn} {number}");
        }
        assert!(answer.points.iter().all(|p| p.figures[6].number().is_some()));
    }
}

#[test]
fn a_wanted_error_is_reached_by_each_point_for_itself() {
    let base = job("table-top", &[("run.droplets", "40000"), ("run.standard_error", "0.25 %")]);
    let plan = plan(&base, &["stroke.overlap=0.3,0.6,0.8"], &["transfer_efficiency.value"]);
    let answer = on_threads(2, &plan);
    alone(&plan, &answer);
    let flown: Vec<u64> = answer.points.iter().map(|p| p.droplets).collect();
    for point in &answer.points {
        let figure = &point.figures[0];
        let relative = figure.standard_error.expect("counted") / figure.number().expect("a share");
        assert!(relative <= 0.0025 || point.droplets == 40_000, "{flown:?}: {relative}");
    }
    assert!(flown.iter().any(|&n| n < 40_000), "{flown:?}: none stopped early");
}

#[test]
fn a_point_is_the_report_of_its_job() {
    let plan = plan(&small("table-top"), &["stroke.distance=150,200 mm"], &COLUMNS);
    let point = plan.fly(1).expect("a point");
    let mut run = Run::new(job("table-top", &[("run.droplets", "6007"), ("stroke.distance", "200 mm")]))
        .expect("a run");
    run.finish();
    let report = run.report().expect("figures");
    let number = |path: &str| {
        let column = COLUMNS.iter().position(|c| *c == path).expect(path);
        point.figures[column].clone()
    };
    let efficiency = number("transfer_efficiency.value");
    assert_eq!(efficiency.number(), Some(report.transfer_efficiency.value));
    assert_eq!(efficiency.standard_error, report.transfer_efficiency.standard_error);
    assert_eq!(
        efficiency.likely,
        Some([report.transfer_efficiency.model_low, report.transfer_efficiency.model_high])
    );
    assert_eq!(number("film.dry_um.mean").number(), Some(report.film.dry_um.mean));
    assert_eq!(number("film.cv_percent.value").number(), report.film.cv_percent.map(|c| c.value));
    assert_eq!(point.warnings, report.warnings);
}

#[test]
fn shards_together_are_the_whole() {
    let plan = plan(
        &small("chair-leg-near-round"),
        &["part.tube.diameter=20..40 mm:4", "stroke.speed=300..900 mm/s:3"],
        &UNCARDED,
    );
    let whole = to_csv(&plan, &on_threads(2, &plan));
    let mut lines = Vec::new();
    for number in 0..5 {
        let points: Vec<usize> = Shard { number, of: 5 }.points(&plan).collect();
        let mut shard = Sweep::of_points(plan.clone(), points);
        shard.finish();
        lines.extend(shard.answer().points.iter().map(|p| line(&plan, p)));
    }
    lines.sort();
    assert_eq!(whole, header(&plan) + "\n" + &lines.join("\n") + "\n");
}

#[test]
fn what_is_impossible_says_why_and_the_rest_goes_on() {
    let axes = ["gun.inlet_pressure=1.5 bar,2 bar,7 bar,9 bar", "gun.fluid=0,0.8"];
    let answer = on_threads(2, &plan(&small("table-top"), &axes, &["transfer_efficiency.value"]));
    let said = |p: &Point| p.impossible.as_ref().map(|i| format!("{}: {}", i.key, i.why));
    let said: Vec<Option<String>> = answer.points.iter().map(said).collect();
    for (number, what) in [
        (0, "gun.fluid"),
        (2, "gun.fluid"),
        // More than is stamped on the gun, and more than any job may ask for.
        (5, "gun.inlet_pressure"),
        (7, "gun.inlet_pressure: it is above 8 bar (9 bar); allowed: 0.2 to 8 bar"),
    ] {
        let why = said[number].as_deref().unwrap_or_else(|| panic!("{number} is possible: {said:?}"));
        assert!(why.starts_with(what), "{number}: {what:?} is not in {why:?}");
    }
    for number in [1, 3] {
        assert!(said[number].is_none() && answer.points[number].figures[0].number().is_some(), "{said:?}");
    }
    assert!(!answer.to_json().contains("NaN"));
}

#[test]
fn differences_are_sharper_than_points() {
    let plan =
        plan(&small("chair-leg-wide-fan"), &["stroke.distance=150,160 mm"], &["transfer_efficiency.value"]);
    let answer = on_threads(2, &plan);
    let error = |number: usize| answer.points[number].figures[0].standard_error.expect("counted");
    let (difference, paired) = answer.difference("transfer_efficiency.value", 1, 0).expect("replicates");
    let unpaired = (error(0) * error(0) + error(1) * error(1)).sqrt();
    assert!(paired < 0.8 * unpaired, "{paired} against {unpaired}");
    let values: Vec<f64> = answer.points.iter().filter_map(|p| p.figures[0].number()).collect();
    assert_eq!(difference, values[1] - values[0]);
    assert_eq!(answer.difference("pattern.kind", 1, 0), None);
    assert_eq!(answer.difference("transfer_efficiency.value", 2, 0), None);
}

#[test]
fn plans_are_refused_by_their_fault() {
    let base = small("table-top");
    let axis = |text: &str| Axis::read(text).expect(text);
    let refused =
        |axes: Vec<Axis>, columns: &[&str]| Plan::new(&base, axes, columns).expect_err("refused").to_string();
    assert!(refused(vec![], &[]).contains("one key to vary"));
    let three = ["stroke.speed=1..2 m/s:2", "stroke.coats=1,2", "gun.fan=0,1"].map(axis).to_vec();
    assert!(refused(three, &[]).contains("3 keys"));
    assert!(refused(vec![axis("gun.fan=0,1"), axis("gun.fan=0.2,0.3")], &[]).contains("two different keys"));
    let many = vec![axis("gun.fan=0..1:10000"), axis("stroke.speed=0.1..2 m/s:10000")];
    assert!(refused(many, &[]).contains("too many points"));
    let said = refused(vec![axis("gun.fan=0,1")], &["film.dry_um.meen"]);
    assert!(said.contains("did you mean film.dry_um.mean?"), "{said}");
    for bad in ["", "1", "4/4", "0/0", "-1/4", "a/b", "0/99999999"] {
        assert!(Shard::read(bad).is_err(), "{bad}");
    }
}
