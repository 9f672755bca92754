//! The Air view: a question opens it, its fields change the answer, the job keeps them, the air test plays.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page};

const OPEN: &str =
    "[...document.querySelectorAll('.question')].find(b => b.textContent.includes('Will my air')).click(); 0";

/// Types into a field as a user does who replaces all of it.
fn fill(page: &Page, name: &str, text: &str) -> Result<()> {
    page.value(&format!(
        "{{ const field = document.querySelector('[name=\"{name}\"]'); field.focus(); field.value = '{text}'; \
         field.dispatchEvent(new Event('change', {{ bubbles: true }})); 0 }}"
    ))?;
    Ok(())
}

fn string(page: &Page, script: &str) -> Result<String> {
    Ok(page.value(script)?.as_str().context("text")?.to_string())
}

pub fn will_my_air_do(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for(".question")?;
    page.value(OPEN)?;
    page.wait_for(".clipboard[data-verdict=\"this-job\"]")?;
    ensure!(
        page.text(".air-right .lines")?.contains("361"),
        "the gun's air: {}",
        page.text(".air-right .lines")?
    );
    ensure!(page.text(".air-fields")?.contains("displacement"), "displacement is told apart");

    // Own figures over the catalogue's machine; then another machine throws them away.
    fill(&page, "supply.compressor.delivered_air", "500")?;
    page.wait_for(".clipboard[data-verdict=\"for-ever\"]")?;
    let tank = string(&page, "document.querySelector('[name=\"supply.compressor.tank\"]').value")?;
    ensure!(tank.starts_with("50"), "the tank stays: {tank}");
    fill(&page, "supply.compressor", "screw-7.5kW")?;
    let tank = string(&page, "document.querySelector('[name=\"supply.compressor.tank\"]').value")?;
    ensure!(tank.starts_with("500"), "another machine brings its tank: {tank}");
    fill(&page, "supply.compressor", "workshop-2kW")?;

    // A mask comes first; a long thin hose chokes.
    fill(&page, "supply.also", "170")?;
    page.wait_for(".clipboard[data-verdict=\"never\"] .air-warning")?;
    ensure!(page.text(".air-right")?.contains("come first"), "the mask has priority");
    fill(&page, "supply.also", "")?;
    fill(&page, "supply.hose.bore", "4")?;
    page.wait_for(".clipboard[data-verdict=\"never\"]")?;
    ensure!(page.text(".fixes .fix:first-child")?.contains("Wider hose"), "{}", page.text(".fixes")?);
    fill(&page, "supply.hose.bore", "90")?;
    ensure!(page.text(".air-fields .complaint")?.contains("2 to 50 mm"), "refused beside its field");
    fill(&page, "supply.hose.bore", "8")?;
    page.wait_for(".clipboard[data-verdict=\"this-job\"]")?;

    // Money re-orders what would help, and the link keeps it.
    let first = page.text(".fixes .fix:first-child .name")?;
    ensure!(first.contains("compressor"), "{first}");
    fill(&page, "supply.price.couplings", "5")?;
    ensure!(page.text(".fixes .fix:first-child .name")?.contains("couplings"), "a price puts it first");
    let address = string(&page, "location.href")?;
    let other = browser.open(&address)?;
    other.wait_for(".menu-item")?;
    other.value(
        "[...document.querySelectorAll('.menu-item')].find(b => b.textContent === 'Air').click(); 0",
    )?;
    other.wait_for(".clipboard[data-verdict=\"this-job\"]")?;
    let price = string(&other, "document.querySelector('[name=\"supply.price.couplings\"]').value")?;
    ensure!(price == "5", "{price}");
    other.expect_clean()?;
    page.expect_clean()
}

pub fn the_air_test_plays(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for(".question")?;
    page.value(OPEN)?;
    page.wait_for(".air-test .profile-line")?;
    page.value(
        "{ const at = document.querySelector('.air-play input'); at.value = '60'; \
         at.dispatchEvent(new Event('input', { bubbles: true })); 0 }",
    )?;
    page.wait_for(".air-test .accent-dot")?;
    let told = page.text(".air-now")?;
    ensure!(told.contains("60") && told.contains("1.9"), "the gauge after the minute: {told}");
    page.value("document.querySelector('[data-play]').click(); 0")?;
    page.wait_for("[data-play=\"true\"]")?;
    page.wait_for("[data-play=\"false\"]")?;
    ensure!(page.text(".air-now")?.contains("60"), "it plays to its end");
    // The gauge of the other views falls from rest, too.
    page.value(
        "[...document.querySelectorAll('.menu-item')].find(b => b.textContent === 'Part').click(); 0",
    )?;
    page.wait_for(".stand .rest-needle")?;
    page.expect_clean()
}
