//! Which imprints a pose takes, and how much of each.
//!
//! Imprints are flown at a few poses about a middle one: some distances, some tilts up and down, some swings, on tubes
//! some aims beside the axis. Along one of these four ways the two neighbours share linearly (the distance by its
//! logarithm). Where a pose is off the middle in several ways at once, each way takes what part of the whole departure is
//! its own. How much lands in all is carried by its logarithm, way by way: linear over the logarithm of the distance, by
//! the square of a tilt or of an aim beside, so that a Gaussian passing by a tube is met exactly.

use super::Moment;
use super::aim::BeforeTube;
use crate::math::{exp, ln};

/// A pose that an imprint is flown at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NodePose {
    /// Tip to face, square on [m].
    pub distance: f64,
    /// Tipped up [rad].
    pub heel: f64,
    /// Swung along x [rad].
    pub swing: f64,
    /// Tubes: how far the axis passes beside the gun's [m].
    pub aside: f64,
}

/// Ways in which a pose departs from the middle.
const WAYS: usize = 4;

impl NodePose {
    /// The pose of a moment, before a tube of a radius or a flat face.
    #[must_use]
    pub fn of(moment: &Moment, radius: Option<f64>) -> Self {
        match radius {
            None => Self { distance: moment.distance, heel: moment.heel, swing: moment.swing, aside: 0.0 },
            Some(radius) => {
                let straight = BeforeTube::of(moment, radius);
                Self { distance: straight.distance, heel: 0.0, swing: 0.0, aside: straight.aside }
            }
        }
    }

    fn ways(&self) -> [f64; WAYS] {
        [ln(self.distance.max(1e-3)), self.heel, self.swing, self.aside]
    }
}

/// Imprints along one way, the middle among them.
#[derive(Debug, Clone, PartialEq)]
struct Way {
    /// Departure from the middle, rising.
    at: Vec<f64>,
    node: Vec<usize>,
}

impl Way {
    /// Neighbours of a departure and the upper one's share; past the last, the last alone.
    fn between(&self, at: f64) -> (usize, usize, f64) {
        let upper = self.at.iter().position(|&a| a >= at).unwrap_or(self.at.len() - 1).max(1);
        if self.at.len() < 2 {
            return (0, 0, 0.0);
        }
        let (low, high) = (self.at[upper - 1], self.at[upper]);
        (upper - 1, upper, ((at - low) / (high - low)).clamp(0.0, 1.0))
    }
}

/// Poses of the imprints and what share of the paint each has; the first is the middle.
#[derive(Debug, Clone, PartialEq)]
pub struct Blend {
    middle: [f64; WAYS],
    ways: [Way; WAYS],
    shares: Vec<f64>,
    radius: Option<f64>,
}

impl Blend {
    /// From the poses and their landed shares [-].
    #[must_use]
    pub fn new(nodes: &[(NodePose, f64)], radius: Option<f64>) -> Self {
        let middle = nodes.first().map_or([0.0; WAYS], |n| n.0.ways());
        let ways = core::array::from_fn(|way| {
            let mut along: Vec<(f64, usize)> = vec![(0.0, 0)];
            for (i, (pose, _)) in nodes.iter().enumerate().skip(1) {
                let off: [f64; WAYS] = core::array::from_fn(|w| pose.ways()[w] - middle[w]);
                let largest =
                    (0..WAYS).fold(0, |best, w| if off[w].abs() > off[best].abs() { w } else { best });
                if largest == way {
                    along.push((off[way], i));
                }
            }
            along.sort_by(|a, b| a.0.total_cmp(&b.0));
            Way { at: along.iter().map(|a| a.0).collect(), node: along.iter().map(|a| a.1).collect() }
        });
        Self { middle, ways, shares: nodes.iter().map(|n| n.1).collect(), radius }
    }

    /// Imprints and their weights for a pose; the middle first.
    #[must_use]
    pub fn weights(&self, moment: &Moment) -> Vec<(usize, f64)> {
        if self.shares.len() <= 1 {
            return vec![(0, 1.0)];
        }
        let ways = NodePose::of(moment, self.radius).ways();
        let share = |node: usize| ln(self.shares[node].max(1e-9));
        let mut off: Vec<(usize, usize, f64)> = Vec::with_capacity(2 * WAYS);
        let (mut left, mut sum, mut amount) = (1.0, 0.0, share(0));
        for (i, way) in self.ways.iter().enumerate() {
            if way.at.len() < 2 {
                continue;
            }
            let at = ways[i] - self.middle[i];
            let (low, high, part) = way.between(at);
            let ends = [(way.node[low], 1.0 - part), (way.node[high], part)];
            let away: f64 = ends.iter().filter(|end| end.0 != 0).map(|end| end.1).sum();
            left *= 1.0 - away;
            sum += away;
            off.extend(ends.iter().filter(|end| end.0 != 0 && end.1 > 0.0).map(|end| (i, end.0, end.1)));
            // By the square of a tilt or an aim, where they stand about 0.
            let part = if i == 0 || self.middle[i] != 0.0 {
                part
            } else {
                let (a, b) = (way.at[low], way.at[high]);
                let at = at.clamp(way.at[0], way.at[way.at.len() - 1]);
                ((at * at - a * a) / (b * b - a * a)).clamp(0.0, 1.0)
            };
            amount += share(way.node[low]) * (1.0 - part) + share(way.node[high]) * part - share(0);
        }
        let scale = if sum > 0.0 { (1.0 - left) / sum } else { 0.0 };
        let mut weights = vec![(0, left)];
        weights.extend(off.iter().map(|&(_, node, part)| (node, part * scale)));
        weights.retain(|w| w.1 > 0.0);
        let blended: f64 = weights.iter().map(|&(node, w)| w * self.shares[node]).sum();
        if blended > 0.0 {
            let factor = exp(amount) / blended;
            weights.iter_mut().for_each(|w| w.1 *= factor);
        }
        weights
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn node(distance: f64, heel: f64) -> NodePose {
        NodePose { distance, heel, swing: 0.0, aside: 0.0 }
    }

    fn at(distance: f64, heel: f64) -> Moment {
        Moment { distance, heel, ..Moment::default() }
    }

    #[test]
    fn a_pose_at_a_node_takes_that_node_alone() {
        let nodes = [
            (node(0.18, 0.0), 0.8),
            (node(0.144, 0.0), 0.85),
            (node(0.225, 0.0), 0.7),
            (node(0.18, 0.3), 0.75),
        ];
        let blend = Blend::new(&nodes, None);
        for (i, (pose, _)) in nodes.iter().enumerate() {
            let weights = blend.weights(&at(pose.distance, pose.heel));
            assert_eq!(weights.len(), 1, "{weights:?}");
            assert!(weights[0].0 == i && (weights[0].1 - 1.0).abs() < 1e-12, "{weights:?}");
        }
    }

    #[test]
    fn between_nodes_the_amount_goes_by_its_logarithm_and_weights_stay_positive() {
        let nodes =
            [(node(0.2, 0.0), 0.8), (node(0.1, 0.0), 0.9), (node(0.4, 0.0), 0.5), (node(0.2, 0.4), 0.6)];
        let blend = Blend::new(&nodes, None);
        let landed = |m: &Moment| blend.weights(m).iter().map(|&(n, w)| w * nodes[n].1).sum::<f64>();
        // Half way in the logarithm.
        assert!((landed(&at(0.2 * 2f64.sqrt(), 0.0)) - (0.8f64 * 0.5).sqrt()).abs() < 1e-12);
        // Half the tilt: a quarter of its logarithm.
        let wanted = 0.8 * crate::math::exp(0.25 * crate::math::ln(0.6 / 0.8));
        assert!((landed(&at(0.2, 0.2)) - wanted).abs() < 1e-12);
        for (d, h) in [(0.12, 0.3), (0.35, 0.1), (0.05, 1.0), (1.0, -1.0)] {
            assert!(blend.weights(&at(d, h)).iter().all(|w| w.1 > 0.0), "{d} {h}");
        }
    }
}
