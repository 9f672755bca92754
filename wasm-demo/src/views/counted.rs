//! Figures that count up to their new value.

use leptos::prelude::*;

/// How long a figure counts [s].
const SECONDS: f64 = 0.25;
/// A change below this share of the figure's own range is no change to look at.
const WORTH: f64 = 0.1;

/// Whether the visitor asks for no motion.
pub fn still() -> bool {
    window().match_media("(prefers-reduced-motion: reduce)").ok().flatten().is_some_and(|m| m.matches())
}

fn now() -> f64 {
    window().performance().map_or(0.0, |p| 1e-3 * p.now())
}

/// Where a figure is after a share 0..=1 of its time: fast at first, then slower.
fn eased(from: f64, to: f64, share: f64) -> f64 {
    let left = 1.0 - share.clamp(0.0, 1.0);
    to - (to - from) * left * left * left
}

/// Follows a value with its range: the first one, a small change and every one with reduced motion are taken at once.
pub fn counted(target: impl Fn() -> Option<(f64, f64)> + Send + Sync + 'static) -> Signal<Option<f64>> {
    let shown = RwSignal::new(None::<f64>);
    let turn = StoredValue::new(0_u32);
    Effect::new(move |_| {
        let to = target();
        turn.update_value(|t| *t = t.wrapping_add(1));
        match (shown.get_untracked(), to) {
            (Some(from), Some((to, range))) if (to - from).abs() > WORTH * range && !still() => {
                step(shown, turn, turn.get_value(), (from, to), now());
            }
            (_, to) => shown.set(to.map(|(value, _)| value)),
        }
    });
    shown.into()
}

/// One frame of the way; another value ends it.
fn step(shown: RwSignal<Option<f64>>, turn: StoredValue<u32>, own: u32, way: (f64, f64), began: f64) {
    request_animation_frame(move || {
        // The view may be gone, or a newer value under way.
        if turn.try_get_value() != Some(own) {
            return;
        }
        let share = (now() - began) / SECONDS;
        shown.set(Some(eased(way.0, way.1, share)));
        if share < 1.0 {
            step(shown, turn, own, way, began);
        }
    });
}
