//! Functions of the lanes against libm.

use super::*;
use crate::math;
use fearless_simd::{Level, dispatch};

#[inline(always)]
fn apply<S: Simd>(simd: S, x: f32) -> [f32; 7] {
    let v = Wide::<S>::zero(simd).splat(x);
    let (c, s) = v.turn();
    let power = v.abs().pow(0.3435);
    let out = [v.exp(), v.abs().ln(), v.erf(), c, s, v.abs().fade(), power];
    out.map(|of| of.lane(0))
}

fn at(x: f32) -> [f32; 7] {
    dispatch!(Level::new(), simd => apply(simd, x))
}

#[test]
fn functions_are_close_to_libm() {
    let (mut exp, mut ln, mut erf, mut trig) = (0.0f64, 0.0f64, 0.0f64, 0.0f64);
    let (mut fade, mut pow) = (0.0f64, 0.0f64);
    for i in 0..40_000 {
        let x = (i as f64 - 20_000.0) * 0.004 + 0.001_7;
        let v = f64::from(x as f32);
        let got = at(x as f32);
        exp = exp.max((f64::from(got[0]) / math::exp(v) - 1.0).abs());
        fade = fade.max((f64::from(got[5]) / math::exp(-v.abs()) - 1.0).abs());
        let wide = f64::from(((x * x * x) as f32).abs().max(1e-12));
        pow = pow.max((f64::from(at(wide as f32)[6]) / math::pow(wide, 0.3435) - 1.0).abs());
        let reference = math::ln(v.abs());
        ln = ln.max((f64::from(got[1]) - reference).abs() / reference.abs().max(0.1));
        let small = f64::from((x * 0.05) as f32);
        erf = erf.max((f64::from(at(small as f32)[2]) - math::erf(small)).abs());
        let turn = f64::from((i as f64 / 40_000.0) as f32);
        let t = at(turn as f32);
        let angle = core::f64::consts::TAU * turn;
        trig = trig.max((f64::from(t[3]) - math::cos(angle)).abs());
        trig = trig.max((f64::from(t[4]) - math::sin(angle)).abs());
    }
    assert!(exp < 2e-7, "exp {exp:e}");
    assert!(fade < 2e-7, "fade {fade:e}");
    assert!(pow < 1e-6, "pow {pow:e}");
    assert!(ln < 2e-7, "ln {ln:e}");
    assert!(erf < 6e-7, "erf {erf:e}");
    assert!(trig < 3e-7, "turn {trig:e}");
}

#[test]
fn far_arguments_stay_finite() {
    for x in [-1e30f32, -200.0, 0.0, 200.0, 1e30] {
        let got = at(x);
        assert!(got[0].is_finite() && got[2].is_finite(), "{x}: {got:?}");
    }
    assert!(at(-1e30)[0] < 1e-37);
}
