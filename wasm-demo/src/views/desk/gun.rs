//! The gun in hand: its knobs, its cap, and how it is drawn.

use leptos::prelude::*;
use mistcoat::job::Job;

use super::{Desk, How, View};
use crate::state::{GunFace, Knob, face_of, is_tube, on_supply};

impl Desk {
    /// Turns a knob to an opening, 0..=1.
    pub fn turn(&self, knob: Knob, open: f64) {
        if !open.is_finite() {
            return;
        }
        let open = open.clamp(0.0, 1.0);
        self.in_hand.set(Some(knob));
        if knob == Knob::Fan && !self.touched.get_untracked() {
            self.touched.set(true);
            let fresh = untrack(|| self.fresh());
            if self.kept.with_untracked(Option::is_none) && self.view.get_untracked() == View::Part {
                self.kept.set(fresh);
            }
        }
        match knob {
            Knob::Fan => self.set("gun.fan", &share(open)),
            Knob::Fluid => self.set("gun.fluid", &share(open)),
            Knob::Air => self.set("gun.air_knob", &share(open)),
        };
    }

    /// Turns the cap by clicks of an eighth.
    pub fn turn_cap(&self, eighths: u32) {
        let now = self.parsed.with_untracked(|j| j.as_ref().map_or(0.0, |j| j.gun.cap_turn.to_degrees()));
        let turned = (now.round() as u32 + 45 * eighths) % 360;
        self.set("gun.cap_turn", &format!("{turned} deg"));
    }

    /// The gun as drawn.
    pub fn face(&self) -> GunFace {
        // A card is sprayed with an upright fan, whatever the part.
        let on_part = self.view.get() == View::Part;
        let flat = if !on_part && self.how.get() == How::Flood { 2 } else { 0 };
        let face = self.parsed.with(|job| {
            job.as_ref()
                .map(|job| GunFace {
                    cap_eighths: (if on_part { cap(job) } else { 0 } + turned(job) + flat) % 8,
                    ..face_of(job)
                })
                .unwrap_or_default()
        });
        let face = self.gauge.get().map_or(face, |gauge| on_supply(face, gauge));
        GunFace { stage: self.stage.get(), mirror: self.mirror.get(), in_hand: self.in_hand.get(), ..face }
    }
}

/// Clicks of the cap for a job: on a tube strokes run up and down, so a fan across them lies flat.
fn cap(job: &Job) -> u8 {
    if is_tube(job) && job.stroke.fan_axis == mistcoat::job::FanAxis::Across { 2 } else { 0 }
}

/// Clicks that the job's cap is turned.
fn turned(job: &Job) -> u8 {
    (job.gun.cap_turn.to_degrees() / 45.0).round() as u8 % 8
}

/// A share for the job file, fine enough that an eighth of a turn reads back as one.
fn share(v: f64) -> String {
    format!("{}", (v * 1e4).round() / 1e4)
}
