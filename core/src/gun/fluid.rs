//! Paint to the tip: head, tip suction and pot pressure against needle gap and bore in series.
//!
//! Bore: dp = m rho V^2 + 32 mu L V / d^2 (laminar with kinetic loss). Needle gap g = x sin(th): dp = m rho (Vg - V)^2 +
//! 12 mu Lg Q / (pi d g^3), Vg = Q/A, A = pi g (d - g cos(th)) up to the bore (cone in a sharp seat). The paint is sped up once:
//! the gap loses what it gives above the bore's speed (sudden widening), nothing when the needle is clear. Viscosity at each
//! passage's own shear rate (8V/d, 6V/g; the small wall-rate correction for shear-thinning is left out). Range: laminar, Re < 2000.
//! A pot adds its pressure; its hose, or a suction cup's tube, is one more bore without kinetic loss.

use super::class::Feed;
use super::spec::{GunSetting, Kit};
use crate::air::{HEAT_RATIO, Jet, ROOM_PRESSURE};
use crate::constants::Constants;
use crate::math::{cos, sin};
use crate::paint::Paint;

/// Standard gravity [m/s2].
const GRAVITY: f64 = 9.806_65;
const PI: f64 = std::f64::consts::PI;

/// A round or flat passage that paint is pushed through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Passage {
    /// Straight bore.
    Bore {
        /// Diameter [m].
        diameter: f64,
        /// Length [m].
        length: f64,
    },
    /// Ring between needle cone and seat, before the bore.
    Gap {
        /// Seat diameter [m].
        diameter: f64,
        /// Width of the ring [m].
        width: f64,
        /// Length along the flow [m].
        length: f64,
        /// Flow area [m2].
        area: f64,
    },
}

impl Passage {
    /// Pressure [Pa] that drives a flow [m3/s] through; `viscosity` [Pa s] of a shear rate [1/s].
    #[must_use]
    pub fn pressure(&self, flow: f64, density: f64, kinetic: f64, viscosity: impl Fn(f64) -> f64) -> f64 {
        match *self {
            Self::Bore { diameter: d, length } => {
                let v = flow / (0.25 * PI * d * d);
                kinetic * density * v * v + 32.0 * viscosity(8.0 * v / d) * length * v / (d * d)
            }
            Self::Gap { diameter: d, width: g, length, area } => {
                let v = flow / area - flow / (0.25 * PI * d * d);
                let mu = viscosity(6.0 * flow / (PI * d * g * g));
                kinetic * density * v * v + 12.0 * mu * length * flow / (PI * d * g * g * g)
            }
        }
    }
}

/// Flow area [m2] between a needle lifted by `lift` [m], half angle [rad], and a sharp seat [m]; at most the bore.
#[must_use]
pub fn needle_area(lift: f64, half_angle: f64, seat: f64) -> f64 {
    let g = lift.max(0.0) * sin(half_angle);
    let bore = 0.25 * PI * seat * seat;
    // Past its largest value the formula falls: the needle is clear of the seat and the bore limits.
    let clear = g * cos(half_angle) >= 0.5 * seat;
    if clear { bore } else { (PI * g * (seat - g * cos(half_angle))).min(bore) }
}

/// How far the needle is lifted [m]: the trigger's second stage, stopped by the fluid knob.
#[must_use]
pub fn needle_lift(kit: &Kit, setting: &GunSetting, c: &Constants) -> f64 {
    let pulled = (setting.trigger - c.air_stage) / (1.0 - c.air_stage);
    c.needle_gain * kit.needle_travel * pulled.min(setting.fluid).clamp(0.0, 1.0)
}

/// Suction that the annular air makes at the tip [Pa]; held at its sonic value above choking.
#[must_use]
pub fn tip_suction(annulus: &Jet, c: &Constants) -> f64 {
    let dynamic = 0.5 * annulus.density * annulus.speed * annulus.speed;
    c.tip_suction * dynamic.min(0.5 * HEAT_RATIO * ROOM_PRESSURE)
}

/// What drives the paint out with the cup's vent open [Pa]: head (negative below the tip), tip suction, and the pot.
#[must_use]
pub fn drive(kit: &Kit, setting: &GunSetting, paint: &Paint, annulus: &Jet, c: &Constants) -> f64 {
    let head = paint.density * GRAVITY * kit.head_at(setting.cup_level) + tip_suction(annulus, c);
    if kit.feed == Feed::Pressure { head + setting.pot_pressure } else { head }
}

/// Flow [m3/s] of a liquid without viscosity through the bore under a drive [Pa]; 0 where nothing drives it.
#[must_use]
pub fn thin_flow(drive: f64, kit: &Kit, paint: &Paint, c: &Constants) -> f64 {
    0.25 * PI * kit.tip_bore * kit.tip_bore * (drive.max(0.0) / (c.kinetic_loss * paint.density)).sqrt()
}

/// Paint flow [m3/s]; 0 when the needle is shut, the cup dry or nothing drives it.
#[must_use]
pub fn paint_flow(kit: &Kit, setting: &GunSetting, paint: &Paint, annulus: &Jet, c: &Constants) -> f64 {
    flow_under(drive(kit, setting, paint, annulus, c), kit, setting, paint, c)
}

/// Paint flow [m3/s] under a given drive [Pa]; 0 when the needle is shut, the cup dry or the drive is not above 0.
#[must_use]
pub fn flow_under(drive: f64, kit: &Kit, setting: &GunSetting, paint: &Paint, c: &Constants) -> f64 {
    let lift = needle_lift(kit, setting, c);
    if lift <= 0.0 || drive <= 0.0 || kit.usable(setting.cup_level) <= 0.0 {
        return 0.0;
    }
    let bore = Passage::Bore { diameter: kit.tip_bore, length: kit.tip_land };
    let gap = Passage::Gap {
        diameter: kit.tip_bore,
        width: lift * sin(kit.needle_half_angle),
        length: c.needle_gap_length,
        area: needle_area(lift, kit.needle_half_angle, kit.tip_bore),
    };
    let tube = Passage::Bore { diameter: kit.paint_tube_bore, length: kit.paint_tube_length };
    let needs = |flow: f64| {
        let mu = |rate: f64| paint.viscosity_at(rate);
        bore.pressure(flow, paint.density, c.kinetic_loss, mu)
            + gap.pressure(flow, paint.density, c.kinetic_loss, mu)
            + tube.pressure(flow, paint.density, 0.0, mu)
    };
    // Without viscosity the bore alone would let this much through.
    let mut high = thin_flow(drive, kit, paint, c);
    let mut low = 0.0;
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if needs(middle) < drive {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
