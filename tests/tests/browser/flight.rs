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

pub fn the_page_gives_the_librarys_digest(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("[data-state=\"done\"]")?;
    let (shown, kept) = (digest(&page)?, on_record()?);
    ensure!(shown == kept, "the page gives {shown}, the library {kept}");
    let told = page.text("main")?;
    ensure!(told.contains("of 100 stayed on the part"), "no answer on the page: {told}");
    ensure!(!told.contains("NaN") && !told.contains("undefined"), "{told}");
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
