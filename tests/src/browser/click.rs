//! Clicks on what moves, and on what does not last.

use anyhow::{Context, Result, bail};
use headless_chrome::browser::tab::point::Point;
use serde_json::Value;

use super::{Page, QUIET};

/// Times that a click is aimed at what moves; the docs of [`Page::click`] name it.
const AIMS: usize = 5;

impl Page {
    /// Clicks the middle of the first element that matches `selector`, as soon as it stands still and nothing covers it. What the page
    /// draws above it may move it between the look and the click: then it is aimed at anew.
    ///
    /// # Errors
    /// When there is no such element, or none that stands still within [`QUIET`] or is hit in five tries.
    pub fn click(&self, selector: &str) -> Result<()> {
        self.wait_for(selector)?;
        let (quoted, quiet) = (Value::from(selector), QUIET.as_millis());
        for _ in 0..AIMS {
            let place = self.value(&format!(
                "new Promise((tell) => {{
                   const began = performance.now();
                   let before = '';
                   const look = () => {{
                     const element = document.querySelector({quoted});
                     element?.scrollIntoView({{ block: 'center', inline: 'center', behavior: 'instant' }});
                     const box = element?.getBoundingClientRect();
                     const at = box && [box.x + box.width / 2, box.y + box.height / 2];
                     const there = at && document.elementFromPoint(at[0], at[1]);
                     if (there && element.contains(there) && before === String(at)) {{
                       window.hit = false;
                       addEventListener('click', (event) => {{ window.hit = element.contains(event.target); }}, {{ capture: true, once: true }});
                       return tell(at);
                     }}
                     before = String(at);
                     if (performance.now() - began > {quiet}) return tell(null);
                     requestAnimationFrame(look);
                   }};
                   look();
                 }})"
            ))?;
            let at =
                |axis: usize| place[axis].as_f64().with_context(|| format!("{selector}: never stands still"));
            self.tab.click_point(Point { x: at(0)?, y: at(1)? })?;
            // A click that leads elsewhere takes the word of its hit with it.
            if self.value("window.hit ?? true")? == Value::Bool(true) {
                return Ok(());
            }
        }
        bail!("{selector}: moves away from every click")
    }

    /// Clicks what matches `selector` in the very moment in which something matches `seen`.
    ///
    /// # Errors
    /// When the tab is gone. What never comes is told by the wait that follows.
    pub fn click_when(&self, seen: &str, selector: &str) -> Result<()> {
        let (seen, selector) = (Value::from(seen), Value::from(selector));
        self.value(&format!(
            "window.clickWhen = new MutationObserver(() => {{
               if (!document.querySelector({seen})) return;
               window.clickWhen.disconnect();
               document.querySelector({selector}).click();
             }});
             window.clickWhen.observe(document, {{ subtree: true, childList: true, attributes: true }}); 0"
        ))?;
        Ok(())
    }
}
