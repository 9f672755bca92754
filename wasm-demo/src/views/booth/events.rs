//! What the picture follows beside the desk: theme, size, whether it is seen, loss of its context.

use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{
    HtmlCanvasElement, IntersectionObserver, IntersectionObserverEntry, MutationObserver,
    MutationObserverInit, ResizeObserver,
};

use super::Band;
use super::paint::{Easel, ask, start};
use crate::booth3d::gl::Trouble;

/// Looks again whenever the theme changes, by the page's button or by the system.
pub(super) fn theme(theme: RwSignal<u32>) {
    let again = Closure::<dyn Fn()>::new(move || theme.update(|t| *t = t.wrapping_add(1)));
    let heard: &js_sys::Function = again.as_ref().unchecked_ref();
    let media = window().match_media("(prefers-color-scheme: dark)").ok().flatten();
    if let Some(media) = &media {
        media.set_onchange(Some(heard));
    }
    let observer = MutationObserver::new(heard).ok();
    if let Some((observer, root)) = observer.as_ref().zip(document().document_element()) {
        let wishes = MutationObserverInit::new();
        wishes.set_attributes(true);
        // Refused only for wishes that contradict themselves.
        let _ = observer.observe_with_options(&root, &wishes);
    }
    let held = StoredValue::new_local((again, media, observer));
    on_cleanup(move || {
        held.with_value(|(_, media, observer)| {
            if let Some(media) = media {
                media.set_onchange(None);
            }
            if let Some(observer) = observer {
                observer.disconnect();
            }
        });
    });
}

/// Follows the size of the canvas' frame.
pub(super) fn size(canvas: &HtmlCanvasElement, band: Band) {
    let Some(frame) = canvas.parent_element() else { return };
    let measured = frame.clone();
    let again = Closure::<dyn Fn()>::new(move || {
        band.size.set((f64::from(measured.client_width()), f64::from(measured.client_height())));
    });
    let Ok(observer) = ResizeObserver::new(again.as_ref().unchecked_ref()) else { return };
    observer.observe(&frame);
    let held = StoredValue::new_local((again, observer));
    on_cleanup(move || held.with_value(|(_, observer)| observer.disconnect()));
}

/// Off the screen nothing is drawn; what is wanted by then is drawn when it comes back.
pub(super) fn sight(canvas: &HtmlCanvasElement, easel: &Rc<Easel>) {
    let (seen_canvas, seen_easel) = (canvas.clone(), easel.clone());
    let heard = Closure::<dyn Fn(js_sys::Array)>::new(move |entries: js_sys::Array| {
        let last = entries.iter().last().and_then(|e| e.dyn_into::<IntersectionObserverEntry>().ok());
        let away = last.is_some_and(|e| !e.is_intersecting());
        if !away && seen_easel.away.replace(away) {
            ask(&seen_canvas, &seen_easel);
        } else {
            seen_easel.away.set(away);
        }
    });
    let Ok(observer) = IntersectionObserver::new(heard.as_ref().unchecked_ref()) else { return };
    observer.observe(canvas);
    let held = StoredValue::new_local((heard, observer));
    on_cleanup(move || held.with_value(|(_, observer)| observer.disconnect()));
}

/// A context that is taken away shows the flat booth; one that comes back is filled anew.
pub(super) fn loss(canvas: &HtmlCanvasElement, band: Band, easel: &Rc<Easel>) {
    let lost_easel = easel.clone();
    let lost = Closure::<dyn Fn(web_sys::Event)>::new(move |event: web_sys::Event| {
        // Without this the browser never gives it back.
        event.prevent_default();
        *lost_easel.booth.borrow_mut() = None;
        band.trouble.set(Some(Trouble::Lost));
    });
    let (back_canvas, back_easel) = (canvas.clone(), easel.clone());
    let back = Closure::<dyn Fn(web_sys::Event)>::new(move |_| {
        start(&back_canvas, band, &back_easel);
        // The band is hidden until now: it is measured again by its observer, drawn again by this.
        ask(&back_canvas, &back_easel);
    });
    for (name, heard) in [("webglcontextlost", &lost), ("webglcontextrestored", &back)] {
        let _ = canvas.add_event_listener_with_callback(name, heard.as_ref().unchecked_ref());
    }
    let held = StoredValue::new_local((canvas.clone(), lost, back));
    on_cleanup(move || {
        held.with_value(|(canvas, lost, back)| {
            for (name, heard) in [("webglcontextlost", lost), ("webglcontextrestored", back)] {
                let _ = canvas.remove_event_listener_with_callback(name, heard.as_ref().unchecked_ref());
            }
        });
    });
}
