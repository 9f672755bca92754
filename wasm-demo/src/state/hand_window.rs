//! The panel on the screen: from pixels to places on it, and back.

/// A panel on the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Its left upper corner [px].
    pub corner: [f64; 2],
    /// Pixels for a metre.
    pub scale: f64,
    /// Panel along and across the passes [m].
    pub size: [f64; 2],
    /// Turned upright: along the passes runs down the screen.
    pub turned: bool,
}

impl Window {
    /// Place on the panel, from its middle [m].
    #[must_use]
    pub fn place(&self, x: f64, y: f64) -> [f64; 2] {
        let (a, b) = ((x - self.corner[0]) / self.scale, (y - self.corner[1]) / self.scale);
        let [w, h] = self.size;
        if self.turned { [b - 0.5 * w, a - 0.5 * h] } else { [a - 0.5 * w, 0.5 * h - b] }
    }

    /// The same place on the screen [px].
    #[must_use]
    pub fn pixel(&self, at: [f64; 2]) -> [f64; 2] {
        let [w, h] = self.size;
        let (a, b) =
            if self.turned { (at[1] + 0.5 * h, at[0] + 0.5 * w) } else { (at[0] + 0.5 * w, 0.5 * h - at[1]) };
        [self.corner[0] + a * self.scale, self.corner[1] + b * self.scale]
    }

    /// Width and height on the screen [px].
    #[must_use]
    pub fn extent(&self) -> [f64; 2] {
        let [w, h] = self.size.map(|v| v * self.scale);
        if self.turned { [h, w] } else { [w, h] }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn screen_and_panel_agree_upright_and_turned() {
        for turned in [false, true] {
            let window = Window { corner: [40.0, 20.0], scale: 1000.0, size: [0.6, 0.4], turned };
            for at in [[0.0, 0.0], [-0.3, 0.2], [0.1, -0.15]] {
                let [x, y] = window.pixel(at);
                let back = window.place(x, y);
                assert!((back[0] - at[0]).abs() < 1e-12 && (back[1] - at[1]).abs() < 1e-12);
            }
            assert_eq!(window.extent(), if turned { [400.0, 600.0] } else { [600.0, 400.0] });
        }
    }
}
