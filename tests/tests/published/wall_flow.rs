//! The jet at a flat wall: strain, wall jet; and the f32 lanes beside f64.

use crate::jet::jet;
use crate::table::{below, between, close, held};
use fearless_simd::{Level, Simd, dispatch};
use mistcoat::airflow::{AirFlow, PanelFlow, TubeFlow};
use mistcoat::lanes::{Lanes, Wide};
use mistcoat::stream::{Purpose, Stream};

/// Wall-normal, across and along strain on the axis times r12x/Uc(H), where the wall's h rises from 0.
fn strain(slope: f64, distance: f64) -> ([f64; 3], f64) {
    let jet = jet(0.0, slope, 1.2, 280.0);
    let flow = PanelFlow::new(jet, distance).unwrap();
    let s = jet.section(distance);
    let half = s.bx * 2f64.ln().sqrt();
    let e = 1e-6;
    let unit = half / s.centre / e;
    let normal = flow.at([0.0, 0.0, distance - e]).velocity[2] * unit;
    let across = flow.at([e, 0.0, distance]).velocity[0] * unit;
    let along = flow.at([0.0, e, distance]).velocity[1] * unit;
    ([normal, across, along], s.bx / s.by)
}

#[test]
fn strain_at_the_wall() {
    let ([normal, across, along], _) = strain(0.0, 0.3);
    // Round: 2 a = 2.26-2.44 Uc/r12 from wall pressure (Beltaos and Rajaratnam 1974, from memory).
    let source = "Beltaos & Rajaratnam 1974, from memory; used up: the constant";
    between("Wall strain of a round jet, r12/Uc", normal, [2.26, 2.44], source);
    close("round: across as along", across, along, 1e-6);
    close("continuity", across + along, normal, 1e-4);
    // Plane: 0.62-0.77; the widest fan comes near.
    let ([normal, across, along], ratio) = strain(0.6, 0.3);
    let plane = normal / (1.0 + ratio * ratio) - 0.52 * ratio;
    between(
        "Wall strain of a plane jet, from the widest fan",
        plane,
        [0.62, 0.77],
        "by source, from memory; used up",
    );
    close("continuity", across + along, normal, 1e-4);
    let share = 1.0 / (1.0 + ratio * ratio);
    held(
        "Wall strain across a fan over its sum",
        across / normal,
        share,
        1e-4,
        "r^2 rule, ours: by construction",
    );
}

#[test]
fn wall_jet_beside_poreh() {
    // Um H / sqrt(J) = 1.32 (r/H)^-1.10 (Poreh, Tsuei and Cermak 1967, from memory), at r = H.
    let (momentum, distance) = (1.2f64, 0.2);
    let flow = PanelFlow::new(jet(0.0, 0.0, momentum, 280.0), distance).unwrap();
    let mut largest = 0.0f64;
    for i in 0..400 {
        largest = largest.max(flow.at([distance, 0.0, distance * (1.0 - f64::from(i) * 1e-3)]).velocity[0]);
    }
    let (model, published) = (largest * distance / momentum.sqrt(), 1.32);
    let source = "Poreh, Tsuei & Cermak 1967, from memory; a prediction";
    held("Wall jet Um H/sqrt(J) at r = H", model, published, 0.25, source);
}

#[inline(always)]
fn wide_at<S: Simd, F: AirFlow<Wide<S>>>(simd: S, flow: &F, p: [f32; 3]) -> [f64; 3] {
    let like = Wide::<S>::zero(simd);
    flow.at(p.map(|v| like.splat(v))).velocity.map(|v| f64::from(v.lane(0)))
}

#[test]
fn f32_lanes_agree_with_f64() {
    let mut worst = [0.0f64; 2];
    let mut draw = Stream::new(11, 0, Purpose::Emission);
    for slope in [0.0, 0.2, 0.45] {
        let jet = jet(0.0, slope, 1.2, 280.0);
        let panel = PanelFlow::new(jet, 0.19).unwrap();
        let tube = TubeFlow::new(jet, 0.19, 0.011, 0.0).unwrap();
        let (panel32, tube32) = (panel.cast::<f32>(), tube.cast::<f32>());
        for _ in 0..20_000 {
            let z = 0.02 + 0.17 * draw.open01();
            let s = jet.section(z);
            let p32 =
                [(draw.open01() * 5.0 - 2.5) * s.bx, (draw.open01() * 5.0 - 2.5) * s.by, z].map(|v| v as f32);
            let p = p32.map(f64::from);
            let both = [
                (panel.at(p).velocity, dispatch!(Level::new(), simd => wide_at(simd, &panel32, p32))),
                (tube.at(p).velocity, dispatch!(Level::new(), simd => wide_at(simd, &tube32, p32))),
            ];
            for (worst, (exact, lanes)) in worst.iter_mut().zip(both) {
                for (a, b) in exact.iter().zip(lanes) {
                    *worst = worst.max((a - b).abs() / s.centre);
                }
            }
        }
    }
    for (part, worst) in ["panel", "tube"].iter().zip(worst) {
        below(&format!("Air of the f32 lanes beside f64, {part}, / Uc"), worst, 2e-5, "same formulas in f64");
    }
}
