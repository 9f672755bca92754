//! The page fits the screens it is shown on, and the one file does what the served page does.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::{build, serve::Server};
use mistcoat_tests::browser::{Browser, Page, Screen, VIEWS};

/// Looks for what hinders people who use a keyboard, a screen reader or large type; `tests/data/axe`.
const AXE: &str = include_str!("../../data/axe/axe.min.js");

/// What axe finds in the page as it is shown, by its rules for WCAG 2.2 AA and good practice; nothing where all is well.
fn hindrances(page: &Page) -> Result<String> {
    let found = page.value(
        "axe.run(document, { resultTypes: ['violations'], rules: { 'target-size': { enabled: true } }, \
           runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }) \
           .then((all) => all.violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target}`)).join('\\n'))",
    )?;
    Ok(found.as_str().context("what axe found")?.to_string())
}

/// Each view in the light on screens of every width (640 is 1280 at twice its size), and in the dark on a phone; what can be unfolded is unfolded.
pub fn every_view_fits_and_hinders_nobody(browser: &Browser, server: &Server) -> Result<()> {
    for (dark, widths) in [(false, &[360, 640, 768, 1024, 1920, 1280][..]), (true, &[360][..])] {
        let page = browser.tab()?;
        let show = |width| page.show_on(Screen { width, height: 800, scale: 1.0, dark });
        show(widths[widths.len() - 1])?;
        page.go(server.address())?;
        page.wait_for("main")?;
        page.value(AXE)?;
        let menu = page
            .value("[...document.querySelectorAll('button[data-view]')].map((b) => b.dataset.view).sort()")?;
        let mut known = VIEWS;
        known.sort_unstable();
        ensure!(menu == serde_json::json!(known), "the menu has {menu}, the tests look at {known:?}");
        for view in VIEWS {
            page.value(&format!("document.querySelector('button[data-view=\"{view}\"]').click()"))?;
            page.wait_for(&format!("button[data-view=\"{view}\"][aria-current=page]"))?;
            page.value("document.querySelectorAll('details').forEach((d) => { d.open = true; })")?;
            for &width in widths {
                show(width)?;
                let wide = page.value("document.documentElement.scrollWidth")?.as_u64().context("a width")?;
                ensure!(wide <= u64::from(width), "{view} is {wide} px wide on a screen of {width} px");
            }
            let found = hindrances(&page)?;
            ensure!(found.is_empty(), "{view}, dark: {dark}:\n{found}");
        }
        page.expect_clean().with_context(|| format!("dark: {dark}"))?;
    }
    Ok(())
}

/// Where less motion is wanted nothing moves by itself, and what is turned is there at once.
pub fn less_motion_is_no_motion(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.tab()?;
    page.hold_still()?;
    page.prepare(
        "{ window.drawn = 0; \
           for (const name of ['drawArrays', 'drawElements', 'drawArraysInstanced', 'drawElementsInstanced']) { \
             const real = WebGL2RenderingContext.prototype[name]; \
             WebGL2RenderingContext.prototype[name] = function (...all) { window.drawn += 1; return real.apply(this, all); }; } }",
    )?;
    page.go(server.address())?;
    page.wait_for("[data-state=\"done\"]")?;
    for view in VIEWS {
        page.value(&format!("document.querySelector('button[data-view=\"{view}\"]').click()"))?;
        page.wait_for(&format!("button[data-view=\"{view}\"][aria-current=page]"))?;
        ensure!(moving(&page)? == 0, "{view} moves");
    }
    page.value("document.querySelector('button[data-view=\"part\"]').click()")?;
    page.wait_for("g[data-knob=\"gun.fan\"]")?;
    page.value("document.querySelector('g[data-knob=\"gun.fan\"]').focus()")?;
    page.press("Home")?;
    ensure!(moving(&page)? == 0, "a turned knob moves");
    page.wait_for(".clipboard:not(.under-way):not(.stale)")?;
    page.wait_for("[data-state=\"done\"]")?;
    // All is flown and nobody touches anything: the booth is not drawn again and again.
    page.value(LATER)?;
    let before = page.value("window.drawn")?.as_u64().context("drawings")?;
    ensure!(before > 0, "the booth was never drawn");
    page.value(LATER)?;
    let after = page.value("window.drawn")?.as_u64().context("drawings")?;
    ensure!(after == before, "{} drawings of a booth at rest", after - before);
    // What would move is seen.
    page.value("document.querySelector('main').animate([{ opacity: 1 }, { opacity: 0.9 }], 60000), 0")?;
    ensure!(moving(&page)? == 1, "a planted movement is not seen");
    page.expect_clean()
}

/// Half a second in frames.
const LATER: &str = "new Promise((tell) => { let left = 30; const look = () => --left ? requestAnimationFrame(look) : tell(0); look(); })";

/// The most things that move at once within some frames.
fn moving(page: &Page) -> Result<u64> {
    let most = page.value(
        "new Promise((tell) => { let left = 12, most = 0; const look = () => { \
           most = Math.max(most, document.getAnimations().filter((a) => a.playState === 'running').length); \
           if (--left) requestAnimationFrame(look); else tell(most); }; look(); })",
    )?;
    most.as_u64().context("a count")
}

pub fn the_single_file_opens_from_disk(browser: &Browser, _: &Server) -> Result<()> {
    let file = build::target_folder().join("mistcoat.html");
    ensure!(file.is_file(), "not built: cargo page --single-file target/page/mistcoat.html");
    let page = browser.open(&format!("file://{}", file.display()))?;
    page.wait_for("main")?;
    // There is no server to lose: opened again by its address, it is the same page with the same job.
    page.wait_for("[data-state=\"done\"]")?;
    let state = "document.body.dataset.digest";
    let (address, found) = (page.value("location.href")?, page.value(state)?);
    let again = browser.open(address.as_str().context("an address")?)?;
    again.wait_for("[data-state=\"done\"]")?;
    ensure!(again.value(state)? == found, "another job when it is opened again");
    again.expect_clean()?;
    let others: Vec<String> = page.requests().into_iter().filter(|r| !r.ends_with("mistcoat.html")).collect();
    ensure!(
        others.iter().all(|r| r.starts_with("blob:") || r.starts_with("data:")),
        "asks for files: {others:?}"
    );
    page.expect_clean()
}
