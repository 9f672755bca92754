//! Words beside the picture that turn it.

use leptos::prelude::*;

use super::{Band, Look, hand};
use crate::booth3d::scene::Named;
use crate::words::words;

/// The row of words.
#[component]
pub fn Controls(band: Band) -> impl IntoView {
    let w = words().booth;
    let look = band.look;
    let view = move |named: Named, name: &'static str| {
        let chosen = move || look.with(|l| l.named == named && l.turned.is_none()).to_string();
        view! {
            <button type="button" aria-pressed=chosen on:click=move |_| look.set(Look { named, ..Look::FIRST })>{name}</button>
        }
    };
    let turn = move |yaw: f64, name: &'static str| {
        view! { <button type="button" aria-label=format!("{} {}", w.turn, name.to_lowercase()) on:click=move |_| hand::turn(band, yaw, 0.0)>{name}</button> }
    };
    let nearer = move |by: f64, name: &'static str| {
        view! { <button type="button" on:click=move |_| { hand::nearer(band, by); }>{name}</button> }
    };
    let film = move |map: bool, name: &'static str| {
        let chosen = move || (band.desk.booth_map.get() == map).to_string();
        view! { <button type="button" aria-pressed=chosen on:click=move |_| band.desk.booth_map.set(map)>{name}</button> }
    };
    let flat = move || band.trouble.get().is_some() || band.scene.with(Option::is_none);
    view! {
        <div class="booth-controls" hidden=flat>
            <div role="group" aria-label=w.views>
                {view(Named::Beside, w.beside)} {view(Named::Painter, w.painter)} {view(Named::End, w.end)} {view(Named::Above, w.above)}
            </div>
            <div role="group" aria-label=w.turn>
                {turn(-hand::STEP.0, w.left)} {turn(hand::STEP.0, w.right)} {nearer(1.25, w.nearer)} {nearer(0.8, w.farther)}
            </div>
            <div role="group" aria-label=w.film>{film(false, w.seen)} {film(true, w.map)}</div>
        </div>
    }
}
