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

/// What a view last showed in a place: the figure and its unit.
pub type Last = StoredValue<Option<(f64, String)>>;

/// The one number of a sentence. It counts from what the place last showed, where that was in the same unit and the change is worth
/// it; the first one, a small change and every one with reduced motion stand at once. What reads the page aloud waits until it stands.
#[component]
pub fn Counted(
    /// The figure as it is said in the end.
    text: String,
    /// Its unit.
    unit: String,
    /// Likely range of it, in the same unit.
    #[prop(optional)]
    range: f64,
    /// What the place last showed.
    last: Last,
) -> impl IntoView {
    let to = text.parse::<f64>().ok();
    let before = last.get_value().filter(|(_, before)| *before == unit).map(|(value, _)| value);
    last.set_value(to.map(|to| (to, unit)));
    let way = before.zip(to).filter(|(from, to)| (to - from).abs() > WORTH * range && from != to && !still());
    let digits = text.split_once('.').map_or(0, |(_, digits)| digits.len());
    let shown = RwSignal::new(way.map(|(from, _)| from));
    if let Some(way) = way {
        step(shown, way, now());
    }
    view! {
        <b class="number" aria-busy=move || shown.with(Option::is_some).then_some("true")>
            {move || shown.get().map_or_else(|| text.clone(), |value| format!("{value:.digits$}"))}
        </b>
    }
}

/// One frame of the way.
fn step(shown: RwSignal<Option<f64>>, way: (f64, f64), began: f64) {
    request_animation_frame(move || {
        let share = (now() - began) / SECONDS;
        let value = (share < 1.0).then(|| eased(way.0, way.1, share));
        // The figure may be gone.
        if shown.try_set(value).is_none() && value.is_some() {
            step(shown, way, began);
        }
    });
}
