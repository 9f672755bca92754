//! The spots over the film map.

use leptos::prelude::*;

use super::judged;
use crate::draw::spots::spots;
use crate::views::desk::desk;
use crate::words::words;

/// Laid over a map of the film shown, `width` by `height` px.
#[component]
pub fn SpotMarks(width: u32, height: u32) -> impl IntoView {
    let desk = desk();
    let judged = judged(desk);
    let drawn = move || {
        let size = desk.film.with(|f| f.as_ref().map(|f| (f.width(), f.height())))?;
        let face = desk.member.get();
        judged.with(|j| {
            let film = j.as_ref()?.film.as_ref()?;
            // Only what answers the job in hand.
            desk.fresh()?;
            (!film.spots.is_empty())
                .then(|| spots(&film.spots, face, size, (f64::from(width), f64::from(height))))
        })
    };
    view! {
        <svg class="spot-marks" viewBox=format!("0 0 {width} {height}") preserveAspectRatio="none" role="img" aria-label=words().judge.marks
            inner_html=move || drawn().unwrap_or_default()></svg>
    }
}
