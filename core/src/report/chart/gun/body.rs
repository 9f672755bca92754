//! The gun's body with its air ways, handle and air valve seat.

use crate::gun::Feed;
use crate::report::chart::svg::{filled, group, path, rect};

/// Body outline, clockwise from the head's upper front corner.
const OUTLINE: &str = "M58 -66H96V-62H98V-98H138V-76C146 -70 152 -84 184 -84C206 -84 214 -74 238 -78\
C278 -84 300 -101 323.6 -116.3L349 -75.5C353 -66 356 -58 356 -46V46C356 60 366 65 380 66C402 67 406 84 394 98\
C378 116 374 140 380 178C391 236 396 270 395 322C394 352 400 380 405 408L313 423C303 362 290 302 284 252\
C278 196 270 160 266 112C262 84 254 70 254 40V-24H158V58H98V66H58Z";

/// Air ways in the body.
///
/// Up the handle into the air valve's chamber; from the valve up past the needle; there one way runs forward to the
/// centre of the cap, one up to the fan valve, and from its seat forward to the horns.
const WAYS: [&str; 4] = [
    // Handle, up to the valve's chamber.
    "M296 74H350V84H336C338 190 356 300 371 414L349 417.500C334 300 312 190 310 88H296Z",
    // From the valve's seat up, then forward to the cap's centre and back to the fan valve.
    "M262 68V-28H66V-38H300V-62L316 -70V-28H280V44H300V64Z",
    // Horn way, from the fan valve's seat forward.
    "M58 -56H259L280 -69L288 -57L266 -44H58Z",
    // The ring-shaped room behind the horns, where it shows below.
    "M58 44H86V56H58Z",
];

/// Body, ways, spring housing, valve seat. Only a suction gun's body has no boss on top.
pub fn still(ids: &str, feed: Feed) -> String {
    let outline = match feed {
        Feed::Suction => OUTLINE.replace("V-62H98V-98H138V-76", "V-62H138V-76"),
        Feed::Gravity | Feed::Pressure => OUTLINE.to_string(),
    };
    let mut out = filled("outline", &format!("{ids}-a"), &outline);
    for way in WAYS {
        out += &path("air inside", way);
    }
    // The way to the centre also reaches the lower half of the tip's room.
    out += &path("air inside", "M66 28H84V38H66Z");
    // Housing of the needle's spring, and its nut in which the fluid knob is threaded.
    out += &path("sheet part", "M276 -20H356V20H276Z");
    out += &filled("part", &format!("{ids}-b"), "M356 -31H378V31H356Z");
    // Gland of the needle in the body between the way and the housing.
    out += &filled("part", &format!("{ids}-b"), "M254 -13H262V13H254Z");
    // Gland of the air valve's stem, and the valve's seat.
    out += &filled("part", &format!("{ids}-b"), "M246 36H262V72H246Z");
    out += &filled("part", &format!("{ids}-b"), "M288 40H296V47H288ZM288 61H296V68H288Z");
    out += &path("air", "M296 40H350V82H296Z");
    out += &path("inside-line", "M296 40H350V84H336M296 68V88H310");
    // Fitting at the handle's foot.
    out += &group(
        "translate(359 415.500) rotate(-9)",
        &[
            path("sheet part", "M-27 0H27V9L18 20V46H-18V20L-27 9Z"),
            path("air", "M-10 -2H10V46H-10Z"),
            path(
                "inside-line",
                "M-10 -2V46M10 -2V46M-18 26H-10M-18 33H-10M-18 40H-10M10 26H18M10 33H18M10 40H18",
            ),
            rect("sheet part", -21.0, 44.0, 42.0, 8.0, 1.5),
        ]
        .concat(),
    );
    out
}
