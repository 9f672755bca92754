//! The job's address as a square code.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};
use std::fmt::Write;

/// Size of the square code on paper [mm]: a hand's reach from a phone.
pub(super) const CODE: f64 = 34.0;

/// An address as a square code (ISO/IEC 18004) that a phone's camera reads; none where it is too long for one that prints well.
pub(super) fn square_code(address: &str) -> Option<String> {
    // Version 25: modules of 0.29 mm, and a quiet margin of four.
    let code = QrCode::encode_segments_advanced(
        &QrSegment::make_segments(address),
        QrCodeEcc::Low,
        Version::MIN,
        Version::new(25),
        None,
        false,
    )
    .ok()?;
    let size = code.size();
    let module = CODE / f64::from(size + 8);
    let mut d = String::new();
    for y in 0..size {
        for x in (0..size).filter(|&x| code.get_module(x, y)) {
            let at = |i: i32| n4(f64::from(i + 4) * module);
            let _ = write!(d, "M{} {}h{m}v{m}h-{m}z", at(x), at(y), m = n4(module));
        }
    }
    Some(format!(r##"<path fill="#000000" shape-rendering="crispEdges" d="{d}"/>"##))
}

/// Four decimals: modules must meet.
fn n4(value: f64) -> String {
    format!("{value:.4}")
}
