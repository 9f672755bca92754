//! Generic compressors. Displacement, where a machine is sold by it, stands beside delivered air to be told apart from
//! it; nothing is computed from it.

use super::Figure;
use crate::supply::Compressor;

/// A compressor of the catalogue. Flows are free air, pressures gauge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CompressorData {
    /// Id in the job file.
    pub id: &'static str,
    /// Plain name for the screen.
    pub name: &'static str,
    /// Motor [W].
    pub motor: Figure,
    /// What its label boasts, where it is sold by displacement [m3/s]: for showing only.
    pub displacement: Option<Figure>,
    /// Delivered air [m3/s].
    pub delivered_air: Figure,
    /// Tank [m3].
    pub tank: Figure,
    /// Starts at [Pa gauge].
    pub cut_in: Figure,
    /// Stops at [Pa gauge].
    pub cut_out: Figure,
}

impl CompressorData {
    /// What computes: delivered air, tank, cut-in, cut-out.
    #[must_use]
    pub fn compressor(&self) -> Compressor {
        Compressor {
            delivered_air: self.delivered_air.value,
            tank: self.tank.value,
            cut_in: self.cut_in.value,
            cut_out: self.cut_out.value,
        }
    }

    /// Every figure with the name of its field.
    #[must_use]
    pub fn figures(&self) -> Vec<(&'static str, Figure)> {
        let mut all = vec![
            ("motor", self.motor),
            ("delivered_air", self.delivered_air),
            ("tank", self.tank),
            ("cut_in", self.cut_in),
            ("cut_out", self.cut_out),
        ];
        all.extend(self.displacement.map(|d| ("displacement", d)));
        all
    }
}

const L_MIN: f64 = 1e-3 / 60.0;
const LITRE: f64 = 1e-3;
const BAR: f64 = 1e5;

const SIZE: &str = "common practice, no source: a usual size of this class";
const LABEL: &str = "common practice, no source: what such machines are sold by, pistons' sweep";
const SMALL: &str =
    "common practice, no source: direct-drive pistons deliver 0.6 to 0.7 of their displacement at 6 bar";
const BELT: &str =
    "common practice, no source: belt-driven two-stage pistons deliver 0.72 to 0.8 of their displacement";
const SCREW: &str =
    "common practice: 6 to 7 kW for 1 m3/min at 7 bar (data sheets, seen); sold by delivered air";
const SWITCH: &str = "common practice, no source: usual setting of the pressure switch";

const fn f(value: f64, origin: &'static str) -> Figure {
    Figure { value, origin }
}

/// The compressors, by delivered air.
pub(super) const ALL: &[CompressorData] = &[
    CompressorData {
        id: "airbrush-0.2kW",
        name: "airbrush compressor, 0.2 kW, 3 L",
        motor: f(200.0, SIZE),
        displacement: Some(f(23.0 * L_MIN, LABEL)),
        delivered_air: f(14.0 * L_MIN, SMALL),
        tank: f(3.0 * LITRE, SIZE),
        cut_in: f(3.0 * BAR, SWITCH),
        cut_out: f(4.0 * BAR, SWITCH),
    },
    CompressorData {
        id: "workshop-1.1kW",
        name: "oil-free direct drive, 1.1 kW, 24 L",
        motor: f(1100.0, SIZE),
        displacement: Some(f(180.0 * L_MIN, LABEL)),
        delivered_air: f(
            105.0 * L_MIN,
            "common practice, no source: oil-free direct drive delivers 0.55 to 0.65",
        ),
        tank: f(24.0 * LITRE, SIZE),
        cut_in: f(6.0 * BAR, SWITCH),
        cut_out: f(8.0 * BAR, SWITCH),
    },
    CompressorData {
        id: "workshop-2kW",
        name: "direct drive, 2 kW, 50 L",
        motor: f(2000.0, SIZE),
        displacement: Some(f(250.0 * L_MIN, LABEL)),
        delivered_air: f(
            160.0 * L_MIN,
            "common practice, no source: a 2 kW that claims 250 L/min delivers 150 to 180",
        ),
        tank: f(50.0 * LITRE, SIZE),
        cut_in: f(6.0 * BAR, SWITCH),
        cut_out: f(8.0 * BAR, SWITCH),
    },
    CompressorData {
        id: "workshop-3kW",
        name: "belt drive, 3 kW, 150 L",
        motor: f(3000.0, SIZE),
        displacement: Some(f(400.0 * L_MIN, LABEL)),
        delivered_air: f(290.0 * L_MIN, BELT),
        tank: f(150.0 * LITRE, SIZE),
        cut_in: f(7.0 * BAR, SWITCH),
        cut_out: f(9.0 * BAR, SWITCH),
    },
    CompressorData {
        id: "workshop-4kW",
        name: "belt drive, 4 kW, 270 L",
        motor: f(4000.0, SIZE),
        displacement: Some(f(600.0 * L_MIN, LABEL)),
        delivered_air: f(450.0 * L_MIN, BELT),
        tank: f(270.0 * LITRE, SIZE),
        cut_in: f(8.0 * BAR, SWITCH),
        cut_out: f(10.0 * BAR, SWITCH),
    },
    CompressorData {
        id: "workshop-5.5kW",
        name: "belt drive, 5.5 kW, 270 L",
        motor: f(5500.0, SIZE),
        displacement: Some(f(850.0 * L_MIN, LABEL)),
        delivered_air: f(650.0 * L_MIN, BELT),
        tank: f(270.0 * LITRE, SIZE),
        cut_in: f(8.0 * BAR, SWITCH),
        cut_out: f(10.0 * BAR, SWITCH),
    },
    CompressorData {
        id: "screw-7.5kW",
        name: "screw, 7.5 kW, 500 L",
        motor: f(7500.0, SIZE),
        displacement: None,
        delivered_air: f(1100.0 * L_MIN, SCREW),
        tank: f(500.0 * LITRE, SIZE),
        cut_in: f(7.5 * BAR, SWITCH),
        cut_out: f(9.0 * BAR, SWITCH),
    },
];
