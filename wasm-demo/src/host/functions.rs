//! The functions of a wasm: numbers, names, sizes.

use std::collections::BTreeMap;

use anyhow::Result;
use wasmparser::{KnownCustom, Name, Parser, Payload, TypeRef};

/// What a wasm says of its functions.
pub struct Functions {
    /// How many are imported; they have the first numbers.
    pub imported: u32,
    /// Names by number, mangled as the compiler writes them.
    pub names: BTreeMap<u32, String>,
    /// Sizes of the wasm's own, in their order [bytes].
    pub bodies: Vec<usize>,
}

impl Functions {
    /// Reads them.
    ///
    /// # Errors
    /// When the bytes are no wasm.
    pub fn of(wasm: &[u8]) -> Result<Self> {
        let mut found = Self { imported: 0, names: BTreeMap::new(), bodies: Vec::new() };
        for payload in Parser::new(0).parse_all(wasm) {
            match payload? {
                Payload::ImportSection(section) => {
                    for import in section.into_imports() {
                        found.imported += u32::from(matches!(import?.ty, TypeRef::Func(_)));
                    }
                }
                Payload::CodeSectionEntry(body) => found.bodies.push(body.range().len()),
                Payload::CustomSection(section) => {
                    if let KnownCustom::Name(section) = section.as_known() {
                        for part in section {
                            if let Name::Function(map) = part? {
                                for naming in map {
                                    let naming = naming?;
                                    found.names.insert(naming.index, naming.name.to_owned());
                                }
                            }
                        }
                    }
                }
                _ => {}
            }
        }
        Ok(found)
    }
}
