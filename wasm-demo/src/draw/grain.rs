//! The grain of a surface, as light on it: orange peel and dry spray, drawn stronger than true so that a screen shows them.

/// Waviness at which orange peel is drawn at its strongest [m].
const STRONG: f64 = 0.8e-6;
/// Feature of orange peel [m]; at least [`LEAST`] pixels.
const PEEL: f64 = 2.5e-3;
/// Feature of dry spray [m]; at least one pixel.
const SPECK: f64 = 0.7e-3;
/// Fewest pixels to a feature of orange peel.
const LEAST: f64 = 2.5;

/// A number of -1..1 for a knot of a lattice: the same at every drawing.
fn knot(i: i64, j: i64) -> f64 {
    let mut mixed =
        (i as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ (j as u64).wrapping_mul(0xC2B2_AE3D_27D4_EB4F);
    mixed ^= mixed >> 29;
    mixed = mixed.wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed ^= mixed >> 32;
    ((mixed & 0xFFFF) as f64) / 32_768.0 - 1.0
}

/// Smooth noise between the knots of a lattice of 1.
fn noise(x: f64, y: f64) -> f64 {
    let (i, j) = (x.floor(), y.floor());
    let ease = |t: f64| t * t * (3.0 - 2.0 * t);
    let (a, b) = (ease(x - i), ease(y - j));
    let (i, j) = (i as i64, j as i64);
    let low = knot(i, j) + (knot(i + 1, j) - knot(i, j)) * a;
    let high = knot(i, j + 1) + (knot(i + 1, j + 1) - knot(i, j + 1)) * a;
    low + (high - low) * b
}

/// Light of orange peel at a place [m], -0.12..0.12; `pixel` is a pixel's size [m].
pub fn peel(x: f64, y: f64, waviness: f64, pixel: f64) -> f64 {
    let feature = PEEL.max(LEAST * pixel);
    let (u, v) = (x / feature, y / feature);
    // From the upper left, as all light here.
    let slope = noise(u + 0.35, v + 0.35) - noise(u - 0.35, v - 0.35);
    0.12 * (waviness / STRONG).clamp(0.0, 1.0) * slope.clamp(-1.0, 1.0)
}

/// How matt a place of dry spray looks, 0..1.
pub fn speck(x: f64, y: f64, dryness: f64, pixel: f64) -> f64 {
    let feature = SPECK.max(pixel);
    let grain = 0.5 + 0.5 * knot((x / feature).floor() as i64, (y / feature).floor() as i64);
    dryness.clamp(0.0, 1.0) * grain
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spread(light: impl Fn(f64, f64) -> f64) -> f64 {
        let all: Vec<f64> =
            (0..4000).map(|i| light(f64::from(i % 80) * 1e-3, f64::from(i / 80) * 1e-3)).collect();
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        (all.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / all.len() as f64).sqrt()
    }

    #[test]
    fn more_waviness_and_dryness_are_more_grain_and_none_is_none() {
        let peel = |a: f64| spread(|x, y| peel(x, y, a, 0.8e-3));
        assert!(peel(0.0) == 0.0 && peel(0.2e-6) > 0.0 && peel(0.6e-6) > 2.0 * peel(0.2e-6));
        assert!(peel(1.0) < 0.12);
        let speck = |d: f64| spread(|x, y| speck(x, y, d, 0.8e-3));
        assert!(speck(0.0) == 0.0 && speck(0.9) > speck(0.3));
    }
}
