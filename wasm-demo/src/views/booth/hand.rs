//! Turning the booth by pointer, wheel and keys.
//!
//! On touch one finger turns it sideways only, so that the page still scrolls; two fingers turn it both ways and move it
//! nearer.

use std::cell::RefCell;

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{KeyboardEvent, PointerEvent, WheelEvent};

use super::{Band, Look, frame};
use crate::booth3d::pick::pick;

/// A step by key: yaw and pitch [rad].
pub const STEP: (f64, f64) = (0.14, 0.10);
/// Turn for each px dragged [rad].
const DRAG: f64 = 0.008;
/// A pointer that moves less than this has clicked [px].
const CLICK: f64 = 5.0;
/// How far beside a tube a click still means it [px].
const SLACK: f64 = 8.0;

/// A pointer that is down: its number, where it is, and how far it has come.
#[derive(Clone, Copy)]
struct Down {
    id: i32,
    at: (f64, f64),
    way: f64,
}

thread_local! {
    static DOWN: RefCell<Vec<Down>> = const { RefCell::new(Vec::new()) };
}

/// Turns by these angles [rad].
pub fn turn(band: Band, yaw: f64, pitch: f64) {
    if let Some(mut camera) = band.camera.get_untracked() {
        camera.turn(yaw, pitch);
        band.look.update(|l| l.turned = Some((camera.yaw, camera.pitch)));
    }
}

/// Moves nearer by a factor; false at the limit.
pub fn nearer(band: Band, factor: f64) -> bool {
    let Some(mut camera) = band.camera.get_untracked() else { return false };
    let moved = camera.nearer(factor);
    if moved {
        band.look.update(|l| l.zoom = camera.fits / camera.distance);
    }
    moved
}

/// Arrow keys turn, plus and minus move, 0 and Home go back to the first view.
pub fn on_key(band: Band, event: &KeyboardEvent) {
    if event.ctrl_key() || event.meta_key() || event.alt_key() {
        return;
    }
    match event.key().as_str() {
        "ArrowLeft" => turn(band, -STEP.0, 0.0),
        "ArrowRight" => turn(band, STEP.0, 0.0),
        "ArrowUp" => turn(band, 0.0, STEP.1),
        "ArrowDown" => turn(band, 0.0, -STEP.1),
        "+" | "=" => {
            nearer(band, 1.15);
        }
        "-" => {
            nearer(band, 1.0 / 1.15);
        }
        "0" | "Home" => band.look.set(Look::FIRST),
        _ => return,
    }
    event.prevent_default();
}

/// The wheel moves nearer only while the picture has the focus, and lets the page scroll at the limits.
pub fn on_wheel(band: Band, event: &WheelEvent) {
    let focused = document().active_element().is_some_and(|e| e.class_list().contains("booth-picture"));
    if focused && !event.ctrl_key() && nearer(band, if event.delta_y() < 0.0 { 1.12 } else { 1.0 / 1.12 }) {
        event.prevent_default();
    }
}

fn place(event: &PointerEvent) -> (f64, f64) {
    (f64::from(event.client_x()), f64::from(event.client_y()))
}

/// A pointer goes down.
pub fn on_down(event: &PointerEvent) {
    if event.button() == 0 {
        DOWN.with_borrow_mut(|down| {
            down.retain(|d| d.id != event.pointer_id());
            down.push(Down { id: event.pointer_id(), at: place(event), way: 0.0 });
        });
        // Keeps the drag when the pointer leaves the picture; refused when the pointer is already gone.
        if let Some(canvas) = event.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok()) {
            let _ = canvas.set_pointer_capture(event.pointer_id());
        }
    }
}

/// A pointer moves.
pub fn on_move(band: Band, event: &PointerEvent) {
    let now = place(event);
    let moved = DOWN.with_borrow_mut(|down| {
        let before: Vec<(f64, f64)> = down.iter().map(|d| d.at).collect();
        let held = down.iter_mut().find(|d| d.id == event.pointer_id())?;
        let by = (now.0 - held.at.0, now.1 - held.at.1);
        held.way += by.0.hypot(by.1);
        held.at = now;
        let started = held.way > CLICK;
        let after: Vec<(f64, f64)> = down.iter().map(|d| d.at).collect();
        Some((by, started, before, after))
    });
    let Some((by, started, before, after)) = moved else { return };
    if let ([a, b], [c, d]) = (before.as_slice(), after.as_slice()) {
        let apart = |a: &(f64, f64), b: &(f64, f64)| (a.0 - b.0).hypot(a.1 - b.1).max(1.0);
        nearer(band, apart(c, d) / apart(a, b));
        turn(band, -0.5 * DRAG * by.0, 0.5 * DRAG * by.1);
    } else if started {
        let both = event.pointer_type() != "touch";
        turn(band, -DRAG * by.0, if both { DRAG * by.1 } else { 0.0 });
    }
}

/// A pointer goes up; one that has hardly moved picks what is under it.
pub fn on_up(band: Band, event: &PointerEvent) {
    let clicked = DOWN.with_borrow_mut(|down| {
        let alone = down.len() == 1;
        let number = down.iter().position(|d| d.id == event.pointer_id())?;
        let held = down.remove(number);
        (alone && held.way <= CLICK).then_some(())
    });
    if clicked.is_some() {
        let at = (f64::from(event.offset_x()), f64::from(event.offset_y()));
        choose(band, at);
    }
}

/// A pointer is gone: the page scrolls.
pub fn on_gone(event: &PointerEvent) {
    DOWN.with_borrow_mut(|down| down.retain(|d| d.id != event.pointer_id()));
}

/// Chooses the member under a place of the picture [CSS px].
fn choose(band: Band, at: (f64, f64)) {
    let Some(camera) = band.camera.get_untracked() else { return };
    let frame = frame(band.size.get_untracked());
    let (from, way) = camera.ray(at, &frame);
    // So many metres is a pixel at the part.
    let (a, b) = (camera.ray((0.0, 0.0), &frame).1, camera.ray((1.0, 0.0), &frame).1);
    let slack = SLACK * (a - b).length() * camera.distance;
    let hit = band.scene.with_untracked(|s| s.as_ref().and_then(|s| pick(&s.faces, from, way, slack)));
    if let Some(hit) = hit {
        band.desk.show_member(hit.face);
    }
}
