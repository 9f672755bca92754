//! What must hold of anything that a stranger sends. Also the body of the fuzz targets (`tests/fuzz`).

use mistcoat::job::{Job, LONGEST_TEXT, link};

/// A job file of any bytes: read, and the same again through a link, or refused in words.
///
/// # Panics
/// Where that does not hold.
pub fn job_file(text: &str) {
    match Job::from_toml(text) {
        Ok(job) => {
            if let Ok(packed) = link::encode(&job.text) {
                assert_eq!(link::decode(&packed).as_deref(), Ok(job.text.as_str()));
            }
        }
        Err(error) => assert!(!error.to_string().trim().is_empty()),
    }
}

/// A link of any bytes: unpacked to a text of bounded length, or refused in words.
///
/// # Panics
/// Where that does not hold.
pub fn a_link(text: &str) {
    match link::decode(text) {
        Ok(job) => {
            assert!(job.len() <= LONGEST_TEXT);
            job_file(&job);
        }
        Err(error) => assert!(error.to_string().contains("link")),
    }
}
