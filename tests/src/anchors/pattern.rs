//! Size of the pattern on a card.

use super::Band::{Below, Within};
use super::size::leave_one_out;
use super::{Anchor, anchor};
use crate::scenes::{card, card_course, job};
use mistcoat::report::pattern_sizes;
use mistcoat::set_up::Model;

const FULL: [(&str, &str); 3] = [
    ("hvlp-gravity-1.3", "HVLP"),
    ("lvlp-gravity-1.2", "LVLP"),
    ("conventional-gravity-1.4", "conventional"),
];
/// As many as a report's own card has.
const DROPLETS: u64 = mistcoat::run::CARD_DROPLETS;
const CARD: &str =
    "common practice; fan 203 mm at 254 mm (MIL-HDBK-1110: seen), 9 x 1 1/4 in at 9 in (textbook 2022: seen)";
const SPOT: &str = "common practice, no source";

pub(super) fn anchors() -> Vec<Anchor> {
    let mut all = Vec::new();
    for (kit, name) in FULL {
        for (fan, distances) in [(1.0, [200, 230]), (0.0, [150, 200])] {
            for mm in distances {
                let mut job = job(kit, "two-pack-clear");
                job.gun.fan = fan;
                job.stroke.distance = f64::from(mm) * 1e-3;
                let tally = card(&card_course(&job, &Model::default()), DROPLETS);
                let length = leave_one_out(|g| pattern_sizes(&tally, g).length * 1e3);
                let width = leave_one_out(|g| pattern_sizes(&tally, g).width * 1e3);
                // Only this kit's cards were fitted to.
                let standing = |anchor: Anchor, constant| {
                    if name == "HVLP" { anchor.fitted(constant) } else { anchor }
                };
                if fan > 0.0 {
                    let what = |way: &str| format!("full fan's {way}, {name} at {mm} mm");
                    let height = anchor(what("height"), length, "mm", Within(190.0, 240.0), CARD);
                    all.push(standing(height, "`fan_slope`"));
                    let thickness = anchor(what("thickness"), width, "mm", Within(25.0, 45.0), CARD);
                    all.push(standing(thickness, "`ray_spread_open`"));
                } else {
                    let what = |rest: &str| format!("closed fan, {name} at {mm} mm: {rest}");
                    let diameter = anchor(what("diameter"), length, "mm", Within(40.0, 60.0), SPOT);
                    all.push(standing(diameter, "`ray_spread_closed`"));
                    let aspect = leave_one_out(|g| {
                        let sizes = pattern_sizes(&tally, g);
                        sizes.length / sizes.width
                    });
                    all.push(anchor(what("height over thickness"), aspect, "", Below(1.15), SPOT));
                }
            }
        }
    }
    all
}
