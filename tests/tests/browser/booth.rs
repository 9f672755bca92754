//! The booth in three dimensions: drawn, turned, lost and given back, and flat where there is no WebGL2.

use anyhow::{Context, Result, ensure};
use mistcoat_page::host::serve::Server;
use mistcoat_tests::browser::{Browser, Page, Screen};

/// What the canvas shows, in short: how many colours it has, and a sum that another picture would not give.
const LOOK: &str = "(() => { const from = document.querySelector('.booth-picture'); \
    const to = document.createElement('canvas'); to.width = from.width; to.height = from.height; \
    const pen = to.getContext('2d'); pen.drawImage(from, 0, 0); \
    const d = pen.getImageData(0, 0, to.width, to.height).data; \
    let sum = 0; const colours = new Set(); \
    for (let i = 0; i < d.length; i += 4) { const c = d[i] << 16 | d[i + 1] << 8 | d[i + 2]; \
      colours.add(c); sum = (sum * 31 + c) % 1000000007; } \
    return [to.width, to.height, colours.size, sum]; })()";

/// Two frames, so that what was asked for is drawn.
const FRAMES: &str =
    "new Promise((tell) => requestAnimationFrame(() => requestAnimationFrame(() => tell(true))))";

#[derive(Debug, PartialEq, Eq)]
struct Seen {
    size: (u64, u64),
    colours: u64,
    sum: u64,
}

fn look(page: &Page) -> Result<Seen> {
    page.value(FRAMES)?;
    let found = page.value(LOOK)?;
    let at = |i: usize| found.get(i).and_then(serde_json::Value::as_u64).context("numbers of a picture");
    Ok(Seen { size: (at(0)?, at(1)?), colours: at(2)?, sum: at(3)? })
}

/// The first visitor's job with few droplets: what is held here is the picture.
fn light() -> Result<String> {
    let text = mistcoat::job::with_key(mistcoat_page::state::CHAIR_LEG, "run.droplets", "5000")?;
    Ok(format!("#job={}", mistcoat::job::link::encode(&text)?))
}

fn opened(browser: &Browser, server: &Server) -> Result<Page> {
    let page = browser.open(&format!("{}{}", server.address(), light()?))?;
    page.wait_for("[data-state=\"done\"]")?;
    page.wait_for(".booth-picture[data-drawn=\"film\"]")?;
    Ok(page)
}

pub fn the_booth_is_drawn_and_turned(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    let first = look(&page)?;
    // The band is 372 px high with its foot line.
    ensure!(first.size == (1280, 371), "{first:?}");
    ensure!(first.colours > 100, "an empty picture: {first:?}");
    page.value("document.querySelector('.booth-picture').focus()")?;
    page.press("ArrowRight")?;
    let turned = look(&page)?;
    ensure!(turned.sum != first.sum, "the key turned nothing");
    page.press("0")?;
    let back = look(&page)?;
    ensure!(back == first, "the first view came back as another: {first:?} {back:?}");
    page.click(".booth-controls button:nth-child(3)")?;
    let end = look(&page)?;
    ensure!(end.sum != first.sum && end.colours > 50, "{end:?}");
    // A drag to the side turns; the page does not scroll.
    page.value(
        "(() => { const c = document.querySelector('.booth-picture'); \
           const send = (kind, x) => c.dispatchEvent(new PointerEvent(kind, { pointerId: 1, pointerType: 'touch', \
             button: 0, clientX: x, clientY: 300, bubbles: true, cancelable: true })); \
           send('pointerdown', 300); send('pointermove', 340); send('pointermove', 380); send('pointerup', 380); })()",
    )?;
    let dragged = look(&page)?;
    ensure!(dragged.sum != end.sum, "the drag turned nothing");
    page.expect_clean()
}

pub fn the_booth_says_what_stands_there(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    let said = page.value("document.querySelector('.booth-picture').getAttribute('aria-label')")?;
    let said = said.as_str().context("a description")?;
    ensure!(said.contains("22") && said.contains("Thinnest") && said.contains("fan"), "{said}");
    ensure!(!said.contains("NaN") && !said.contains("{}"), "{said}");
    let lines = page.value("document.querySelector('.booth-lines').textContent")?;
    ensure!(lines.as_str().is_some_and(|t| t.contains("22")), "no dimension lines: {lines}");
    page.expect_clean()
}

pub fn film_as_map_and_dark_are_other_pictures(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    let seen = look(&page)?;
    page.value("[...document.querySelectorAll('.booth-controls button')].at(-1).click()")?;
    let map = look(&page)?;
    ensure!(map.sum != seen.sum, "the map is the film as seen");
    page.click(".theme")?;
    let dark = look(&page)?;
    ensure!(dark.sum != map.sum, "dark is light");
    page.expect_clean()
}

pub fn a_lost_picture_falls_back_and_comes_back(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    let first = look(&page)?;
    page.value(
        "window.taken = document.querySelector('.booth-picture').getContext('webgl2').getExtension('WEBGL_lose_context'); \
         taken.loseContext()",
    )?;
    page.wait_for(".booth-band.flat .booth-flat path")?;
    let why = page.text(".booth-why")?;
    ensure!(why.contains("Drawn flat"), "no reason: {why}");
    page.value("taken.restoreContext()")?;
    page.wait_for(".booth-band:not(.flat) .booth-picture:not([hidden])")?;
    let again = look(&page)?;
    ensure!(again == first, "another picture came back: {first:?} {again:?}");
    page.expect_clean()
}

pub fn a_booth_that_is_left_gives_its_memory_back(browser: &Browser, server: &Server) -> Result<()> {
    let page = opened(browser, server)?;
    let first = look(&page)?;
    page.value("window.old = document.querySelector('.booth-picture'), 0")?;
    let lost = || page.value("old.getContext('webgl2').isContextLost()");
    // Shown anew, the view keeps its canvas.
    page.value("document.querySelector('[data-view=part]').click(), 0")?;
    let again = look(&page)?;
    ensure!(again == first && lost()? == false, "{first:?} {again:?}");
    page.value("document.querySelector('[data-view=card]').click(), 0")?;
    page.value(FRAMES)?;
    ensure!(lost()? == true, "a picture that nobody sees is kept");
    page.value("document.querySelector('[data-view=part]').click(), 0")?;
    page.wait_for(".booth-band:not(.flat) .booth-picture[data-drawn=\"film\"]")?;
    let back = look(&page)?;
    ensure!(back == first, "another picture came back: {first:?} {back:?}");
    page.expect_clean()
}

pub fn without_webgl_it_is_drawn_flat(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.tab()?;
    page.prepare(
        "{ const real = HTMLCanvasElement.prototype.getContext; \
           HTMLCanvasElement.prototype.getContext = function (kind, ...more) { \
             return kind === 'webgl2' ? null : real.call(this, kind, ...more); }; 0 }",
    )?;
    page.go(server.address())?;
    page.wait_for(".booth-band.flat .booth-flat path")?;
    let why = page.text(".booth-why")?;
    ensure!(why.contains("WebGL2"), "no reason: {why}");
    page.wait_for("[data-state=\"done\"]")?;
    page.expect_clean()
}

pub fn the_booth_fits_phones_and_sharp_screens(browser: &Browser, server: &Server) -> Result<()> {
    let page = browser.tab()?;
    page.show_on(Screen { width: 360, height: 740, scale: 2.0, dark: false })?;
    page.go(server.address())?;
    page.wait_for(".booth-picture[data-drawn]")?;
    let phone = look(&page)?;
    ensure!(phone.size == (720, 462) && phone.colours > 50, "{phone:?}");
    // The same page on a wide screen: the picture follows.
    page.show_on(Screen { width: 1600, height: 900, scale: 1.0, dark: false })?;
    let wide = "new Promise((tell) => { const look = () => document.querySelector('.booth-picture').width === 1600 \
        ? tell(true) : requestAnimationFrame(look); look(); })";
    page.value(wide)?;
    ensure!(look(&page)?.size == (1600, 371));
    page.expect_clean()
}
