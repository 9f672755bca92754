//! What the fuzzer found and was kept (`tests/data/fuzz`), and the job files of the repository, once more.

use mistcoat_tests::fuzzed::{a_link, job_file};
use std::path::Path;

/// Texts of a folder's files; what is no text is taken as a browser would, with marks for what cannot be read.
fn texts(folder: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let files = std::fs::read_dir(&folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    let read = |file: std::io::Result<std::fs::DirEntry>| {
        std::fs::read(file.expect("a file").path()).expect("its bytes")
    };
    files.map(|file| String::from_utf8_lossy(&read(file)).into_owned()).collect()
}

#[test]
fn what_was_found_is_read_or_refused_in_words() {
    let mut jobs = 0;
    for folder in ["data/fuzz/job_file", "data/bad-jobs", "../core/examples/jobs"] {
        for text in texts(folder) {
            job_file(&text);
            jobs += 1;
        }
    }
    let links = texts("data/fuzz/link");
    links.iter().for_each(|link| a_link(link));
    println!("{jobs} job files, {} links", links.len());
    assert!(jobs > 150 && links.len() > 10, "{jobs} {}", links.len());
}
