//! A shelf of imprints, flown at a few poses with the same droplets, from which any pose between is laid.

use super::Moment;
use super::blend::{Blend, NodePose};
use super::imprint::{Imprint, Levels};
use crate::course::{Course, Tally};
use crate::flight::{Batch, levels};
use crate::tally::{Digest, GROUPS};
use fearless_simd::Level;

/// An imprint with the pose and the flight that fill it.
#[derive(Debug, Clone)]
struct Node {
    pose: NodePose,
    course: Course,
    wanted: u64,
    imprint: Imprint,
}

/// What holds for all imprints of a shelf.
#[derive(Debug, Clone, PartialEq)]
pub struct ShelfSpec {
    /// Bins of the imprints.
    pub levels: Levels,
    /// Radius of the tube they are flown at [m]; none before a flat face.
    pub radius: Option<f64>,
    /// How the job holds the fan: turned clockwise from upright [rad]; 0 before a tube.
    pub turn: f64,
    /// Paint flow at the tip, trigger as the job has it [m3/s].
    pub flow: f64,
    /// Volume solids of the paint [-].
    pub solids: f64,
}

/// Imprints at a few poses, the middle one first. Droplet n is the same at every pose: they differ by the pose alone.
///
/// Fly it with [`Shelf::advance`] until it is true, then lay with a [`super::Layer`]. One made before all is flown lays
/// what there is: the middle alone at first.
#[derive(Debug, Clone)]
pub struct Shelf {
    spec: ShelfSpec,
    nodes: Vec<Node>,
}

impl Shelf {
    /// Imprints to be flown: pose, flight and how many droplets each.
    #[must_use]
    pub fn new(spec: ShelfSpec, nodes: Vec<(NodePose, Course, u64)>) -> Self {
        let nodes = nodes
            .into_iter()
            .map(|(pose, course, wanted)| Node { pose, course, wanted, imprint: Imprint::new(&spec.levels) })
            .collect();
        Self { spec, nodes }
    }

    /// Flies at most `most` droplets more; true when all are flown. The digits are those of every other slicing.
    pub fn advance(&mut self, most: u64) -> bool {
        self.advance_at(levels()[0], most, &mut Batch::default());
        self.is_flown()
    }

    /// The same at a chosen SIMD level and with a batch at hand; how many of `most` are left.
    pub fn advance_at(&mut self, level: Level, most: u64, batch: &mut Batch<f32>) -> u64 {
        let mut left = most;
        for node in &mut self.nodes {
            let from = node.imprint.flown();
            let next = node.wanted.min(from.saturating_add(left)).max(from);
            let imprint = &mut node.imprint;
            node.course.fly(level, from, next, batch, |o| imprint.count(o));
            left -= next - from;
        }
        left
    }

    /// The same on all threads where the crate has them.
    pub fn finish(&mut self, level: Level, most: u64) -> u64 {
        let mut left = most;
        for node in &mut self.nodes {
            let from = node.imprint.flown();
            let next = node.wanted.min(from.saturating_add(left)).max(from);
            if from < next {
                let empty = || Imprint::new(&self.spec.levels);
                crate::course::fly_all(&node.course, level, from, next, empty, &mut node.imprint);
            }
            left -= next - from;
        }
        left
    }

    /// Droplets flown, and wanted.
    #[must_use]
    pub fn progress(&self) -> (u64, u64) {
        let sum = |of: &dyn Fn(&Node) -> u64| self.nodes.iter().map(of).sum();
        (sum(&|node| node.imprint.flown()), sum(&|node| node.wanted))
    }

    /// All are flown.
    #[must_use]
    pub fn is_flown(&self) -> bool {
        self.nodes.iter().all(|node| node.imprint.flown() >= node.wanted)
    }

    /// Poses and their imprints, the middle first.
    pub fn imprints(&self) -> impl Iterator<Item = (NodePose, &Imprint)> {
        self.nodes.iter().map(|node| (node.pose, &node.imprint))
    }

    /// The middle's imprint, for a flight that counts its droplets elsewhere too.
    pub fn middle_mut(&mut self) -> Option<&mut Imprint> {
        self.nodes.first_mut().map(|node| &mut node.imprint)
    }

    /// Sets how many droplets each pose flies.
    pub fn set_wanted(&mut self, wanted: impl Fn(usize) -> u64) {
        self.nodes.iter_mut().enumerate().for_each(|(i, node)| node.wanted = wanted(i));
    }

    /// What holds for all imprints.
    #[must_use]
    pub fn spec(&self) -> &ShelfSpec {
        &self.spec
    }

    /// Poses flown so far and what lands of each: the weights of any pose.
    #[must_use]
    pub fn blend(&self) -> Blend {
        let flown = self.nodes.iter().enumerate().filter(|(i, node)| *i == 0 || node.imprint.flown() > 0);
        let nodes: Vec<_> = flown.map(|(_, node)| (node.pose, node.imprint.share())).collect();
        Blend::new(&nodes, self.spec.radius)
    }

    /// The moment lies among the poses: past them only geometry speaks.
    #[must_use]
    pub fn covers(&self, moment: &Moment) -> bool {
        let pose = NodePose::of(moment, self.spec.radius);
        let within = |of: &dyn Fn(&NodePose) -> f64, slack: f64| {
            let low = self.nodes.iter().map(|n| of(&n.pose)).fold(f64::MAX, f64::min);
            let high = self.nodes.iter().map(|n| of(&n.pose)).fold(f64::MIN, f64::max);
            (low - slack..=high + slack).contains(&of(&pose))
        };
        within(&|p| p.distance, 1e-3)
            && within(&|p| p.heel, 0.01)
            && within(&|p| p.swing, 0.01)
            && within(&|p| p.aside, 1e-3)
    }

    /// Takes all counts into a digest.
    pub fn digest(&self, digest: &mut Digest) {
        self.nodes.iter().for_each(|node| node.imprint.digest(digest));
    }

    /// Share of the middle's parcels in each replicate group [-].
    #[must_use]
    pub(super) fn group_shares(&self) -> [f64; GROUPS] {
        self.nodes.first().map_or([0.0; GROUPS], |node| node.imprint.group_shares())
    }

    /// Tables of the imprints flown so far, level by level.
    pub(super) fn tables<const L: usize>(&self) -> Vec<Vec<Vec<[f32; L]>>> {
        let flown = self.nodes.iter().enumerate().filter(|(i, node)| *i == 0 || node.imprint.flown() > 0);
        flown
            .map(|(_, node)| {
                (0..self.spec.levels.bins().len()).map(|level| node.imprint.table(level)).collect()
            })
            .collect()
    }
}
