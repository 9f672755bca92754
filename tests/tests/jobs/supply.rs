//! Jobs with an air supply: the four answers, what the run is sprayed at, warnings, fixes, the air test.

use mistcoat::air::ROOM_PRESSURE;
use mistcoat::job::{Job, with_key};
use mistcoat::report::Report;
use mistcoat::run::{Prepared, Run};
use mistcoat::set_up::{Change, Short, air_answer, air_fixes, one_minute, supplied, trigger_times};
use mistcoat::stroke::Strokes;
use mistcoat::supply::{Answer, Span, Verdict, Warning};

const BAR: f64 = 1e5;

/// The workshop's job with keys set.
fn text(keys: &[(&str, &str)]) -> String {
    let mut text = crate::text_of("core/examples/jobs/cafe-workshop-air.toml");
    for (key, value) in keys {
        text = with_key(&text, key, value).unwrap_or_else(|e| panic!("{e}"));
    }
    text
}

fn job(keys: &[(&str, &str)]) -> Job {
    Job::from_toml(&text(keys)).unwrap_or_else(|e| panic!("{e}"))
}

/// Passes of a fan of 200 mm.
fn plan(job: &Job) -> Vec<Span> {
    trigger_times(&Strokes::plan(&job.stroke, &job.part, 0.2), &job.stroke)
}

fn answer(keys: &[(&str, &str)]) -> Answer {
    let job = job(keys);
    air_answer(&job, &plan(&job)).unwrap_or_else(|e| panic!("{e}")).expect("it has a supply")
}

fn report(keys: &[(&str, &str)]) -> Report {
    let mut run = Run::new(job(keys)).unwrap_or_else(|e| panic!("{e}"));
    run.finish();
    run.report().unwrap()
}

const FEW: (&str, &str) = ("run.droplets", "2000");

#[test]
fn the_four_answers() {
    for (keys, verdict) in [
        (vec![("supply.compressor", "screw-7.5kW")], Verdict::ForEver),
        (vec![], Verdict::ThisJob),
        (vec![("supply.compressor", "workshop-1.1kW"), ("part.panel.height", "2 m")], Verdict::RunsDown),
        (vec![("supply.hose.bore", "5 mm"), ("supply.regulator", "3 bar")], Verdict::Never),
    ] {
        let answer = answer(&keys);
        assert_eq!(answer.verdict, verdict, "{:?}", answer.held_seconds);
        assert_eq!(answer.held_seconds.is_none(), verdict == Verdict::ForEver);
        assert_eq!(answer.margin >= 0.0, verdict == Verdict::ForEver);
        if verdict == Verdict::RunsDown {
            let (on, wait) = (answer.on_seconds.unwrap(), answer.wait_seconds.unwrap());
            assert!(on > 5.0 && on < answer.plan_seconds, "{on} of {}", answer.plan_seconds);
            // The turns between the passes let the compressor catch up a little, never less than with the trigger held.
            assert!(on >= answer.held_seconds.unwrap());
            let air = 24e-3 * (8.0 * BAR - answer.tank_needed) / ROOM_PRESSURE;
            assert!((wait / (air / (105.0 / 60_000.0)) - 1.0).abs() < 1e-9);
        }
        if verdict != Verdict::Never {
            assert_eq!(answer.gun_inlet, 2.0 * BAR);
        }
    }
}

/// What comes in, less what goes out, is what the tank holds more: over a whole plan with cut-ins.
#[test]
fn the_tank_keeps_account_of_its_air() {
    let answer =
        answer(&[("stroke.coats", "6"), ("stroke.flash", "20 s"), ("supply.compressor", "workshop-3kW")]);
    assert_eq!(answer.verdict, Verdict::ThisJob);
    let (first, last) = (answer.trace[0], answer.trace[answer.trace.len() - 1]);
    let mut stored = 0.0;
    for pair in answer.trace.windows(2) {
        let seconds = pair[1].time - pair[0].time;
        let running = if pair[0].running { 290.0 / 60_000.0 } else { 0.0 };
        stored += running * seconds - (pair[1].on - pair[0].on) * answer.gun_air;
    }
    assert!(answer.trace.iter().any(|m| m.running) && answer.trace.iter().any(|m| !m.running && !m.trigger));
    let tank = 0.150 * (last.tank - first.tank) / ROOM_PRESSURE;
    assert!((stored - tank).abs() < 1e-7, "{stored} {tank}");
    assert!((last.on - answer.plan_seconds).abs() < 1e-9);
}

#[test]
fn the_wall_gauge_gives_the_wanted_pressure() {
    for wanted in ["1 bar", "2 bar", "2.6 bar"] {
        let open = answer(&[("gun.inlet_pressure", wanted)]);
        let wall = open.wall.unwrap();
        assert!(wall.rest > wall.pulled && wall.pulled > open.wanted);
        let set = format!("{} bar", wall.rest / BAR);
        let set = answer(&[("gun.inlet_pressure", wanted), ("supply.regulator", &set)]);
        assert!((set.gun_inlet - open.wanted).abs() < 1.0, "{} {}", set.gun_inlet, open.wanted);
        assert!((set.most_at_gun - open.wanted).abs() < 600.0, "{} {}", set.most_at_gun, open.wanted);
        assert!((set.rest - wall.rest).abs() < 1.0);
    }
}

/// A supply that gives what is asked for changes no other figure; one that does not, lowers the run's pressure.
#[test]
fn the_run_is_sprayed_at_what_the_line_gives() {
    let with = report(&[FEW]);
    let bare = crate::text_of("core/examples/jobs/cafe-workshop-air.toml");
    let bare = mistcoat::job::without_key(&with_key(&bare, FEW.0, FEW.1).unwrap(), "supply").unwrap();
    let mut run = Run::new(Job::from_toml(&bare).unwrap()).unwrap();
    run.finish();
    let without = run.report().unwrap();
    assert!(without.supply.is_none() && !without.to_json().contains("supply"));
    assert_eq!((with.film, with.gun, with.paint), (without.film, without.gun, without.paint));

    let low = report(&[FEW, ("supply.hose.bore", "5 mm"), ("supply.regulator", "3 bar")]);
    let supply = low.supply.unwrap();
    assert_eq!(supply.verdict, "never");
    assert!(supply.gun_inlet_bar < 1.5 && supply.wanted_bar == 2.0);
    assert_eq!(low.gun.inlet_bar, supply.gun_inlet_bar);
    assert!(low.gun.cap_bar < with.gun.cap_bar && low.gun.free_air_l_min < with.gun.free_air_l_min);
    assert!(low.warnings.iter().any(|w| w.contains("sprayed at the lower pressure")), "{:?}", low.warnings);
    let once = supplied(job(&[("supply.regulator", "3 bar"), ("supply.hose.bore", "5 mm")])).unwrap();
    let twice = supplied(once.clone()).unwrap();
    assert!((once.gun.inlet_pressure - twice.gun.inlet_pressure).abs() < 1.0);
}

#[test]
fn limits_are_told_in_words() {
    let has = |answer: &Answer, want: fn(&Warning) -> bool| {
        assert!(answer.warnings.iter().any(want), "{:?}", answer.warnings);
        for warning in &answer.warnings {
            assert!(warning.to_string().len() > 30 && !warning.to_string().contains("NaN"));
        }
    };
    let choked = answer(&[("supply.hose.bore", "4 mm"), ("supply.hose.length", "25 m")]);
    assert_eq!(choked.verdict, Verdict::Never);
    has(&choked, |w| matches!(w, Warning::HoseChokes(..)));
    has(&choked, |w| matches!(w, Warning::Short(..)));
    // The gun draws just what the hose lets through.
    assert!(choked.gun_inlet > 0.0 && choked.gun_inlet < 1.0 * BAR);

    let mask = "[{ name = \"air-fed mask\", air = \"170 L/min\" }]";
    let starved = answer(&[("supply.also", mask)]);
    assert_eq!(starved.verdict, Verdict::Never);
    has(&starved, |w| matches!(w, Warning::OthersTakeAll(name, ..) if name == "air-fed mask"));
    assert!(starved.wait_seconds.is_none());

    let first = answer(&[("supply.also", mask), ("supply.compressor", "workshop-4kW")]);
    has(&first, |w| matches!(w, Warning::MaskFirst(..)));
    assert!((first.also_air * 60_000.0 - 170.0).abs() < 1e-9);
    assert!((first.margin - (450.0 - 170.0) / 60_000.0 + first.gun_air).abs() < 1e-12);

    let high = answer(&[("supply.regulator", "7 bar")]);
    has(&high, |w| matches!(w, Warning::RegulatorAboveCutIn(..)));
    let late = answer(&[("supply.compressor.like", "workshop-2kW"), ("supply.compressor.cut_in", "3 bar")]);
    has(&late, |w| matches!(w, Warning::NeedsAboveCutIn(..)));

    let nothing = job(&[("supply.hose.bore", "2 mm"), ("supply.hose.length", "200 m")]);
    let error = Prepared::new(nothing).unwrap_err();
    assert_eq!(error.key, "supply");
    assert!(error.to_string().contains("the hose chokes"), "{error}");
}

#[test]
fn the_air_test_of_one_minute() {
    let small = job(&[("supply.compressor", "workshop-1.1kW")]);
    let answer = air_answer(&small, &[]).unwrap().unwrap();
    let trace = one_minute(&small).unwrap().unwrap();
    let held = answer.held_seconds.unwrap();
    assert!(trace[0].gun == 2.0 * BAR && (trace[trace.len() - 1].time - 60.0).abs() < 1e-6);
    for pair in trace.windows(2) {
        assert!(pair[1].time >= pair[0].time && pair[1].gun <= pair[0].gun + 1e-6, "{pair:?}");
        if pair[1].time < held - 0.01 {
            assert_eq!(pair[1].gun, 2.0 * BAR);
        }
    }
    // What is left after the minute is where the compressor's air and the gun's meet: 105 L/min.
    let last = trace[trace.len() - 1];
    let draws = mistcoat::set_up::gun_air(&small, last.gun) * 60_000.0;
    assert!(held < 30.0 && last.gun < 0.6 * 2.0 * BAR, "{held} {last:?}");
    assert!((draws / 105.0 - 1.0).abs() < 0.25, "{draws}");
    let big = one_minute(&job(&[("supply.compressor", "screw-7.5kW")])).unwrap().unwrap();
    assert!(big.iter().all(|m| m.gun == 2.0 * BAR));
}

/// Without prices the largest gain is first; with prices the gain for the money.
#[test]
fn fixes_by_gain_and_by_money() {
    let fixes = |keys: &[(&str, &str)]| {
        let job = job(keys);
        air_fixes(&job, &plan(&job)).unwrap().unwrap()
    };
    let (short, plain) = fixes(&[("supply.compressor", "workshop-1.1kW")]);
    assert_eq!((short, plain.len()), (Short::Seconds, 5));
    let gains: Vec<_> = plain.iter().map(|fix| fix.gain.expect("none ends it")).collect();
    assert!(gains.windows(2).all(|pair| pair[0] >= pair[1]) && gains[4] > 0.0, "{gains:?}");
    assert!(matches!(plain[0].change, Change::MoreAir(data) if data.id == "workshop-2kW"));

    let couplings = ("supply.price.couplings", "20");
    let (_, priced) =
        fixes(&[("supply.compressor", "workshop-1.1kW"), couplings, ("supply.price.compressor", "900")]);
    assert!(matches!(priced[0].change, Change::FullBoreCouplings(2)), "{:?}", priced[0].change);
    assert!(priced[0].gain_per_money().unwrap() > priced[1].gain_per_money().unwrap());
    assert!(priced[2].price.is_none());

    // A line that is too narrow: bar at the gun.
    let (short, narrow) = fixes(&[("supply.hose.bore", "4 mm")]);
    assert_eq!(short, Short::Pressure);
    assert!(matches!(narrow[0].change, Change::WiderHose(bore) if bore == 0.005), "{:?}", narrow[0].change);
    let tank = narrow.iter().find(|fix| matches!(fix.change, Change::LargerTank(_))).unwrap();
    assert_eq!(tank.gain, Some(0.0));
}

#[test]
fn air_is_counted_at_the_named_state() {
    let of = |state: &str| {
        let own = [("supply.compressor.delivered_air", "10 cfm"), ("supply.compressor.tank", "50 L")];
        let job = job(&[own[0], own[1], ("supply.reference", state)]);
        job.supply.unwrap().compressor.delivered_air * 60_000.0
    };
    assert!((of("free-air") - 283.168_465_92).abs() < 1e-6);
    assert!((of("din-1343") / of("free-air") - 1.08744 / 1.01325).abs() < 1e-5);
    assert!((of("iso-1217") * 1.01325 / of("free-air") - 1.0).abs() < 1e-9);
}

#[test]
fn docs_list_the_supply_figures() {
    let docs = crate::text_of("docs/job-file.md");
    let low = [FEW, ("supply.compressor", "workshop-1.1kW"), ("part.panel.height", "2 m")];
    for keys in [vec![FEW], low.to_vec()] {
        let json: serde_json::Value = serde_json::from_str(&report(&keys).to_json()).unwrap();
        for key in json["supply"].as_object().expect("a table").keys() {
            assert!(docs.contains(&format!("\n| `supply.{key}` |")), "no row for supply.{key}");
        }
    }
}
