//! The beat: a short click from tick to tick, which can be muted, and seen as well as heard.

use leptos::prelude::*;
use web_sys::AudioContext;

/// Clicks at an even beat.
pub struct Beat {
    audio: Option<AudioContext>,
    /// Beats told so far.
    last: i64,
}

impl Beat {
    /// Silent until the first beat.
    pub fn new() -> Self {
        Self { audio: None, last: i64::MIN }
    }

    /// Whether a new beat has begun at `now` [ms] with one every `every` [s]; heard where `sound` says so.
    pub fn tick(&mut self, now: f64, every: f64, sound: bool) -> bool {
        let count = (now * 1e-3 / every.max(0.05)).floor() as i64;
        if count == self.last {
            return false;
        }
        self.last = count;
        if sound {
            self.click();
        }
        true
    }

    fn click(&mut self) {
        // A browser lets no sound out before the visitor has pressed something.
        let acted = window().navigator().user_activation().has_been_active();
        if !acted {
            return;
        }
        if self.audio.is_none() {
            self.audio = AudioContext::new().ok();
        }
        let Some(audio) = &self.audio else { return };
        let _ = play(audio);
    }
}

fn play(audio: &AudioContext) -> Result<(), wasm_bindgen::JsValue> {
    let (tone, volume, now) = (audio.create_oscillator()?, audio.create_gain()?, audio.current_time());
    tone.frequency().set_value(1100.0);
    volume.gain().set_value_at_time(0.12, now)?;
    volume.gain().exponential_ramp_to_value_at_time(0.001, now + 0.05)?;
    tone.connect_with_audio_node(&volume)?;
    volume.connect_with_audio_node(&audio.destination())?;
    tone.start()?;
    tone.stop_with_when(now + 0.06)
}

impl Drop for Beat {
    fn drop(&mut self) {
        if let Some(audio) = &self.audio {
            let _ = audio.close();
        }
    }
}
