//! How long until the page shows the first film: `cargo first-film [RELOADS]` after `cargo checks --only page`. A warm
//! reload is timed by the page's own performance mark "first-film"; figures go to `benches/README.md`, never into a test.

use anyhow::{Context, Result};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, site};

const MARK: &str = "performance.getEntriesByName('first-film')[0].startTime";
const DONE: &str = "performance.now()";

fn main() -> Result<()> {
    let reloads = match std::env::args().nth(1) {
        Some(text) => text.parse().context("RELOADS: a whole number")?,
        None => 9_usize,
    };
    let server = Server::start_anywhere(&site())?;
    let browser = Browser::start()?;
    let page = browser.open(server.address())?;
    page.wait_for("[data-state=\"done\"]")?;
    let (mut first, mut complete) = (Vec::new(), Vec::new());
    for _ in 0..reloads.max(1) {
        page.go(server.address())?;
        page.wait_for("[data-state=\"done\"]")?;
        // The end is looked at by polling: late by a tenth of a second at most.
        complete.push(page.value(DONE)?.as_f64().context("a time")?);
        first.push(page.value(MARK)?.as_f64().context("the mark first-film")?);
    }
    for (what, mut times) in [("first film", first), ("run complete", complete)] {
        times.sort_by(f64::total_cmp);
        println!(
            "{what}: median {:.0} ms of {}, {:.0} to {:.0}",
            times[times.len() / 2],
            times.len(),
            times[0],
            times[times.len() - 1]
        );
    }
    Ok(())
}
