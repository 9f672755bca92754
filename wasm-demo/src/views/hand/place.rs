//! Where the panel stands on the screen, and how large.

use leptos::prelude::*;

use super::{HandDesk, hand_words};
use crate::figures::of_100;
use crate::state::hand::Window;
use crate::words::fill;

/// Room left and right of the panel, and above and below it [px]: wide, narrow.
pub const WIDE: [f64; 4] = [64.0, 116.0, 30.0, 30.0];
pub const NARROW: [f64; 4] = [28.0, 14.0, 44.0, 44.0];
/// A screen too narrow for the panel as it lies.
pub fn narrow() -> bool {
    window().inner_width().ok().and_then(|w| w.as_f64()).is_some_and(|w| w < 768.0)
}

/// How large a panel is drawn: room [px], true size where it is known and fits.
pub fn window_for(size: [f64; 2], room: f64, px_per_mm: Option<f64>) -> Window {
    let small = narrow();
    let pad = if small { NARROW } else { WIDE };
    let turned = small && size[0] > size[1];
    let width = (room - pad[0] - pad[1]).max(120.0);
    let across = if turned { size[1] } else { size[0] };
    // No higher than it is wide, so that it stays on the screen.
    let fits = (width / across).min(if small { f64::MAX } else { 1.1 * width / size[1].max(1e-3) });
    let scale = px_per_mm.map(|p| p * 1e3).filter(|s| *s <= fits).unwrap_or(fits);
    Window { corner: [pad[0], pad[2]], scale, size, turned }
}

/// How the panel's size on the screen is said.
pub fn sized(size: [f64; 2], hand: HandDesk) -> String {
    let w = hand_words();
    let Some(true_size) = hand.px_per_mm.get() else { return w.not_sized.into() };
    let scale = window_for(size, room(), Some(true_size)).scale;
    let share = scale / (true_size * 1e3);
    if share > 0.995 { w.at_true_size.into() } else { fill(w.drawn_smaller, &[&of_100(share)]) }
}

/// Width that the stage has [px].
pub fn room() -> f64 {
    let screen = window().inner_width().ok().and_then(|w| w.as_f64()).unwrap_or(1280.0);
    let page = screen.min(1280.0);
    match screen {
        s if s < 768.0 => page - 32.0,
        s if s < 1180.0 => page - 64.0,
        _ => page - 64.0 - 372.0 - 32.0,
    }
}

/// Largest panel that is drawn at true size [m].
pub fn fitting(size: [f64; 2], px_per_mm: f64) -> [f64; 2] {
    let fits = window_for(size, room(), None).scale;
    let share = (fits / (px_per_mm * 1e3)).min(1.0);
    size.map(|v| (v * share * 100.0).floor().max(1.0) / 100.0)
}
