//! What strangers send and what machines do: hostile links, a server that goes, storage that refuses.

use anyhow::{Context, Result, ensure};
use mistcoat::job::{link, with_key};
use mistcoat_page::host::serve::Server;
use mistcoat_page::state::CHAIR_LEG;
use mistcoat_tests::browser::{Browser, Page, VIEWS, site};

/// A name that would be run where a page took it for its own.
const EVIL: &str = "<img src=x onerror=alert(1)><script>alert(2)</script>";

/// Few droplets: what is held here is the page.
fn light() -> Result<String> {
    Ok(with_key(CHAIR_LEG, "run.droplets", "4000")?)
}

fn open_view(page: &Page, view: &str) -> Result<()> {
    page.value(&format!("document.querySelector('[data-view={view}]').click(), 0"))?;
    page.value("new Promise((tell) => requestAnimationFrame(() => requestAnimationFrame(() => tell(0))))")?;
    Ok(())
}

pub fn links_that_cannot_be_read_are_told(browser: &Browser, server: &Server) -> Result<()> {
    let good = link::encode(&light()?)?;
    let cut = &good[..good.len() / 2];
    let huge = format!("1.{}", "A".repeat(300_000));
    let escaped = "%3Cscript%3Ealert(1)%3C/script%3E";
    for bad in ["", "2.abc", "1.", "1.!!!", cut, huge.as_str(), escaped, "<script>alert(1)</script>"] {
        let shown: String = bad.chars().take(30).collect();
        let page = browser.open(&format!("{}#job={bad}", server.address()))?;
        page.wait_for("g[data-knob=\"gun.fan\"]").with_context(|| shown.clone())?;
        if !bad.is_empty() {
            page.wait_for(".link-problem .complaint").with_context(|| shown.clone())?;
            let told = page.text(".link-problem")?;
            ensure!(told.contains("link") && told.len() < 1000, "{shown}: {told}");
        }
        let scripts = page.value("document.querySelectorAll('main script').length")?;
        ensure!(scripts == 0, "{shown}: a script on the page");
        page.expect_clean().with_context(|| shown)?;
    }
    Ok(())
}

pub fn a_script_in_a_name_is_text(browser: &Browser, server: &Server) -> Result<()> {
    let mut job = format!(
        "version = 1\nname = '{EVIL}'\n[gun]\nkit = \"hvlp-gravity-1.3\"\nname = '{EVIL}'\n[paint]\nkind = \"two-pack-clear\"\n\
         name = '{EVIL}'\n[part]\nframe = {{ tubes = [{{ name = '{EVIL}', from = [\"0 mm\", \"0 mm\", \"0 mm\"], \
         to = [\"0 mm\", \"300 mm\", \"0 mm\"], diameter = \"22 mm\" }}] }}\n[stroke]\ndistance = \"150 mm\"\nspeed = \"400 mm/s\"\n\
         [practice]\nwho = '{EVIL}'\nanswer = '{EVIL}'\n[compare]\nkits = [{{ kit = \"lvlp-gravity-1.2\", name = '{EVIL}' }}]\n\
         [run]\ndroplets = 4000\n"
    );
    let mut shown = 0;
    for shape in ["frame", "panel"] {
        if shape == "panel" {
            // By hand wants a part of its own.
            let part = job.lines().find(|line| line.starts_with("frame")).unwrap_or_default().to_owned();
            job = job.replace(&part, "panel = { width = \"300 mm\", height = \"200 mm\" }");
        }
        let page = browser.open(&format!("{}#job={}", server.address(), link::encode(&job)?))?;
        page.wait_for("[data-state=\"done\"]")?;
        for view in VIEWS {
            open_view(&page, view)?;
            let made = page.value("document.querySelectorAll('body img[src=\"x\"], main script').length")?;
            ensure!(made == 0, "{shape}, {view}: the name became part of the page");
            let text = page.text("body")?;
            shown += usize::from(text.contains("<script>alert(2)"));
        }
        page.expect_clean().with_context(|| shape)?;
    }
    ensure!(shown > 0, "the name is shown as text in no view");
    Ok(())
}

pub fn the_page_works_on_without_its_server(browser: &Browser, _: &Server) -> Result<()> {
    let own = Server::start_anywhere(&site())?;
    let page = browser.tab()?;
    page.prepare(
        "{ const Real = Worker; window.workers = []; \
         window.Worker = class extends Real { constructor(...all) { super(...all); window.workers.push(this); } }; 0 }",
    )?;
    page.go(&format!("{}#job={}", own.address(), link::encode(&light()?)?))?;
    page.wait_for("[data-state=\"done\"]")?;
    let asked = page.requests().iter().filter(|address| address.starts_with("http")).count();
    drop(own);
    // The worker dies, and another job is set.
    page.value("{ const [first] = window.workers; first.terminate(); first.dispatchEvent(new ErrorEvent('error', { message: 'planted' })); 0 }")?;
    let before = page.value("document.body.dataset.digest")?;
    let before = before.as_str().context("a digest")?;
    page.value("document.querySelector('g[data-knob=\"gun.fan\"]').focus()")?;
    page.press("Home")?;
    page.wait_for(&format!("body[data-state=\"done\"]:not([data-digest=\"{before}\"])"))?;
    // Every view, and a worker of its own for the sweep.
    for view in VIEWS {
        open_view(&page, view)?;
    }
    page.wait_for("[data-sweep=busy] .sweep-cell:not(.none)")?;
    let after: Vec<String> =
        page.requests().into_iter().filter(|address| address.starts_with("http")).skip(asked).collect();
    ensure!(after.is_empty(), "asks for more after it was loaded: {after:?}");
    page.expect_clean()
}

pub fn storage_that_refuses_costs_nothing_but_memory(browser: &Browser, server: &Server) -> Result<()> {
    for refusal in [
        "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };",
        "for (const name of ['localStorage', 'sessionStorage']) \
           Object.defineProperty(window, name, { get() { throw new DOMException('refused', 'SecurityError'); } });",
    ] {
        let page = browser.tab()?;
        page.prepare(refusal)?;
        page.go(&format!("{}#job={}", server.address(), link::encode(&light()?)?))?;
        page.wait_for("[data-state=\"done\"]")?;
        open_view(&page, "part")?;
        page.wait_for(".clipboard .main-button:not(:disabled)")?;
        page.click(".clipboard .main-button")?;
        page.wait_for("[data-kept=\"1\"]")?;
        page.expect_clean().with_context(|| refusal)?;
    }
    Ok(())
}
