//! Good job files give the SI values that they say.

use crate::SMALL;
use mistcoat::job::{FanAxis, Job, PartShape};

fn close(got: f64, want: f64) {
    assert!((got - want).abs() <= 1e-12 * want.abs(), "{got} is not {want}");
}

#[test]
fn table_top() {
    let text = crate::text_of("core/examples/jobs/table-top.toml");
    let job = Job::from_toml(&text).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(job.text, text);
    assert_eq!(job.name, "table top, one coat");
    assert_eq!(job.kit.id, "hvlp-gravity-1.3");
    close(job.gun.inlet_pressure, 2e5);
    close(job.gun.fan, 1.0);
    close(job.gun.trigger, 1.0);
    assert_eq!(job.paint.id, "two-pack-clear");
    close(job.paint.temperature, 293.15);
    close(job.booth.humidity, 0.5);
    assert_eq!(job.part, PartShape::Panel { width: 0.6, height: 0.4 });
    close(job.lean, 0.0);
    close(job.stroke.distance, 0.18);
    close(job.stroke.speed, 0.35);
    close(job.stroke.overlap, 0.5);
    close(job.stroke.lead, 0.06);
    assert_eq!((job.stroke.coats, job.stroke.burst), (1, None));
    let spec = job.spec.unwrap();
    close(spec.low, 20e-6);
    close(spec.high, 35e-6);
    assert!(spec.per_coat);
    assert_eq!((job.run.droplets, job.run.seed, job.run.standard_error), (200_000, 1, None));
}

#[test]
fn chair_legs() {
    for (name, near_round) in [("chair-leg-wide-fan", false), ("chair-leg-near-round", true)] {
        let text = crate::text_of(&format!("core/examples/jobs/{name}.toml"));
        let job = Job::from_toml(&text).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(job.part, PartShape::Tube { diameter: 0.022, length: 0.6 });
        assert_eq!((job.stroke.sides, job.stroke.fan_axis), (4, FanAxis::Across));
        assert_eq!(job.gun.fan < 0.5, near_round);
        close(job.stroke.speed, if near_round { 0.49 } else { 0.37 });
        close(job.gun.inlet_pressure, if near_round { 1e5 } else { 2e5 });
        assert!(job.notes.is_empty(), "{:?}", job.notes);
    }
}

/// The docs show the examples' own text.
#[test]
fn docs_show_the_examples() {
    let docs = crate::text_of("docs/job-file.md");
    for name in ["table-top", "chair-leg-near-round"] {
        let text = crate::text_of(&format!("core/examples/jobs/{name}.toml"));
        assert!(docs.contains(&format!("```toml\n{text}```")), "docs/job-file.md lacks {name}.toml as it is");
    }
}

/// What the docs say holds when a key is left out.
#[test]
fn defaults() {
    let job = Job::from_toml(SMALL).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(job.name, "job");
    close(job.gun.inlet_pressure, job.kit.rated_pressure);
    close(job.gun.fluid, job.kit.rated_fluid);
    close(job.gun.fan, 1.0);
    close(job.paint.temperature, 293.15);
    close(job.booth.temperature, 293.15);
    close(job.booth.humidity, 0.5);
    close(job.lean, core::f64::consts::FRAC_PI_2);
    close(job.stroke.overlap, 0.5);
    close(job.stroke.lead, 0.06);
    assert_eq!((job.stroke.coats, job.stroke.sides, job.stroke.fan_axis), (1, 1, FanAxis::Across));
    assert_eq!(job.spec, None);
    assert_eq!((job.run.droplets, job.run.seed), (200_000, 1));
}

/// US units, patches, other spellings of the same TOML.
#[test]
fn units_and_patches() {
    let text = SMALL
        .replace("distance = \"180 mm\"", "distance = \"7 in\"")
        .replace("speed = \"450 mm/s\"", "speed = \"90 ft/min\"\nfan_axis = \"along\"\nsides = 3\ncoats = 2")
        .replace(
            "panel = { width = \"600 mm\", height = \"400 mm\" }",
            "lean = \"70 deg\"\n[part.tube]\ndiameter = '1.66 in'\nlength = \"4 ft\"",
        )
        .replace(
            "[paint]\n",
            "inlet_pressure = \"29 psi\"\nfan = \"40 %\"\ntip_bore = \"1.8 mm\"\nhorn_angle = \"60 deg\"\n[paint]\n\
             density = \"9.0 lb/gal\"\nvolume_solids = \"40 %\"\nviscosity = \"80 cP\"\nsurface_tension = \"30 dyn/cm\"\n\
             solvents = [{ name = \"acetone\", share = \"25 %\" }, { name = \"n-butyl acetate\", share = 0.75 }]\n\
             isocyanate = false\n",
        )
        + "[spec]\ndry_film = [\"1 mil\", \"2 mil\"]\nper = \"total\"\n[run]\ndroplets = 1e6\nstandard_error = \"0.5 %\"\n";
    let job = Job::from_toml(&text).unwrap_or_else(|error| panic!("{error}"));
    close(job.stroke.distance, 0.1778);
    close(job.stroke.speed, 0.4572);
    assert_eq!((job.stroke.fan_axis, job.stroke.sides, job.stroke.coats), (FanAxis::Along, 3, 2));
    assert_eq!(job.part, PartShape::Tube { diameter: 1.66 * 0.0254, length: 4.0 * 0.3048 });
    close(job.lean, 70.0 * core::f64::consts::PI / 180.0);
    close(job.gun.inlet_pressure, 29.0 * 6_894.757_293_168_361);
    close(job.gun.fan, 0.4);
    close(job.kit.tip_bore, 1.8e-3);
    close(job.kit.horn_angle, core::f64::consts::PI / 3.0);
    close(job.paint.density, 9.0 * 0.453_592_37 / 3.785_411_784e-3);
    close(job.paint.volume_solids, 0.4);
    close(job.paint.viscosity, 0.08);
    close(job.paint.surface_tension, 0.03);
    assert!(!job.paint.isocyanate);
    let shares: Vec<_> = job.paint.solvents.iter().map(|s| (s.name.as_str(), s.volume_share)).collect();
    assert_eq!(shares.len(), 2);
    assert_eq!(shares[0].0, "acetone");
    close(shares[0].1, 0.25 * 0.6);
    close(shares[1].1, 0.75 * 0.6);
    let spec = job.spec.unwrap();
    close(spec.low, 25.4e-6);
    close(spec.high, 50.8e-6);
    assert!(!spec.per_coat);
    assert_eq!((job.run.droplets, job.run.standard_error), (1_000_000, Some(0.005)));
}

/// A burst needs no speed; what it does not use is said.
#[test]
fn burst() {
    let text = SMALL.replace("speed = \"450 mm/s\"", "burst = \"1 s\"");
    let job = Job::from_toml(&text).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(job.stroke.burst, Some(1.0));
    assert!(job.notes.is_empty());
    let text = SMALL.replace("speed = ", "burst = \"1 s\"\noverlap = 0.3\nspeed = ");
    let job = Job::from_toml(&text).unwrap();
    assert_eq!(job.notes.len(), 1);
    assert!(job.notes[0].contains("stroke.speed, stroke.overlap"), "{}", job.notes[0]);
}

/// Cup seconds, a measured viscosity and the plain one; the cup's 18 s are 57.2 mm2/s (formula of DIN 53211, computed).
#[test]
fn viscosity_in_three_ways() {
    let with = |lines: &str| {
        let text = SMALL.replace("[part]", &format!("{lines}\n[part]"));
        Job::from_toml(&text).unwrap_or_else(|error| panic!("{error}"))
    };
    let cup = with("cup = { standard = \"din-4\", seconds = 18 }\ntemperature = \"25 C\"");
    assert!((cup.paint.kinematic_viscosity() * 1e6 - 57.2).abs() < 0.06);
    assert_eq!(cup.notes.len(), 1, "{:?}", cup.notes);
    assert!(cup.notes[0].contains("25 to 150 s"), "{}", cup.notes[0]);
    assert!(with("cup = { standard = \"din-4\", seconds = 30 }").notes.is_empty());
    let measured = with("kinematic_viscosity = \"57 cSt\"\ntemperature = \"30 C\"");
    close(measured.paint.kinematic_viscosity(), 57e-6);
    // The plain viscosity is that at 20 C: 4 % a degree.
    let warm = with("viscosity = \"60 mPa s\"\ntemperature = \"30 C\"");
    let wanted = 0.06 * (0..10).fold(1.0, |x, _| x * 0.96);
    assert!((warm.paint.viscosity - wanted).abs() < 1e-12, "{}", warm.paint.viscosity);
}

#[test]
fn mixes() {
    let with = |lines: &str| {
        let text = SMALL.replace("[part]", &format!("{lines}\n[part]"));
        Job::from_toml(&text).unwrap_or_else(|error| panic!("{error}"))
    };
    let plain = with("mix = \"2:1\"\nthinning = 0");
    let thinned = with("mix = \"2:1\"\nthinning = \"10 %\"");
    close(thinned.paint.volume_solids, plain.paint.volume_solids / 1.1);
    // 15 % of the base, which is two thirds of the mix, is 10 % of the mix.
    let of_base = with("mix = \"2:1\"\nthinning = \"15 %\"\nthinning_of = \"base\"");
    close(of_base.paint.volume_solids, thinned.paint.volume_solids);
    let by_parts = with("mix = \"20:10:3\"");
    close(by_parts.paint.volume_solids, thinned.paint.volume_solids);
    assert!(by_parts.notes.is_empty());
    assert!(with("mix = \"9:1\"").notes[0].contains("far from"));
    let solid = with("volume_solids = 1");
    close(solid.paint.solvents.iter().map(|s| s.volume_share).sum::<f64>(), 0.0);
}
