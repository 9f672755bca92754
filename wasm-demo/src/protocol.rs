//! What the page and its worker say to each other.
//!
//! A message is one block of bytes, so that it moves between the two without being copied: the length of the head
//! (u32, little-endian), the head as JSON, then the film's values and the
//! droplets' ends (f32, little-endian).

use serde::{Deserialize, Serialize, de::DeserializeOwned};

use crate::booth3d::played::LEG;
use crate::task::Task;

mod film;

pub use film::Film;

/// The number of a run on this page; messages of an earlier run are told by it.
pub type RunId = u32;

/// What a run does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Work {
    /// Flies the job of a job file's text.
    Job(String),
    /// Does other long work.
    Task(Task),
}

/// From the page to the worker.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum ToWorker {
    /// Begin this work, a job from its first droplet; whatever was under way before is dropped.
    Start {
        /// The run.
        run: RunId,
        /// What to do.
        work: Work,
    },
    /// Do one more chunk.
    Continue {
        /// The run.
        run: RunId,
    },
    /// Drop the run.
    Cancel {
        /// The run.
        run: RunId,
    },
    /// Something for a task that listens while it works; what the numbers mean is the task's own.
    Tell {
        /// The run.
        run: RunId,
        /// Numbers.
        #[serde(skip)]
        numbers: Vec<f64>,
    },
}

/// From the worker to the page.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum FromWorker {
    /// The worker listens.
    Ready {
        /// Version of the library.
        version: String,
    },
    /// A chunk is done.
    Progress {
        /// The run.
        run: RunId,
        /// Droplets flown, or work done.
        done: u64,
        /// Droplets wanted, or work wanted.
        total: u64,
    },
    /// The task has nothing to do before it is told more.
    Rests {
        /// The run.
        run: RunId,
    },
    /// What a task knows by now.
    Partial {
        /// The run.
        run: RunId,
        /// As JSON.
        answer: String,
    },
    /// A task is done.
    Answered {
        /// The run.
        run: RunId,
        /// What came out, as JSON.
        answer: String,
    },
    /// The film so far.
    Picture {
        /// The run.
        run: RunId,
        /// Droplets flown.
        done: u64,
        /// The film.
        film: Film,
    },
    /// The run is complete.
    Done {
        /// The run.
        run: RunId,
        /// The report, as JSON.
        report: String,
        /// The digest of the run.
        digest: u64,
        /// The set-up sheet, metric and US, as JSON.
        sheets: String,
        /// The film.
        film: Film,
    },
    /// The job cannot be flown, or the task not done.
    Refused {
        /// The run.
        run: RunId,
        /// The dotted key at fault, if there is one.
        key: Option<String>,
        /// Why, in words.
        message: String,
    },
    /// The program itself failed; the worker is of no more use.
    Panicked {
        /// What was said last.
        message: String,
    },
}

/// Bytes that are no message.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ProtocolError {
    /// Shorter than it says.
    #[error("a message of {0} bytes is cut short")]
    Short(usize),
    /// The head says nothing known.
    #[error("a message cannot be read: {0}")]
    Head(String),
    /// The film has another size than it says.
    #[error("a film of {columns} x {rows} cells came with {bytes} bytes")]
    Values {
        /// Columns said.
        columns: u32,
        /// Rows said.
        rows: u32,
        /// Bytes found.
        bytes: usize,
    },
    /// Numbers cut off in the middle.
    #[error("numbers of 8 bytes each came as {0} bytes")]
    Numbers(usize),
}

impl ToWorker {
    /// The message as bytes.
    #[must_use]
    pub fn encode(&self) -> Vec<u8> {
        let mut bytes = encode(self, &[]);
        if let Self::Tell { numbers, .. } = self {
            bytes.extend(numbers.iter().flat_map(|value| value.to_le_bytes()));
        }
        bytes
    }

    /// The message in these bytes.
    ///
    /// # Errors
    /// When the bytes are no such message.
    pub fn decode(bytes: &[u8]) -> Result<Self, ProtocolError> {
        let (mut message, rest) = decode(bytes)?;
        if let Self::Tell { numbers, .. } = &mut message {
            let (values, left) = rest.as_chunks::<8>();
            if !left.is_empty() {
                return Err(ProtocolError::Numbers(rest.len()));
            }
            numbers.extend(values.iter().map(|b| f64::from_le_bytes(*b)));
            return Ok(message);
        }
        if rest.is_empty() { Ok(message) } else { Err(ProtocolError::Head("bytes after its end".into())) }
    }
}

impl FromWorker {
    /// The message as bytes.
    #[must_use]
    pub fn encode(&self) -> Vec<u8> {
        match self {
            Self::Picture { film, .. } | Self::Done { film, .. } => {
                encode(self, &[&film.values, &film.set, &film.ends, &film.played])
            }
            _ => encode(self, &[]),
        }
    }

    /// The message in these bytes.
    ///
    /// # Errors
    /// When the bytes are no such message.
    pub fn decode(bytes: &[u8]) -> Result<Self, ProtocolError> {
        let (mut message, rest) = decode(bytes)?;
        let mut nothing = Film::default();
        let film = match &mut message {
            Self::Picture { film, .. } | Self::Done { film, .. } => film,
            _ => &mut nothing,
        };
        let cells = film.cells();
        let of_set = if film.has_set { cells.checked_mul(Film::SET_NUMBERS as u64) } else { Some(0) };
        let ends = Film::NUMBERS as u64 * u64::from(film.droplets);
        let played = u64::from(film.layers).checked_mul(cells);
        let played = played.and_then(|n| n.checked_add(LEG as u64 * u64::from(film.legs)));
        let numbers = [of_set, Some(cells), Some(ends), played]
            .into_iter()
            .try_fold(0_u64, |sum, part| sum.checked_add(part?));
        if numbers.and_then(|n| n.checked_mul(4)) != Some(rest.len() as u64) {
            return Err(ProtocolError::Values { columns: film.columns, rows: film.rows, bytes: rest.len() });
        }
        film.values = rest.chunks_exact(4).map(|b| f32::from_le_bytes([b[0], b[1], b[2], b[3]])).collect();
        film.set = film.values.split_off(cells as usize);
        film.ends = film.set.split_off(of_set.unwrap_or(0) as usize);
        film.played = film.ends.split_off(ends as usize);
        Ok(message)
    }
}

fn encode(head: &impl Serialize, values: &[&[f32]]) -> Vec<u8> {
    // Only strings, integers and enums stand in a head, which JSON can always hold.
    let head = serde_json::to_vec(head).unwrap_or_default();
    let numbers: usize = values.iter().map(|part| part.len()).sum();
    let mut bytes = Vec::with_capacity(4 + head.len() + 4 * numbers);
    bytes.extend((head.len() as u32).to_le_bytes());
    bytes.extend(&head);
    bytes.extend(values.iter().copied().flatten().flat_map(|value| value.to_le_bytes()));
    bytes
}

fn decode<T: DeserializeOwned>(bytes: &[u8]) -> Result<(T, &[u8]), ProtocolError> {
    let short = || ProtocolError::Short(bytes.len());
    let (length, rest) = bytes.split_first_chunk::<4>().ok_or_else(short)?;
    let (head, values) = rest.split_at_checked(u32::from_le_bytes(*length) as usize).ok_or_else(short)?;
    let head = serde_json::from_slice(head).map_err(|error| ProtocolError::Head(error.to_string()))?;
    Ok((head, values))
}

#[cfg(test)]
mod tests;
