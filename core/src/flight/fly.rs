//! Entry of the flight: the scene's kernel at the machine's SIMD level. Not generic, so that it is compiled here, at
//! this crate's optimisation.

use super::batch::Batch;
use super::kernel::fly_lanes;
use super::noise::Noise;
use super::settings::FlightSettings;
use crate::airflow::{AmongFlow, CurvedFlow, PanelFlow, TiltedFlow, TubeFlow};
use crate::lanes::{Lanes, Pair, Wide};
use crate::part::{AmongPart, CurvedPart, PanelPart, TiltedPart, TubePart};
use fearless_simd::{Level, Simd, dispatch};

/// Air and part that belong together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Scene<T> {
    /// A flat face square to the gun.
    Panel(PanelFlow<T>, PanelPart<T>),
    /// A flat face aslant to the gun.
    Tilted(TiltedFlow<T>, TiltedPart<T>),
    /// A tube along x.
    Tube(TubeFlow<T>, TubePart<T>),
    /// A face curved about an axis along x.
    Curved(CurvedFlow<T>, CurvedPart<T>),
    /// A tube along x among others.
    Among(AmongFlow<T>, AmongPart<T>),
}

impl Scene<f64> {
    /// The same scene for the f32 lanes.
    #[must_use]
    pub fn narrow(&self) -> Scene<f32> {
        match self {
            Self::Panel(flow, part) => Scene::Panel(flow.cast(), part.cast()),
            Self::Tilted(flow, part) => Scene::Tilted(flow.cast(), part.cast()),
            Self::Tube(flow, part) => Scene::Tube(flow.cast(), part.cast()),
            Self::Curved(flow, part) => Scene::Curved(flow.cast(), part.cast()),
            Self::Among(flow, part) => Scene::Among(flow.cast(), part.cast()),
        }
    }

    /// Flies a batch in f64, one droplet at a time: the reference.
    pub fn fly_reference(&self, set: &FlightSettings<f64>, noise: Noise, batch: &mut Batch<f64>) {
        match self {
            Self::Panel(flow, part) => fly_lanes(0.0f64, flow, part, set, noise, batch),
            Self::Tilted(flow, part) => fly_lanes(0.0f64, flow, part, set, noise, batch),
            Self::Tube(flow, part) => fly_lanes(0.0f64, flow, part, set, noise, batch),
            Self::Curved(flow, part) => fly_lanes(0.0f64, flow, part, set, noise, batch),
            Self::Among(flow, part) => fly_lanes(0.0f64, flow, part, set, noise, batch),
        }
    }
}

#[inline(always)]
fn fly_scene<L: Lanes<Scalar = f32>>(
    like: L,
    scene: &Scene<f32>,
    set: &FlightSettings<f32>,
    noise: Noise,
    batch: &mut Batch<f32>,
) {
    match scene {
        Scene::Panel(flow, part) => fly_lanes(like, flow, part, set, noise, batch),
        Scene::Tilted(flow, part) => fly_lanes(like, flow, part, set, noise, batch),
        Scene::Tube(flow, part) => fly_lanes(like, flow, part, set, noise, batch),
        Scene::Curved(flow, part) => fly_lanes(like, flow, part, set, noise, batch),
        Scene::Among(flow, part) => fly_lanes(like, flow, part, set, noise, batch),
    }
}

#[inline(always)]
fn fly_wide<S: Simd>(
    simd: S,
    scene: &Scene<f32>,
    set: &FlightSettings<f32>,
    noise: Noise,
    batch: &mut Batch<f32>,
) {
    let like = Wide::<S>::zero(simd);
    // Numbers one after the other, where there are no vectors, gain nothing from a pair of them.
    if simd.level().is_fallback() {
        fly_scene(like, scene, set, noise, batch);
    } else {
        fly_scene(Pair(like, like), scene, set, noise, batch);
    }
}

/// Flies a batch in f32 lanes at a SIMD level. Every level gives the same bits.
pub fn fly(
    level: Level,
    scene: &Scene<f32>,
    set: &FlightSettings<f32>,
    noise: Noise,
    batch: &mut Batch<f32>,
) {
    dispatch!(level, simd => fly_wide(simd, scene, set, noise, batch));
}

/// The SIMD levels of this machine, best first.
#[must_use]
pub fn levels() -> Vec<Level> {
    let best = Level::new();
    #[cfg(any(target_arch = "x86", target_arch = "x86_64"))]
    {
        let mut all = Vec::new();
        if let Some(token) = best.as_avx512() {
            all.push(Level::Avx512(token));
        }
        if let Some(token) = best.as_avx2() {
            all.push(Level::Avx2(token));
        }
        if let Some(token) = best.as_sse4_2() {
            all.push(Level::Sse4_2(token));
        }
        if let Some(token) = best.as_sse2() {
            all.push(Level::Sse2(token));
        }
        all
    }
    #[cfg(not(any(target_arch = "x86", target_arch = "x86_64")))]
    vec![best]
}
