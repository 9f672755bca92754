//! How quick By hand is: `cargo hand-frames [SECONDS]` after `cargo checks --only page`. A try of synthetic pointer events is
//! sprayed and timed by the page itself; figures go to `benches/README.md`, never into a test.

use anyhow::{Context, Result};
use mistcoat::job::Job;
use mistcoat::run::{CARD_DROPLETS, Prepared};
use mistcoat_page::host::serve::Server;
use mistcoat_page::state::hand::practice_job;
use mistcoat_page::task::practising::{OUTER, REACH};
use mistcoat_tests::browser::{Browser, site};

/// Passes back and forth for some seconds, two moves a frame, trigger off at the ends.
const SPRAY: &str = r"
(seconds) => new Promise((done) => {
  const stage = document.querySelector('#hand-stage');
  const film = stage.querySelector('.hand-film').getBoundingClientRect();
  const send = (type, x, y, on) => stage.dispatchEvent(new PointerEvent(type, {
    bubbles: true, cancelable: true, clientX: x, clientY: y, pointerId: 7, pointerType: 'mouse', isPrimary: true,
    button: type === 'pointermove' ? -1 : 0, buttons: on ? 1 : 0 }));
  const begin = performance.now(), ms = 1900, rows = 6;
  let down = false, frames = 0;
  const frame = (now) => {
    frames += 1;
    const pass = Math.floor((now - begin) / ms), share = ((now - begin) / ms) % 1;
    const y = film.top + film.height * (0.5 + 0.5 * Math.cos(Math.PI * pass / (rows - 1)));
    const at = (s) => pass % 2 ? film.right + 90 - s * (film.width + 180) : film.left - 90 + s * (film.width + 180);
    const on = share > 0.04 && share < 0.96;
    if (on !== down) { send(on ? 'pointerdown' : 'pointerup', at(share), y, on); down = on; }
    send('pointermove', at(share - 0.004), y, on);
    send('pointermove', at(share), y, on);
    if (now - begin > seconds * 1e3) { send('pointerup', at(share), y, false); done(frames / seconds); }
    else requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
})";

/// The share flown that the page tells, from when to when [of 100, ms]: from the first telling past a tenth to the last before it
/// ends. What is told is flight alone: neither the rough footprint laid out nor the plan laid is counted.
const FLOWN: &str = r"
new Promise((done) => {
  const view = document.querySelector('.hand-view');
  let first, last;
  const look = () => {
    const told = [...view.querySelectorAll('p')].map(p => /: (\d+) of 100/.exec(p.innerText)).find(m => m);
    const now = performance.now();
    if (told) {
      const share = Number(told[1]);
      if (!first && share >= 10) first = [share, now];
      if (!last || share > last[0]) last = [share, now];
    }
    if (view.dataset.plan === 'true') { watch.disconnect(); done([...first, ...last]); }
  };
  const watch = new MutationObserver(look);
  watch.observe(view, { attributes: true, subtree: true, childList: true, characterData: true });
  look();
})";

/// Droplets flown in all.
fn droplets() -> Result<f64> {
    let job = Job::from_toml(&practice_job()).map_err(|e| anyhow::anyhow!("{e}"))?;
    let droplets = job.run.droplets;
    let prepared = Prepared::new(job)?;
    let shelf = prepared.shelf(&REACH, droplets, OUTER)?;
    Ok((shelf.progress().1 + CARD_DROPLETS) as f64)
}

/// What the page timed under a name [ms].
fn times(page: &mistcoat_tests::browser::Page, name: &str) -> Result<Vec<f64>> {
    let value = page.value(&format!("performance.getEntriesByName('{name}').map(e => e.duration)"))?;
    let mut times: Vec<f64> = value.as_array().context("times")?.iter().filter_map(|v| v.as_f64()).collect();
    times.sort_by(f64::total_cmp);
    Ok(times)
}

fn main() -> Result<()> {
    let seconds = match std::env::args().nth(1) {
        Some(text) => text.parse().context("SECONDS: a whole number")?,
        None => 60_u32,
    };
    let server = Server::start_anywhere(&site())?;
    let browser = Browser::start()?;
    let page = browser.open(server.address())?;
    page.wait_for("[data-state=\"done\"]")?;
    page.value("[...document.querySelectorAll('.menu-item')].find(b => b.innerText === 'By hand').click()")?;
    page.click("[data-take=\"panel\"]")?;
    let flown = page.value(FLOWN)?;
    let at = |i: usize| flown.get(i).and_then(serde_json::Value::as_f64).context("times of the flights");
    let (share, slices) = ((at(2)? - at(0)?) / 100.0, (at(3)? - at(1)?) / 16.0);
    println!(
        "droplets in 16 ms of one worker while it flies, beside the page's run of the job: {:.0} ({:.0} of 100 of {:.0} droplets in {:.0} ms)",
        share * droplets()? / slices,
        100.0 * share,
        droplets()?,
        16.0 * slices
    );
    page.wait_for("[data-state=\"done\"]")?;
    page.value("document.body.setAttribute('data-time-hand', '')")?;
    let rate = page.value(&format!("({SPRAY})({seconds})"))?.as_f64().context("a rate")?;
    println!("pictures a second: {rate:.1}");
    for (what, name) in [
        ("event to drawn film", "hand-film"),
        ("page's thread, a frame", "hand-frame"),
        ("page's thread, a film drawn", "hand-draw"),
    ] {
        let times = times(&page, name)?;
        if times.is_empty() {
            println!("{what}: not timed");
            continue;
        }
        let at = |share: f64| times[((times.len() - 1) as f64 * share).round() as usize];
        println!(
            "{what}: median {:.1}, p95 {:.1}, p99 {:.1}, max {:.1} ms of {}",
            at(0.5),
            at(0.95),
            at(0.99),
            at(1.0),
            times.len()
        );
    }
    Ok(())
}
