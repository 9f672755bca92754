//! The Set-up sheet: drawn, listed, in either system of units; jobs saved to a file and opened from one.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page};

/// Few droplets, so that the sheet is there at once.
const JOB: &str = "version = 1\\nname = \"shelf <b>for cups</b>\"\\n[gun]\\nkit = \"hvlp-gravity-1.3\"\\n[paint]\\nkind = \"two-pack-clear\"\\n\
                   [part]\\npanel = { width = \"300 mm\", height = \"200 mm\" }\\n[stroke]\\ndistance = \"170 mm\"\\nspeed = \"400 mm/s\"\\n\
                   [run]\\ndroplets = 4000\\nseed = 1\\n";

/// Gives the page a file as a user does who picks it.
pub fn choose(page: &Page, name: &str, text: &str) -> Result<()> {
    page.value(&format!(
        "{{ const input = document.querySelector('.open-job input'); const all = new DataTransfer(); \
         all.items.add(new File(['{text}'], '{name}')); input.files = all.files; \
         input.dispatchEvent(new Event('change', {{ bubbles: true }})); 0 }}"
    ))?;
    Ok(())
}

pub fn a_job_is_opened_from_a_file_and_its_sheet_drawn(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.open(server.address())?;
    page.wait_for("main")?;
    page.click("[data-view=\"sheet\"]")?;
    page.wait_for(".open-job input")?;
    choose(&page, "shelf.toml", JOB)?;
    page.wait_for("[data-state=\"done\"] .sheet-paper:not(.stale) img")?;
    let list = page.text(".sheet-list")?;
    for words in
        ["shelf <b>for cups</b>", "170 mm", "2.5 s a metre", "fluid knob", "isocyanates", "A start point"]
    {
        ensure!(list.contains(words), "no {words:?} in the list: {list}");
    }
    let drawn = page.value("{ const image = document.querySelector('.sheet-paper img'); image.complete && image.naturalWidth > 100 }")?;
    ensure!(drawn.as_bool() == Some(true), "the sheet is no picture");
    let source = page.value("decodeURIComponent(document.querySelector('.sheet-paper img').src)")?;
    let source = source.as_str().context("the picture's source")?;
    ensure!(
        source.contains("170\u{a0}mm") && source.contains("shelf &lt;b&gt;for"),
        "the picture says something else"
    );
    let saved = page.value("decodeURIComponent(document.querySelector('[data-do=\"save-job\"]').href)")?;
    ensure!(saved.as_str().context("the job's file")?.contains("distance = \"170 mm\""), "{saved}");

    ensure!(page.sheets_printed()? == 1, "printed on {} sheets of paper", page.sheets_printed()?);

    page.value("[...document.querySelectorAll('.units button')].find(b => b.textContent == 'US').click()")?;
    let list = page.text(".sheet-list")?;
    ensure!(list.contains("6.7 in") && list.contains("psi") && !list.contains("170 mm"), "{list}");

    choose(&page, "broken.toml", "version = 1\\n[gun]\\nkit = \"no-such\"\\n")?;
    page.wait_for(".file-problem .complaint")?;
    let said = page.text(".file-problem")?;
    ensure!(said.contains("broken.toml") && said.contains("gun.kit"), "{said}");
    page.click("[data-step=\"undo\"]")?;
    let saved = page.value("decodeURIComponent(document.querySelector('[data-do=\"save-job\"]').href)")?;
    ensure!(
        saved.as_str().is_some_and(|job| !job.contains("shelf")),
        "undo brings the old job back: {saved}"
    );
    page.expect_clean()
}
