//! A sweep as a table: a line a point, figures with all their digits, so that shards of it add up to the whole.

use super::answer::{Answer, Figure, Point, Value};
use super::column::Column;
use super::plan::Plan;

/// The table's first line: number of the point, keys varied, figures with their errors and ranges, droplets, why it is impossible.
#[must_use]
pub fn header(plan: &Plan) -> String {
    let mut words = vec!["point".to_string()];
    words.extend(plan.axes().iter().map(|axis| axis.key.clone()));
    for column in plan.columns() {
        words.push(column.path.into());
        if column.counted {
            words.push(format!("{} standard_error", column.path));
        }
        if column.ranged {
            words.push(format!("{} model_low", column.path));
            words.push(format!("{} model_high", column.path));
        }
    }
    words.extend(["droplets flown".into(), "impossible".into()]);
    words.iter().map(|word| field(word)).collect::<Vec<_>>().join(",")
}

/// A point's line. Its number has as many digits as the largest of the plan, so that lines sort as points do.
#[must_use]
pub fn line(plan: &Plan, point: &Point) -> String {
    let width = plan.len().saturating_sub(1).to_string().len();
    let mut fields = vec![format!("{:0width$}", point.number)];
    fields.extend(point.settings.iter().map(|s| field(s)));
    for (i, column) in plan.columns().iter().enumerate() {
        figure(column, point.figures.get(i), &mut fields);
    }
    fields.push(point.droplets.to_string());
    fields.push(
        point.impossible.as_ref().map_or_else(String::new, |i| field(&format!("{}: {}", i.key, i.why))),
    );
    fields.join(",")
}

fn figure(column: &Column, figure: Option<&Figure>, fields: &mut Vec<String>) {
    let number = |x: Option<f64>| x.map_or_else(String::new, |x| x.to_string());
    fields.push(match figure.and_then(|f| f.value.as_ref()) {
        Some(Value::Number(x)) => x.to_string(),
        Some(Value::Word(word)) => field(word),
        Some(Value::Flag(flag)) => flag.to_string(),
        None => String::new(),
    });
    if column.counted {
        fields.push(number(figure.and_then(|f| f.standard_error)));
    }
    if column.ranged {
        let likely = figure.and_then(|f| f.likely);
        fields.push(number(likely.map(|l| l[0])));
        fields.push(number(likely.map(|l| l[1])));
    }
}

/// The points of an answer as a table.
#[must_use]
pub fn to_csv(plan: &Plan, answer: &Answer) -> String {
    let mut text = header(plan) + "\n";
    for point in &answer.points {
        text += &line(plan, point);
        text.push('\n');
    }
    text
}

/// A field: in quotes where it holds a comma, a quote or a line end.
fn field(text: &str) -> String {
    let text = text.replace(['\n', '\r'], " ");
    if text.contains([',', '"']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}
