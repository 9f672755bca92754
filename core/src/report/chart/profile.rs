//! Mean film along and across the part, as a line chart with the film wanted behind it.

use super::film_map::Wanted;
use crate::film::FilmMap;
use plotters::prelude::*;

/// Which way a profile runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// Along the strokes: each place averages a column of cells.
    Along,
    /// Across them (round a tube): each place averages a row.
    Across,
}

const INK: RGBColor = RGBColor(0x21, 0x1D, 0x18);
const INK2: RGBColor = RGBColor(0x5A, 0x52, 0x46);
const HAIR: RGBColor = RGBColor(0xD2, 0xC8, 0xB6);
const WELL: RGBColor = RGBColor(0xEA, 0xE2, 0xD2);
const SHEET: RGBColor = RGBColor(0xFC, 0xF9, 0xF2);

/// Size shown [px].
const WIDE: u32 = 720;
const TALL: u32 = 300;
/// The chart is drawn on a grid so many times finer: the back end rounds to whole places.
const FINE: u32 = 8;

/// Places [m] and mean dry film [m] of a profile.
#[must_use]
pub fn profile(film: &FilmMap, axis: Axis) -> Vec<(f64, f64)> {
    let (n, m, step) = match axis {
        Axis::Along => (film.face().nx, film.face().ny, film.face().cell_x),
        Axis::Across => (film.face().ny, film.face().nx, film.face().cell_y),
    };
    let cell = |i: usize, k: usize| match axis {
        Axis::Along => film.dry[k * film.face().nx + i],
        Axis::Across => film.dry[i * film.face().nx + k],
    };
    (0..n)
        .map(|i| {
            let mean = (0..m).map(|k| cell(i, k)).sum::<f64>() / m.max(1) as f64;
            ((i as f64 + 0.5 - 0.5 * n as f64) * step, mean)
        })
        .collect()
}

/// The profile as a line chart, 720 x 300 px; none of a film without cells. `round` where the axis runs round a tube.
#[must_use]
pub fn profile_svg(
    title: &str,
    film: &FilmMap,
    axis: Axis,
    round: bool,
    wanted: Option<Wanted>,
) -> Option<String> {
    let points: Vec<(f64, f64)> = profile(film, axis).into_iter().map(|(x, h)| (x * 1e3, h * 1e6)).collect();
    if points.is_empty() {
        return None;
    }
    let mut svg = String::new();
    draw(&mut svg, title, &points, round, wanted).ok()?;
    // Shown at its size; the finer grid stays in the view box.
    let fine = format!("width=\"{}\" height=\"{}\"", WIDE * FINE, TALL * FINE);
    Some(svg.replacen(&fine, &format!("width=\"{WIDE}\" height=\"{TALL}\""), 1))
}

fn draw(
    svg: &mut String,
    title: &str,
    points: &[(f64, f64)],
    round: bool,
    wanted: Option<Wanted>,
) -> Result<(), Box<dyn std::error::Error>> {
    let step = points.get(1).map_or(1.0, |p| p.0 - points[0].0);
    let (left, right) = (points[0].0 - 0.5 * step, points[points.len() - 1].0 + 0.5 * step);
    let peak = points.iter().map(|p| p.1).chain(wanted.map(|w| w.high * 1e6)).fold(0.0, f64::max);
    let area = SVGBackend::with_string(svg, (WIDE * FINE, TALL * FINE)).into_drawing_area();
    area.fill(&SHEET)?;
    let mut chart = ChartBuilder::on(&area)
        .caption(title, ("sans-serif", 17 * FINE).into_font().color(&INK))
        .margin(12 * FINE)
        .margin_right(24 * FINE)
        .x_label_area_size(38 * FINE)
        .y_label_area_size(52 * FINE)
        .build_cartesian_2d(left..right, 0.0..(1.15 * peak).max(1.0))?;
    if let Some(band) = wanted {
        let corners = [(left, band.low * 1e6), (right, band.high * 1e6)];
        chart.draw_series([Rectangle::new(corners, WELL.filled())])?;
    }
    chart
        .configure_mesh()
        .bold_line_style(HAIR.stroke_width(FINE))
        .light_line_style(TRANSPARENT)
        .axis_style(INK.stroke_width(FINE))
        .set_all_tick_mark_size(5 * FINE)
        .x_label_formatter(&|x| format!("{x:.0}"))
        .y_label_formatter(&|h| format!("{h:.0}"))
        .label_style(("sans-serif", 13 * FINE).into_font().color(&INK2))
        .x_desc(if round { "mm round the tube from its front" } else { "mm from the middle" })
        .y_desc("dry film, um")
        .draw()?;
    chart.draw_series(LineSeries::new(points.iter().copied(), INK.stroke_width(3 * FINE / 2)))?;
    area.present()?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_profile_is_the_mean_across() {
        let mut film = FilmMap::bare(3, 2, 0.01, 0.02);
        film.dry = vec![1.0, 2.0, 3.0, 3.0, 4.0, 5.0];
        assert_eq!(profile(&film, Axis::Along), [(-0.01, 2.0), (0.0, 3.0), (0.01, 4.0)]);
        assert_eq!(profile(&film, Axis::Across), [(-0.01, 2.0), (0.01, 4.0)]);
        let svg = profile_svg("title", &film, Axis::Along, false, Some(Wanted { low: 20e-6, high: 35e-6 }));
        assert!(svg.is_some_and(|s| s.contains("polyline") && s.contains("title") && !s.contains("NaN")));
        assert_eq!(profile_svg("", &FilmMap::bare(0, 0, 1.0, 1.0), Axis::Along, false, None), None);
    }
}
