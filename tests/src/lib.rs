//! What the checks of mistcoat share.

pub mod anchors;
pub mod api;
#[cfg(feature = "browser")]
pub mod browser;
pub mod chromium;
pub mod edged;
pub mod extremes;
pub mod fields;
pub mod fuzzed;
pub mod golden;
pub mod names_table;
pub mod patterns;
pub mod random_jobs;
pub mod scenes;
pub mod search_check;
pub mod sensitivity;
pub mod table;
pub mod validation_page;
