//! What the checks of mistcoat share.

#[cfg(feature = "browser")]
pub mod browser;
pub mod chromium;
pub mod fields;
