//! Long use: `cargo soak [MINUTES]` (30) after `cargo checks --only page`. Rounds of practice, turned knobs, sweeps, advice, views,
//! killed workers, a hidden tab, a lost picture, storage that refuses. Prints a line a round, ends at the first complaint on the
//! console and where anything the user made is gone. Figures go to `docs/validation.md`.

use std::time::{Duration, Instant};

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page, SPRAY, VIEWS, site};

/// Runs the page can put aside.
const MOST_KEPT: usize = 8;
/// Workers that still work are remembered, and storage can be told to refuse.
const PREPARED: &str = r"{
const Real = Worker;
window.living = [];
window.Worker = class extends Real {
  constructor(...all) { super(...all); window.living.push(new WeakRef(this)); }
  terminate() { window.living = window.living.filter(w => w.deref() && w.deref() !== this); super.terminate(); }
};
window.killed = 0;
window.kill = (turn) => {
  const living = window.living.map(w => w.deref()).filter(w => w);
  const worker = living[turn % living.length];
  if (!worker) return;
  worker.terminate();
  worker.dispatchEvent(new ErrorEvent('error', { message: 'planted' }));
  window.killed += 1;
};
const keep = Storage.prototype.setItem;
Storage.prototype.setItem = function (...all) {
  if (window.refuses) throw new DOMException('full', 'QuotaExceededError');
  return keep.apply(this, all);
};
}";

const FRAMES: &str =
    "new Promise((tell) => requestAnimationFrame(() => requestAnimationFrame(() => tell(0))))";

/// The page and what its user has made.
struct Soak<'a> {
    page: &'a Page,
    round: u64,
    kept: usize,
    tries: u64,
}

impl Soak<'_> {
    fn view(&self, view: &str) -> Result<()> {
        self.page.value(&format!("document.querySelector('[data-view={view}]').click(), 0"))?;
        self.page.value(FRAMES)?;
        Ok(())
    }

    fn count(&self, selector: &str) -> Result<u64> {
        let count = self.page.value(&format!("document.querySelectorAll('{selector}').length"))?;
        count.as_u64().context("a count")
    }

    /// Turns the fan knob to its other end; a worker dies meanwhile.
    fn turned_and_killed(&self) -> Result<()> {
        self.view("part")?;
        let before = self.page.value("document.body.dataset.digest")?;
        let before = before.as_str().context("a digest")?.to_owned();
        self.page.value("document.querySelector('g[data-knob=\"gun.fan\"]').focus()")?;
        self.page.press(if self.round.is_multiple_of(2) { "Home" } else { "End" })?;
        self.page.value(&format!("kill({}), 0", self.round))?;
        self.page.wait_for(&format!("body[data-state=\"done\"]:not([data-digest=\"{before}\"])"))?;
        self.page.wait_for(".clipboard:not(.under-way):not(.stale)")
    }

    /// Puts the run aside, while there is room.
    fn kept(&mut self) -> Result<()> {
        if self.kept < MOST_KEPT && self.round.is_multiple_of(3) {
            self.page.click(".clipboard .main-button")?;
            self.kept += 1;
            self.page.wait_for(&format!("[data-kept=\"{}\"]", self.kept))?;
        }
        Ok(())
    }

    /// A try of four passes; every third time the tab is hidden during it.
    fn practised(&mut self) -> Result<()> {
        self.view("hand")?;
        // Who comes back finds the last try, judged under what is set now.
        self.page.wait_for("[data-hand=\"ready\"][data-ready=\"true\"], [data-hand=\"judged\"]")?;
        if self.count("[data-hand=\"judged\"]")? > 0 {
            self.page.click("[data-do=\"again\"]")?;
            self.page.wait_for("[data-hand=\"ready\"][data-ready=\"true\"]")?;
        }
        let passes = |count: u64| format!("spray('mouse', {count}, 500, true)");
        self.page.value(&passes(2))?;
        if self.round % 3 == 1 {
            self.page.value(
                "{ Object.defineProperty(document, 'hidden', { get: () => true, configurable: true });
                   document.dispatchEvent(new Event('visibilitychange', { bubbles: true })); 0 }",
            )?;
            self.page.wait_for("[data-hand=\"held\"]")?;
            self.page.value(
                "{ delete document.hidden; document.dispatchEvent(new Event('visibilitychange', { bubbles: true })); 0 }",
            )?;
        }
        self.page.value(&passes(4))?;
        self.page.click("[data-do=\"done\"]")?;
        self.page.wait_for("[data-hand=\"judged\"]")?;
        self.tries += 1;
        self.page.click("[data-do=\"again\"]")?;
        self.page.wait_for("[data-hand=\"ready\"]")
    }

    /// One of the first questions: flown whole, stopped, or left behind.
    fn swept(&self) -> Result<()> {
        self.view("sweep")?;
        self.page.wait_for("[data-preset]")?;
        let preset = self.round % self.count("[data-preset]")?;
        self.page.value(&format!("document.querySelectorAll('[data-preset]')[{preset}].click(), 0"))?;
        match self.round % 3 {
            0 => self.page.wait_for("[data-sweep=done]"),
            1 => {
                self.page.value("document.querySelector('[data-stop]')?.click(), 0")?;
                self.page.wait_for("[data-sweep=stopped], [data-sweep=done]")
            }
            _ => Ok(()),
        }
    }

    /// Advice begun, read and stopped.
    fn advised(&self) -> Result<()> {
        self.view("part")?;
        self.page.value("document.querySelector('button[data-find=\"change\"]')?.click(), 0")?;
        self.page.wait_for(".change-said, [data-change=\"done\"]")?;
        self.page.value("document.querySelector('.change-work button')?.click(), 0")?;
        Ok(())
    }

    /// The picture in space is lost, drawn flat, and comes back.
    fn lost_and_back(&self) -> Result<()> {
        self.view("part")?;
        self.page.wait_for(".booth-band:not(.flat) .booth-picture:not([hidden])")?;
        self.page.value(
            "window.taken = document.querySelector('.booth-picture').getContext('webgl2').getExtension('WEBGL_lose_context'); \
             taken.loseContext()",
        )?;
        self.page.wait_for(".booth-band.flat .booth-flat path")?;
        self.page.value("taken.restoreContext(), delete window.taken, 0")?;
        self.page.wait_for(".booth-band:not(.flat) .booth-picture:not([hidden])")
    }

    fn round(&mut self) -> Result<()> {
        self.page.value(&format!("window.refuses = {}, 0", self.round % 4 == 3))?;
        self.turned_and_killed()?;
        self.kept()?;
        self.practised()?;
        self.swept()?;
        if self.round.is_multiple_of(2) {
            self.advised()?;
        }
        self.lost_and_back()?;
        for view in VIEWS.into_iter().chain(["part"]) {
            self.view(view)?;
        }
        ensure!(self.count("[data-kept]")? == self.kept as u64, "runs put aside are gone");
        ensure!(!self.page.text("body")?.contains("NaN"), "NaN on the page");
        self.page.expect_clean()?;
        self.round += 1;
        Ok(())
    }
}

fn main() -> Result<()> {
    let minutes: u64 = match std::env::args().nth(1) {
        Some(text) => text.parse().context("MINUTES: a whole number")?,
        None => 30,
    };
    let server = Server::start_anywhere(&site())?;
    let browser = Browser::start()?;
    let page = browser.tab()?;
    page.prepare(PREPARED)?;
    page.go(server.address())?;
    page.wait_for("[data-state=\"done\"]")?;
    page.value(SPRAY)?;
    let mut soak = Soak { page: &page, round: 0, kept: 0, tries: 0 };
    soak.view("hand")?;
    page.click("[data-take=\"panel\"]")?;
    soak.view("part")?;
    page.wait_for("[data-state=\"done\"]")?;

    println!(
        "| minute | round | tries | workers killed | script heap [MB] | nodes | browser [MB] |\n|---|---|---|---|---|---|---|"
    );
    let began = Instant::now();
    while began.elapsed() < Duration::from_secs(60 * minutes) {
        soak.round()?;
        let (heap, nodes) = page.held()?;
        println!(
            "| {:.1} | {} | {} | {} | {:.1} | {nodes} | {:.0} |",
            began.elapsed().as_secs_f64() / 60.0,
            soak.round,
            soak.tries,
            page.value("window.killed")?,
            heap * 1e-6,
            browser.memory() as f64 * 1e-6
        );
    }
    // Opened again, all that was put aside is there, and the job.
    page.value("window.refuses = false, 0")?;
    let before = page.value("decodeURIComponent(location.hash)")?;
    let address = page.value("location.href")?;
    // Elsewhere first: an address that differs by nothing is no journey.
    page.go("about:blank")?;
    page.go(address.as_str().context("an address")?)?;
    page.wait_for("[data-state=\"done\"]")?;
    ensure!(page.value("decodeURIComponent(location.hash)")? == before, "the job is gone");
    // A job that holds a try opens at By hand.
    soak.view("part")?;
    let kept = soak.count("[data-kept]")?;
    ensure!(kept == soak.kept as u64, "{kept} runs put aside of {}", soak.kept);
    page.expect_clean()
}
