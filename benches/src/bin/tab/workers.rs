//! The page's workers, driven without the page's views.

use anyhow::{Context, Result};
use mistcoat_page::protocol::Work;
use mistcoat_tests::browser::Page;

use super::core_time;

const SCRIPT: &str = include_str!("workers.js");

/// Some workers of one page, ended when dropped.
pub struct Workers<'a> {
    page: &'a Page,
}

/// What a stretch of work took.
#[derive(Debug, Clone, Copy)]
pub struct Took {
    /// By the clock [s].
    pub wall: f64,
    /// On the cores, all workers [s]; none where the system does not tell.
    pub core: Option<f64>,
    /// Work done by then, all workers.
    pub done: f64,
}

impl<'a> Workers<'a> {
    /// Starts so many.
    pub fn open(page: &'a Page, count: usize) -> Result<Self> {
        page.value(SCRIPT)?;
        page.value(&format!("tab.open({count})"))?;
        Ok(Self { page })
    }

    /// Hands out works, one to each worker until none is left; nothing is done yet but to begin.
    pub fn start(&self, works: &[Work]) -> Result<()> {
        let list = serde_json::to_string(works)?;
        self.page.value(&format!("tab.start({list})")).map(drop)
    }

    /// Goes on until each worker has done so much of what it has in hand, or to the end.
    pub fn until(&self, done: Option<u64>) -> Result<Took> {
        let before = core_time::of_workers();
        let stop = done.map(|done| done.to_string()).unwrap_or_default();
        let told = self.page.value(&format!("tab.until({stop})"))?;
        let numbers: Vec<f64> =
            told.as_array().context("times")?.iter().filter_map(serde_json::Value::as_f64).collect();
        let core = before.zip(core_time::of_workers()).map(|(from, to)| to - from);
        let (milliseconds, done) = numbers.split_first().context("a time")?;
        Ok(Took { wall: milliseconds * 1e-3, core, done: done.iter().sum() })
    }
}

impl Drop for Workers<'_> {
    fn drop(&mut self) {
        let _ = self.page.value("tab.close()");
    }
}

impl Took {
    /// Core seconds; the clock's where the system does not tell them.
    pub fn seconds(&self) -> f64 {
        self.core.unwrap_or(self.wall)
    }
}
