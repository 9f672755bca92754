//! Match my gun as a user meets it: what is refused, what is said, what the job file then holds.

use mistcoat::fit::{Agreement, MatchedGun, Matching, Unknown, model_card, words};
use mistcoat::gun::{Fault, Faults, Matched};
use mistcoat::job::Job;
use mistcoat::run::Run;
use mistcoat::set_up::Model;
use mistcoat::stroke::{Pass, Strokes};
use mistcoat::units::System;

/// The table top with a card.
fn text(card: &str) -> String {
    format!("{}\n[card]\n{card}", crate::text_of("core/examples/jobs/table-top.toml"))
}

fn job(card: &str) -> Job {
    Job::from_toml(&text(card)).unwrap_or_else(|e| panic!("{e}"))
}

fn matched(card: &str) -> MatchedGun {
    let mut matching = Matching::new(job(card)).unwrap();
    matching.finish();
    matching.matched().unwrap().clone().unwrap()
}

fn said(gun: &MatchedGun) -> String {
    words(gun, System::Metric).iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

fn refusal(job: Job) -> String {
    Matching::new(job).map(|_| ()).unwrap_err().to_string()
}

#[test]
fn nothing_to_fit_is_refused() {
    let plain = Job::from_toml(&crate::text_of("core/examples/jobs/table-top.toml")).unwrap();
    assert!(refusal(plain).starts_with("card: nothing was measured"));
    let back = refusal(job("weighed = \"38 g\"\nkept_back = \"flow\""));
    assert!(back.starts_with("card.weighed: the only reading is kept back"), "{back}");
    let mut shut = job("weighed = \"38 g\"");
    shut.gun.fluid = 0.0;
    assert!(refusal(shut).starts_with("gun.fluid: 0 (needle shut"));
    let mut faulty = job("weighed = \"38 g\"");
    faulty.gun.faults = Faults::NONE.with(Fault::HornLeftBlocked);
    assert!(refusal(faulty).starts_with("gun.faults: a gun with "));
}

#[test]
fn a_card_of_the_catalogue_s_own_flow_leaves_the_gun_as_it_is() {
    let gun = matched("weighed = \"38 g\"");
    let tells: Vec<_> = gun.constants.iter().map(|c| c.told).collect();
    assert_eq!(tells, [false, false, true, false]);
    assert!((gun.constants[2].used - 1.0).abs() < 0.1 && gun.agreement == Agreement::Good, "{gun:?}");
    assert!(gun.keys().iter().all(|(key, _)| *key == "gun.matched.suction"));
    let told = said(&gun);
    for part in
        ["fan: not told by this card", "droplets: not told by this card", "air flow: not told by this card"]
    {
        assert!(told.contains(part), "{told}");
    }
}

/// Nothing is forced: no gun of this kit sprays four times as much.
#[test]
fn a_contradiction_is_said_and_nothing_is_taken_over() {
    let gun = matched("weighed = \"150 g\"");
    assert_eq!(gun.agreement, Agreement::Contradiction);
    assert!(gun.misfit > gun.misfit_limit && gun.keys().is_empty());
    let told = said(&gun);
    assert!(
        told.contains("contradict") && told.contains("paint flow") && told.contains("nothing is taken over"),
        "{told}"
    );
    let before = text("weighed = \"150 g\"");
    assert_eq!(gun.written_into(&before).unwrap(), before);
}

#[test]
fn a_pressure_gun_is_told_by_its_needle() {
    let text = "version = 1\ngun.kit = \"hvlp-pressure-1.0\"\ngun.fluid = 0.4\npaint.kind = \"two-pack-clear\"\n\
                part.panel = { width = \"600 mm\", height = \"400 mm\" }\n\
                stroke = { distance = \"200 mm\", speed = \"450 mm/s\" }\ncard.caught = \"38 mL\"\n";
    let job = Job::from_toml(text).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(Unknown::of(&job.kit)[2], Unknown::Needle);
    let mut matching = Matching::new(job).unwrap();
    matching.finish();
    let gun = matching.matched().unwrap().as_ref().unwrap();
    let own = gun.factors();
    assert_eq!(
        (own.suction, own.fan, own.edge, own.droplets, own.droplets_range),
        (1.0, 1.0, 1.0, 1.0, None)
    );
    assert!(gun.constants[2].factor.value != 1.0 && gun.constants[2].key == "gun.matched.needle");
}

/// Any slicing gives the same digits, and the matched gun reopens from the job file with them.
#[test]
fn slices_give_the_same_gun_and_the_job_file_holds_it() {
    let card = "distance = \"200 mm\"\nfan_height = \"200 mm\"\nfan_thickness = \"44 mm\"\nweighed = \"36 g\"\nwet_film = \"21 um\"\n\
                speed = \"450 mm/s\"\n";
    let whole = matched(card);
    let mut matching = Matching::new(job(card)).unwrap();
    let (mut calls, mut last) = (0, 0);
    while !matching.advance(7_001) {
        calls += 1;
        let (done, all) = matching.progress();
        assert!(done >= last && done <= all, "{done} of {all} after {last}");
        last = done;
    }
    assert!(calls > 100);
    assert_eq!(matching.matched().unwrap().as_ref().unwrap(), &whole);

    assert!(whole.constants[0].told && whole.constants[2].told && whole.constants[3].told, "{whole:?}");
    assert!(whole.guns > 300.0, "{}", whole.guns);
    let once = whole.written_into(&text(card)).unwrap();
    assert_eq!(whole.written_into(&once).unwrap(), once);
    let reopened = Job::from_toml(&once).unwrap();
    assert_eq!(reopened.kit.matched, whole.factors());
    assert_ne!(reopened.kit.matched, Matched::default());

    // The report's range of droplet size is the card's, no longer the model's.
    let range = |job: &Job| {
        let sizes = Model::default().size_range(&job.kit, &job.gun, &job.paint, &job.booth).unwrap();
        let medians = sizes.iter().map(|v| v.sizes.volume_median);
        medians.clone().fold(0.0, f64::max) / medians.fold(1.0, f64::min)
    };
    assert!(range(&reopened) < 0.9 * range(&job(card)), "{} {}", range(&reopened), range(&job(card)));
}

/// The film of a pass as the fit reckons it is that of a run's own sweep, from other droplets.
#[test]
fn the_film_of_a_pass_is_that_of_a_run() {
    let mut job = job("weighed = \"38 g\"");
    job.run.droplets = 200_000;
    let (speed, card) = (job.stroke.speed, model_card(job.clone(), 200_000).unwrap());
    let mut run = Run::new(job).unwrap();
    run.finish();
    let prepared = run.prepared();
    let strokes = Strokes::Passes {
        passes: vec![Pass { from: -0.6, to: 0.6, offset: 0.0, turn: 0.0, member: 0 }],
        speed,
        coats: 1,
    };
    let mut film = prepared.bare_film();
    prepared.swept(run.part(), &strokes).lay(&mut film);
    let rows = film.face().ny / 2 - 2..film.face().ny / 2 + 2;
    let columns = film.face().nx / 4..film.face().nx - film.face().nx / 4;
    let row = film.face().nx;
    let mean = |values: &[f64]| {
        let cells = rows.clone().flat_map(|j| columns.clone().map(move |i| j * row + i));
        cells.clone().map(|c| values[c]).sum::<f64>() / cells.count() as f64
    };
    let flow = prepared.state.paint_flow / speed;
    let wet = flow * card.logs[2].exp();
    let dry = flow * prepared.job.paint.volume_solids * card.logs[3].exp();
    // Counting errors of 0.6 % each.
    assert!((mean(&film.wet) / wet - 1.0).abs() < 0.03, "{} {wet}", mean(&film.wet));
    assert!((mean(&film.dry) / dry - 1.0).abs() < 0.03, "{} {dry}", mean(&film.dry));
}
