//! The mistcoat page.
//!
//! One wasm serves the page and its worker: the page parses, checks and draws, the worker flies the droplets.
//! What needs no browser (the protocol between the two) is compiled and tested natively as well.

pub mod booth3d;
pub mod draw;
pub mod figures;
#[cfg(not(target_arch = "wasm32"))]
pub mod host;
pub mod pool;
pub mod protocol;
pub mod queue;
pub mod state;
pub mod task;
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
        if let Some(document) = web_sys::window().and_then(|window| window.document()) {
            std::panic::set_hook(Box::new(move |panic| say(&document, &panic.to_string())));
            mount_to_body(crate::views::App);
        } else if let Err(error) = crate::worker::serve::<crate::worker::Flying, crate::task::Running>() {
            web_sys::console::error_1(&error);
        }
    }

    /// Says in the page that it failed; after a panic nothing of it answers any more.
    fn say(document: &web_sys::Document, message: &str) {
        web_sys::console::error_1(&message.into());
        let notice = document.create_element("p").ok().zip(document.body());
        if let Some((notice, body)) = notice {
            notice.set_class_name("page-failed");
            let _ = notice.set_attribute("role", "alert");
            notice.set_text_content(Some(&crate::words::fill(crate::words::words().page_failed, &[message])));
            let _ = body.prepend_with_node_1(&notice);
        }
    }
}
