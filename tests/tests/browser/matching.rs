//! Match my gun: a card is filled in, a bad reading is told beside its field, the fit runs in the worker, the gun goes into the job.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page};

/// Changes a field of the section as a user does who replaces all of it.
fn fill(page: &Page, name: &str, text: &str) -> Result<()> {
    page.value(&format!(
        "{{ const field = document.querySelector('#match-gun [name=\"{name}\"]'); field.focus(); field.value = '{text}'; \
         field.dispatchEvent(new Event('change', {{ bubbles: true }})); 0 }}"
    ))?;
    Ok(())
}

fn text_of(page: &Page, script: &str) -> Result<String> {
    Ok(page.value(script)?.as_str().context("a text")?.to_string())
}

fn opened(browser: &Browser, server: &Server) -> Result<Page> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    page.value(
        "[...document.querySelectorAll('.menu-item')].find(b => b.textContent.trim() === 'Card').click()",
    )?;
    page.wait_for("[aria-controls=\"match-gun\"]")?;
    page.click("[aria-controls=\"match-gun\"]")?;
    page.wait_for("#match-gun:not([hidden])")?;
    Ok(page)
}

pub fn a_card_becomes_ones_own_gun(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    ensure!(
        page.value("document.querySelector('.match-go .main-button').disabled")? == true,
        "there is nothing to match yet"
    );
    for (name, text) in [
        ("card.distance", "200"),
        ("card.fan_height", "200"),
        ("card.fan_thickness", "44"),
        ("card.weighed", "36"),
        ("card.speed", "450"),
        ("card.wet_film", "21"),
        ("card.second_distance", "260"),
        ("card.second_height", "240"),
        ("card.kept_back", "second-height"),
    ] {
        fill(&page, name, text)?;
    }
    page.click(".match-go .main-button")?;
    page.wait_for("[data-match=\"done\"] .match-told")?;
    let told = page.text(".match-told")?;
    for words in [
        "opens",
        "paint flows at",
        "about",
        "ir flow",
        "not told by this card",
        "kept back to test the fit",
        "it agrees",
    ] {
        ensure!(told.contains(words), "no {words:?} in {told}");
    }
    page.click(".match-result .main-button")?;
    page.wait_for("#match-gun .text:not([hidden]) .link")?;
    let address = text_of(&page, "location.href")?;
    // The link opens the same gun, with its readings.
    let other = browser.open(&address)?;
    other.wait_for("main")?;
    other.value(
        "[...document.querySelectorAll('.menu-item')].find(b => b.textContent.trim() === 'Card').click()",
    )?;
    other.wait_for("#match-gun:not([hidden]) .text:not([hidden]) .link")?;
    let height = text_of(&other, "document.querySelector('[name=\"card.fan_height\"]').value")?;
    ensure!(height == "200\u{202f}mm", "{height}");
    other.expect_clean()?;
    page.expect_clean()
}

pub fn readings_that_cannot_be_are_told_beside_their_field(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    fill(&page, "card.fan_height", "60")?;
    fill(&page, "card.fan_thickness", "90")?;
    let told = page.text("#match-gun .complaint")?;
    ensure!(told.contains("at most 60 mm, the fan height"), "{told}");
    fill(&page, "card.fan_thickness", "")?;
    ensure!(
        page.value("document.querySelectorAll('.complaint').length")? == 0,
        "an emptied field is no fault"
    );
    fill(&page, "card.weighed", "150")?;
    fill(&page, "card.fan_height", "")?;
    page.click(".match-go .main-button")?;
    page.wait_for("[data-match=\"done\"] .match-told")?;
    let told = page.text(".match-told")?;
    ensure!(told.contains("contradict"), "{told}");
    ensure!(
        page.value("document.querySelector('.match-result .main-button').disabled")? == true,
        "a contradiction is not taken over"
    );
    page.expect_clean()
}
