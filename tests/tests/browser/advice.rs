//! What to change: begun by the reader, stopped, found; an advice is tried in one step and taken back in one.

use anyhow::{Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::Browser;

pub fn an_advice_is_tried_and_taken_back(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    page.click("button[data-find=\"change\"]")?;
    page.wait_for("[data-change=\"busy\"]")?;
    // It can be stopped and begun again.
    page.click(".change-work button")?;
    page.click("button[data-find=\"change\"]")?;
    // What is wrong is told before the cures are known, and each step has the time of a wait.
    page.wait_for(".change-said .sentence")?;
    let wrong = page.text(".change-said .sentence")?;
    ensure!(wrong.contains("of 100"), "{wrong}");
    page.wait_for("button[data-try=\"0\"]")?;
    page.wait_for("[data-change=\"done\"]")?;
    let said = page.text(".change-said")?;
    ensure!(said.contains("Likeliest") && said.contains("likely") && !said.contains("NaN"), "{said}");

    // Taken, what was found is of the job before; one step back, it is of the job again.
    page.click("button[data-try=\"0\"]")?;
    page.wait_for(".change-said.stale")?;
    page.click("button[data-step=\"undo\"]")?;
    page.wait_for(".change-said:not(.stale)")?;
    page.expect_clean()
}
