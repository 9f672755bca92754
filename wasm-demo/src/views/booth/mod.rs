//! The booth band: the part in three dimensions, or drawn flat where the browser cannot.

mod controls;
mod events;
mod flat;
mod hand;
mod paint;
mod play;
mod spoken;

use std::sync::Arc;

use leptos::html;
use leptos::prelude::*;
use mistcoat::job::PartShape;
use mistcoat::units::Quantity;

use super::counted::still;
use super::desk::{Desk, desk};
use crate::booth3d::camera::{Camera, Frame};
use crate::booth3d::gl::Trouble;
use crate::booth3d::labels::{Figures, overlay};
use crate::booth3d::scene::{Named, Scene};
use crate::booth3d::way::{Moment, Spot};
use crate::figures::said;
use crate::words::words;

/// Fan height that every view leaves room for [m]: a fan that narrows is not blown up again by the view.
const ROOM_FOR_FAN: f64 = 0.26;
/// From this width on the clipboard lies over the band [px].
const WIDE: f64 = 1280.0;

/// Steps in which the gun goes over the part while a run is under way.
const STEPS: f64 = 60.0;
/// Below this width the words over the band need two rows [px].
const SMALL: f64 = 768.0;

/// How the booth is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Look {
    named: Named,
    /// Turned away from the named view: yaw and pitch [rad].
    turned: Option<(f64, f64)>,
    /// Times nearer than where everything fits.
    zoom: f64,
}

impl Look {
    const FIRST: Self = Self { named: Named::Beside, turned: None, zoom: 1.0 };
}

/// What the band's pieces share.
#[derive(Clone, Copy)]
struct Band {
    desk: Desk,
    scene: Memo<Option<Arc<Scene>>>,
    look: RwSignal<Look>,
    /// Size of the band [CSS px].
    size: RwSignal<(f64, f64)>,
    camera: Memo<Option<Camera>>,
    /// The gun in a run under way.
    under: Memo<Option<Moment>>,
    /// Where the gun is.
    spot: Memo<Option<Spot>>,
    /// Time of the run that is played [s]; none while it is not.
    clock: RwSignal<Option<f64>>,
    /// Why it is drawn flat.
    trouble: RwSignal<Option<Trouble>>,
}

/// Where the picture's middle lies, clear of the clipboard and the bench's cup.
fn frame((width, height): (f64, f64)) -> Frame {
    let (width, height) = (width.max(1.0), height.max(1.0));
    if width < SMALL {
        // Two rows of words stand over it.
        return Frame { width, height, centre: (0.5, 0.63), free: (0.44 * width, 0.36 * height) };
    }
    if width < WIDE {
        return Frame { width, height, centre: (0.5, 0.55), free: (0.44 * width, 0.45 * height - 8.0) };
    }
    let left = 0.5 * (width - 1216.0);
    let centre = (left + 500.0) / width;
    Frame { width, height, centre: (centre, 0.56), free: (330.0, 0.44 * height - 6.0) }
}

/// The band.
#[component]
pub fn BoothBand() -> impl IntoView {
    let desk = desk();
    let w = words().booth;
    let scene = Memo::new(move |_| desk.parsed.with(|j| Scene::of(j.as_ref()?).map(Arc::new)));
    let look = RwSignal::new(Look::FIRST);
    let size = RwSignal::new((0.0, 0.0));
    let clock = RwSignal::new(None);
    let rest = Memo::new(move |_| {
        let member = desk.member.get();
        scene.with(|s| s.as_ref().map(|s| s.rest(member)))
    });
    let camera = Memo::new(move |_| {
        let (look, frame) = (look.get(), frame(size.get()));
        let mut camera =
            scene.with(|s| Some(s.as_ref()?.seen(look.named, &frame, &rest.get()?, Some(ROOM_FOR_FAN))))?;
        (camera.yaw, camera.pitch) = look.turned.unwrap_or((camera.yaw, camera.pitch));
        camera.distance = camera.fits / look.zoom;
        Some(camera)
    });
    let trouble = RwSignal::new(None);
    let played = Memo::new(move |_| desk.played.with(|p| Some(p.as_ref()?.way.at(clock.get()?)?.spot)));
    let under = Memo::new(move |_| {
        if clock.get().is_some() || still() || !desk.busy() {
            return None;
        }
        // In steps: not every droplet counted is worth a picture.
        let done = (desk.done.get() * STEPS).floor() / STEPS;
        desk.under.with(|under| {
            let (way, from) = under.as_ref()?;
            way.at((done - from).max(0.0) / (1.0 - from).max(1e-3) * way.seconds())
        })
    });
    let spot = Memo::new(move |_| played.get().or(under.get().map(|m| m.spot)).or(rest.get()));
    let band = Band { desk, scene, look, size, camera, under, spot, clock, trouble };
    let node = NodeRef::<html::Canvas>::new();
    paint::follow(band, node);
    let figures = Memo::new(move |_| figures(desk));
    let lines = move || {
        let drawn = scene.with(|s| {
            let s = s.as_ref()?;
            Some(overlay(s, &camera.get()?, &frame(size.get()), &rest.get()?, &figures.get()))
        });
        drawn.unwrap_or_default()
    };
    let flat = move || trouble.get().is_some() || scene.with(Option::is_none);
    view! {
        <section class="booth" aria-label=w.name>
            <div class="booth-band" class:flat=flat>
                <canvas
                    node_ref=node
                    class="booth-picture"
                    tabindex=move || if flat() { "-1" } else { "0" }
                    role="img"
                    aria-label=move || spoken::says(band)
                    aria-describedby="booth-how"
                    hidden=flat
                    on:keydown=move |event| hand::on_key(band, &event)
                    on:wheel=move |event| hand::on_wheel(band, &event)
                    on:pointerdown=move |event| hand::on_down(&event)
                    on:pointermove=move |event| hand::on_move(band, &event)
                    on:pointerup=move |event| hand::on_up(band, &event)
                    on:pointercancel=move |event| hand::on_gone(&event)
                ></canvas>
                <svg class="booth-lines" hidden=flat aria-hidden="true" inner_html=lines></svg>
                {move || flat().then(|| view! { <flat::Flat why=flat::why(band) /> })}
                <controls::Controls band=band />
                <play::Play band=band />
            </div>
            <p id="booth-how" class="unseen">{w.how}</p>
        </section>
    }
}

/// What the lines over the picture say.
fn figures(desk: Desk) -> Figures {
    let say = |v: f64| said(Quantity::Length, v, desk.system.get());
    let fan = desk.run.with(|r| r.as_ref().and_then(|r| r.number("pattern.length_mm"))).map(|mm| mm * 1e-3);
    let (diameter, length, height) = desk.parsed.with(|j| match j.as_ref().map(|j| &j.part) {
        Some(PartShape::Tube { diameter, .. }) => (Some(say(*diameter)), None, None),
        Some(PartShape::Panel { width, height } | PartShape::Curved { width, height, .. }) => {
            (None, Some(say(*width)), Some(say(*height)))
        }
        Some(PartShape::Frame(frame)) => {
            (frame.members.get(desk.member.get()).map(|m| say(m.diameter)), None, None)
        }
        None => (None, None, None),
    });
    Figures { fan: fan.map(|f| (f, say(f))), diameter, length, height }
}
