//! The film as a table.

use crate::film::FilmMap;
use crate::job::PartShape;
use std::fmt::Write;

/// Film by cell as CSV, one cell a line: place of the cell's middle, dry film and wet film as landed.
///
/// A panel's places are `x_mm` along and `y_mm` up it from its middle; a tube's are `x_mm` along it from its middle and
/// `angle_deg` round it from the side the first pass faces. A frame's begin with the `member`, and its angles count from the side
/// that faces the painter.
#[must_use]
pub fn film_csv(film: &FilmMap, part: &PartShape) -> String {
    let round = part.is_of_tubes();
    let frame = matches!(part, PartShape::Frame(_));
    let head = if frame { "member," } else { "" };
    let mut text = format!("{head}x_mm,{},dry_um,wet_um\n", if round { "angle_deg" } else { "y_mm" });
    let middle = |i: usize, n: usize| i as f64 + 0.5 - 0.5 * n as f64;
    for face in film.faces() {
        let step = if round { 360.0 / face.ny.max(1) as f64 } else { face.cell_y * 1e3 };
        for cell in face.cells() {
            let (i, j) = ((cell - face.first) % face.nx, (cell - face.first) / face.nx);
            if frame {
                let _ = write!(text, "\"{}\",", face.name.replace('"', "\"\""));
            }
            let _ = writeln!(
                text,
                "{:.3},{:.3},{:.4},{:.4}",
                middle(i, face.nx) * face.cell_x * 1e3,
                middle(j, face.ny) * step,
                film.dry[cell] * 1e6,
                film.wet[cell] * 1e6
            );
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_cell_has_its_line() {
        let mut film = FilmMap::bare(2, 4, 0.01, 0.005);
        (film.dry[1], film.wet[1]) = (25e-6, 50e-6);
        let panel = film_csv(&film, &PartShape::Panel { width: 0.02, height: 0.02 });
        assert!(panel.starts_with("x_mm,y_mm,dry_um,wet_um\n-5.000,-7.500,0.0000,0.0000\n"), "{panel}");
        assert!(panel.contains("\n5.000,-7.500,25.0000,50.0000\n") && panel.lines().count() == 9, "{panel}");
        let tube = film_csv(&film, &PartShape::Tube { diameter: 0.02 / core::f64::consts::PI, length: 0.02 });
        assert!(tube.contains("\n5.000,-135.000,25.0000,50.0000\n"), "{tube}");
    }
}
