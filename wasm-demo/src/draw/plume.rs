//! Spray as a stipple: a drawing, not a result. What a run says about droplets is drawn in [`super::end_view`].

use std::fmt::Write;

use super::svg::n;

/// Small even numbers in 0..1 for a still stipple; the same every time.
#[derive(Debug, Clone)]
pub struct Sprinkle(u64);

impl Sprinkle {
    /// Starts from a number.
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// Next number in 0..1.
    pub fn draw(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Sum of three less its mean: bell-shaped, about +-1.
    pub fn bell(&mut self) -> f64 {
        (self.draw() + self.draw() + self.draw()) * (2.0 / 3.0) - 1.0
    }
}

/// Cone of drops from (0, 0) along -x: `length` long, `half_slope` half-width for each length; two paths, dense to thin.
pub fn plume(length: f64, half_slope: f64, drops: usize, seed: u64) -> String {
    let mut dice = Sprinkle::new(seed);
    let mut shades = [String::new(), String::new(), String::new()];
    for _ in 0..drops.min(6000) {
        let far = dice.draw();
        let x = -length * far;
        let y = dice.bell() * (2.0 + length * far * half_slope);
        let shade = if far < 0.35 {
            0
        } else if far < 0.7 {
            1
        } else {
            2
        };
        let _ = write!(shades[shade], "M{} {}h.01", n(x), n(y));
    }
    shades.iter().enumerate().map(|(i, d)| format!(r#"<path class="drops drops-{i}" d="{d}"/>"#)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sprinkle_is_even_and_repeats() {
        let mut dice = Sprinkle::new(7);
        let mean = (0..4000).map(|_| dice.draw()).sum::<f64>() / 4000.0;
        assert!((mean - 0.5).abs() < 0.02, "{mean}");
        assert_eq!(plume(100.0, 0.3, 50, 1), plume(100.0, 0.3, 50, 1));
    }
}
