//! The drawn gun answers to the keyboard, refused values are told beside their field, and the address holds the job.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page};

/// What a knob on the drawing says of itself.
fn knob(page: &Page, key: &str) -> Result<(f64, String)> {
    let attribute = |name: &str| -> Result<String> {
        let found =
            page.value(&format!("document.querySelector('g[data-knob=\"{key}\"]').getAttribute('{name}')"))?;
        Ok(found.as_str().context("an attribute")?.to_string())
    };
    Ok((attribute("aria-valuenow")?.parse()?, attribute("aria-valuetext")?))
}

fn focus(page: &Page, selector: &str) -> Result<()> {
    page.value(&format!("document.querySelector('{selector}').focus()"))?;
    Ok(())
}

/// Types into a field as a user does who replaces all of it.
fn fill(page: &Page, selector: &str, text: &str) -> Result<()> {
    page.value(&format!(
        "{{ const field = document.querySelector('{selector}'); field.focus(); field.value = '{text}'; \
         field.dispatchEvent(new Event('change', {{ bubbles: true }})); 0 }}"
    ))?;
    Ok(())
}

pub fn the_keys_turn_a_knob(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("g[data-knob=\"gun.fan\"]")?;
    let (open, said) = knob(&page, "gun.fan")?;
    ensure!(said.contains("100 of 100 open"), "a first visitor finds the fan wide open: {said}");
    focus(&page, "g[data-knob=\"gun.fan\"]")?;
    page.press("ArrowDown")?;
    let (less, said) = knob(&page, "gun.fan")?;
    ensure!((open - less - 0.125).abs() < 1e-3, "an arrow is an eighth of a turn: {open} to {less}, {said}");
    page.press("Home")?;
    ensure!(knob(&page, "gun.fan")?.0 == 0.0, "Home shuts it");
    // The focus stays on the knob while the drawing is made anew.
    page.press("ArrowUp")?;
    ensure!((knob(&page, "gun.fan")?.0 - 0.125).abs() < 1e-3, "the focus was lost");
    ensure!(page.text(".knob-fan .small")?.contains("of 100 open"), "the label follows");
    page.expect_clean()
}

pub fn a_refused_value_is_told_beside_its_field(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("[name=\"stroke.distance\"]")?;
    fill(&page, "[name=\"stroke.distance\"]", "9000")?;
    let told = page.text(".complaint")?;
    ensure!(told.contains("9000 mm") && told.contains("50 to 600 mm"), "{told}");
    fill(&page, "[name=\"stroke.distance\"]", "8 in")?;
    let left = page.value("document.querySelectorAll('.complaint').length")?;
    ensure!(left == 0, "a good value clears the message");
    let shown = page.value("document.querySelector('[name=\"stroke.distance\"]').value")?;
    ensure!(shown == "203\u{202f}mm", "{shown}");
    fill(&page, ".knob-fan input", "nine")?;
    ensure!(page.text(".complaint")?.contains("is not a number of turns"), "turns are checked");
    page.expect_clean()
}

pub fn the_address_reopens_the_job(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("g[data-knob=\"gun.fluid\"]")?;
    focus(&page, "g[data-knob=\"gun.fluid\"]")?;
    page.press("Home")?;
    page.press("ArrowUp")?;
    let set = knob(&page, "gun.fluid")?;
    let address = page.value("location.href")?;
    let address = address.as_str().context("an address")?;
    ensure!(address.contains("#job="), "the address does not hold the job: {address}");
    let other = browser.open(address)?;
    other.wait_for("g[data-knob=\"gun.fluid\"]")?;
    ensure!(knob(&other, "gun.fluid")? == set, "another job was opened");
    let broken = browser.open(&address[..address.len() - 9])?;
    broken.wait_for(".link-problem .complaint")?;
    ensure!(knob(&broken, "gun.fluid")?.0 > 0.0, "a broken link still opens the page");
    broken.expect_clean()?;
    page.expect_clean()
}

pub fn undo_takes_a_turned_knob_back_in_one_step(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("g[data-knob=\"gun.fan\"]")?;
    let before = knob(&page, "gun.fan")?;
    focus(&page, "g[data-knob=\"gun.fan\"]")?;
    for _ in 0..3 {
        page.press("ArrowDown")?;
    }
    let after = knob(&page, "gun.fan")?;
    page.click("button[data-step=\"undo\"]")?;
    ensure!(knob(&page, "gun.fan")? == before, "not taken back");
    page.click("button[data-step=\"redo\"]")?;
    ensure!(knob(&page, "gun.fan")? == after, "not put in again");
    page.expect_clean()
}
