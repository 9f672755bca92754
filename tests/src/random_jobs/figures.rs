//! What must hold of every figure and every sentence of a report, whatever the job.

use serde_json::Value;

/// Figures that may be below nothing: places, temperatures, what is over.
const SIGNED: [&str; 9] = [
    "x_mm",
    "y_mm",
    "dew_point_c",
    "surface_c",
    "above_c",
    "sheet_c",
    "margin_l_min",
    "drift_mm",
    "wall_rest_bar",
];

/// Shares, from 0 to 1, by name.
const SHARES: [&str; 11] = [
    "landed",
    "missed",
    "bounced",
    "drifted",
    "dried",
    "lost",
    "volume_solids",
    "dry_share",
    "dry_spray_index",
    "model_low",
    "model_high",
];

/// What cannot be, with its dotted path; none where all is well.
///
/// # Errors
/// The path and the figure.
pub fn sane_figures(report: &Value) -> Result<(), String> {
    walk(report, "", "")?;
    let at = |path: &str| report.pointer(path).and_then(Value::as_f64);
    let fates = report["fates"].as_object().ok_or("no fates")?;
    let sum: f64 = fates.values().filter_map(Value::as_f64).sum();
    close("fates", sum, 1.0)?;
    close("fates.lost", at("/fates/lost").unwrap_or(1.0), 0.0)?;
    let paint = |name: &str| at(&format!("/paint/{name}")).ok_or(format!("no paint.{name}"));
    let sprayed = paint("sprayed_ml")?;
    // Where none of the card's few droplets landed there is no fan to space passes by, and nothing is sprayed.
    if sprayed > 0.0 {
        close("paint", (paint("on_part_ml")? + paint("lost_ml")?) / sprayed, 1.0)?;
    }
    for name in ["transfer_efficiency", "large_panel_efficiency"] {
        let value = at(&format!("/{name}/value")).ok_or(format!("no {name}"))?;
        if !(-1e-12..=1.0 + 1e-12).contains(&value) {
            return Err(format!("{name}.value: {value} is no share"));
        }
    }
    if let Some(mix) = report.get("mix") {
        let parts = ["on_parts", "overspray", "test_card", "left", "reserve", "rounding"];
        let sum: f64 = parts.iter().filter_map(|p| mix[format!("{p}_ml")].as_f64()).sum();
        close("mix.mixed_ml", sum / mix["mixed_ml"].as_f64().unwrap_or(0.0), 1.0)?;
    }
    Ok(())
}

fn close(path: &str, value: f64, wanted: f64) -> Result<(), String> {
    if (value - wanted).abs() <= 1e-9 {
        Ok(())
    } else {
        Err(format!("{path}: {value}, where {wanted} is due"))
    }
}

fn walk(value: &Value, path: &str, name: &str) -> Result<(), String> {
    match value {
        Value::Null => Err(format!("{path}: not a number")),
        Value::Number(number) => {
            figure(number.as_f64().unwrap_or(f64::NAN), name).map_err(|e| format!("{path}: {e}"))
        }
        Value::String(text) => sane_words(text).map_err(|e| format!("{path}: {e}")),
        Value::Bool(_) => Ok(()),
        Value::Array(list) => {
            list.iter().enumerate().try_for_each(|(i, item)| walk(item, &format!("{path}[{i}]"), name))
        }
        Value::Object(map) => {
            for (key, item) in map {
                // Errors stand under the path of their figure.
                let name = match key.as_str() {
                    _ if path == ".standard_errors" => "standard_error",
                    // The likely range of a film, where others are of a share.
                    "model_low" | "model_high" if path.ends_with("_um") => "model_um",
                    key => key,
                };
                walk(item, &format!("{path}.{key}"), name)?;
            }
            ordered(map).map_err(|e| format!("{path}: {e}"))
        }
    }
}

fn figure(x: f64, name: &str) -> Result<(), String> {
    if !x.is_finite() || x.abs() > 1e16 {
        return Err(format!("{x} is no figure"));
    }
    if SHARES.contains(&name) && !(-1e-12..=1.0 + 1e-12).contains(&x) {
        return Err(format!("{x} is no share"));
    }
    let percent = name.ends_with("_percent") && name != "cv_percent" && !name.contains("error");
    if percent && !(0.0..=100.0 + 1e-9).contains(&x) {
        return Err(format!("{x} is no share in per cent"));
    }
    let unit = [
        "_um", "_ml", "_g", "_mm", "_bar", "_l_min", "_ml_min", "_s", "_ml_h", "seconds", "minutes", "error",
    ];
    let never_below = unit.iter().any(|u| name.ends_with(u)) || name.starts_with("standard_error");
    if never_below && !SIGNED.contains(&name) && x < -1e-9 {
        return Err(format!("{x} is below nothing"));
    }
    Ok(())
}

/// Lower and upper ends in their order.
fn ordered(map: &serde_json::Map<String, Value>) -> Result<(), String> {
    let get = |name: &str| map.get(name).and_then(Value::as_f64);
    for (low, high) in [("model_low", "model_high"), ("mixed_low_ml", "mixed_high_ml"), ("min", "max")] {
        if let (Some(l), Some(h)) = (get(low), get(high))
            && l > h * (1.0 + 1e-9)
        {
            // The wet film is told where the dry film is thinnest and thickest.
            return Err(format!("{low} {l} above {high} {h}"));
        }
    }
    Ok(())
}

/// No figure of a sentence or a drawing is none.
///
/// # Errors
/// The word, with what stands round it.
pub fn sane_words(text: &str) -> Result<(), String> {
    let bad = ["NaN", "nan", "inf", "infinity"];
    let words = text.split(|c: char| !c.is_alphanumeric());
    match words.into_iter().find(|word| bad.contains(word)) {
        None => Ok(()),
        Some(word) => Err(format!("says {word}: {}", text.chars().take(200).collect::<String>())),
    }
}
