//! The job as a file: saved, and opened again.

use leptos::ev;
use leptos::prelude::*;
use mistcoat::job::Job;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;

use super::super::desk::{Desk, Refused, desk};
use crate::words::words;

/// Longest file that is read [bytes]: a job with a recorded track.
const LONGEST: f64 = 2_097_152.0;

/// Text as an address that can be shown and saved.
pub fn address(kind: &str, text: &str) -> String {
    let packed: String = js_sys::encode_uri_component(text).into();
    format!("data:{kind};charset=utf-8,{packed}")
}

/// Takes a file's text as the job; undo brings the old one back.
fn take(desk: Desk, name: &str, text: String) {
    match Job::from_toml(&text) {
        Ok(_) => {
            desk.put("file", text);
            desk.refused.set(None);
        }
        Err(error) => {
            let message = format!("{name}: {error}");
            desk.refused.set(Some(Refused { key: "file".into(), message }));
        }
    }
}

async fn read(desk: Desk, file: web_sys::File) {
    let name = file.name();
    let refuse = |message: &str| {
        desk.refused.set(Some(Refused { key: "file".into(), message: format!("{name}: {message}") }));
    };
    if file.size() > LONGEST {
        refuse(words().sheet.too_long);
        return;
    }
    match JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string()) {
        Some(text) => take(desk, &name, text),
        None => refuse(words().sheet.unreadable),
    }
}

/// Save and open.
#[component]
pub fn JobFile() -> impl IntoView {
    let desk = desk();
    let w = words().sheet;
    let chosen = move |event: ev::Event| {
        let Some(input) = event.target().and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok()) else {
            return;
        };
        if let Some(file) = input.files().and_then(|files| files.get(0)) {
            leptos::task::spawn_local(read(desk, file));
        }
        // The same file may be chosen again.
        input.set_value("");
    };
    view! {
        <a class="plain-box" data-do="save-job" download=w.job_name href=move || desk.job.with(|job| address("application/toml", job))>{w.save}</a>
        <label class="plain-box open-job">
            {w.open}
            <input type="file" accept=".toml,text/plain,application/toml" class="unseen" on:change=chosen />
        </label>
        <div class="file-problem"><super::super::fields::Complaint key="file" keys=&[] /></div>
    }
}
