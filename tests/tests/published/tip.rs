//! Paint through the tip.

use crate::table::{close, numbers};
use mistcoat::gun::{Passage, needle_area};

#[test]
fn flow_through_the_bore() {
    for row in numbers("hagenbach-textbook/tip.csv") {
        let bore = Passage::Bore { diameter: row[0] * 1e-3, length: 2e-3 };
        let needs = |flow: f64| bore.pressure(flow, 1000.0, 1.2, |_| row[1]);
        let (mut low, mut high) = (0.0, 1e-4);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if needs(middle) < row[2] { low = middle } else { high = middle }
        }
        close(&format!("{row:?}"), low * 6e7, row[3], 1e-3);
    }
}

#[test]
fn needle_opening() {
    // d 1.4 mm, half angle 10 degrees, lift 2 mm: 1.1543 mm2, 0.7499 of the bore (valve textbooks, computed).
    let area = needle_area(2e-3, 10f64.to_radians(), 1.4e-3);
    close("area", area * 1e6, 1.1543, 1e-4);
    let bore = std::f64::consts::FRAC_PI_4 * 1.4e-3 * 1.4e-3;
    close("share", area / bore, 0.7499, 1e-4);
    let mut last = 0.0;
    for i in 0..400 {
        let a = needle_area(f64::from(i) * 5e-5, 10f64.to_radians(), 1.4e-3);
        assert!(a >= last && a <= bore);
        last = a;
    }
    close("clear", last, bore, 1e-12);
}
