//! The public interface is on record: a change of it shows in the history.

use mistcoat_tests::api;

#[test]
fn the_public_interface_is_the_one_on_record() {
    let now = api::interface().expect("the sources");
    let page = std::fs::read_to_string(api::page()).expect("docs/api.txt");
    let first = page.lines().zip(now.lines()).find(|(page, now)| page != now);
    assert!(page == now, "docs/api.txt is old ({first:?}): {}", api::REWRITE);
    assert!(now.contains("pub fn from_toml(") && now.contains("== mistcoat::run"), "the interface is empty");
}
