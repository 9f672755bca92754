//! One tab: what it shows, and what it asked for and complained about.

use std::sync::{Arc, Mutex, PoisonError};

use anyhow::{Context, Result, bail, ensure};
use headless_chrome::Tab;
use headless_chrome::protocol::cdp::types::Event;
use headless_chrome::protocol::cdp::{Emulation, HeapProfiler, Log, Memory, Network, Page as Cdp, Runtime};
use headless_chrome::types::PrintToPdfOptions;
use serde_json::Value;

use super::{LIMIT, QUIET};

/// How a page is shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screen {
    /// Width [CSS px].
    pub width: u32,
    /// Height [CSS px].
    pub height: u32,
    /// Device pixels per CSS px.
    pub scale: f64,
    /// Whether the visitor prefers dark.
    pub dark: bool,
}

#[derive(Debug, Default)]
struct Seen {
    requests: Vec<String>,
    complaints: Vec<String>,
}

/// One tab of the browser; it is closed when dropped.
pub struct Page {
    pub(super) tab: Arc<Tab>,
    seen: Arc<Mutex<Seen>>,
}

impl Page {
    pub(super) fn new(tab: Arc<Tab>) -> Result<Self> {
        let seen = Arc::new(Mutex::new(Seen::default()));
        tab.call_method(Log::Enable(None))?;
        tab.call_method(Runtime::Enable(None))?;
        tab.call_method(Network::Enable {
            max_total_buffer_size: None,
            max_resource_buffer_size: None,
            max_post_data_size: None,
            report_direct_socket_traffic: None,
            enable_durable_messages: None,
        })?;
        let notes = Arc::clone(&seen);
        tab.add_event_listener(Arc::new(move |event: &Event| {
            notes.lock().unwrap_or_else(PoisonError::into_inner).take_in(event);
        }))?;
        Ok(Self { tab, seen })
    }

    /// Goes to `address` and waits until it is loaded.
    ///
    /// # Errors
    /// When the page cannot be loaded.
    pub fn go(&self, address: &str) -> Result<()> {
        self.tab.set_default_timeout(LIMIT);
        self.tab
            .navigate_to(address)?
            .wait_until_navigated()
            .with_context(|| format!("{address}: not loaded"))?;
        Ok(())
    }

    /// Runs `script` in every document that this tab opens from now on, before its own scripts.
    ///
    /// # Errors
    /// When the tab is gone.
    pub fn prepare(&self, script: &str) -> Result<()> {
        self.tab.call_method(Cdp::AddScriptToEvaluateOnNewDocument {
            source: script.into(),
            world_name: None,
            include_command_line_api: None,
            run_immediately: None,
        })?;
        Ok(())
    }

    /// Shows the page on another screen.
    ///
    /// # Errors
    /// When the tab is gone.
    pub fn show_on(&self, screen: Screen) -> Result<()> {
        self.tab.call_method(Emulation::SetDeviceMetricsOverride {
            width: screen.width,
            height: screen.height,
            device_scale_factor: screen.scale,
            mobile: screen.width < 500,
            scale: None,
            screen_width: None,
            screen_height: None,
            position_x: None,
            position_y: None,
            dont_set_visible_size: None,
            screen_orientation: None,
            viewport: None,
            display_feature: None,
            device_posture: None,
        })?;
        let scheme = if screen.dark { "dark" } else { "light" };
        self.tab.call_method(Emulation::SetEmulatedMedia {
            media: None,
            features: Some(vec![Emulation::MediaFeature {
                name: "prefers-color-scheme".into(),
                value: scheme.into(),
            }]),
        })?;
        Ok(())
    }

    /// The visitor wants as little motion as may be.
    ///
    /// # Errors
    /// When the tab is gone.
    pub fn hold_still(&self) -> Result<()> {
        let still = Emulation::MediaFeature { name: "prefers-reduced-motion".into(), value: "reduce".into() };
        self.tab.call_method(Emulation::SetEmulatedMedia { media: None, features: Some(vec![still]) })?;
        Ok(())
    }

    /// The value of a script expression; a promise is awaited.
    ///
    /// # Errors
    /// When the expression throws or has no value that JSON can carry.
    pub fn value(&self, expression: &str) -> Result<Value> {
        let answer = self.tab.call_method(Runtime::Evaluate {
            expression: expression.into(),
            return_by_value: Some(true),
            await_promise: Some(true),
            object_group: None,
            include_command_line_api: None,
            silent: None,
            context_id: None,
            generate_preview: None,
            user_gesture: Some(true),
            throw_on_side_effect: None,
            timeout: None,
            disable_breaks: None,
            repl_mode: None,
            allow_unsafe_eval_blocked_by_csp: None,
            unique_context_id: None,
            serialization_options: None,
        })?;
        if let Some(details) = answer.exception_details {
            let text = details.exception.and_then(|e| e.description).unwrap_or(details.text);
            bail!("{expression}: {text}");
        }
        Ok(answer.result.value.unwrap_or(Value::Null))
    }

    /// Waits until an element matches `selector`.
    ///
    /// # Errors
    /// When nothing on the page changes for [`QUIET`], or none does within [`LIMIT`]; the error holds the console's complaints.
    pub fn wait_for(&self, selector: &str) -> Result<()> {
        let quoted = Value::from(selector);
        let (quiet, limit) = (QUIET.as_millis(), LIMIT.as_millis());
        let found = self.value(&format!(
            "new Promise((tell) => {{
               const began = performance.now();
               let stirred = began;
               const end = (found) => {{ watch.disconnect(); clearInterval(guard); tell(found); }};
               const look = () => document.querySelector({quoted}) && end(true);
               const watch = new MutationObserver(() => {{ stirred = performance.now(); look(); }});
               const guard = setInterval(() => {{
                 const now = performance.now();
                 if (now - stirred > {quiet} || now - began > {limit}) end(false);
               }}, 1000);
               watch.observe(document, {{ subtree: true, childList: true, attributes: true, characterData: true }});
               look();
             }})"
        ))?;
        ensure!(
            found == Value::Bool(true),
            "no {selector}: nothing stirred for {} s; console: {:?}",
            QUIET.as_secs(),
            self.complaints()
        );
        Ok(())
    }

    /// The text of the first element that matches `selector`, as shown.
    ///
    /// # Errors
    /// When there is no such element.
    pub fn text(&self, selector: &str) -> Result<String> {
        let value = self.value(&format!("document.querySelector({}).innerText", Value::from(selector)))?;
        value.as_str().map(String::from).with_context(|| format!("{selector}: has no text"))
    }

    /// Presses a key, by its name ("ArrowUp", "Enter", "a").
    ///
    /// # Errors
    /// When there is no such key.
    pub fn press(&self, key: &str) -> Result<()> {
        self.tab.press_key(key)?;
        Ok(())
    }

    /// What its scripts hold after what is unused was thrown away: the script heap [bytes], and nodes of the document.
    ///
    /// # Errors
    /// When the tab is gone.
    pub fn held(&self) -> Result<(f64, u64)> {
        self.tab.call_method(HeapProfiler::CollectGarbage(None))?;
        let heap = self.tab.call_method(Runtime::GetHeapUsage(None))?.used_size;
        let nodes = self.tab.call_method(Memory::GetDOMCounters(None))?.nodes;
        Ok((heap, nodes.into()))
    }

    /// Sheets of paper that the page takes when it is printed.
    ///
    /// # Errors
    /// When the tab is gone.
    pub fn sheets_printed(&self) -> Result<usize> {
        let options = PrintToPdfOptions { prefer_css_page_size: Some(true), ..PrintToPdfOptions::default() };
        let file = self.tab.print_to_pdf(Some(options))?;
        // Each page is an object of the type "Page"; their list is of the type "Pages".
        let page = b"/Type /Page";
        Ok(file.windows(page.len() + 1).filter(|w| w.starts_with(page) && w[page.len()] != b's').count())
    }

    /// A picture of the screen (PNG), or of the whole page.
    ///
    /// # Errors
    /// When the tab is gone.
    pub fn picture(&self, whole: bool) -> Result<Vec<u8>> {
        // Two frames, so that what was laid out is also painted.
        self.value(
            "new Promise((tell) => requestAnimationFrame(() => requestAnimationFrame(() => tell(true))))",
        )?;
        if whole {
            let size = |side| -> Result<u32> {
                let value = self.value(&format!("document.documentElement.scroll{side}"))?;
                value.as_u64().and_then(|n| u32::try_from(n).ok()).context("the page has no size")
            };
            let scale = self.value("devicePixelRatio")?.as_f64().unwrap_or(1.0);
            let dark = self.value("matchMedia('(prefers-color-scheme: dark)').matches")? == Value::Bool(true);
            self.show_on(Screen { width: size("Width")?, height: size("Height")?, scale, dark })?;
            self.value(
                "new Promise((tell) => requestAnimationFrame(() => requestAnimationFrame(() => tell(true))))",
            )?;
        }
        self.tab.capture_screenshot(Cdp::CaptureScreenshotFormatOption::Png, None, None, true)
    }

    /// What the page asked for so far.
    #[must_use]
    pub fn requests(&self) -> Vec<String> {
        self.seen.lock().unwrap_or_else(PoisonError::into_inner).requests.clone()
    }

    /// The errors on the console so far.
    #[must_use]
    pub fn complaints(&self) -> Vec<String> {
        self.seen.lock().unwrap_or_else(PoisonError::into_inner).complaints.clone()
    }

    /// Fails if the console holds an error, or the page asked for anything that is not on this machine.
    ///
    /// # Errors
    /// With the errors or the addresses.
    pub fn expect_clean(&self) -> Result<()> {
        // An answer of the tab comes after the events before it.
        self.value("0")?;
        let complaints = self.complaints();
        ensure!(complaints.is_empty(), "errors on the console: {complaints:#?}");
        let away: Vec<String> = self.requests().into_iter().filter(|address| !is_here(address)).collect();
        ensure!(away.is_empty(), "requests that leave this machine: {away:#?}");
        Ok(())
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        let _ = self.tab.close_target();
    }
}

fn is_here(address: &str) -> bool {
    ["http://127.0.0.1:", "data:", "blob:", "file:", "about:"].iter().any(|start| address.starts_with(start))
}

impl Seen {
    fn take_in(&mut self, event: &Event) {
        match event {
            Event::NetworkRequestWillBeSent(event) => self.requests.push(event.params.request.url.clone()),
            Event::LogEntryAdded(event) if event.params.entry.level == Log::LogEntryLevel::Error => {
                let entry = &event.params.entry;
                self.complaints.push(format!("{} {}", entry.text, entry.url.as_deref().unwrap_or_default()));
            }
            Event::RuntimeExceptionThrown(event) => {
                let details = &event.params.exception_details;
                let thrown =
                    details.exception.as_ref().and_then(|e| e.description.clone()).unwrap_or_default();
                self.complaints.push(format!("{} {thrown}", details.text));
            }
            Event::RuntimeConsoleAPICalled(event)
                if matches!(
                    event.params.Type,
                    Runtime::ConsoleAPICalledEventTypeOption::Error
                        | Runtime::ConsoleAPICalledEventTypeOption::Assert
                ) =>
            {
                let said = event.params.args.iter().map(|arg| match (&arg.value, &arg.description) {
                    (Some(Value::String(text)), _) | (None, Some(text)) => text.clone(),
                    (value, _) => value.clone().unwrap_or_default().to_string(),
                });
                self.complaints.push(said.collect::<Vec<_>>().join(" "));
            }
            _ => {}
        }
    }
}
