//! Air and tip: what the gauges must show.

use super::{Block, Line};
use crate::report::Report;
use crate::run::Prepared;
use crate::units::{Quantity, System, show};

pub(super) fn block(prepared: &Prepared, report: &Report, system: System) -> Block {
    let job = &prepared.job;
    let bar = |bar: f64| show(Quantity::Pressure, bar * 1e5, system);
    let wanted = show(Quantity::Pressure, prepared.wanted_pressure, system);
    let mut lines = Vec::new();
    match &report.supply {
        Some(supply) => {
            let at_rest = format!("{} at rest", bar(supply.rest_bar));
            lines.push(Line::new("gauge at the gun", wanted, format!("trigger pulled; {at_rest}")));
            if let Some(wall) = supply.wall_gauge_bar {
                let rest = supply.wall_rest_bar.map(|r| format!("; {} at rest", bar(r))).unwrap_or_default();
                lines.push(Line::new("gauge at the wall", bar(wall), format!("trigger pulled{rest}")));
            }
            let margin = show(Quantity::AirFlow, supply.margin_l_min.abs() / 60_000.0, system);
            let (said, note) = match supply.verdict {
                "for-ever" => ("holds for ever".to_string(), format!("{margin} to spare")),
                "this-job" => ("holds for this job".into(), format!("{margin} short with the trigger held")),
                "runs-down" => {
                    let on = supply.on_s.map_or_else(String::new, |s| format!(" {}", super::clock(s)));
                    let wait = supply.wait_s.map(|s| format!("then wait {}", super::clock(s)));
                    (format!("lasts{on} of trigger"), wait.unwrap_or_default())
                }
                _ => (format!("never gives {}", bar(supply.wanted_bar)), format!("{margin} short")),
            };
            lines.push(Line::new("the compressor", said, note));
        }
        None => lines.push(Line::new("gauge at the gun", wanted, "trigger pulled")),
    }
    if job.gun.pot_pressure > 0.0 && job.kit.feed == crate::gun::Feed::Pressure {
        lines.push(Line::new("pot", show(Quantity::Pressure, job.gun.pot_pressure, system), ""));
    }
    let air = show(Quantity::AirFlow, report.gun.free_air_l_min / 60_000.0, system);
    lines.push(Line::new("air used", air, "free air, trigger held"));
    // Bores are drilled and sold in mm everywhere.
    lines.push(Line::new("fluid tip", format!("{:.1} mm", job.kit.tip_bore * 1e3), ""));
    Block { heading: "Gun and air".into(), lines }
}
