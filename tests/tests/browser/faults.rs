//! Card: a fault put in shows on the card, the cap turned half round moves its mark, runs are read, and a hidden fault is found.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page};

fn click(page: &Page, selector: &str) -> Result<()> {
    page.wait_for(selector)?;
    page.value(&format!("document.querySelector('{selector}').click()"))?;
    Ok(())
}

fn open_card(page: &Page) -> Result<()> {
    page.wait_for("header nav button, header nav a")?;
    page.value(
        "{ const all = [...document.querySelectorAll('header nav button, header nav a')]; \
         all.find(e => e.textContent.trim() === 'Card').click(); 0 }",
    )?;
    page.wait_for("[data-fault], [data-exercise]")
}

/// The chosen word and the side of its mark.
fn sign(page: &Page, side: &str) -> Result<String> {
    page.wait_for(&format!("[data-toward=\"{side}\"]"))?;
    page.text(".signs .on span")
}

pub fn a_blocked_horn_hole_bends_the_fan_and_turns_with_the_cap(
    browser: &Browser,
    server: &Server,
) -> Result<()> {
    let page = browser.open(server.address())?;
    open_card(&page)?;
    click(&page, "[data-fault=\"horn-left-blocked\"]")?;
    let word = sign(&page, "left")?;
    ensure!(word == "crescent", "the card is called {word}");
    let on = page
        .value("document.querySelector('[data-fault=\"horn-left-blocked\"]').getAttribute('aria-checked')")?;
    ensure!(on == "true", "the switch says {on}");
    click(&page, "[data-cap=\"half\"]")?;
    let word = sign(&page, "right")?;
    ensure!(word == "crescent", "with the cap turned it is called {word}");
    let cap = page.text(".cap-turn .kicker")?;
    ensure!(cap.contains("180"), "the cap stands at {cap}");
    page.expect_clean()
}

pub fn the_flood_test_is_read(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    open_card(&page)?;
    page.value(
        "{ [...document.querySelectorAll('.choice-bar button')].find(b => b.textContent === 'Flood test').click(); 0 }",
    )?;
    page.wait_for("[data-flood=\"done\"]")?;
    let reading = page.value("document.querySelector('[data-flood]').dataset.reading")?;
    let reading = reading.as_str().context("a reading")?;
    ensure!(["even", "long-middle", "two-tails"].contains(&reading), "it reads {reading}");
    let runs = page.value("document.querySelectorAll('.flood-run').length")?;
    ensure!(runs.as_u64().unwrap_or(0) >= 1, "nothing is drawn");
    page.expect_clean()
}

pub fn a_hidden_fault_is_answered(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    open_card(&page)?;
    click(&page, "[data-exercise=\"begin\"]")?;
    page.wait_for("[data-exercise=\"open\"]")?;
    page.wait_for("[data-state=\"done\"]")?;
    click(&page, "[data-cap=\"half\"]")?;
    click(&page, "[data-answer=\"tip-nicked\"]")?;
    page.wait_for("[data-exercise=\"answered\"]")?;
    let said = page.text(".question .advice")?;
    ensure!(said.starts_with("Right") || said.starts_with("No"), "{said}");
    page.expect_clean()
}
