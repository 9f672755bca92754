//! Where a run's paint went, as a file of its own.

use super::alone;
use super::flow::{End, Fill, flow};
use crate::report::Report;
use crate::report::words::short;

/// Where the paint went, in mL; widths true to the figures.
#[must_use]
pub fn run_flow(report: &Report) -> String {
    let f = &report.fates;
    let total = report.paint.sprayed_ml;
    let end = |share: f64, words: &str, fill| End {
        amount: total * share,
        figure: format!("{} mL", short(total * share)),
        words: words.into(),
        fill,
    };
    let ends: Vec<End> = [
        end(f.landed, "on the part", Fill::Solid),
        end(f.missed, "passed it by", Fill::DenseDots),
        end(f.bounced, "bounced back", Fill::WideDots),
        end(f.drifted, "fog to the filters", Fill::WideDots),
        end(f.dried, "landed dry", Fill::WideDots),
        end(f.lost, "lost by the program", Fill::Rules),
    ]
    .into_iter()
    .filter(|end| end.amount >= 5e-4 * total)
    .collect();
    let drawn = flow("flow", 300.0, &format!("{}\u{202f}mL", short(total)), &ends);
    let title = format!("{}: where the paint went", report.name);
    let head = super::svg::text("strong", (16.0, 26.0), "start", &title);
    alone(&title, 460.0, 230.0, &(head + &super::svg::group("translate(16 44)", &drawn)))
}
