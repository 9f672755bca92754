//! What stands round a gun on its way along a frame: the tube aimed at, and those beside it.

use super::FrameCourse;
use super::stand::{Stand, Visit};
use crate::airflow::{AmongFlow, FanJet};
use crate::error::ParameterError;
use crate::flight::Scene;
use crate::part::{AmongPart, CARD_HALF};
use crate::rod::{MOST_RODS, Rod};

/// Tubes further behind the one aimed at than this are left out [m]: few droplets reach so far.
const BEHIND: f64 = 0.6;
/// Tubes in thinner spray than this share of that at the tube aimed at are left out [-].
const FAINT: f64 = 0.01;
/// A tube is looked at in so many places for how much spray it stands in.
const LOOKS: usize = 16;
/// A droplet this far past the last tube has passed it [m].
const PAST: f64 = 0.05;

impl FrameCourse {
    /// How much spray a tube stands in, against the tube aimed at: by the free jet, twice as wide as its air.
    fn stands_in(&self, rod: &Rod<f64>, jet: &FanJet<f64>, distance: f64) -> f64 {
        let own = jet.section(distance);
        let mut most: f64 = 0.0;
        for i in 0..=LOOKS {
            let t = rod.length * i as f64 / LOOKS as f64;
            let [x, y, z] = core::array::from_fn(|k| rod.end[k] + rod.axis[k] * t);
            if z < 1e-3 || z > distance + BEHIND {
                continue;
            }
            let s = jet.section(z);
            // The nearest the tube itself comes to the gun's axis.
            let near = (x * x + y * y).sqrt();
            let nearer = if near > 1e-9 { (near - rod.radius).max(0.0) / near } else { 0.0 };
            let (xi, eta) = (0.5 * x * nearer * s.ix, 0.5 * y * nearer * s.iy);
            let q = xi * xi + eta * eta;
            most = most.max(crate::math::exp(-q) * (own.bx * own.by * s.ix * s.iy).min(4.0));
        }
        most
    }

    /// The tubes beside the one aimed at that stand in the spray, those in the thickest first.
    fn beside(&self, visit: &Visit, stand: &Stand) -> Vec<(usize, Rod<f64>)> {
        let jet = self.jet(visit).unwrap_or(self.jet);
        let mut all: Vec<(f64, usize, Rod<f64>)> = (0..self.frame.members.len())
            .filter(|&member| member != visit.member)
            .map(|member| {
                let rod = self.rod(member, stand);
                (self.stands_in(&rod, &jet, visit.reach()), member, rod)
            })
            .filter(|(share, ..)| *share > FAINT)
            .collect();
        all.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        all.into_iter().map(|(_, member, rod)| (member, rod)).collect()
    }

    /// Share of the way along which more tubes stand in the spray than are flown past [-], from a look every 30 mm.
    #[must_use]
    pub fn crowded(&self) -> f64 {
        let (mut all, mut crowded) = (0u32, 0u32);
        for (pass, p) in self.passes().iter().enumerate() {
            let count = (p.length() / 0.03).ceil().max(1.0) as usize;
            for i in 0..count {
                let visit =
                    self.way.planned(pass, p.from + (p.to - p.from) * (i as f64 + 0.5) / count as f64);
                all += 1;
                crowded += u32::from(self.beside(&visit, &self.stand(&visit)).len() > MOST_RODS);
            }
        }
        f64::from(crowded) / f64::from(all.max(1))
    }

    /// The scene of a visit, and which tubes its neighbours are.
    ///
    /// # Errors
    /// Never for a course that was made.
    pub fn scene(&self, visit: &Visit) -> Result<(Scene<f64>, Vec<usize>), ParameterError> {
        let stand = self.stand(visit);
        let scene = self.tube(visit)?;
        let mut beside = self.beside(visit, &stand);
        beside.truncate(MOST_RODS);
        let Scene::Tube(flow, part) = scene else { return Ok((scene, Vec::new())) };
        if beside.is_empty() {
            return Ok((scene, Vec::new()));
        }
        let (members, rods): (Vec<usize>, Vec<Rod<f64>>) = beside.into_iter().unzip();
        let own = self.rod(visit.member, &stand);
        // Pushed aside, the tube stands there for the flow and for the droplets alike.
        let own = Rod { end: [own.end[0], own.end[1] + self.beside_axis(visit)[1], own.end[2]], ..own };
        let far = rods.iter().fold(part.axis_z + part.behind, |far, rod| {
            let ends = [rod.end[2], rod.end[2] + rod.axis[2] * rod.length];
            far.max(ends[0].max(ends[1]).min(visit.reach() + BEHIND) + rod.radius + PAST)
        });
        let among = AmongPart::new(own, &rods, far, CARD_HALF);
        Ok((Scene::Among(AmongFlow::new(flow, &rods), among), members))
    }
}
