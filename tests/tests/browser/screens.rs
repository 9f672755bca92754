//! The page fits the screens it is shown on, and the one file does what the served page does.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::{build, serve::Server};
use mistcoat_tests::browser::{Browser, Screen};

pub fn nothing_is_cut_off_at_the_side(browser: &Browser, server: &Server) -> Result<()> {
    for dark in [false, true] {
        for width in [360, 768, 1024, 1280, 1920] {
            let page = browser.tab()?;
            page.show_on(Screen { width, height: 800, scale: 1.0, dark })?;
            page.go(server.address())?;
            page.wait_for("main")?;
            let wide = page.value("document.documentElement.scrollWidth")?.as_u64().context("a width")?;
            ensure!(wide <= u64::from(width), "the page is {wide} px wide on a screen of {width} px");
            page.expect_clean().with_context(|| format!("{width} px, dark: {dark}"))?;
        }
    }
    Ok(())
}

pub fn the_single_file_opens_from_disk(browser: &Browser, _: &Server) -> Result<()> {
    let file = build::target_folder().join("mistcoat.html");
    ensure!(file.is_file(), "not built: cargo page --single-file target/page/mistcoat.html");
    let page = browser.open(&format!("file://{}", file.display()))?;
    page.wait_for("main")?;
    let others: Vec<String> = page.requests().into_iter().filter(|r| !r.ends_with("mistcoat.html")).collect();
    ensure!(
        others.iter().all(|r| r.starts_with("blob:") || r.starts_with("data:")),
        "asks for files: {others:?}"
    );
    page.expect_clean()
}
