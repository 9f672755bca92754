//! The gun: its geometry, how the user has set it, and what then flows through it.

mod spec;

pub use spec::{Class, Feed, GunSetting, Kit};
