//! The booth in three dimensions: plain geometry here, tested natively; the `gl` module alone touches the browser.
//!
//! Lengths are in [m], axes as in `mistcoat::film::Place`: x to the painter's right, y up, z towards the painter.

pub mod atlas;
pub mod camera;
#[cfg(target_arch = "wasm32")]
pub mod gl;
pub mod growing;
pub mod gun;
pub mod labels;
pub mod mesh;
pub mod part;
pub mod pick;
pub mod played;
pub mod room;
pub mod scene;
#[cfg(target_arch = "wasm32")]
mod shaders;
pub mod spray;
#[cfg(target_arch = "wasm32")]
mod stock;
pub mod way;
