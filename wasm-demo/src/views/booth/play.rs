//! The finished run watched again: gun, spray and film, stretch by stretch. Nothing moves before it is asked for.

use leptos::prelude::*;

use super::super::counted::still;
use super::Band;
use crate::booth3d::way::Moment;
use crate::figures::seconds;
use crate::words::{fill, words};

/// Longer jobs are played faster [s].
const LONGEST: f64 = 40.0;
/// Longest step between two frames: a page that was hidden goes on where it was [s].
const STEP: f64 = 0.1;

/// Whole times faster than true speed.
fn pace(seconds: f64) -> f64 {
    (seconds / LONGEST).ceil().max(1.0)
}

/// The moment that is shown while the gun moves: played, or of a run under way.
pub fn moment(band: Band) -> Option<Moment> {
    played(band).or_else(|| band.under.get())
}

fn played(band: Band) -> Option<Moment> {
    let time = band.clock.get()?;
    band.desk.played.with(|p| p.as_ref()?.way.at(time))
}

fn now() -> f64 {
    window().performance().map_or(0.0, |p| 1e-3 * p.now())
}

/// Goes on by one frame, until the end or until it is stopped.
fn run(band: Band, before: f64) {
    request_animation_frame(move || {
        // The view may be gone by now.
        let Some(Some(time)) = band.clock.try_get_untracked() else { return };
        let Some(end) = band.desk.played.with_untracked(|p| p.as_ref().map(|p| p.way.seconds())) else {
            return;
        };
        let at = now();
        let time = time + (at - before).clamp(0.0, STEP) * pace(end);
        if time < end {
            band.clock.set(Some(time));
            run(band, at);
        } else {
            band.clock.set(None);
        }
    });
}

/// The next end of a stretch after a moment; none after the last.
fn next_end(band: Band, after: f64) -> Option<f64> {
    band.desk.played.with_untracked(|p| {
        let legs = &p.as_ref()?.way.legs;
        // A stretch of many legs ends where the next leg has another number.
        let ends = legs.iter().enumerate().filter(|(i, l)| {
            l.deposit.is_some() && legs.get(i + 1).is_none_or(|next| next.deposit != l.deposit)
        });
        ends.map(|(_, l)| l.start + l.seconds).find(|end| *end > after + 1e-6)
    })
}

fn press(band: Band) {
    let time = band.clock.get_untracked();
    if still() {
        // Stretch by stretch, at each press.
        band.clock.set(next_end(band, time.unwrap_or(-1.0)));
    } else if time.is_some() {
        band.clock.set(None);
    } else {
        band.clock.set(Some(0.0));
        run(band, now());
    }
}

fn told(band: Band) -> Option<String> {
    let w = words().booth;
    let moment = played(band)?;
    let (deposits, pace) =
        band.desk.played.with(|p| p.as_ref().map(|p| (p.way.deposits, pace(p.way.seconds()))))?;
    let number = (moment.landed + usize::from(moment.spraying)).clamp(1, deposits.max(1));
    let mut out = fill(w.pass, &[&number.to_string(), &deposits.to_string()]);
    if let Some(wait) = moment.wait {
        out += &format!(", {}", fill(w.flash, &[&seconds(wait)]));
    } else if !moment.spraying && !still() {
        out += &format!(", {}", w.turning);
    }
    if !still() {
        let speed =
            if pace > 1.0 { fill(w.times_speed, &[&format!("{pace:.0}")]) } else { w.true_speed.into() };
        out += &format!(", {speed}");
    }
    Some(out)
}

/// Its word, and what is shown.
#[component]
pub fn Play(band: Band) -> impl IntoView {
    let w = words().booth;
    let there = move || band.desk.played.with(Option::is_some);
    // Another run ends it.
    Effect::new(move |_| {
        band.desk.played.track();
        band.clock.set(None);
    });
    let name = move || match (band.clock.get().is_some(), still()) {
        (true, false) => w.stop,
        (true, true) => w.next_pass,
        _ => w.play,
    };
    view! {
        <div class="booth-play" hidden=move || !there()>
            <button type="button" class="link" on:click=move |_| press(band)>{name}</button>
            <span class="small">{move || told(band)}</span>
        </div>
    }
}

/// The spray's size along the way and across it [m], for the film that grows behind the gun.
pub fn reach(band: Band) -> (f64, f64) {
    let [height, thickness] = ["pattern.length_mm", "pattern.width_mm"]
        .map(|key| band.desk.run.with(|r| r.as_ref().and_then(|r| r.number(key))).map(|mm| mm * 1e-3));
    let (height, thickness) = (height.unwrap_or(0.2), thickness.unwrap_or(0.05));
    match band.scene.with(|s| s.as_ref().map(|s| s.axis)) {
        Some(mistcoat::job::FanAxis::Along) => (height, thickness),
        _ => (thickness, height),
    }
}
