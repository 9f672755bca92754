//! What is sent comes back as it was, and what is no message is refused.

use super::*;

fn film() -> Film {
    Film {
        columns: 3,
        rows: 2,
        more: vec![[1, 2], [1, 1]],
        values: vec![0.0, 1.5e-5, f32::MIN_POSITIVE, 2e-5, 3e-5, 1.0, 4e-5, 5e-5, 6e-5],
        has_set: true,
        tears_um: 9200,
        so_far: Some(mistcoat::run::SoFar { sprayed: 2e-5, dry: 2.5e-5, landed: 0.13, on_its_line: true }),
        set: (0..45).map(|i| i as f32).collect(),
        droplets: 1,
        ends: vec![0.2, -0.03, 0.01, -0.04, 1.0],
        legs: 1,
        layers: 1,
        played: vec![0.5; LEG + 9],
    }
}

#[test]
fn every_message_comes_back_as_it_was() {
    for message in [
        ToWorker::Start { run: 1, work: Work::Job("version = 1\nname = \"caf\u{e9} table\"\n".into()) },
        ToWorker::Start { run: 2, work: Work::Task(Task::Count { to: u64::MAX }) },
        ToWorker::Continue { run: u32::MAX },
        ToWorker::Cancel { run: 0 },
        ToWorker::Tell { run: 3, numbers: vec![] },
        ToWorker::Tell { run: 3, numbers: vec![0.1, -2.0, f64::MAX] },
    ] {
        assert_eq!(ToWorker::decode(&message.encode()), Ok(message));
    }
    for message in [
        FromWorker::Ready { version: "0.1.0".into() },
        FromWorker::Progress { run: 1, done: 5, total: 1_000_000_000 },
        FromWorker::Rests { run: 9 },
        FromWorker::Partial { run: 9, answer: "{\"rows\":[]}".into() },
        FromWorker::Answered { run: 9, answer: String::new() },
        FromWorker::Picture { run: 2, done: 7, film: film() },
        FromWorker::Done {
            run: 3,
            report: "{\"name\":\"a\"}".into(),
            digest: u64::MAX,
            sheets: "[]".into(),
            film: film(),
        },
        FromWorker::Refused { run: 4, key: Some("gun.fan".into()), message: "no".into() },
        FromWorker::Panicked { message: "no".into() },
    ] {
        assert_eq!(FromWorker::decode(&message.encode()), Ok(message));
    }
}

#[test]
fn a_cut_message_is_refused_at_every_length() {
    let bytes = FromWorker::Picture { run: 2, done: 7, film: film() }.encode();
    for length in 0..bytes.len() {
        assert!(FromWorker::decode(&bytes[..length]).is_err(), "{length} bytes");
    }
    let mut longer = bytes.clone();
    longer.push(0);
    assert!(matches!(
        FromWorker::decode(&longer),
        Err(ProtocolError::Values { columns: 3, rows: 2, bytes: 309 })
    ));
}

#[test]
fn a_film_that_lies_about_its_size_is_refused() {
    let mut large = film();
    large.columns = u32::MAX;
    large.rows = u32::MAX;
    let bytes = FromWorker::Picture { run: 1, done: 0, film: large }.encode();
    assert!(matches!(FromWorker::decode(&bytes), Err(ProtocolError::Values { .. })));
    let bytes = [&[255, 255, 255, 255][..], b"{}"].concat();
    assert_eq!(ToWorker::decode(&bytes), Err(ProtocolError::Short(6)));
    let mut told = ToWorker::Tell { run: 1, numbers: vec![1.0] }.encode();
    told.pop();
    assert_eq!(ToWorker::decode(&told), Err(ProtocolError::Numbers(7)));
}
