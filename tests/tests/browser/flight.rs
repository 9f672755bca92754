//! The page flies the same droplets as the library: its digest is the library's, also after a worker has died.

use anyhow::{Context, Result, anyhow, ensure};
use mistcoat::job::Job;
use mistcoat::run::Run;
use mistcoat_page::host::serve::Server;
use mistcoat_page::state::{CHAIR_LEG, steadied};
use mistcoat_tests::browser::{Browser, Page};

/// The library's digest of the job that a first visitor sees: the chair leg by a steady hand.
fn on_record() -> Result<String> {
    let text = steadied(CHAIR_LEG);
    let mut run = Run::new(Job::from_toml(&text).map_err(|e| anyhow!("{e}"))?).map_err(|e| anyhow!("{e}"))?;
    run.finish();
    Ok(format!("{:016x}", run.digest().map_err(|e| anyhow!("{e}"))?))
}

fn digest(page: &Page) -> Result<String> {
    let found = page.value("document.body.getAttribute('data-digest')")?;
    Ok(found.as_str().context("a digest on the body")?.to_string())
}

/// The large number of the clipboard [mL].
fn number(page: &Page) -> Result<f64> {
    let text = page.text(".clipboard .number")?;
    text.trim().parse().with_context(|| format!("{text}: no figure"))
}

/// Tabs on until the element in hand matches; its ring must be seen.
fn tab_to(page: &Page, selector: &str) -> Result<()> {
    for _ in 0..80 {
        page.press("Tab")?;
        if page.value(&format!("document.activeElement.matches('{selector}')"))? == true {
            let seen = page.value("document.activeElement.matches(':focus-visible')")?;
            ensure!(seen == true, "{selector} is in hand and nobody sees it");
            return Ok(());
        }
    }
    Err(anyhow!("{selector}: not reached by Tab"))
}

/// What a first visitor does, with no mouse: reads what one chair takes, shuts the fan, sees why, reads the fan height, types an own size.
/// The first answer is the library's to the last bit.
pub fn the_first_minute_by_keyboard_alone(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("[data-state=\"done\"]")?;
    let (shown, kept) = (digest(&page)?, on_record()?);
    ensure!(shown == kept, "the page gives {shown}, the library {kept}");
    let told = page.text("main")?;
    for words in ["of 100 stayed on the part, likely", "for one chair.", "On it:", "Turn this."] {
        ensure!(told.contains(words), "no {words:?} on the page: {told}");
    }
    ensure!(!told.contains("NaN") && !told.contains("undefined"), "{told}");
    let wide = number(&page)?;

    // In, clockwise, is less: the fan shuts, the line counts down, and the end view says why beside the run before.
    tab_to(&page, "g[data-knob=\"gun.fan\"]")?;
    page.press("Home")?;
    page.wait_for(".strip-words .chalk-words")?;
    page.wait_for(".clipboard:not(.under-way):not(.stale)")?;
    let (said, spot) = (page.text(".clipboard .sentence")?, number(&page)?);
    ensure!(said.contains("Round spot"), "{said}");
    ensure!(spot < 0.6 * wide, "the fan is shut and one chair takes {spot} mL in place of {wide}");
    ensure!(page.text(".strip-words")?.contains("flew past"), "{}", page.text(".strip-words")?);

    // One's own tube: no chair any more.
    tab_to(&page, "input[name=\"part.tube.diameter\"]")?;
    page.value("document.activeElement.select(), 0")?;
    page.press("4")?;
    page.press("2")?;
    page.press("Enter")?;
    page.wait_for(".clipboard:not(.under-way):not(.stale)")?;
    let said = page.text(".clipboard .sheet-top")?;
    ensure!(said.contains("42\u{202f}mm") && said.contains("for one tube."), "{said}");
    page.expect_clean()
}

pub fn a_dead_worker_is_replaced_and_gives_the_same_digest(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.tab()?;
    // The first worker is ended by an error after its fourth message; the page has to notice by itself.
    page.prepare(
        "{ const Real = Worker; let made = 0; \
         window.Worker = class extends Real { \
           constructor(...all) { super(...all); window.workersMade = ++made; \
             if (made === 1) { let heard = 0; super.addEventListener('message', () => { \
               if (++heard === 4) { super.terminate(); this.dispatchEvent(new ErrorEvent('error', { message: 'planted' })); } }); } } }; 0 }",
    )?;
    page.go(server.address())?;
    page.wait_for("[data-state=\"done\"]")?;
    ensure!(page.value("window.workersMade")? == 2, "the worker was not replaced once");
    let (shown, kept) = (digest(&page)?, on_record()?);
    ensure!(shown == kept, "after a dead worker the page gives {shown}, the library {kept}");
    page.expect_clean()
}
