//! The digests on record are those of the code.

use mistcoat_tests::golden::{JOBS, REMINT, digest, path, read};

#[test]
fn digests_are_those_on_record() {
    for job in JOBS {
        let text = std::fs::read_to_string(path(job)).unwrap_or_else(|e| panic!("{job}: {e}; {REMINT}"));
        let kept = read(&text).unwrap_or_else(|e| panic!("{job}: {e}; {REMINT}"));
        let new = digest(job);
        assert_eq!(new, kept, "{job}: now {new:016x}, on record {kept:016x}; where this is meant: {REMINT}");
    }
}

#[test]
fn a_record_without_a_reason_is_refused() {
    assert!(read("# reason: first digest of the chain\n00000000000000ff\n").is_ok_and(|d| d == 255));
    assert!(read("# reason:\n00000000000000ff\n").is_err());
    assert!(read("00000000000000ff\n").is_err());
    assert!(read("# reason: first digest of the chain\nxyz\n").is_err());
}
