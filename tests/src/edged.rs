//! A flat panel that ends: the air of a panel without end, let through past its edge, and a face that droplets can fly past.
//!
//! h = 1 - (1 - tanh(d/delta)) W(s), W the smooth step from 1 at the edge (s = 0) to 0 one delta past it; behind the panel d = 0.
//! u = h u_free + grad h x A with curl A = u_free, so that u = curl(h A): divergence 0, no flow through the face. Over the
//! face W is 1 and the field is the endless panel's.

use mistcoat::airflow::{AirFlow, PanelFlow};
use mistcoat::lanes::Lanes;
use mistcoat::part::{PanelPart, Part};
use mistcoat::surface::{Air, Vec3, Wall};

const HALF_ROOT_PI: f64 = 0.886_226_925_452_758;

/// An edge of a panel: a line in the face.
#[derive(Debug, Clone, Copy)]
pub struct Edge {
    /// The panel ends along x, across the fan; else along y.
    pub along_x: bool,
    /// Where it ends [m]; beyond, at larger x or y, there is none.
    pub at: f64,
}

impl Edge {
    /// How far past the edge a point is [m]; negative over the face.
    #[inline(always)]
    pub fn past<L: Lanes>(&self, [x, y, _]: Vec3<L>) -> L {
        (if self.along_x { x } else { y }) - x.lit(self.at)
    }
}

/// The air of a fan jet before a panel with an edge.
#[derive(Debug, Clone, Copy)]
pub struct EdgedFlow {
    /// The same before a panel without end.
    pub panel: PanelFlow<f64>,
    /// The edge.
    pub edge: Edge,
}

impl<L: Lanes<Scalar = f64>> AirFlow<L> for EdgedFlow {
    const FLAT: bool = true;

    #[inline(always)]
    fn at(&self, [x, y, z]: Vec3<L>) -> Air<L> {
        let (zero, one) = (x.lit(0.0), x.lit(1.0));
        let endless: Air<L> = self.panel.at([x, y, z]);
        let s = self.panel.jet.section(z.max(x.lit(1e-3)));
        let (xi, eta) = (x * s.ix, y * s.iy);
        let q = xi * xi + eta * eta;
        let e2 = (eta * eta).fade();
        let eq = (xi * xi).fade() * e2;
        // (1 - exp(-q))/q
        let near = q.lt(x.lit(1e-3));
        let k =
            L::select(near, one - q * (x.lit(0.5) - q * x.lit(1.0 / 6.0)), (one - eq) / q.max(x.lit(1e-3)));
        let inverse_layer = x.lit(self.panel.inverse_layer);
        let gap = (x.lit(self.panel.distance) - z).max(zero);
        let far = (gap * inverse_layer * x.lit(2.0)).fade();
        let tanh = (one - far) / (one + far);
        let past = self.edge.past([x, y, z]);
        let t = (past * inverse_layer).max(zero).min(one);
        let step = one - t * t * (x.lit(3.0) - t * x.lit(2.0));
        let step_slope = -(x.lit(6.0) * t * (one - t)) * inverse_layer;
        let h = one - (one - tanh) * step;
        let before = L::select(zero.lt(gap), one, zero);
        let h_z = -((one - tanh * tanh) * inverse_layer * step * before);
        let h_s = -((one - tanh) * step_slope);
        let (h_x, h_y) = if self.edge.along_x { (h_s, zero) } else { (zero, h_s) };
        let a = (s.alpha + s.beta) * x.lit(0.5);
        let m = x.lit(self.panel.sided);
        let round = (one - m) * x.lit(0.5) * k;
        let flat = m * s.bx * x.lit(HALF_ROOT_PI) * xi.erf() * e2;
        let uz = s.centre * eq;
        let (px, py) = (s.centre * (x * round + flat), s.centre * y * round);
        let free = [uz * x * s.alpha - a * px, uz * y * s.beta - a * py, uz];
        let chi = s.centre * y * (x * (s.alpha - s.beta) * round - s.beta * flat);
        let led = [-py, px, chi];
        let velocity = [
            h * free[0] + h_y * led[2] - h_z * led[1],
            h * free[1] + h_z * led[0] - h_x * led[2],
            h * free[2] + h_x * led[1] - h_y * led[0],
        ];
        // Over the face it is the same field: here to the bit.
        let over = past.lt(zero);
        let velocity = core::array::from_fn(|i| L::select(over, endless.velocity[i], velocity[i]));
        let past = past.max(zero);
        let gap = L::select(over, gap, (gap * gap + past * past).sqrt());
        Air { velocity, wall: Wall { gap, ..endless.wall }, ..endless }
    }
}

/// The face of a panel with an edge.
#[derive(Debug, Clone, Copy)]
pub struct EdgedPart {
    /// Tip to face [m].
    pub distance: f64,
    /// A droplet further from the axis along x or y has missed [m].
    pub half: f64,
    /// Wall layer of the air [m].
    pub layer: f64,
    /// The edge.
    pub edge: Edge,
}

impl<L: Lanes<Scalar = f64>> Part<L> for EdgedPart {
    #[inline(always)]
    fn gap(&self, point: Vec3<L>) -> L {
        let zero = point[0].lit(0.0);
        let gap = point[0].lit(self.distance) - point[2];
        let past = self.edge.past(point);
        L::select(zero.lt(past), (gap * gap + past * past).sqrt(), gap)
    }
    #[inline(always)]
    fn passed(&self, [x, y, z]: Vec3<L>) -> L::Mask {
        let half = x.lit(self.half);
        let aside = L::or(half.lt(x.abs()), half.lt(y.abs()));
        L::or(aside, x.lit(self.distance).lt(z))
    }
    #[inline(always)]
    fn change(&self, point: Vec3<L>, velocity: Vec3<L>, speed: L, gap: L) -> L {
        let endless = PanelPart { distance: self.distance, half: self.half, layer: self.layer };
        endless.change(point, velocity, speed, gap)
    }
}
