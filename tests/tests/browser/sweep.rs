//! Sweep: a first question flies point by point on a pool of workers, stops, a point goes onto the desk and back, one's own knob
//! gives curves, what is impossible is marked.

use anyhow::{Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page, Screen};

fn open(page: &Page) -> Result<()> {
    page.wait_for("main")?;
    page.value(
        "[...document.querySelectorAll('.menu-item')].find(b => b.textContent === 'Sweep').click(), 0",
    )?;
    Ok(())
}

/// Cells of the map with a figure.
fn cells(page: &Page) -> Result<u64> {
    let n = page.value("document.querySelectorAll('.sweep-cell:not(.none)').length")?;
    Ok(n.as_u64().unwrap_or(0))
}

pub fn a_map_comes_cell_by_cell_and_a_point_is_loaded(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    // The first question is open by itself; what is done when it is stopped stays. All is flown within seconds, so it is stopped
    // with the first cell.
    page.click_when("[data-sweep=busy] .sweep-cell:not(.none)", "[data-stop]")?;
    open(&page)?;
    page.wait_for("[data-sweep=stopped]")?;
    let known = cells(&page)?;
    ensure!((1..42).contains(&known), "{known} cells of 42 when it was stopped");
    page.click("[data-again]")?;
    page.wait_for("[data-sweep=done]")?;
    ensure!(cells(&page)? == 42, "{} cells of 42", cells(&page)?);
    // The wide fan on the thin tube keeps least, the shut one on the thickest most.
    let at = |point: u32| -> Result<f64> {
        Ok(page.text(&format!(".sweep-cell[data-point=\"{point}\"]"))?.trim().parse::<f64>()?)
    };
    ensure!(at(35)? < 0.5 * at(0)?, "wide {} shut {}", at(35)?, at(0)?);

    let before = page.value("decodeURIComponent(location.hash)")?;
    page.click(".sweep-cell[data-point=\"2\"]")?;
    page.wait_for(".sweep-chosen [data-load]")?;
    page.click("[data-load]")?;
    page.wait_for("[data-loaded]")?;
    ensure!(page.value("decodeURIComponent(location.hash)")? != before, "the link holds the point");
    ensure!(
        page.value("!!document.querySelector('[data-sweep=done]')")? == true,
        "nothing is flown for that"
    );
    page.click("[data-step=undo]")?;

    // Files to take away are caught on their way out: a picture is drawn first.
    page.value(
        "window.files = {}; HTMLAnchorElement.prototype.click = function () { window.files[this.download] = this.href; }; 0",
    )?;
    for (kind, starts) in
        [("csv", "data:text/csv"), ("svg", "data:image/svg+xml"), ("png", "data:image/png;base64,iVBOR")]
    {
        page.click(&format!("[data-save={kind}]"))?;
        let file = page.value(&format!(
            "new Promise((tell) => {{ const look = () => window.files['sweep.{kind}'] ? tell(window.files['sweep.{kind}']) : \
             setTimeout(look, 20); look(); }})"
        ))?;
        let file = file.as_str().unwrap_or_default();
        ensure!(file.starts_with(starts) && file.len() > 2000, "{kind}: {}", &file[..file.len().min(60)]);
    }
    page.expect_clean()
}

pub fn ones_own_knob_gives_curves_and_says_what_is_impossible(
    browser: &Browser,
    server: &Server,
) -> Result<()> {
    let page = browser.tab()?;
    page.show_on(Screen { width: 360, height: 800, scale: 1.0, dark: true })?;
    page.go(server.address())?;
    page.click_when("[data-sweep=busy]", "[data-stop]")?;
    open(&page)?;
    page.wait_for("[data-sweep=stopped]")?;
    page.click(".sweep-own summary")?;
    let type_in = |text: &str| {
        page.value(&format!(
            "{{ const field = document.querySelector('[name=first-values]'); field.focus(); field.value = '{text}'; \
             field.dispatchEvent(new Event('input', {{ bubbles: true }})); document.querySelector('[data-fly]').click(); 0 }}"
        ))
    };
    type_in("150..200:2")?;
    page.wait_for(".sweep-own .complaint")?;
    ensure!(page.text(".sweep-own .complaint")?.contains("the unit is missing"), "told by the field");
    type_in("180, 200, 700 mm")?;
    page.wait_for("[data-sweep=done] .chart")?;
    let said = page.text(".sweep-curves")?;
    ensure!(said.contains("On the part") && !said.contains("NaN"), "{said}");
    // By keyboard: the impossible point says why.
    page.value(
        "{ const spot = document.querySelector('.sweep-spot[data-point=\"2\"]'); spot.focus(); \
                spot.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true })); 0 }",
    )?;
    page.wait_for(".sweep-chosen .complaint")?;
    let why = page.text(".sweep-chosen")?;
    ensure!(why.contains("stroke.distance") && why.contains("600 mm"), "{why}");
    page.click(".sweep-all summary")?;
    page.wait_for(".sweep-table")?;
    ensure!(page.text(".sweep-table")?.contains("Cannot be sprayed"), "the table says so, too");
    let wide = page.value("document.documentElement.scrollWidth")?;
    ensure!(wide == 360, "{wide} px wide on a phone");
    page.expect_clean()
}
