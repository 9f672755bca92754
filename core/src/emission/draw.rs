//! The draws, a vector of droplets at a time, over [`Lanes`].

use super::{Emission, PICK_UP_SIZE, START};
use crate::flight::Batch;
use crate::lanes::Lanes;
use crate::normal::deviate;
use crate::stream::{LaneStream, Purpose};
use crate::surface::{Vec3, scale};
use core::ops::Range;

/// Starts of a vector of droplets.
struct Drawn<L: Lanes> {
    diameter: L,
    /// Slopes of the ray [-].
    ray: [L; 2],
    omega: Vec3<L>,
}

/// A normal number.
#[inline(always)]
fn normal<L: Lanes>(like: L, stream: &mut LaneStream<L>) -> L {
    let (p, up) = stream.open01(like);
    deviate(p, up)
}

/// The draws of emission, in their order; those of plugs have a stream of their own.
#[inline(always)]
fn draw<L: Lanes>(e: &Emission, like: L, stream: &mut LaneStream<L>, plug: &mut LaneStream<L>) -> Drawn<L> {
    let mut diameter = e.sizes.at(stream.open01(like));
    let at = stream.open01(like);
    let mut place = e.place.at(at);
    let (e1, e2) = (normal(like, stream), normal(like, stream));
    let omega = [normal(like, stream), normal(like, stream), normal(like, stream)];
    if let Some((share, places, sizes)) = &e.slugs {
        let of_plug = plug.open01(like).0.lt(like.lit(*share));
        place = L::select(of_plug, places.at(at), place);
        diameter = L::select(of_plug, sizes.at(plug.open01(like)), diameter);
    }
    let spread = like.lit(e.spread);
    let along = like.lit(e.slope) * place + spread * e1 + like.lit(e.lean);
    let across = spread * e2;
    Drawn { diameter, ray: if e.fan_along_x { [along, across] } else { [across, along] }, omega }
}

/// Fills a batch with the starts of `droplets`. `like` is any vector of the kind to draw with.
#[inline(always)]
pub(super) fn fill<L: Lanes>(
    e: &Emission,
    like: L,
    seed: u64,
    droplets: Range<u64>,
    [emission, flight]: [Purpose; 2],
    batch: &mut Batch<L::Scalar>,
) {
    batch.reset(usize::try_from(droplets.end.saturating_sub(droplets.start)).unwrap_or(0));
    let one = like.lit(1.0);
    let mut first = 0;
    while first < batch.len() {
        let droplet = droplets.start + first as u64;
        let [mut stream, flying] = LaneStream::start(like, seed, droplet, [emission, flight]);
        let mut plug = stream;
        if e.slugs.is_some() {
            [plug, _] = LaneStream::start(like, seed, droplet, [emission.slugs(), flight]);
        }
        let Drawn { diameter, ray: [tx, ty], omega } = draw(e, like, &mut stream, &mut plug);
        let slow = one + diameter * like.lit(1.0 / PICK_UP_SIZE);
        let axial = like.lit(e.speed) / (slow * (one + tx * tx + ty * ty)).sqrt();
        let ray = [tx, ty, one];
        batch.write(first, scale(ray, like.lit(START)), scale(ray, axial), omega, diameter, &flying);
        first += L::LEN;
    }
}
