//! The mistcoat page.
//!
//! One wasm serves the page and its worker: the page parses, checks and draws, the worker flies the droplets.
//! What needs no browser (the protocol between the two) is compiled and tested natively as well.

pub mod draw;
pub mod figures;
#[cfg(not(target_arch = "wasm32"))]
pub mod host;
pub mod protocol;
pub mod queue;
pub mod state;
#[cfg(target_arch = "wasm32")]
pub mod views;
pub mod words;
pub mod worker;

#[cfg(target_arch = "wasm32")]
mod start {
    use leptos::prelude::*;
    use wasm_bindgen::prelude::*;

    /// Runs when the wasm is ready, in the page and in the worker alike.
    #[wasm_bindgen(start)]
    pub fn start() {
        if web_sys::window().is_some() {
            mount_to_body(crate::views::App);
        }
    }
}
