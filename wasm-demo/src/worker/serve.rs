//! Joins the worker's desk to the browser.

use std::cell::RefCell;

use js_sys::{Array, Uint8Array};
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

use super::{Desk, Flight};
use crate::protocol::{FromWorker, ToWorker};
use crate::task::LongTask;

/// Listens to the page and answers it, for as long as the worker lives.
///
/// # Errors
/// When this is no worker.
pub fn serve<F: Flight + 'static, T: LongTask + 'static>() -> Result<(), JsValue> {
    let scope: DedicatedWorkerGlobalScope = js_sys::global().dyn_into()?;
    let last_words = scope.clone();
    std::panic::set_hook(Box::new(move |panic| {
        post(&last_words, &FromWorker::Panicked { message: panic.to_string() });
    }));
    let performance = scope.performance().ok_or("this browser gives a worker no clock")?;
    let desk = RefCell::new(Desk::<F, T>::default());
    let answering = scope.clone();
    let listen = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let bytes = event.data().dyn_into::<Uint8Array>().map(|data| data.to_vec()).unwrap_or_default();
        match ToWorker::decode(&bytes) {
            Ok(message) => {
                desk.borrow_mut().take(message, || performance.now(), |answer| post(&answering, &answer))
            }
            Err(error) => post(&answering, &FromWorker::Panicked { message: error.to_string() }),
        }
    });
    scope.set_onmessage(Some(listen.as_ref().unchecked_ref()));
    listen.forget();
    post(&scope, &FromWorker::Ready { version: env!("CARGO_PKG_VERSION").into() });
    Ok(())
}

fn post(scope: &DedicatedWorkerGlobalScope, message: &FromWorker) {
    let bytes = Uint8Array::from(message.encode().as_slice());
    // Handing the buffer over fails only for a worker that is being ended, whom nobody hears.
    let _ = scope.post_message_with_transfer(&bytes, &Array::of1(&bytes.buffer()));
}
