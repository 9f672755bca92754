//! What can be taken away: figures as CSV, the drawing as SVG, a picture as PNG.

use leptos::prelude::*;
use mistcoat::sweep::{picture, to_csv};
use wasm_bindgen::prelude::*;
use web_sys::{CanvasRenderingContext2d, HtmlAnchorElement, HtmlCanvasElement, HtmlImageElement};

use super::sweep_desk;
use crate::words::words;

/// A picture's pixels for one of the drawing.
const FINE: f64 = 2.0;

/// The buttons.
#[component]
pub fn Save() -> impl IntoView {
    let sweep = sweep_desk();
    let w = words().sweep;
    let failed = RwSignal::new(false);
    let nothing = move || sweep.answer.with(|a| a.as_ref().is_none_or(|a| a.points.is_empty()));
    let csv = move |_| {
        let (asked, answer) = (sweep.asked.get_untracked(), sweep.answer.get_untracked());
        if let (Some(asked), Some(answer)) = (asked, answer) {
            hand_over("sweep.csv", &data("text/csv", &to_csv(&asked.plan, &answer)));
        }
    };
    let drawing = move || sweep.answer.get_untracked().map(|answer| picture(&answer));
    let svg = move |_| {
        if let Some(text) = drawing() {
            hand_over("sweep.svg", &data("image/svg+xml", &text));
        }
    };
    let png = move |_| {
        if let Some(text) = drawing() {
            failed.set(paint(&data("image/svg+xml", &text), failed).is_err());
        }
    };
    view! {
        <div class="sweep-save">
            <button type="button" class="link" data-save="csv" disabled=nothing on:click=csv>{w.csv}</button>
            <button type="button" class="link" data-save="svg" disabled=nothing on:click=svg>{w.svg}</button>
            <button type="button" class="link" data-save="png" disabled=nothing on:click=png>{w.png}</button>
            {move || failed.get().then(|| view! { <span class="small" role="status">{w.no_png}</span> })}
        </div>
    }
}

fn data(kind: &str, text: &str) -> String {
    format!("data:{kind};charset=utf-8,{}", String::from(js_sys::encode_uri_component(text)))
}

/// Lets the browser save what an address holds.
fn hand_over(name: &str, address: &str) {
    let link = document().create_element("a").ok().and_then(|a| a.dyn_into::<HtmlAnchorElement>().ok());
    if let Some(link) = link {
        link.set_href(address);
        link.set_download(name);
        link.click();
    }
}

/// Draws an SVG on a canvas when it has loaded, and hands the picture over.
fn paint(address: &str, failed: RwSignal<bool>) -> Result<(), JsValue> {
    let image = HtmlImageElement::new()?;
    let loaded = image.clone();
    let draw = move || -> Result<String, JsValue> {
        let canvas: HtmlCanvasElement = document().create_element("canvas")?.unchecked_into();
        let (width, height) = (f64::from(loaded.natural_width()), f64::from(loaded.natural_height()));
        canvas.set_width((width * FINE) as u32);
        canvas.set_height((height * FINE) as u32);
        let context = canvas.get_context("2d")?.ok_or("no canvas")?;
        let context: CanvasRenderingContext2d = context.unchecked_into();
        context.scale(FINE, FINE)?;
        context.draw_image_with_html_image_element(&loaded, 0.0, 0.0)?;
        canvas.to_data_url()
    };
    let done = Closure::once_into_js(move || match draw() {
        Ok(address) => hand_over("sweep.png", &address),
        Err(_) => failed.set(true),
    });
    image.set_onload(Some(done.unchecked_ref()));
    image.set_src(address);
    Ok(())
}
