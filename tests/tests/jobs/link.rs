//! Job text in a link: there and back, and hostile links.

use mistcoat::job::LONGEST_TEXT;
use mistcoat::job::link::{LinkError, decode, encode};
use proptest::prelude::*;

#[test]
fn a_demo_job_survives_and_is_short() {
    let text = crate::text_of("core/examples/jobs/table-top.toml");
    let link = encode(&text).unwrap();
    assert_eq!(decode(&link).unwrap(), text);
    assert!(link.len() < text.len(), "{} of {}", link.len(), text.len());
    assert!(link.chars().all(|c| c.is_ascii_alphanumeric() || "-_.".contains(c)), "{link}");
}

#[test]
fn the_longest_text_just_fits() {
    // Hardly compressible: every character of a fixed sequence of bits, as letters.
    let mut state = 1_u32;
    let letters: String = (0..LONGEST_TEXT)
        .map(|_| {
            state ^= state << 13;
            state ^= state >> 17;
            state ^= state << 5;
            char::from(b' ' + (state % 95) as u8)
        })
        .collect();
    assert_eq!(decode(&encode(&letters).unwrap()).unwrap(), letters);
    let refused = encode(&(letters + "x")).unwrap_err();
    assert_eq!(refused, LinkError::TextTooLong(LONGEST_TEXT + 1));
    assert!(refused.to_string().contains("65537 bytes") && refused.to_string().contains("save it as a file"));
}

#[test]
fn hostile_links_are_refused_in_words() {
    let good = encode("version = 1\n").unwrap();
    let bomb = {
        use base64::Engine;
        let packed = miniz_oxide::deflate::compress_to_vec(&vec![b'#'; 50_000_000], 9);
        format!("1.{}", base64::engine::general_purpose::URL_SAFE_NO_PAD.encode(packed))
    };
    let not_text = {
        use base64::Engine;
        let packed = miniz_oxide::deflate::compress_to_vec(&[0xff, 0xfe, 0x00], 9);
        format!("1.{}", base64::engine::general_purpose::URL_SAFE_NO_PAD.encode(packed))
    };
    for (link, error) in [
        (String::new(), LinkError::Version),
        ("2.abc".into(), LinkError::Version),
        ("1.".into(), LinkError::Packing),
        ("1.!!!".into(), LinkError::Alphabet),
        ("1.\u{e9}".into(), LinkError::Alphabet),
        ("1.AAAA====".into(), LinkError::Alphabet),
        (good[..14].into(), LinkError::Packing),
        (format!("1.{}", "A".repeat(200_000)), LinkError::TooLong),
        (not_text, LinkError::NoText),
        (bomb[..bomb.len().min(80_000)].into(), LinkError::TooLarge),
    ] {
        let got = decode(&link).unwrap_err();
        assert_eq!(got, error, "{}", link.chars().take(40).collect::<String>());
        assert!(got.to_string().contains("link"), "{got}");
    }
}

proptest! {
    #![proptest_config(crate::units::config())]

    #[test]
    fn any_text_survives(text in "\\PC{0,400}") {
        prop_assert_eq!(decode(&encode(&text).unwrap()).unwrap(), text);
    }

    #[test]
    fn any_link_is_answered(link in "(1\\.)?[A-Za-z0-9_\\-]{0,200}") {
        if let Ok(text) = decode(&link) {
            prop_assert!(text.len() <= LONGEST_TEXT);
        }
    }
}
