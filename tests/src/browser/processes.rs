//! Processes of the browser, as the system tells of them.

use std::collections::BTreeMap;
use std::fs;

/// Memory of a process, what it shares with others by its share [bytes]; none where the system does not tell.
#[must_use]
pub fn memory(process: u32) -> Option<u64> {
    let text = fs::read_to_string(format!("/proc/{process}/smaps_rollup")).ok()?;
    let kilobytes = text
        .lines()
        .find_map(|line| line.strip_prefix("Pss:")?.trim().strip_suffix("kB")?.trim().parse::<u64>().ok())?;
    Some(1024 * kilobytes)
}

/// Processes that come from this one.
#[must_use]
pub fn below(process: u32) -> Vec<u32> {
    let mut children: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
    for entry in fs::read_dir("/proc").into_iter().flatten().flatten() {
        let Some(child) = entry.file_name().to_str().and_then(|name| name.parse().ok()) else { continue };
        // "pid (name) state parent ...", the name of any letters.
        let stat = fs::read_to_string(entry.path().join("stat")).unwrap_or_default();
        let parent = stat.rsplit_once(')').and_then(|(_, rest)| rest.split_whitespace().nth(1)?.parse().ok());
        if let Some(parent) = parent {
            children.entry(parent).or_default().push(child);
        }
    }
    let (mut all, mut look) = (Vec::new(), vec![process]);
    while let Some(process) = look.pop() {
        let own = children.remove(&process).unwrap_or_default();
        all.extend(&own);
        look.extend(own);
    }
    all
}
