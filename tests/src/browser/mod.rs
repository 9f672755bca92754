//! A real browser for tests: one process, one tab a test.
//!
//! A test waits for states of the page (`data-state="done"`), never for a time. A page on which nothing stirs for
//! [`QUIET`] hangs; one that works may take its time, up to [`LIMIT`], so that a loaded machine fails nothing. The
//! browser can reach this machine only, so a request to anywhere else is an error on the console.

mod click;
mod page;
pub mod processes;
mod runner;

use std::ffi::OsStr;
use std::path::PathBuf;
use std::time::Duration;

use anyhow::{Context, Result};
use headless_chrome::LaunchOptions;

pub use page::{Page, Screen};
pub use runner::{Test, run};

use crate::chromium;

/// Views of the page by their words, in its menu's order but for Sweep, which comes last: it goes on by itself.
pub const VIEWS: [&str; 8] = ["card", "part", "side", "hand", "air", "paint", "sheet", "sweep"];
/// Gives the page `spray(kind, count, ms, let_go)`: passes over By hand's stage by synthetic pointer events.
pub const SPRAY: &str = concat!(include_str!("spray.js"), "0");
/// A page that is waited for and shows no change for so long hangs.
pub const QUIET: Duration = Duration::from_secs(90);
/// The longest wait.
pub const LIMIT: Duration = Duration::from_secs(900);

const FLAGS: [&str; 8] = [
    "--disable-dev-shm-usage",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
    "--disable-component-update",
    "--no-first-run",
    "--disable-gpu",
    "--hide-scrollbars",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
];

/// A running browser; it is ended when dropped.
pub struct Browser {
    inner: headless_chrome::Browser,
}

impl Browser {
    /// Starts the browser of this machine.
    ///
    /// # Errors
    /// When there is none, with the command that installs it, or when it does not start.
    pub fn start() -> Result<Self> {
        let path = chromium::find()
            .with_context(|| format!("no Chromium on this machine; install it: {}", chromium::INSTALL))?;
        let options = LaunchOptions {
            // CI runs as root, where the sandbox cannot start.
            sandbox: false,
            path: Some(path),
            window_size: Some((1280, 800)),
            idle_browser_timeout: LIMIT + Duration::from_secs(10),
            args: FLAGS.iter().map(OsStr::new).collect(),
            ..LaunchOptions::default()
        };
        Ok(Self { inner: headless_chrome::Browser::new(options).context("the browser did not start")? })
    }

    /// Memory of all its processes, what they share counted once [bytes]; 0 where the system does not tell.
    #[must_use]
    pub fn memory(&self) -> u64 {
        let own = self.inner.get_process_id();
        let below = own.into_iter().flat_map(processes::below);
        // One that ends meanwhile counts no more.
        own.into_iter().chain(below).filter_map(processes::memory).sum()
    }

    /// Opens an empty tab.
    ///
    /// # Errors
    /// When the browser is gone.
    pub fn tab(&self) -> Result<Page> {
        Page::new(self.inner.new_tab()?)
    }

    /// Opens `address` in a tab and waits until it is loaded.
    ///
    /// # Errors
    /// When the page cannot be loaded.
    pub fn open(&self, address: &str) -> Result<Page> {
        let page = self.tab()?;
        page.go(address)?;
        Ok(page)
    }
}

/// The folder of the built page.
#[must_use]
pub fn site() -> PathBuf {
    mistcoat_page::host::build::default_folder()
}
