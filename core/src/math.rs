//! Transcendental functions in f64 with the same bits on every machine (libm, compiled in).
//!
//! The standard library's are banned in this crate (`clippy.toml`): they differ in the last bits between
//! x86-64 and wasm32, and one such bit changes a digest.

/// e^x.
#[must_use]
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}
/// Natural logarithm.
#[must_use]
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}
/// x^y, for set-up only (about 80 ns).
#[must_use]
pub fn pow(x: f64, y: f64) -> f64 {
    libm::pow(x, y)
}
/// Error function.
#[must_use]
pub fn erf(x: f64) -> f64 {
    libm::erf(x)
}
/// Hyperbolic tangent.
#[must_use]
pub fn tanh(x: f64) -> f64 {
    libm::tanh(x)
}
/// Sine.
#[must_use]
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}
/// Cosine.
#[must_use]
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}
/// Tangent.
#[must_use]
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}
/// Angle of (x, y) from the x axis [rad].
#[must_use]
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}
/// Inverse tangent [rad].
#[must_use]
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}
/// Hyperbolic sine.
#[must_use]
pub fn sinh(x: f64) -> f64 {
    libm::sinh(x)
}
/// Hyperbolic cosine.
#[must_use]
pub fn cosh(x: f64) -> f64 {
    libm::cosh(x)
}
/// Gamma function.
#[must_use]
pub fn gamma(x: f64) -> f64 {
    libm::tgamma(x)
}
/// Cube root.
#[must_use]
pub fn cbrt(x: f64) -> f64 {
    libm::cbrt(x)
}
