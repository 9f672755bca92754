//! A recorded track in the job file: rows of numbers, in the units a painter would write.

use toml::de::DeValue;

use super::value::{Refusal, bare, is_a, refuse};
use crate::stroke::{MOST_MOMENTS, Moment, Track};

const MM: f64 = 1e-3;

/// Reads the rows; every fault by row and what stands there.
pub(super) fn read(value: &DeValue<'_>) -> Result<Track, Refusal> {
    let DeValue::Array(rows) = value else {
        return refuse(format!("it is {}, where a list of rows is needed", is_a(value)));
    };
    if rows.len() > MOST_MOMENTS {
        return refuse(format!("it has {} rows", rows.len()));
    }
    let mut moments = Vec::with_capacity(rows.len());
    for (i, row) in rows.iter().enumerate() {
        let at = |problem: String| -> Refusal { (format!("row {}: {problem}", i + 1), None) };
        let DeValue::Array(numbers) = row.get_ref() else {
            return Err(at(format!("it is {}, where a row of numbers is needed", is_a(row.get_ref()))));
        };
        if !(7..=8).contains(&numbers.len()) {
            return Err(at(format!("it has {} numbers, where seven or eight are needed", numbers.len())));
        }
        let mut n = [0.0; 8];
        for (number, value) in n.iter_mut().zip(numbers.iter()) {
            *number = bare(value.get_ref()).map_err(|(problem, _)| at(problem))?;
        }
        let [time, x, y, distance, heel, swing, trigger, turn] = n;
        moments.push(Moment {
            time,
            x: x * MM,
            y: y * MM,
            distance: distance * MM,
            heel: heel.to_radians(),
            swing: swing.to_radians(),
            turn: turn.to_radians(),
            trigger,
            member: 0,
        });
    }
    Track::new(moments).map_err(|error| {
        let place = error.key.strip_prefix("stroke.track: ").unwrap_or("it").replace("moment", "row");
        (format!("{place} is {}; allowed: {}", error.value, error.allowed), None)
    })
}
