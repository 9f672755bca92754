//! The page loads, complains of nothing and asks nobody else; and the tests would see it if it did.

use anyhow::{Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::Browser;

pub fn the_page_loads_and_stays_on_this_machine(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    ensure!(page.text("h1")? == "mistcoat", "the page's name");
    let asked = page.requests();
    ensure!(asked.iter().any(|address| address.ends_with(".wasm")), "the wasm was not asked for: {asked:?}");
    page.expect_clean()
}

pub fn an_error_on_the_console_is_seen(browser: &Browser, server: &Server) -> Result<()> {
    for fault in [
        "console.error('planted')",
        "setTimeout(() => { throw new Error('planted') })",
        "document.body.setAttribute('style', 'color: red')",
        "fetch('no-such-file')",
    ] {
        let page = browser.open(server.address())?;
        page.wait_for("main")?;
        page.value(&format!("{fault}; new Promise((tell) => setTimeout(tell, 100))"))?;
        ensure!(page.expect_clean().is_err(), "{fault}: not seen");
    }
    Ok(())
}

pub fn a_request_that_leaves_is_seen(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    page.value("fetch('http://127.0.0.2:9/').catch(() => 0)")?;
    ensure!(page.expect_clean().is_err(), "a request to another machine was not seen");
    Ok(())
}
