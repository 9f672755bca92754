//! What the hand did: passes, distance, pace, spacing, straightness, read off the track itself.

use crate::stroke::{Moment, Piece, Track};
use serde::Serialize;

/// A stretch this long at least tells a pace [s].
const WINDOW: f64 = 0.2;
/// Passes whose directions differ by more than this cosine are not neighbours of a raster.
const SAME_WAY: f64 = 0.9;

/// Lowest and highest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Ends {
    /// Lowest.
    pub from: f64,
    /// Highest.
    pub to: f64,
}

/// What the hand did with the trigger pulled. On a tube places are beside its axis.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StrokeFigures {
    /// Whose hand: a word of the job file, "own figures" or "recorded".
    pub hand: String,
    /// Passes: stretches with the trigger pulled.
    pub passes: usize,
    /// Tip to face, square on, nearest and farthest [mm].
    pub distance_mm: Ends,
    /// Pace, mean over the way [mm/s].
    pub pace_mm_s: f64,
    /// Slowest and fastest of stretches of 0.2 s [mm/s].
    pub pace_from_to_mm_s: Ends,
    /// From pass to the next beside it, nearest and farthest [mm]; where there are two alike.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spacing_mm: Option<Ends>,
    /// Off a pass's own straight line, root mean square [mm].
    pub off_line_mm: f64,
    /// Tilt off square, largest [deg].
    pub tilt_deg: f64,
}

/// Grows to hold a value.
fn grow(ends: &mut Ends, value: f64) {
    ends.from = ends.from.min(value);
    ends.to = ends.to.max(value);
}

const NONE: Ends = Ends { from: f64::MAX, to: f64::MIN };

/// Where a moment aims on the face [m].
fn aimed(m: &Moment) -> [f64; 2] {
    let tan = |angle: f64| crate::math::sin(angle) / crate::math::cos(angle);
    [m.x + m.distance * tan(m.swing), m.y + m.distance * tan(m.heel)]
}

/// A pass: middle of its aim, direction, root sum of squares off its line, their number.
struct Line {
    middle: [f64; 2],
    along: [f64; 2],
    turn: f64,
    squares: f64,
    count: f64,
}

fn line(track: &Track, piece: &Piece) -> Line {
    let moments = &track.moments()[piece.segments.start..=piece.segments.end];
    let count = moments.len() as f64;
    let places: Vec<[f64; 2]> = moments.iter().map(aimed).collect();
    let mean = |i: usize| places.iter().map(|p| p[i]).sum::<f64>() / count;
    let middle = [mean(0), mean(1)];
    let (first, last) = (places[0], places[places.len() - 1]);
    let way = [last[0] - first[0], last[1] - first[1]];
    let length = (way[0] * way[0] + way[1] * way[1]).sqrt();
    let along = if length > 1e-6 { [way[0] / length, way[1] / length] } else { [1.0, 0.0] };
    let off = |p: &[f64; 2]| (p[1] - middle[1]) * along[0] - (p[0] - middle[0]) * along[1];
    let squares = places.iter().map(|p| off(p) * off(p)).sum();
    Line { middle, along, turn: moments[0].turn, squares, count }
}

impl StrokeFigures {
    /// Figures of a track.
    #[must_use]
    pub fn new(track: &Track, hand: &str) -> Self {
        let pieces = track.pieces();
        let (mut distance, mut paces, mut tilt) = (NONE, NONE, 0.0f64);
        let (mut way, mut time) = (0.0, 0.0);
        for piece in &pieces {
            let moments = &track.moments()[piece.segments.start..=piece.segments.end];
            let (mut stretch_way, mut stretch_time) = (0.0, 0.0);
            for pair in moments.windows(2) {
                let (a, b) = (aimed(&pair[0]), aimed(&pair[1]));
                let step = ((b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1])).sqrt();
                let took = pair[1].time - pair[0].time;
                (way, time) = (way + step, time + took);
                (stretch_way, stretch_time) = (stretch_way + step, stretch_time + took);
                if stretch_time >= WINDOW {
                    grow(&mut paces, stretch_way / stretch_time);
                    (stretch_way, stretch_time) = (0.0, 0.0);
                }
            }
            for m in moments {
                grow(&mut distance, m.distance);
                tilt = tilt.max(m.heel.abs()).max(m.swing.abs());
            }
        }
        let mean = if time > 0.0 { way / time } else { 0.0 };
        if paces.from > paces.to {
            paces = Ends { from: mean, to: mean };
        }
        let lines: Vec<Line> = pieces.iter().map(|piece| line(track, piece)).collect();
        let (squares, count) = lines.iter().fold((0.0, 0.0), |(s, n), l| (s + l.squares, n + l.count));
        let mut spacing = NONE;
        for pair in lines.windows(2) {
            let (a, b) = (&pair[0], &pair[1]);
            let same = (a.along[0] * b.along[0] + a.along[1] * b.along[1]).abs() > SAME_WAY;
            let across = (b.middle[1] - a.middle[1]) * a.along[0] - (b.middle[0] - a.middle[0]) * a.along[1];
            // Coats begin anew, sides of a tube lie elsewhere: no neighbours.
            if same && (a.turn - b.turn).abs() < 1e-6 && across.abs() > 1e-3 {
                grow(&mut spacing, across.abs());
            }
        }
        let mm = |ends: Ends| Ends { from: ends.from * 1e3, to: ends.to * 1e3 };
        Self {
            hand: hand.into(),
            passes: pieces.len(),
            distance_mm: mm(distance),
            pace_mm_s: mean * 1e3,
            pace_from_to_mm_s: mm(paces),
            spacing_mm: (spacing.from <= spacing.to).then(|| mm(spacing)),
            off_line_mm: (squares / count.max(1.0)).sqrt() * 1e3,
            tilt_deg: tilt.to_degrees(),
        }
    }
}
