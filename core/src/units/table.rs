//! The closed list of units: name, size in SI, offset.
//!
//! Sizes come from `uom` where its digits are exact. Its psi, pound-force, cubic foot, gallon and fluid ounce are
//! rounded at the seventh digit, so these are built here from the exact inch (25.4 mm), pound (0.45359237 kg),
//! standard gravity (9.80665 m/s2), US gallon (231 in3) and imperial gallon (4.54609 L).

use uom::Conversion;
use uom::si::{
    angle, area, dynamic_viscosity, kinematic_viscosity, length, mass_density, pressure, surface_tension,
    thermodynamic_temperature, time, velocity, volume, volume_rate,
};

use super::Quantity;

/// One unit: SI value = (number + offset) * size.
#[derive(Clone, Copy)]
pub(super) struct Unit {
    /// As it is printed.
    pub name: &'static str,
    /// Other spellings that are read.
    pub also: &'static [&'static str],
    /// Size in SI.
    pub size: f64,
    /// Added to the number before it is scaled: temperatures only.
    pub offset: f64,
}

/// Size of one unit of `uom` in SI.
fn of<U: Conversion<f64, T = f64>>() -> f64 {
    U::coefficient()
}

fn inch() -> f64 {
    of::<length::inch>()
}
fn cubic_inch() -> f64 {
    inch() * inch() * inch()
}
fn cubic_foot() -> f64 {
    let foot = of::<length::foot>();
    foot * foot * foot
}
/// US liquid gallon [m3].
fn gallon() -> f64 {
    231.0 * cubic_inch()
}
/// Imperial gallon [m3].
fn imperial_gallon() -> f64 {
    4.546_09e-3
}
/// Avoirdupois pound [kg].
fn pound() -> f64 {
    0.453_592_37
}
fn psi() -> f64 {
    pound() * 9.806_65 / (inch() * inch())
}
fn minute() -> f64 {
    of::<time::minute>()
}

fn unit(name: &'static str, size: f64) -> Unit {
    Unit { name, also: &[], size, offset: 0.0 }
}
fn spelt(name: &'static str, also: &'static [&'static str], size: f64) -> Unit {
    Unit { name, also, size, offset: 0.0 }
}

/// What people say for a unit, lower case, without a plural s: read as a hint, never as the unit.
///
/// "ounce" alone is a trap: a weight, or one of two volumes 4 % apart.
pub(super) const SAID: &[(&str, &str)] = &[
    ("celsiu", "C"),
    ("cc/m", "mL/min"),
    ("degree", "deg"),
    ("fahrenheit", "F"),
    ("feet", "ft"),
    ("foot", "ft"),
    ("fpm", "ft/min"),
    ("hour", "h"),
    ("inche", "in"),
    ("\"", "in"),
    ("kg", "kg/L"),
    ("kelvin", "K"),
    ("liter", "L"),
    ("litre", "L"),
    ("lpm", "L/min"),
    ("meter", "m"),
    ("metre", "m"),
    ("micrometer", "um"),
    ("micrometre", "um"),
    ("micron", "um"),
    ("millimeter", "mm"),
    ("millimetre", "mm"),
    ("minute", "min"),
    ("ounce", "fl oz"),
    ("oz", "fl oz"),
    ("scfm", "cfm"),
    ("sec", "s"),
    ("second", "s"),
    ("thou", "mil"),
];

fn lengths() -> [Unit; 7] {
    [
        unit("mm", of::<length::millimeter>()),
        spelt("um", &["\u{b5}m", "\u{3bc}m"], of::<length::micrometer>()),
        unit("cm", of::<length::centimeter>()),
        unit("m", of::<length::meter>()),
        spelt("in", &["inch"], inch()),
        unit("ft", of::<length::foot>()),
        spelt("mil", &["mils"], of::<length::mil>()),
    ]
}

fn flows() -> [Unit; 9] {
    [
        spelt("L/min", &["l/min"], of::<volume_rate::liter_per_minute>()),
        spelt(
            "mL/min",
            &["ml/min", "cm3/min", "cm\u{b3}/min", "cc/min"],
            of::<volume::milliliter>() / minute(),
        ),
        spelt("L/s", &["l/s"], of::<volume_rate::liter_per_second>()),
        spelt("mL/s", &["ml/s"], of::<volume::milliliter>()),
        spelt("m3/min", &["m\u{b3}/min"], 1.0 / minute()),
        spelt("m3/h", &["m\u{b3}/h"], 1.0 / of::<time::hour>()),
        spelt("m3/s", &["m\u{b3}/s"], 1.0),
        spelt("cfm", &["ft3/min"], cubic_foot() / minute()),
        unit("fl oz/min", gallon() / 128.0 / minute()),
    ]
}

/// Units that a quantity may be given in; the usual one first.
pub(super) fn units(quantity: Quantity) -> Vec<Unit> {
    match quantity {
        Quantity::Length => lengths().to_vec(),
        Quantity::Film => {
            let [mm, um, cm, m, inch, ft, mil] = lengths();
            vec![um, mil, mm, cm, m, inch, ft]
        }
        Quantity::Pressure => vec![
            unit("bar", of::<pressure::bar>()),
            unit("mbar", of::<pressure::millibar>()),
            unit("psi", psi()),
            unit("kPa", of::<pressure::kilopascal>()),
            unit("MPa", of::<pressure::megapascal>()),
            unit("Pa", of::<pressure::pascal>()),
        ],
        Quantity::AirFlow => flows().to_vec(),
        Quantity::PaintFlow => {
            let [l_min, ml_min, l_s, ml_s, m3_min, m3_h, m3_s, cfm, fl_oz_min] = flows();
            vec![ml_min, fl_oz_min, ml_s, l_min, l_s, m3_min, m3_h, m3_s, cfm]
        }
        Quantity::KinematicViscosity => vec![
            spelt("mm2/s", &["mm\u{b2}/s"], of::<kinematic_viscosity::square_millimeter_per_second>()),
            unit("cSt", of::<kinematic_viscosity::centistokes>()),
            unit("St", of::<kinematic_viscosity::stokes>()),
            spelt("m2/s", &["m\u{b2}/s"], of::<kinematic_viscosity::square_meter_per_second>()),
        ],
        Quantity::Viscosity => vec![
            spelt("mPa s", &["mPas", "mPa.s", "mPa\u{b7}s"], of::<dynamic_viscosity::millipascal_second>()),
            spelt("Pa s", &["Pas", "Pa.s", "Pa\u{b7}s"], of::<dynamic_viscosity::pascal_second>()),
            unit("cP", of::<dynamic_viscosity::centipoise>()),
            unit("P", of::<dynamic_viscosity::poise>()),
        ],
        Quantity::Temperature => vec![
            Unit { name: "C", also: &["\u{b0}C"], size: 1.0, offset: 273.15 },
            Unit {
                name: "F",
                also: &["\u{b0}F"],
                size: of::<thermodynamic_temperature::degree_fahrenheit>(),
                offset: 459.67,
            },
            unit("K", of::<thermodynamic_temperature::kelvin>()),
        ],
        Quantity::Time => vec![
            unit("s", of::<time::second>()),
            unit("ms", of::<time::millisecond>()),
            unit("min", minute()),
            unit("h", of::<time::hour>()),
        ],
        Quantity::Speed => vec![
            unit("mm/s", of::<velocity::millimeter_per_second>()),
            unit("cm/s", of::<velocity::centimeter_per_second>()),
            unit("m/s", of::<velocity::meter_per_second>()),
            unit("m/min", 1.0 / minute()),
            unit("in/s", inch()),
            unit("ft/s", of::<length::foot>()),
            unit("ft/min", of::<velocity::foot_per_minute>()),
        ],
        Quantity::Angle => {
            vec![spelt("deg", &["\u{b0}"], of::<angle::degree>()), unit("rad", of::<angle::radian>())]
        }
        Quantity::Volume => vec![
            spelt("mL", &["ml", "cm3", "cm\u{b3}", "cc"], of::<volume::milliliter>()),
            spelt("L", &["l"], of::<volume::liter>()),
            spelt("m3", &["m\u{b3}"], of::<volume::cubic_meter>()),
            spelt("fl oz", &["US fl oz"], gallon() / 128.0),
            unit("imp fl oz", imperial_gallon() / 160.0),
            unit("pt", gallon() / 8.0),
            unit("qt", gallon() / 4.0),
            unit("gal", gallon()),
            unit("imp gal", imperial_gallon()),
            unit("in3", cubic_inch()),
            unit("ft3", cubic_foot()),
        ],
        Quantity::Density => vec![
            spelt("kg/L", &["kg/l"], 1.0e3),
            spelt("g/mL", &["g/ml"], 1.0e3),
            spelt("g/cm3", &["g/cm\u{b3}"], 1.0e3),
            spelt("g/L", &["g/l"], 1.0),
            spelt("kg/m3", &["kg/m\u{b3}"], of::<mass_density::kilogram_per_cubic_meter>()),
            unit("lb/gal", pound() / gallon()),
        ],
        Quantity::SurfaceTension => vec![
            unit("mN/m", of::<surface_tension::millinewton_per_meter>()),
            unit("N/m", of::<surface_tension::newton_per_meter>()),
            unit("dyn/cm", 1.0e-3),
        ],
        Quantity::Area => vec![
            spelt("mm2", &["mm\u{b2}"], of::<area::square_millimeter>()),
            spelt("cm2", &["cm\u{b2}"], of::<area::square_centimeter>()),
            spelt("m2", &["m\u{b2}"], of::<area::square_meter>()),
            unit("in2", inch() * inch()),
            unit("ft2", of::<length::foot>() * of::<length::foot>()),
        ],
        Quantity::Mass => vec![unit("g", 1e-3), unit("kg", 1.0), unit("lb", pound())],
    }
}
