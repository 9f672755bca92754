//! Runs put aside: what was set and came out differently, why; and what should be set.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::Browser;

use crate::sheet::choose;

/// Few droplets: a leg under a fan as open as `fan` says.
fn leg(fan: &str) -> String {
    format!(
        "version = 1\\nname = \"leg\"\\n[gun]\\nkit = \"hvlp-gravity-1.3\"\\nfan = {fan}\\n[paint]\\nkind = \"two-pack-clear\"\\n\
         [part]\\ntube = {{ diameter = \"22 mm\", length = \"200 mm\" }}\\n[stroke]\\ndistance = \"150 mm\"\\nspeed = \"500 mm/s\"\\n\
         fan_axis = \"across\"\\nhand = \"machine\"\\n[spec]\\ndry_film = [\"20 um\", \"35 um\"]\\n\
         [run]\\ndroplets = 8000\\nseed = 1\\n"
    )
}

pub fn a_kept_run_stands_beside_this_one_and_says_why(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    let fly = |fan: &str| -> Result<()> {
        page.click("[data-view=\"sheet\"]")?;
        page.wait_for(".open-job input")?;
        choose(&page, "leg.toml", &leg(fan))?;
        page.wait_for("[data-state=\"done\"] .sheet-paper:not(.stale) img")?;
        page.click("[data-view=\"part\"]")?;
        page.wait_for("[data-state=\"done\"] .clipboard .main-button:not(:disabled)")
    };
    fly("1")?;
    page.click(".clipboard .main-button")?;
    page.wait_for("[data-kept=\"1\"]")?;
    fly("0")?;
    let row = page.text("[data-kept=\"1\"]")?;
    ensure!(row.contains("fan knob 1 \u{2192} 0"), "what was set differently: {row}");
    // At the same film the shut fan takes less paint, and more of it stays.
    let apart = |column: usize| page.text(&format!("[data-kept=\"1\"] td:nth-of-type({column}) .small"));
    ensure!(apart(1)?.starts_with('\u{2212}') && apart(2)?.starts_with('+'), "{} {}", apart(1)?, apart(2)?);

    page.click("[data-kept=\"1\"] .kept-do button:nth-child(2)")?;
    page.wait_for("[data-why]:not([data-why=busy])")?;
    ensure!(
        page.value("!!document.querySelector('[data-why=done]')")? == true,
        "{}",
        page.text("[data-why]")?
    );
    let why = page.text("[data-why=done]")?;
    ensure!(why.contains("all of it") && why.contains("mL"), "{why}");

    // What should I set: an answer so far is shown while it is looked for, and stays when it is stopped.
    page.click_when("[data-sweep=busy]", "[data-stop]")?;
    page.click("[data-view=\"sweep\"]")?;
    page.wait_for("[data-sweep=stopped]")?;
    page.click("[data-find=search]")?;
    page.wait_for(".search-said .search-set")?;
    page.value("document.querySelector('[data-search=busy] button')?.click(), 0")?;
    page.wait_for("[data-find=search]")?;
    let said = page.text(".search-said")?;
    ensure!(said.contains("for a part") && !said.contains("NaN"), "{said}");
    let number = page.text(".search-said .number")?;
    number.trim().parse::<f64>().with_context(|| format!("{number}: no figure"))?;
    page.expect_clean()
}
