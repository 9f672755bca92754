//! A sweep as a picture: a curve a figure for one knob, a map a figure for two.

use super::answer::{Answer, Point};
use super::column::Column;
use crate::in_order::InOrder;
use crate::report::chart::{Curve, CurvePoint, KnobMap, alone, svg};

const WIDE: f64 = 560.0;
const CURVE: f64 = 250.0;
const GAP: f64 = 28.0;

/// All numbers of a sweep as one SVG file, one under the other.
#[must_use]
pub fn picture(answer: &Answer) -> String {
    let (mut body, mut y) = (svg::text("voice", (0.0, 26.0), "start", &answer.name), 44.0);
    for column in 0..answer.columns.len() {
        let numbers =
            answer.points.iter().any(|p| p.figures.get(column).is_some_and(|f| f.number().is_some()));
        if !numbers {
            continue;
        }
        let (drawing, height) = match answer.axes.as_slice() {
            [_] => {
                (curve_of(answer, column, &title(answer, column), &axis_title(answer, 0), WIDE, CURVE), CURVE)
            }
            _ => {
                let rows = answer.axes.first().map_or(1, |a| a.values.len()) as f64;
                let height = 108.0 + (26.0 * rows).clamp(120.0, 520.0);
                let axes = [axis_title(answer, 0), axis_title(answer, 1)];
                (map_of(answer, column, &title(answer, column), [&axes[0], &axes[1]], WIDE, height), height)
            }
        };
        body += &svg::group(&format!("translate(0 {})", svg::n(y)), &drawing);
        y += height + GAP;
    }
    let body = svg::group("translate(24 20)", &body);
    alone(&answer.name, WIDE + 48.0, y + 24.0, &body)
}

/// One figure over the one knob, with words for figure and axis.
#[must_use]
pub fn curve_of(answer: &Answer, column: usize, title: &str, axis: &str, width: f64, height: f64) -> String {
    let (points, by_name) = curve_points(answer, column);
    Curve { title, axis, points: &points, by_name, wanted: None }.svg(width, height)
}

/// The points of a figure's curve, and whether its settings are words.
#[must_use]
pub fn curve_points(answer: &Answer, column: usize) -> (Vec<CurvePoint>, bool) {
    let Some(axis) = answer.axes.first() else { return (Vec::new(), true) };
    let numbers = axis.numbers().map(|(numbers, _)| numbers);
    let mut points: Vec<CurvePoint> = (0..axis.values.len())
        .map(|i| {
            let point = answer.point(i);
            let figure = point.and_then(|p| p.figures.get(column));
            CurvePoint {
                x: numbers.as_ref().map_or(i as f64, |n| n[i]),
                name: axis.values[i].clone(),
                y: figure.and_then(super::Figure::number),
                error: figure.and_then(|f| f.standard_error),
                likely: figure.and_then(|f| f.likely),
                impossible: point.is_some_and(|p| p.impossible.is_some()),
            }
        })
        .collect();
    points.in_order(|a, b| a.x.total_cmp(&b.x));
    (points, numbers.is_none())
}

/// One figure over the two knobs.
#[must_use]
pub fn map_of(
    answer: &Answer,
    column: usize,
    title: &str,
    axes: [&str; 2],
    width: f64,
    height: f64,
) -> String {
    let [down, across] = answer.axes.as_slice() else { return String::new() };
    let of = |point: Option<&Point>| point.and_then(|p| p.figures.get(column)?.number());
    let all = || (0..down.values.len() * across.values.len()).map(|i| answer.point(i));
    let values: Vec<Option<f64>> = all().map(of).collect();
    let impossible: Vec<bool> = all().map(|p| p.is_some_and(|p| p.impossible.is_some())).collect();
    let names = [down.values.as_slice(), across.values.as_slice()];
    KnobMap { title, axes, names, values: &values, impossible: &impossible }.svg(width, height)
}

fn title(answer: &Answer, column: usize) -> String {
    let path = answer.columns.get(column).map_or("", String::as_str);
    match Column::find(path) {
        Ok(c) if c.unit.is_empty() || c.unit == "share" => c.meaning.into(),
        Ok(c) => format!("{}, {}", c.meaning, c.unit),
        Err(_) => path.into(),
    }
}

fn axis_title(answer: &Answer, axis: usize) -> String {
    let Some(axis) = answer.axes.get(axis) else { return String::new() };
    match axis.numbers() {
        Some((_, unit)) if !unit.is_empty() => format!("{}, {unit}", axis.key),
        _ => axis.key.clone(),
    }
}
