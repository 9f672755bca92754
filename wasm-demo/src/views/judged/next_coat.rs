//! When to lay the next coat.

use leptos::prelude::*;
use mistcoat::judge::{NextCoat, words as said_by};
use mistcoat::units::{Quantity, System};

use crate::draw::next_coat::{Clock, clock};
use crate::figures::said;
use crate::figures::with_signs;
use crate::words::{fill, words};

/// The clock and where its figures come from.
#[component]
pub fn NextCoatBlock(next: NextCoat, system: System) -> impl IntoView {
    let w = words().judge;
    let at = |seconds: Option<f64>, words: &str| {
        seconds.map(|s| (s, fill(words, &[&with_signs(&said_by::clock(s))])))
    };
    let drawn = clock(
        &Clock {
            earliest: at(next.earliest_s, w.earliest),
            latest: at(next.latest_s, w.latest),
            plan: at(next.plan_s, w.plan),
            wait: w.wait.into(),
        },
        336.0,
        "next-coat-wait",
    );
    let sheet = with_signs(&said_by::clock(next.sheet_s));
    let sheet_at = said(Quantity::Temperature, next.sheet_c + 273.15, system);
    let times = next.air_and_thinner_times.zip(next.film_times).map(|(air, film)| {
        fill(w.next_times, &[&sheet, &sheet_at, &format!("{air:.1}"), &format!("{film:.1}")])
    });
    view! {
        <div class="judged-block" data-next-coat="">
            <h3 class="name">{w.next}</h3>
            <svg viewBox="0 0 336 92" role="img" aria-label=w.next_drawn inner_html=drawn></svg>
            <p class="text">{with_signs(&said_by::next_coat(&next))}</p>
            <p class="small">{times} " " {w.next_note}</p>
        </div>
    }
}
