//! What droplet size does: landing chance, and the size of what misses.

use super::Band::{Above, Below, Within};
use super::{Anchor, anchor};
use crate::scenes::{card, card_course, job, landings, one_size, share};
use mistcoat::run::CardTally;
use mistcoat::set_up::Model;
use mistcoat::tally::GROUPS;

const CHANCE: &str = "Hicks 1995: drops below 20 um reach the panel through turbulence only (abstract seen); 10-20 um \
                      from the plate's impaction cut (computed)";
const OVERSPRAY: &str = "field sampling, UCLA: mass median 15 um (abstract seen); band 9-18 um ours";
const FINER: &str = "overspray is clearly finer than the spray (inferred)";

pub(super) fn anchors() -> Vec<Anchor> {
    let job = job("hvlp-gravity-1.3", "two-pack-clear");
    let chance = |um: f64| share(&landings(&one_size(&job, um * 1e-6), 20_000, |_| true));
    let mut all = Vec::new();

    let sizes = [8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 24.0, 30.0];
    let chances = sizes.map(chance);
    all.push(anchor(
        "landing chance of 8 um, HVLP at 190 mm, large card",
        chances[0],
        "",
        Below(0.1),
        CHANCE,
    ));
    let last = chances.len() - 1;
    all.push(anchor("landing chance of 30 um, the same", chances[last], "", Above(0.85), CHANCE));
    let half = (0..last).find(|&i| (chances[i].0 < 0.5) != (chances[i + 1].0 < 0.5)).map(|i| {
        let slope = (chances[i + 1].0 - chances[i].0) / (sizes[i + 1] - sizes[i]);
        (sizes[i] + (0.5 - chances[i].0) / slope, chances[i].1.max(chances[i + 1].1) / slope)
    });
    // Outside the sizes flown the nearest end stands for it.
    let half = half.unwrap_or(if chances[0].0 > 0.5 { (sizes[0], 0.0) } else { (sizes[last], 0.0) });
    all.push(anchor("size whose landing chance is a half, the same", half, "um", Within(10.0, 20.0), CHANCE));

    for (kit, name) in [("hvlp-gravity-1.3", "HVLP"), ("conventional-gravity-1.4", "conventional")] {
        let course = card_course(&crate::scenes::job(kit, "two-pack-clear"), &Model::default());
        let tally = card(&course, 60_000);
        let diameter = median(&tally, false);
        let spray = course.spray.sizes.quantile(0.5) * 1e6;
        let what = |rest: &str| format!("overspray of {name}, large card at 190 mm: {rest}");
        all.push(anchor(what("volume median"), diameter, "um", Within(9.0, 18.0), OVERSPRAY));
        let aerodynamic = median(&tally, true);
        all.push(anchor(what("aerodynamic median"), aerodynamic, "um", Within(9.0, 18.0), OVERSPRAY));
        let ratio = (diameter.0 / spray, diameter.1 / spray);
        all.push(anchor(what("its median over the spray's"), ratio, "", Below(0.6), FINER));
    }
    all
}

/// Median [um] and its standard error by leaving out one group at a time.
fn median(card: &CardTally, aerodynamic: bool) -> (f64, f64) {
    let figure = |without| card.overspray(aerodynamic, without).median().expect("droplets enough") * 1e6;
    leave_one_out(figure)
}

/// A figure with its error by leaving out one replicate group at a time.
pub(super) fn leave_one_out(figure: impl Fn(Option<usize>) -> f64) -> (f64, f64) {
    let all = figure(None);
    let spread: f64 = (0..GROUPS).map(|g| (figure(Some(g)) - all) * (figure(Some(g)) - all)).sum();
    let n = GROUPS as f64;
    (all, (spread * (n - 1.0) / n).sqrt())
}
