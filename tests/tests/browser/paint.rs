//! The Paint view: copy a data sheet, turn cup seconds, choose a thinner, and read how much to mix.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page, Screen};

/// Changes a field as a user does who replaces all of it.
fn fill(page: &Page, name: &str, text: &str) -> Result<()> {
    page.value(&format!(
        "{{ const field = document.querySelector('.paint-grid [name=\"{name}\"]'); field.focus(); field.value = '{text}'; \
         field.dispatchEvent(new Event('change', {{ bubbles: true }})); 0 }}"
    ))?;
    Ok(())
}

/// What a field shows, and whose it is said to be.
fn field(page: &Page, name: &str) -> Result<(String, String)> {
    let found = page.value(&format!(
        "{{ const field = document.querySelector('.paint-grid [name=\"{name}\"]'); \
         const whose = field.closest('.sheet-line').querySelector('.whose'); \
         field.value + '|' + (whose ? whose.textContent : '') }}"
    ))?;
    let text = found.as_str().context("a field")?;
    let (value, whose) = text.split_once('|').context("a field and whose it is")?;
    Ok((value.to_string(), whose.to_string()))
}

/// Opens the question and waits for its answer.
fn opened(browser: &Browser, server: &Server) -> Result<Page> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    page.click(".questions [data-ask=\"paint\"]")?;
    page.wait_for("[data-state=\"done\"] [data-mix]")?;
    Ok(page)
}

fn to_mix(page: &Page) -> Result<f64> {
    let found = page.value("document.querySelector('[data-mix]').dataset.mix")?;
    Ok(found.as_str().context("a volume")?.parse()?)
}

pub fn how_much_to_mix_follows_the_parts(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    let six = to_mix(&page)?;
    ensure!((300.0..700.0).contains(&six), "six table tops, two coats: {six} mL");
    let told = page.text(".clipboard")?;
    for words in
        ["Base", "Hardener", "Thinner", "on the parts", "overspray", "left in cup and gun", "Cup fills"]
    {
        ensure!(told.contains(words), "no {words:?} on the clipboard: {told}");
    }
    ensure!(!told.contains("NaN") && !told.contains("undefined"), "{told}");
    fill(&page, "mix.parts", "12")?;
    page.wait_for("[data-state=\"done\"] .clipboard:not(.stale) [data-mix]")?;
    let twelve = to_mix(&page)?;
    ensure!((1.7..2.1).contains(&(twelve / six)), "{six} mL for six, {twelve} for twelve");
    fill(&page, "mix.parts", "0")?;
    ensure!(page.text(".complaint")?.contains("1 to 10000"), "no parts at all are refused");
    page.expect_clean()
}

pub fn a_data_sheet_is_copied(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    let (typical, whose) = field(&page, "paint.sheet.tip")?;
    ensure!(typical == "1.2\u{2013}1.4\u{202f}mm" && whose == "typical", "{typical} {whose}");
    fill(&page, "paint.sheet.tip", "1.5 to 1.7")?;
    let (now, whose) = field(&page, "paint.sheet.tip")?;
    ensure!(now == "1.5\u{2013}1.7\u{202f}mm" && whose == "yours", "{now} {whose}");
    let told = page.text(".outside")?;
    ensure!(told.contains("outside") && told.contains("1.5 to 1.7 mm"), "{told}");
    fill(&page, "paint.sheet.tip", "")?;
    ensure!(
        field(&page, "paint.sheet.tip")? == (typical, "typical".into()),
        "an empty field is typical again"
    );
    fill(&page, "paint.mass_solids", "52 %")?;
    fill(&page, "paint.volume_solids", "44 %")?;
    ensure!(field(&page, "paint.volume_solids")?.0 == "44 %", "one kind of solids takes the other's place");
    fill(&page, "paint.sheet.pot_life", "1 h")?;
    ensure!(field(&page, "paint.sheet.pot_life")? == ("60\u{202f}min".into(), "yours".into()), "pot life");
    fill(&page, "paint.mix", "2-1")?;
    ensure!(page.text(".complaint")?.contains("2:1"), "a mix that is none is refused");
    // Another paint: what was copied from the old sheet goes.
    fill(&page, "paint.kind", "zinc-rich-primer")?;
    ensure!(
        field(&page, "paint.sheet.pot_life")? == ("8\u{202f}h".into(), "typical".into()),
        "the old sheet stayed"
    );
    ensure!(page.text(".outside")?.contains("typical for zinc-rich primer"), "1.3 mm is too small for zinc");
    fill(&page, "paint.kind", "wood-lacquer-water")?;
    let gone = page.value("document.querySelector('[name=\"paint.sheet.pot_life\"]') === null")?;
    ensure!(gone == true, "a one-pack paint has no pot life");
    page.expect_clean()
}

pub fn cup_seconds_turn_into_another_cups(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    ensure!(field(&page, "paint.cup.seconds")?.1 == "typical", "no reading yet");
    fill(&page, "paint.cup.seconds", "30")?;
    ensure!(field(&page, "paint.cup.seconds")? == ("30\u{202f}s".into(), "yours".into()), "the reading");
    // 30 s DIN 4 are 122.03 mm2/s, which are 36.2 s in Ford 4.
    let told = page.text(".cup-answer")?;
    ensure!(told.contains("36.2") && told.contains("Ford 4") && !told.contains("outside this cup"), "{told}");
    fill(&page, "paint.temperature", "30")?;
    fill(&page, "paint.cup.temperature", "20")?;
    // Ten degrees warmer: 0.96^10 of it, 81.1 mm2/s, 25.6 s.
    let told = page.text(".cup-answer")?;
    ensure!(told.contains("25.6"), "{told}");
    fill(&page, "paint.cup.seconds", "9")?;
    ensure!(page.text(".complaint")?.contains("9.9"), "seconds that give no viscosity are refused");
    fill(&page, "paint.cup.seconds", "18")?;
    page.wait_for(".far")?;
    let marked = page.value("[...document.querySelectorAll('.far')].map((b) => b.textContent).join()")?;
    ensure!(
        marked.as_str().is_some_and(|m| m.contains("outside this cup")),
        "18 s DIN 4 are below its formula"
    );
    page.click("[data-thinner=\"fast\"]")?;
    let on = page.value("document.querySelector('.thinners .on button').dataset.thinner")?;
    ensure!(on == "fast", "the thinner is chosen: {on}");
    page.expect_clean()
}

pub fn the_paint_view_fits_every_screen(browser: &Browser, server: &Server) -> Result<()> {
    for (width, dark) in [(360, false), (768, true), (1024, false), (1280, true)] {
        let page = browser.tab()?;
        page.show_on(Screen { width, height: 800, scale: 1.0, dark })?;
        page.go(server.address())?;
        page.wait_for("main")?;
        // On a phone the questions are folded.
        page.value("document.querySelector('.questions [data-ask=\"paint\"]').click()")?;
        page.wait_for("[data-state=\"done\"] [data-mix]")?;
        let wide = page.value("document.documentElement.scrollWidth")?.as_u64().context("a width")?;
        ensure!(wide <= u64::from(width), "the view is {wide} px wide on a screen of {width} px");
        page.expect_clean().with_context(|| format!("{width} px, dark: {dark}"))?;
    }
    Ok(())
}
