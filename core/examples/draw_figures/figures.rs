//! The pictures, by file name.

use mistcoat::flight::levels;
use mistcoat::job::{Job, PartShape, with_key};
use mistcoat::report::chart::end_view::{DropletEnd, EndView};
use mistcoat::report::chart::{TubeSide, map_svg, tube_pair, wanted};
use mistcoat::run::Run;
use mistcoat::sweep::{Axis, Plan, Sweep, picture};

/// Droplets shown before each tube, and counted beside it.
const SHOWN: u64 = 5000;

const TABLE_TOP: &str = include_str!("../jobs/table-top.toml");
const WIDE_FAN: &str = include_str!("../jobs/chair-leg-wide-fan.toml");
const NEAR_ROUND: &str = include_str!("../jobs/chair-leg-near-round.toml");

/// Every picture of the docs: file name and SVG.
pub fn all() -> Result<[(&'static str, String); 4], String> {
    Ok([
        ("wide-fan-or-spot.svg", wide_fan_or_spot()?),
        ("table-top-film.svg", table_top_film()?),
        ("fan-and-tube.svg", swept(WIDE_FAN, FAN_AND_TUBE, "transfer_efficiency.value", 4_096)?),
        ("overlap.svg", swept(TABLE_TOP, OVERLAP, "film.cv_percent.value", 300_000)?),
    ])
}

const FAN_AND_TUBE: &[&str] = &["gun.fan=0..1:6", "part.tube.diameter=12..60 mm:5"];
const OVERLAP: &[&str] = &["stroke.overlap=0.3..0.7:9"];

/// A figure of the report over one key or two.
fn swept(text: &str, vary: &[&str], column: &str, droplets: u64) -> Result<String, String> {
    let said = |e: &dyn std::fmt::Display| e.to_string();
    let text = with_key(text, "run.droplets", &droplets.to_string()).map_err(|e| said(&e))?;
    let axes = vary.iter().map(|axis| Axis::read(axis)).collect::<Result<_, _>>().map_err(|e| said(&e))?;
    let job = Job::from_toml(&text).map_err(|e| said(&e))?;
    let plan = Plan::new(&job, axes, &[column]).map_err(|e| said(&e))?;
    let mut sweep = Sweep::new(plan);
    sweep.finish();
    Ok(picture(&sweep.answer()))
}

fn flown(text: &str) -> Result<Run, String> {
    let mut run = Run::new(Job::from_toml(text).map_err(|e| e.to_string())?).map_err(|e| e.to_string())?;
    run.finish();
    Ok(run)
}

fn table_top_film() -> Result<String, String> {
    let run = flown(TABLE_TOP)?;
    let job = &run.prepared().job;
    map_svg(&job.name, &run.film(), wanted(job), 900.0).ok_or_else(|| "nothing to draw".into())
}

fn wide_fan_or_spot() -> Result<String, String> {
    let (wide, spot) = (flown(WIDE_FAN)?, flown(NEAR_ROUND)?);
    let (wide_drops, spot_drops) = (in_the_air(&wide), in_the_air(&spot));
    let sides = [side("Wide fan", &wide, &wide_drops)?, side("Near-round spot", &spot, &spot_drops)?];
    Ok(tube_pair("Same tube, same film, seen from its end. What does it take?", [&sides[0], &sides[1]]))
}

fn side<'a>(name: &str, run: &Run, droplets: &'a [DropletEnd]) -> Result<TubeSide<'a>, String> {
    let report = run.report().map_err(|e| e.to_string())?;
    let job = &run.prepared().job;
    let PartShape::Tube { diameter, length } = job.part else { return Err("no tube".into()) };
    let te = &report.transfer_efficiency;
    let fan = report.pattern.map(|p| p.length_mm);
    let lines = vec![
        format!(
            "for {:.0} mm of {:.0} mm tube, {:.0} um dry",
            length * 1e3,
            diameter * 1e3,
            report.film.dry_um.mean
        ),
        format!(
            "{:.0} of 100 stay on it, likely {:.0} to {:.0}",
            te.value * 100.0,
            te.model_low * 100.0,
            te.model_high * 100.0
        ),
    ];
    Ok(TubeSide {
        name: name.into(),
        setting: format!(
            "fan {:.0} of 100 open, {:.1} bar, {:.0} mL/min, {:.0} mm/s",
            job.gun.fan * 100.0,
            report.gun.inlet_bar,
            report.gun.fluid_ml_min,
            job.stroke.speed * 1e3
        ),
        number: format!("{:.1} mL", report.paint.sprayed_ml),
        lines,
        view: EndView {
            distance: job.stroke.distance,
            diameter: Some(diameter),
            fan_height: fan.map(|mm| mm * 1e-3),
            droplets,
            figures: (
                fan.map_or(String::new(), |mm| format!("{mm:.0} mm")),
                format!("{:.0} mm", job.stroke.distance * 1e3),
            ),
        },
    })
}

/// The run's first droplets as they hang in the air at one moment.
fn in_the_air(run: &Run) -> Vec<DropletEnd> {
    let prepared = run.prepared();
    let specks = prepared.course.snapshot(levels()[0], SHOWN, prepared.job.stroke.distance);
    specks.iter().map(DropletEnd::from).collect()
}
