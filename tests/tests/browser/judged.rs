//! The judgement on the Part view: sentence, method, rules and spots, and the dew point in the Paint view.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page};

fn text(page: &Page, selector: &str) -> Result<String> {
    let found = page.value(&format!("(document.querySelector('{selector}') || {{}}).textContent || ''"))?;
    Ok(found.as_str().context("text")?.to_string())
}

/// Changes a field as a user does.
fn choose(page: &Page, name: &str, value: &str) -> Result<()> {
    page.value(&format!(
        "{{ const field = document.querySelector('[name=\"{name}\"]'); field.value = '{value}'; \
         field.dispatchEvent(new Event('change', {{ bubbles: true }})); 0 }}"
    ))?;
    Ok(())
}

/// Another method judges the same film: its spots stand in the table and on the map, its level's limits in the rules.
pub fn another_method_judges_the_same_film(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("[data-state=\"done\"] [data-verdict=\"band\"]")?;
    let sentence = text(&page, "[data-verdict]")?;
    ensure!(sentence.starts_with("Right "), "{sentence}");
    ensure!(text(&page, "[data-rules]")?.contains("ours, no standard"), "the band is no standard");

    choose(&page, "spec.judge", "pa-2")?;
    page.wait_for("[data-state=\"done\"] [data-verdict=\"pa-2\"][data-level=\"3\"]")?;
    let sentence = text(&page, "[data-verdict]")?;
    ensure!(sentence.contains("SSPC-PA 2, level 3"), "{sentence}");
    let rows = page.value("document.querySelectorAll('[data-spots] tbody tr').length")?;
    let marks = page.value("document.querySelectorAll('.spot-marks [data-spot]').length")?;
    ensure!(rows.as_u64() == Some(5) && marks.as_u64() == Some(5), "{rows} rows, {marks} marks");

    choose(&page, "spec.level", "1")?;
    page.wait_for("[data-state=\"done\"] [data-verdict=\"pa-2\"][data-level=\"1\"]")?;
    ensure!(
        text(&page, "[data-rules]")?.contains("from memory, check the standard"),
        "level 1 is from memory"
    );

    // A test panel this is not: said by the field, and the job stays.
    choose(&page, "spec.judge", "pa-2-panel")?;
    page.wait_for(".judge-by .complaint")?;
    ensure!(text(&page, ".judge-by .complaint")?.contains("116 to 930 cm2"), "no reason by the field");
    ensure!(text(&page, "[data-verdict]")?.contains("level 1"), "the job changed");

    choose(&page, "spec.judge", "iso-19840")?;
    page.wait_for("[data-state=\"done\"] [data-verdict=\"iso-19840\"]")?;
    ensure!(text(&page, ".judged")?.contains("only indicates"), "20 µm is below the standard's range");
    page.expect_clean()
}

/// A cold part under damp air is told so, without a run.
pub fn a_cold_part_is_told(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    page.click(".questions [data-ask=\"paint\"]")?;
    page.wait_for("[data-dew=\"pass\"]")?;
    ensure!(text(&page, "[data-dew]")?.contains("clear"), "20 C at 50 % is clear");
    choose(&page, "part.temperature", "10 C")?;
    page.wait_for("[data-dew=\"fail\"]")?;
    ensure!(text(&page, "[data-dew]")?.contains("too near"), "a cold part is told");
    page.expect_clean()
}
