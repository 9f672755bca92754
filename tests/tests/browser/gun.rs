//! Kits with cup and pot, the air knob, a gun from its box, and what is told beside the controls.

use anyhow::{Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page};

/// Sets a field or select as a user does.
fn set(page: &Page, selector: &str, value: &str) -> Result<()> {
    page.value(&format!(
        "{{ const field = document.querySelector('{selector}'); field.value = '{value}'; \
         field.dispatchEvent(new Event('change', {{ bubbles: true }})); 0 }}"
    ))?;
    Ok(())
}

fn kit(page: &Page) -> Result<String> {
    Ok(page
        .value("document.querySelector('select[name=\"gun.kit\"]').value")?
        .as_str()
        .unwrap_or("")
        .to_string())
}

pub fn every_feed_is_drawn_and_set(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("select[name=\"gun.kit\"] optgroup")?;
    let groups = page.value("document.querySelectorAll('select[name=\"gun.kit\"] optgroup').length")?;
    ensure!(groups.as_u64() >= Some(10), "{groups} groups of kits");
    set(&page, "select[name=\"gun.kit\"]", "hvlp-suction-1.8")?;
    page.wait_for(".stand.suction")?;
    ensure!(page.text(".tag-cup")?.contains("suction feed"), "the cup is named");
    set(&page, "input[name=\"gun.cup_level\"]", "0")?;
    page.wait_for(".tag-cup .told p")?;
    ensure!(page.text(".tag-cup .told")?.contains("cup dry"), "{}", page.text(".tag-cup .told")?);
    set(&page, "input[name=\"gun.cup_level\"]", "60")?;
    let level = page.value("document.querySelector('input[name=\"gun.cup_level\"]').value")?;
    ensure!(level == "60 %", "{level}");
    set(&page, "select[name=\"gun.kit\"]", "hvlp-pressure-1.0")?;
    page.wait_for(".stand.pot input[name=\"gun.pot_pressure\"]")?;
    set(&page, "input[name=\"gun.pot_pressure\"]", "9")?;
    ensure!(
        page.text(".tag-cup .complaint")?.contains("0 to 4 bar"),
        "{}",
        page.text(".tag-cup .complaint")?
    );
    set(&page, "input[name=\"gun.pot_pressure\"]", "0.8")?;
    let left = page.value("document.querySelectorAll('.complaint').length")?;
    ensure!(left == 0, "a good pressure clears the message");
    page.expect_clean()
}

pub fn the_air_knob_is_a_throttle_behind_the_gauge(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("g[data-knob=\"gun.air_knob\"]")?;
    let gauge = "document.querySelector('input[name=\"gun.inlet_pressure\"]').value";
    let before = page.value(gauge)?;
    page.value("document.querySelector('g[data-knob=\"gun.air_knob\"]').focus()")?;
    page.press("Home")?;
    page.wait_for(".knob-air .told p")?;
    ensure!(page.text(".knob-air .told")?.contains("air knob shut"), "{}", page.text(".knob-air .told")?);
    ensure!(page.value(gauge)? == before, "the gauge stands before the knob");
    page.press("End")?;
    // High at the gauge is told at the gauge.
    set(&page, "input[name=\"gun.inlet_pressure\"]", "3.5 bar")?;
    page.wait_for(".tag-gauge .told p")?;
    ensure!(page.text(".tag-gauge .told")?.contains("10 psi"), "{}", page.text(".tag-gauge .told")?);
    set(&page, "select[name=\"gun.kit\"]", "airbrush-gravity-0.3")?;
    page.wait_for(".knob-air .why:not([hidden])")?;
    ensure!(page.text(".knob-air .why")?.contains("No air knob on this gun"), "said why");
    ensure!(page.text(".knob-fan .why")?.contains("round spot"), "said why there is no fan");
    page.expect_clean()
}

pub fn a_gun_from_its_box_is_taken_or_refused(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for(".from-box summary")?;
    page.click(".from-box summary")?;
    let fill = |fan: &str| -> Result<()> {
        for (key, value) in
            [("air", "280 L/min"), ("at", "2 bar"), ("tip", "1.3 mm"), ("fan", fan), ("fan_at", "200 mm")]
        {
            set(&page, &format!("input[name=\"gun.box.{key}\"]"), value)?;
        }
        page.click(".from-box button[type=\"submit\"]")
    };
    fill("500 mm")?;
    page.wait_for(".from-box .complaint")?;
    ensure!(
        page.text(".from-box .complaint")?.contains("what such air can open"),
        "{}",
        page.text(".from-box .complaint")?
    );
    ensure!(kit(&page)? != "from-box", "a box that cannot be is not taken");
    fill("280 mm")?;
    page.wait_for("select[name=\"gun.kit\"] option[value=\"from-box\"]")?;
    ensure!(page.text(".from-box form")?.contains("Taken as HVLP"), "{}", page.text(".from-box form")?);
    set(&page, "select[name=\"gun.kit\"]", "lvlp-gravity-1.2")?;
    ensure!(kit(&page)? == "lvlp-gravity-1.2", "back to the catalogue");
    page.expect_clean()
}
