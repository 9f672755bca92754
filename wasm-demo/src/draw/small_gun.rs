//! A gun no larger than a thumbnail, nozzle left, for the head of a row: 48 by 72 px.

use super::svg::{line, path};
use crate::state::Feed;

/// The gun of a feed, its cup as full as a fresh one. A pressure gun has its hose and no cup.
pub fn small_gun(feed: Feed) -> String {
    let body = "M6 27H10L11 25H33L40 28V31L37 34L42 60C42 62 41 63 39 63H35C33 63 32 62 32 60L29 40L24 36H12L10 33H6Z";
    let trigger = "M20 36C19 42 20 46 22 50";
    let cap = "M6 26L2 24V36L6 34";
    let mut out = path("small-part", cap) + &path("small-body", body) + &path("small-line", trigger);
    out += &line("small-line", (33.0, 25.0), (33.0, 22.0));
    out += &match feed {
        Feed::Gravity => {
            path("small-cup", "M8 2H28V11L21 19V25H15V19L8 11Z")
                + &path("paint", "M9.500 7H26.500V10.500L19.800 18H16.200L9.500 10.500Z")
        }
        Feed::Suction => {
            path("small-cup", "M15 36V42H9V60H27V42H21V36Z")
                + &path("paint", "M10.500 48H25.500V58.500H10.500Z")
        }
        Feed::Pressure => {
            path("small-line", "M18 36V48C18 58 14 60 14 70")
                + &path("small-hose", "M18 38V48C18 58 14 60 14 69")
        }
    };
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn feeds_differ() {
        let all = [Feed::Gravity, Feed::Suction, Feed::Pressure].map(small_gun);
        assert!(all[0] != all[1] && all[1] != all[2]);
        assert!(all[0].contains("paint") && !all[2].contains("\"paint\""));
    }
}
