//! The address holds the job: what stands after "#" reopens it.

use leptos::prelude::*;
use mistcoat::job::{Job, link};
use wasm_bindgen::JsValue;

use super::desk::Desk;

/// What the job follows in the address.
const MARK: &str = "#job=";

/// The job of the address, when there is one that can be read; else why not, in words.
pub fn of_address() -> Option<Result<String, String>> {
    let address = document().url().ok()?;
    let packed = address.split_once(MARK)?.1.to_string();
    let text = link::decode(&packed).map_err(|error| error.to_string());
    Some(text.and_then(|text| match Job::from_toml(&text) {
        Ok(_) => Ok(text),
        Err(error) => Err(error.to_string()),
    }))
}

/// The link to a job.
pub fn to(text: &str) -> Option<String> {
    link::encode(text).ok().map(|packed| format!("{MARK}{packed}"))
}

/// Keeps the address in step with the job.
pub fn follow(desk: Desk) {
    Effect::new(move |before: Option<String>| {
        let text = desk.job.get();
        if before.is_some_and(|b| b != text)
            && let (Some(link), Ok(history)) = (to(&text), window().history())
        {
            // Refused when the address changes too often; the next change puts it right.
            let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&link));
        }
        text
    });
}
