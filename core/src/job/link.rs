//! A job text as the tail of a link: raw DEFLATE (RFC 1951), base64url without padding (RFC 4648 section 5), and
//! a version in front, "1.".

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_with_limit};

use super::LONGEST_TEXT;

/// Version of the link's format, with its point.
const VERSION: &str = "1.";
/// Longest link that is looked at [characters]: the longest text, stored without a gain, in base64.
const LONGEST_LINK: usize = LONGEST_TEXT / 3 * 4 + 1024;

/// Why a link holds no job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum LinkError {
    /// Longer than any job that this library takes.
    #[error("the link is too long to be a job: at most {LONGEST_LINK} characters are read")]
    TooLong,
    /// It does not begin with a version that is known here.
    #[error("the link is of a version that is not known here; it should begin with \"{VERSION}\"")]
    Version,
    /// A character that no link has, or a piece lost at the end.
    #[error("the link is damaged: it holds characters that no link has, or was cut off; copy it whole")]
    Alphabet,
    /// It does not unpack.
    #[error("the link is damaged: it does not unpack; copy it whole")]
    Packing,
    /// The text is too long for a link.
    #[error(
        "the job is too long for a link: it has {0} bytes, at most {LONGEST_TEXT} go into one; save it as a file"
    )]
    TextTooLong(usize),
    /// It unpacks to more than the longest job text.
    #[error("the link unpacks to more than {LONGEST_TEXT} bytes, longer than any job")]
    TooLarge,
    /// What it unpacks to is no text.
    #[error("the link unpacks to something that is no text")]
    NoText,
}

/// Packs a job text for a link. Whether the text is a good job is not looked at.
///
/// # Errors
/// `LinkError::TextTooLong` when the text is longer than 64 KiB, as one with a recorded track may be.
pub fn encode(text: &str) -> Result<String, LinkError> {
    if text.len() > LONGEST_TEXT {
        return Err(LinkError::TextTooLong(text.len()));
    }
    Ok(format!("{VERSION}{}", URL_SAFE_NO_PAD.encode(compress_to_vec(text.as_bytes(), 9))))
}

/// Unpacks a job text from a link. At most 64 KiB are ever unpacked; the text itself is still to be checked.
///
/// # Errors
/// `LinkError` says in words what is wrong with the link.
pub fn decode(link: &str) -> Result<String, LinkError> {
    if link.len() > LONGEST_LINK {
        return Err(LinkError::TooLong);
    }
    let packed = link.strip_prefix(VERSION).ok_or(LinkError::Version)?;
    let packed = URL_SAFE_NO_PAD.decode(packed).map_err(|_| LinkError::Alphabet)?;
    let bytes = decompress_to_vec_with_limit(&packed, LONGEST_TEXT).map_err(|error| match error.status {
        TINFLStatus::HasMoreOutput => LinkError::TooLarge,
        _ => LinkError::Packing,
    })?;
    String::from_utf8(bytes).map_err(|_| LinkError::NoText)
}
