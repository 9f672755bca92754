//! Tubes: how little of a wide fan a thin tube catches.

use super::Band::{Above, Below, Within};
use super::{Anchor, anchor};
use crate::scenes::{card_course, fly, job, landings, paired, share};
use mistcoat::job::{Job, PartShape};
use mistcoat::run::Prepared;
use mistcoat::set_up::Model;
use mistcoat::tally::Fate;

const DROPLETS: u64 = 60_000;
const GEOMETRY: &str = "geometry: the tube shades no more than its width (computed)";
const THIN: &str = "fan profile's share within the tube's width, 0.17 for 25 mm and a 250 mm fan (computed)";
const TURN: &str = "the same geometry with the fan turned or closed, 0.87 against 0.17 (computed)";
const ORDER: &str = "film thins with curvature (sphere and plane, Chen et al. 2019: abstract seen)";

/// Straight before the middle of a tube of `mm`, from one side, 150 mm off.
fn tube(mm: f64, fan: f64, fluid: f64) -> Job {
    let mut job = job("hvlp-gravity-1.3", "two-pack-clear");
    job.stroke.distance = 0.15;
    job.gun.fan = fan;
    job.gun.fluid = fluid;
    job.part = PartShape::Tube { diameter: mm * 1e-3, length: 1.0 };
    job
}

pub(super) fn anchors() -> Vec<Anchor> {
    let mut all = Vec::new();
    let mut caught = Vec::new();
    for (fan, fluid, name) in [(1.0, 0.8, "full fan across"), (0.1, 0.4, "near-round spot")] {
        // Droplet by droplet: where it meets the card, and whether the tube catches it.
        let course = card_course(&tube(100.0, fan, fluid), &Model::default());
        let mut places = Vec::new();
        fly(&course, DROPLETS, |o| {
            places.push(if o.fate == Fate::Landed { o.place[1].abs() } else { f64::INFINITY });
        });
        for mm in [12.0, 22.0, 25.0, 42.0, 100.0] {
            let prepared = Prepared::new(tube(mm, fan, fluid)).expect("a tube");
            let on_tube = landings(&prepared.course, DROPLETS, |_| true);
            let within: Vec<bool> = places.iter().map(|&y| y <= 0.5e-3 * mm).collect();
            let (more, error) = paired(&on_tube, &within);
            let what =
                format!("{mm:.0} mm tube, {name}, at 150 mm: landed less the card's share within its width");
            all.push(anchor(what, (more, error), "", Below(3.0 * error), GEOMETRY));
            caught.push((fan, mm, share(&on_tube), share(&within)));
            if fan > 0.5 && mm > 99.0 {
                let card: Vec<bool> = places.iter().map(|y| y.is_finite()).collect();
                all.push(anchor(
                    "100 mm tube less panel, full fan",
                    paired(&on_tube, &card),
                    "",
                    Below(0.0),
                    ORDER,
                ));
            }
        }
    }
    let at = |fan: f64, mm: f64| *caught.iter().find(|c| c.0 == fan && c.1 == mm).expect("flown");
    for mm in [22.0, 25.0] {
        let (wide, spot) = (at(1.0, mm).2, at(0.1, mm).2);
        let what = format!("{mm:.0} mm tube under a full fan across, at 150 mm: landed share");
        all.push(anchor(what, wide, "", Below(0.20), THIN));
        let ratio = spot.0 / wide.0;
        let relative = ((spot.1 / spot.0) * (spot.1 / spot.0) + (wide.1 / wide.0) * (wide.1 / wide.0)).sqrt();
        let what = format!("{mm:.0} mm tube: near-round spot over full fan, landed shares");
        all.push(anchor(what, (ratio, ratio * relative), "", Above(3.0), TURN));
    }
    let (thin, thick) = (at(1.0, 25.0), at(1.0, 100.0));
    let error = (thin.2.1 * thin.2.1 + thick.2.1 * thick.2.1).sqrt();
    all.push(anchor(
        "25 mm tube less 100 mm tube, full fan",
        (thin.2.0 - thick.2.0, error),
        "",
        Below(0.0),
        ORDER,
    ));
    let ratio = thick.2.0 / thick.3.0;
    let error = ratio * thick.2.1 / thick.2.0;
    all.push(anchor(
        "100 mm tube over the card's share within its width, full fan",
        (ratio, error),
        "",
        Within(0.6, 1.0),
        GEOMETRY,
    ));
    all
}
