//! Film pictures on a canvas.

use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::{Clamped, JsCast};

use super::desk::{View, desk};
use crate::draw::film::{self, Ground, Picture, Wanted};
use crate::state::FilmGrid;

/// The default paint's colour; the job has no key for it yet.
const FILM: [u8; 3] = [0x1D, 0x4F, 0xA0];
/// Film that hides the ground where the job names no film wanted [m].
const USUAL_FILM: f64 = 30e-6;

/// How a canvas shows the film.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Show {
    /// As the eye sees it.
    Seen(Ground),
    /// As a map.
    Map,
    /// The map's key.
    Key,
}

/// Film wanted, from the job: of all coats, on a card of one.
pub fn wanted() -> Option<Wanted> {
    let desk = desk();
    let card = desk.view.get() == View::Card;
    let (low, high) = desk.parsed.with(|job| {
        let job = job.as_ref()?;
        if card { job.spec.map(|s| (s.low, s.high)) } else { mistcoat::judge::wanted(job) }
    })?;
    Some(Wanted { low, high })
}

/// Film that hides 63 of 100 of the ground [m]: at the lower end of the film wanted 95 of 100 are hidden.
pub fn hiding(wanted: Option<Wanted>) -> f64 {
    wanted.map_or(USUAL_FILM, |b| b.low) / 3.0
}

/// A canvas of `width` by `height` px; `turned` shows the grid's rows as columns.
#[component]
pub fn FilmCanvas(
    show: Show,
    width: u32,
    height: u32,
    label: Signal<String>,
    #[prop(optional)] class: &'static str,
) -> impl IntoView {
    let desk = desk();
    let node = NodeRef::<html::Canvas>::new();
    let ratio = window().device_pixel_ratio().clamp(1.0, 3.0);
    let size = ((f64::from(width) * ratio).round() as usize, (f64::from(height) * ratio).round() as usize);
    Effect::new(move |_| {
        let Some(canvas) = node.get() else { return };
        let grid = desk.film.get();
        let picture = draw(show, grid.as_ref(), size, ratio);
        put(&canvas, picture.as_ref(), size);
    });
    view! { <canvas node_ref=node class=class width=size.0.to_string() height=size.1.to_string() role="img" aria-label=label></canvas> }
}

fn draw(show: Show, grid: Option<&FilmGrid>, size: (usize, usize), ratio: f64) -> Option<Picture> {
    let wanted = wanted();
    match show {
        Show::Seen(ground) => film::as_seen(grid?, ground, hiding(wanted), FILM, size),
        Show::Map => film::as_map(grid?, wanted, size, ratio),
        Show::Key => film::key(wanted?, size, ratio),
    }
}

fn put(canvas: &web_sys::HtmlCanvasElement, picture: Option<&Picture>, size: (usize, usize)) {
    let context = canvas
        .get_context("2d")
        .ok()
        .flatten()
        .and_then(|c| c.dyn_into::<web_sys::CanvasRenderingContext2d>().ok());
    let Some(context) = context else { return };
    match picture {
        Some(p) => {
            let data = web_sys::ImageData::new_with_u8_clamped_array_and_sh(
                Clamped(&p.rgba),
                p.width as u32,
                p.height as u32,
            );
            if let Ok(data) = data {
                // Refused only for a canvas of size 0, where there is nothing to show.
                let _ = context.put_image_data(&data, 0.0, 0.0);
            }
        }
        None => context.clear_rect(0.0, 0.0, size.0 as f64, size.1 as f64),
    }
}
