//! What the page and its worker say to each other.
//!
//! A message is one block of bytes, so that it moves between the two without being copied: the length of the head
//! (u32, little-endian), the head as JSON, then the film's values and the
//! droplets' ends (f32, little-endian).

use serde::{Deserialize, Serialize, de::DeserializeOwned};

use crate::booth3d::played::LEG;
use crate::task::Task;

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

/// Film over the part: rows from the top, columns from the left; face by face where the part has several.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Film {
    /// Cells along the strokes.
    pub columns: u32,
    /// Cells across the strokes.
    pub rows: u32,
    /// Columns and rows of each further face, in the library's order: the members of a frame.
    #[serde(default)]
    pub more: Vec<[u32; 2]>,
    /// Dry film of each cell [m], face by face.
    #[serde(skip)]
    pub values: Vec<f32>,
    /// It has set: [`Film::SET_NUMBERS`] for each cell follow the values.
    #[serde(default)]
    pub has_set: bool,
    /// Distance of the tears of its runs [um]; 0 without.
    #[serde(default)]
    pub tears_um: u32,
    /// For each cell, as `values`: dry film after it ran [m], waviness [m], share of a droplet mark that is left, way slid [m], mark
    /// by its number in `Mark::ALL`, from 1.
    #[serde(skip)]
    pub set: Vec<f32>,
    /// Droplets of the snapshot.
    pub droplets: u32,
    /// [`Film::NUMBERS`] each: where it hangs along the gun's axis [m] (infinite: gone by), across it along the fan's long
    /// and short axes [m], where it ends along the long one [m], 1 lands or 0.
    #[serde(skip)]
    pub ends: Vec<f32>,
    /// Legs of the gun's way, and layers of film that they leave; none before the run is complete.
    #[serde(default)]
    pub legs: u32,
    /// Layers of film.
    #[serde(default)]
    pub layers: u32,
    /// Both, as `booth3d::played::Played::pack` writes them.
    #[serde(skip)]
    pub played: Vec<f32>,
}

impl Film {
    /// Numbers for each droplet of the snapshot.
    pub const NUMBERS: usize = 5;
    /// Numbers for each cell of a film that has set.
    pub const SET_NUMBERS: usize = 5;

    /// The film of a library's map.
    #[must_use]
    pub fn of(map: &mistcoat::film::FilmMap) -> Self {
        let mut film = Self::default();
        for (i, face) in map.faces().iter().enumerate() {
            let size = [face.nx as u32, face.ny as u32];
            match i {
                0 => [film.columns, film.rows] = size,
                _ => film.more.push(size),
            }
            // The library counts rows upwards, a picture downwards.
            let rows = (0..face.ny).rev().flat_map(|j| {
                let first = face.first + j * face.nx;
                &map.dry[first..first + face.nx]
            });
            film.values.extend(rows.map(|&h| h as f32));
        }
        film
    }

    /// The same after it set.
    #[must_use]
    pub fn setting(mut self, set: &mistcoat::film::SetFilm) -> Self {
        use mistcoat::film::Mark;
        for face in &set.faces {
            for row in (0..face.ny).rev() {
                let first = face.first + row * face.nx;
                for cell in &set.cells[first..first + face.nx] {
                    let mark = Mark::ALL.iter().position(|&m| m == cell.mark).map_or(0, |i| i + 1);
                    let numbers = [cell.dry, cell.waviness, cell.dryness, cell.slid, mark as f64];
                    self.set.extend(numbers.map(|v| v as f32));
                }
            }
        }
        self.has_set = true;
        self.tears_um = set.tear_spacing.map_or(0, |spacing| (spacing * 1e6) as u32);
        self
    }

    /// Cells of all faces.
    fn cells(&self) -> u64 {
        let of = |[columns, rows]: [u32; 2]| u64::from(columns) * u64::from(rows);
        let first = of([self.columns, self.rows]);
        self.more.iter().fold(first, |sum, &size| sum.saturating_add(of(size)))
    }

    /// Columns, rows and values of each face.
    pub fn faces(&self) -> impl Iterator<Item = ([u32; 2], &[f32])> {
        let mut first = 0;
        std::iter::once([self.columns, self.rows]).chain(self.more.iter().copied()).map_while(move |size| {
            let cells = size[0] as usize * size[1] as usize;
            let values = self.values.get(first..first + cells)?;
            first += cells;
            Some((size, values))
        })
    }
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
mod tests {
    use super::*;

    fn film() -> Film {
        Film {
            columns: 3,
            rows: 2,
            more: vec![[1, 2], [1, 1]],
            values: vec![0.0, 1.5e-5, f32::MIN_POSITIVE, 2e-5, 3e-5, 1.0, 4e-5, 5e-5, 6e-5],
            has_set: true,
            tears_um: 9200,
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
}
