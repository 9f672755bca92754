use super::{Quantity, System, UnitError, parse, parse_number, parse_share, show, table};

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "{got} is not {want}");
}

/// Exact definitions (international yard and pound, US gallon of 231 in3, imperial gallon).
#[test]
fn exact_definitions() {
    for (quantity, text, si) in [
        (Quantity::Length, "1 in", 0.0254),
        (Quantity::Film, "1 mil", 25.4e-6),
        (Quantity::Length, "1 ft", 0.3048),
        (Quantity::Area, "1 ft2", 0.092_903_04),
        (Quantity::Volume, "1 ft3", 28.316_846_592e-3),
        (Quantity::Volume, "1 gal", 3.785_411_784e-3),
        (Quantity::Volume, "1 qt", 0.946_352_946e-3),
        (Quantity::Volume, "1 fl oz", 29.573_529_562_5e-6),
        (Quantity::Volume, "1 imp gal", 4.546_09e-3),
        (Quantity::Volume, "1 imp fl oz", 28.413_062_5e-6),
        (Quantity::Pressure, "1 bar", 1e5),
        (Quantity::Pressure, "1 psi", 6_894.757_293_168_361),
        (Quantity::AirFlow, "1 cfm", 28.316_846_592e-3 / 60.0),
        (Quantity::AirFlow, "1 L/min", 1e-3 / 60.0),
        (Quantity::PaintFlow, "160 mL/min", 160e-6 / 60.0),
        (Quantity::Speed, "1 ft/min", 0.005_08),
        (Quantity::Viscosity, "1 P", 0.1),
        (Quantity::Viscosity, "1 cP", 1e-3),
        (Quantity::KinematicViscosity, "1 St", 1e-4),
        (Quantity::KinematicViscosity, "57 mm2/s", 57e-6),
        (Quantity::KinematicViscosity, "1 cSt", 1e-6),
        (Quantity::SurfaceTension, "1 dyn/cm", 1e-3),
        (Quantity::Temperature, "20 C", 293.15),
        (Quantity::Temperature, "68 F", 293.15),
        (Quantity::Temperature, "73.4 F", 296.15),
        (Quantity::Temperature, "77 \u{b0}F", 298.15),
        (Quantity::Density, "1 lb/gal", 119.826_427_32),
        (Quantity::Angle, "180 deg", core::f64::consts::PI),
    ] {
        let got = parse(quantity, text).unwrap();
        close(got, si, 1e-10);
    }
    // 1 bar = 14.503773773 psi; 1 L/min = 0.0353146667 cfm; 30 psi = 2.0684 bar.
    close(1e5 / parse(Quantity::Pressure, "1 psi").unwrap(), 14.503_773_773, 1e-10);
    close(
        parse(Quantity::AirFlow, "1 L/min").unwrap() / parse(Quantity::AirFlow, "1 cfm").unwrap(),
        0.035_314_666_7,
        1e-9,
    );
    for (psi, bar) in [(10, 0.6895), (30, 2.0684), (40, 2.7579), (60, 4.1369), (90, 6.2053), (100, 6.8948)] {
        close(parse(Quantity::Pressure, &format!("{psi} psi")).unwrap(), bar * 1e5, 1e-4);
    }
}

#[test]
fn spellings() {
    for text in ["25um", "25 um", " 25  um ", "25 \u{b5}m", "25\u{3bc}m", "2.5e1 um", "+25. um", "25E0um"] {
        close(parse(Quantity::Film, text).unwrap(), 25e-6, 1e-15);
    }
    close(parse(Quantity::Length, ".5 m").unwrap(), 0.5, 0.0);
    close(parse(Quantity::Viscosity, "40 mPa s").unwrap(), 0.04, 1e-15);
    close(parse_share("50 %").unwrap(), 0.5, 0.0);
    close(parse_share("0.5").unwrap(), 0.5, 0.0);
    close(parse_number("-1.5e-3").unwrap(), -1.5e-3, 0.0);
}

#[test]
fn refusals() {
    fn no(quantity: Quantity, text: &str) -> UnitError {
        parse(quantity, text).unwrap_err()
    }
    assert_eq!(no(Quantity::Length, "180"), UnitError::NoUnit);
    for text in ["", "mm", "-", ".", "e5 mm", "0x10", "- 5 mm", "--5 mm"] {
        let error = no(Quantity::Length, text);
        assert!(
            error != UnitError::NoUnit && error != UnitError::NotFinite || text == "0x10",
            "{text}: {error}"
        );
    }
    for text in ["nan bar", "inf bar", "-inf bar", "NaN", "1e999 bar", "infinity bar", "1e308 bar"] {
        assert_eq!(no(Quantity::Pressure, text), UnitError::NotFinite, "{text}");
    }
    assert_eq!(
        no(Quantity::Length, "2 bar"),
        UnitError::WrongKind { unit: "bar".into(), is: Quantity::Pressure }
    );
    for (quantity, unit, near) in [
        (Quantity::Pressure, "Bar", "bar"),
        (Quantity::Pressure, "PSI", "psi"),
        (Quantity::Film, "microns", "um"),
        (Quantity::Length, "millimetres", "mm"),
        (Quantity::Volume, "oz", "fl oz"),
        (Quantity::AirFlow, "lpm", "L/min"),
        (Quantity::Temperature, "Celsius", "C"),
    ] {
        match no(quantity, &format!("3 {unit}")) {
            UnitError::UnknownUnit { nearest, .. } => assert_eq!(nearest, Some(near), "{unit}"),
            other => panic!("{unit}: {other}"),
        }
    }
    for text in ["1,5 mm", "1_000 mm", "1 mm mm", "0x10 mm", "1 000 mm"] {
        assert!(parse(Quantity::Length, text).is_err(), "{text}");
    }
}

#[test]
fn shown() {
    for (quantity, si, metric, us) in [
        (Quantity::Pressure, 2e5, "2.0 bar", "29 psi"),
        (Quantity::Length, 0.18, "180 mm", "7.1 in"),
        (Quantity::AirFlow, 12.3 * 28.316_846_592e-3 / 60.0, "348 L/min", "12.3 cfm"),
        (Quantity::Film, 26e-6, "26 um", "1.0 mil"),
        (Quantity::Film, 5.26e-6, "5.3 um", "0.21 mil"),
        (Quantity::Length, 1.3e-3, "1.3 mm", "0.051 in"),
        (Quantity::Temperature, 293.15, "20 C", "68 F"),
        (Quantity::Temperature, 273.15, "0 C", "32 F"),
        (Quantity::Speed, 0.45, "450 mm/s", "17.7 in/s"),
        (Quantity::Volume, 350e-6, "350 mL", "11.8 fl oz"),
        (Quantity::PaintFlow, 160e-6 / 60.0, "160 mL/min", "5.4 fl oz/min"),
        (Quantity::Film, 0.0, "0 um", "0.0 mil"),
        (Quantity::Film, -1e-30, "0 um", "0.0 mil"),
        (Quantity::Film, f64::NAN, "-", "-"),
    ] {
        assert_eq!(show(quantity, si, System::Metric), metric);
        assert_eq!(show(quantity, si, System::Us), us);
    }
}

/// Every name and spelling reads as itself, means one size in one kind, and what is shown reads back.
#[test]
fn the_list_is_closed_and_consistent() {
    let mut seen: Vec<(String, f64, f64)> = Vec::new();
    for quantity in Quantity::ALL {
        for unit in table::units(quantity) {
            for name in unit.also.iter().chain([&unit.name]) {
                let si = parse(quantity, &format!("3 {name}")).unwrap();
                close(si, (3.0 + unit.offset) * unit.size, 1e-15);
                for (other, size, offset) in &seen {
                    assert!(other != name || (*size == unit.size && *offset == unit.offset), "{name}");
                }
                seen.push(((*name).into(), unit.size, unit.offset));
            }
        }
        for system in [System::Metric, System::Us] {
            let text = show(quantity, 300.0, system);
            close(parse(quantity, &text).unwrap(), 300.0, 0.02);
        }
    }
}
