//! The data sheet in a job: whose each figure is, what lies outside, and how much to mix.

use crate::SMALL;
use mistcoat::flow_cup::Cup;
use mistcoat::job::{Job, Origin, with_key};
use mistcoat::paint::ThinnerSpeed;
use mistcoat::report::Report;
use mistcoat::run::Run;

fn job(text: &str) -> Job {
    Job::from_toml(text).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

fn with(keys: &[(&str, &str)]) -> Job {
    let set = |text: String, (key, value): &(&str, &str)| with_key(&text, key, value).unwrap();
    job(&keys.iter().fold(SMALL.to_string(), set))
}

#[test]
fn blanks_are_typical_and_said_to_be() {
    let silent = with(&[]);
    for key in mistcoat::job::KEYS.iter().map(|k| k.path) {
        if key.starts_with("paint.") && key != "paint.kind" {
            assert_eq!(silent.paint_origin(key), Origin::Typical, "{key}");
        }
    }
    assert_eq!(silent.sheet, silent.recipe.sheet);
    assert!(silent.notes.is_empty() && !silent.mixing.asked);
    let told = with(&[
        ("paint.mix", "4:1:1"),
        ("paint.mass_solids", "55 %"),
        ("paint.sheet.flash", "12 min"),
        ("paint.sheet.dry_film_total", "[\"40 um\", \"70 um\"]"),
        ("paint.kinematic_viscosity", "60 mm2/s"),
    ]);
    for key in [
        "paint.mix",
        "paint.thinning",
        "paint.mass_solids",
        "paint.volume_solids",
        "paint.sheet.flash",
        "paint.dry_film_per_coat",
        "paint.cup.seconds",
    ] {
        assert_eq!(told.paint_origin(key), Origin::Yours, "{key}");
    }
    assert_eq!(told.paint_origin("paint.sheet.tip").word(), "typical");
    assert!((told.sheet.flash - 720.0).abs() < 1e-9);
    // Two coats are typical for the class: 70 um in all are 35 um each.
    assert!((told.paint.dry_film_per_coat[1] - 35e-6).abs() < 1e-12);
}

#[test]
fn solids_by_mass_and_densities_of_the_tins() {
    let told = with(&[("paint.density", "1.2 kg/L"), ("paint.mass_solids", "50 %")]);
    let volatile: f64 = told
        .paint
        .solvents
        .iter()
        .map(|s| mistcoat::evaporation::Volatile::named(&s.name).unwrap().density * s.volume_share)
        .sum::<f64>()
        / (1.0 - told.paint.volume_solids);
    assert!((told.paint.volume_solids - (1.0 - 1200.0 * 0.5 / volatile)).abs() < 1e-9);
    let heavy = with(&[("paint.base_density", "1.1 kg/L"), ("paint.hardener_density", "1.2 kg/L")]);
    assert!((heavy.paint.density - (20.0 * 1100.0 + 10.0 * 1200.0 + 3.0 * 875.0) / 33.0).abs() < 1e-9);
}

#[test]
fn a_cup_reading_is_brought_to_the_paints_temperature() {
    let nu = Cup::Din4.viscosity(30.0).unwrap().value;
    let taken_cold = with(&[
        ("paint.cup.standard", "din-4"),
        ("paint.cup.seconds", "30"),
        ("paint.cup.temperature", "20 C"),
        ("paint.temperature", "25 C"),
    ]);
    let five_degrees = 0.96_f64.powi(5);
    assert!((taken_cold.paint.kinematic_viscosity() / nu / five_degrees - 1.0).abs() < 1e-9);
    let same =
        with(&[("paint.cup.standard", "din-4"), ("paint.cup.seconds", "30"), ("paint.temperature", "25 C")]);
    assert!((same.paint.kinematic_viscosity() / nu - 1.0).abs() < 1e-12);
}

#[test]
fn the_thinner_changes_the_solvents_and_nothing_of_the_tins() {
    let of = |speed: ThinnerSpeed| with(&[("paint.thinner", speed.word())]);
    assert_eq!(of(ThinnerSpeed::Medium).paint, with(&[]).paint);
    let (fast, slow) = (of(ThinnerSpeed::Fast), of(ThinnerSpeed::Slow));
    let has = |job: &Job, name: &str| job.paint.solvents.iter().any(|s| s.name == name);
    assert!(has(&fast, "ethyl acetate") && has(&slow, "PM acetate") && !has(&slow, "ethyl acetate"));
    assert!((fast.paint.volume_solids - slow.paint.volume_solids).abs() < 1e-12);
}

/// Each setting outside says "outside" and names the window; inside nothing is said.
#[test]
fn outside_the_data_sheet() {
    let spec = ("spec.dry_film", "[\"60 um\", \"80 um\"]");
    for (keys, said) in [
        (vec![("paint.sheet.tip", "[\"1.4 mm\", \"1.6 mm\"]")], "1.4 to 1.6 mm"),
        (vec![("paint.sheet.pressure", "[\"2.5 bar\", \"3 bar\"]")], "2.5 to 3.0 bar"),
        (vec![("paint.sheet.cup_seconds", "[\"20 s\", \"22 s\"]")], "20 to 22 s"),
        (vec![("paint.sheet.cup", "iso-4"), ("paint.sheet.cup_seconds", "[\"20 s\", \"30 s\"]")], "iso-4"),
        (vec![("paint.sheet.coats", "1"), ("stroke.coats", "2")], "data sheet's 1"),
        (vec![("paint.dry_film_per_coat", "[\"20 um\", \"35 um\"]"), spec], "20 to 35 um"),
        (
            vec![("paint.sheet.dry_film_total", "[\"20 um\", \"35 um\"]"), spec, ("spec.per", "total")],
            "20 to 35 um",
        ),
        (vec![("paint.kind", "zinc-rich-primer")], "typical for zinc-rich primer"),
    ] {
        let notes = with(&keys).notes;
        assert_eq!(notes.len(), 1, "{keys:?}: {notes:?}");
        assert!(notes[0].contains("outside") && notes[0].contains(said), "{keys:?}: {notes:?}");
    }
    let inside = with(&[
        ("paint.sheet.tip", "[\"1.3 mm\", \"1.4 mm\"]"),
        ("paint.sheet.pressure", "[\"26 psi\", \"2.2 bar\"]"),
        ("paint.sheet.cup_seconds", "[\"15 s\", \"20 s\"]"),
        ("paint.sheet.coats", "2"),
        ("stroke.coats", "2"),
        ("paint.dry_film_per_coat", "[\"20 um\", \"35 um\"]"),
        ("spec.dry_film", "[\"30 um\", \"40 um\"]"),
    ]);
    assert!(inside.notes.is_empty(), "{:?}", inside.notes);
}

#[test]
fn a_cup_alone_turns_the_typical_seconds() {
    let ford = with(&[("paint.sheet.cup", "ford-4")]);
    let nu = Cup::Din4.viscosity(15.0).unwrap().value;
    assert!((ford.sheet.cup_seconds[0] - Cup::Ford4.seconds(nu).unwrap().value).abs() < 1e-9);
    assert_eq!(ford.paint_origin("paint.sheet.cup_seconds"), Origin::Typical);
}

fn report(job: Job) -> (Job, Report) {
    let mut run = Run::new(job.clone()).unwrap();
    run.finish();
    (job, Report::new(&run).unwrap())
}

/// The report's mix: the sums by hand from what one part took.
#[test]
fn six_table_tops() {
    let text = crate::text_of("core/examples/jobs/table-tops-to-mix.toml");
    let (job, report) = report(job(&with_key(&text, "run.droplets", "4000").unwrap()));
    assert!(job.notes.is_empty(), "{:?}", job.notes);
    let mix = report.mix.unwrap();
    let sprayed = 6.0 * report.paint.sprayed_ml;
    let card = report.gun.fluid_ml_min * 5.0 / 60.0;
    let near = |got: f64, want: f64| assert!((got - want).abs() < 1e-6, "{got} is not {want}");
    near(mix.on_parts_ml, sprayed * report.transfer_efficiency.value);
    near(mix.on_parts_ml + mix.overspray_ml, sprayed);
    near(mix.test_card_ml, card);
    near(mix.left_ml, 15.0);
    let all = 1.1 * (sprayed + card + 15.0);
    // About 460 mL: the step is 10 mL.
    near(mix.mixed_ml, (all / 10.0).ceil() * 10.0);
    assert!((420.0..=500.0).contains(&mix.mixed_ml), "{mix:?}");
    near(mix.base_ml, mix.mixed_ml * 20.0 / 33.0);
    near(mix.hardener_ml, mix.mixed_ml * 10.0 / 33.0);
    near(mix.thinner_ml, mix.mixed_ml * 3.0 / 33.0);
    near(mix.base_g, mix.base_ml * 0.985);
    assert_eq!((mix.lots, mix.cup_fills), (1, 1));
    let (low, high) = (mix.mixed_low_ml.unwrap(), mix.mixed_high_ml.unwrap());
    assert!(low < mix.mixed_ml && mix.mixed_ml < high, "{low} {} {high}", mix.mixed_ml);
    // 6 x 24.7 s of trigger at 40 %: 370 s, 185 s a round, so 295 s of waiting between the two coats.
    near(mix.minutes * 60.0, 0.5 * 6.0 * report.paint.seconds / 0.4 + 480.0);
    assert!(report.to_json().contains("\"mix\": {"));
}

#[test]
fn nothing_is_planned_where_nothing_is_asked() {
    let few = [("run.droplets", "2000")];
    assert_eq!(report(with(&few)).1.mix, None);
    // A burst on a card is no job to mix for.
    assert_eq!(report(with(&[few[0], ("mix.parts", "3"), ("stroke.burst", "1 s")])).1.mix, None);
}
