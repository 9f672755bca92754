//! Side by side: the question opens it, rows come in one by one, Stop stops, a gun from its box is set beside, a price pays back.

use anyhow::{Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page};

fn rows(page: &Page) -> Result<u64> {
    let n = page.value("document.querySelectorAll('.side-table tr[data-row]').length")?;
    Ok(n.as_u64().unwrap_or(0))
}

/// Types into a field as a user does who replaces all of it.
fn fill(page: &Page, name: &str, text: &str) -> Result<()> {
    page.value(&format!(
        "{{ const field = document.querySelector('[name=\"{name}\"]'); field.focus(); field.value = '{text}'; \
         field.dispatchEvent(new Event('input', {{ bubbles: true }})); field.dispatchEvent(new Event('change', {{ bubbles: true }})); 0 }}"
    ))?;
    Ok(())
}

pub fn guns_stand_side_by_side(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    page.click("button[data-ask=\"side\"]")?;
    // Your own gun is there before the others, and the work can be stopped between.
    page.wait_for("tr[data-row=\"as-set\"]")?;
    ensure!(rows(&page)? < 4, "rows come one by one");
    page.click(".side-work button")?;
    page.wait_for("[data-side=\"stopped\"]")?;
    let told = rows(&page)?;
    ensure!(told >= 1, "what is known stays");

    // A box of no gun is refused at the form; a good one becomes a row.
    fill(&page, "box.air", "5000 L/min")?;
    fill(&page, "box.at", "2.0 bar")?;
    fill(&page, "box.tip", "1.3 mm")?;
    page.click(".side-box button")?;
    ensure!(page.text(".side-box .complaint")?.contains("5000 L/min"), "refused in words");
    fill(&page, "box.air", "150 L/min")?;
    fill(&page, "box.at", "1.5 bar")?;
    fill(&page, "box.price", "240")?;
    page.click(".side-box button")?;
    // One gun after the other: each within the limit of a wait.
    for row in ["best", "A", "B", "C"] {
        page.wait_for(&format!("tr[data-row=\"{row}\"]"))?;
    }
    page.wait_for("[data-side=\"done\"]")?;
    ensure!(rows(&page)? == 5, "your gun twice and three others");
    let said = page.text(".side-sentences")?;
    ensure!(said.contains("your own gun saves") && !said.contains("NaN"), "{said}");

    // A price of the paint makes the pay-back, without a new flight.
    let before = page.text("tr[data-row=\"C\"]")?;
    ensure!(before.contains("type prices"), "{before}");
    fill(&page, "compare.paint_price", "18")?;
    ensure!(!page.text("tr[data-row=\"C\"]")?.contains("type prices"), "the price counts");
    ensure!(
        page.value("!!document.querySelector('[data-side=\"done\"]')")? == true,
        "nothing is flown for a price"
    );
    fill(&page, "price-0", "much")?;
    ensure!(page.text(".side-table .complaint")?.contains("much is no price"), "told beside the table");

    // The setting can be loaded: then row 1 is row 2.
    page.click("[data-load=\"best\"]")?;
    page.wait_for("[data-side=\"busy\"]")?;
    let held = page.value("decodeURIComponent(location.hash).includes('job=')")?;
    ensure!(held == true, "the link holds it");
    page.expect_clean()
}
