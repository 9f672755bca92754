//! Functions of the wasm set beside those of their kind, so that it packs smaller.
//!
//! Gzip looks back 32 KB. The copies of a generic function differ little, but as they come from the compiler they lie far apart;
//! in the order of their names they lie side by side. What the wasm does stays as it is: only the functions' numbers change.

use std::collections::BTreeMap;
use std::convert::Infallible;

use anyhow::{Result, anyhow};
use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{CodeSection, FunctionSection, Module};
use wasmparser::{CodeSectionReader, CustomSectionReader, FunctionSectionReader, Parser};

use super::functions::Functions;

/// The same wasm with its functions in the order of their names, and without these.
///
/// # Errors
/// When the bytes are no wasm.
pub fn by_name(wasm: &[u8]) -> Result<Vec<u8>> {
    let Functions { imported, names, bodies } = Functions::of(wasm)?;
    let own = bodies.len();
    let names: BTreeMap<u32, String> = names.iter().map(|(at, name)| (*at, without_hash(name))).collect();
    let mut order: Vec<usize> = (0..own).collect();
    let name = |&at: &usize| names.get(&(imported + at as u32)).map_or("", String::as_str);
    order.sort_by(|a, b| name(a).cmp(name(b)));
    let mut numbers = vec![0; own];
    for (new, &old) in order.iter().enumerate() {
        numbers[old] = imported + new as u32;
    }
    let mut module = Module::new();
    Grouped { imported, order, numbers }
        .parse_core_module(&mut module, Parser::new(0), wasm)
        .map_err(|error| anyhow!("the wasm cannot be written anew: {error}"))?;
    Ok(module.finish())
}

/// A function's name without what tells its copies apart.
fn without_hash(name: &str) -> String {
    let name = format!("{:#}", rustc_demangle::demangle(name));
    match name.rsplit_once("::h") {
        Some((path, hash)) if hash.len() == 16 && hash.bytes().all(|b| b.is_ascii_hexdigit()) => path.into(),
        _ => name,
    }
}

/// Writes a wasm anew with its own functions in another order.
struct Grouped {
    imported: u32,
    /// Old place of each own function, by the new one.
    order: Vec<usize>,
    /// New number of each own function, by the old place.
    numbers: Vec<u32>,
}

impl Reencode for Grouped {
    type Error = Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error> {
        let own = function.checked_sub(self.imported);
        Ok(own.and_then(|own| self.numbers.get(own as usize)).copied().unwrap_or(function))
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error> {
        let types = section.into_iter().collect::<Result<Vec<u32>, _>>()?;
        for &old in &self.order {
            functions.function(types[old]);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error> {
        let bodies = section.into_iter().collect::<Result<Vec<_>, _>>()?;
        if bodies.len() != self.order.len() {
            return Err(Error::InvalidCodeSectionSize);
        }
        for old in self.order.clone() {
            self.parse_function_body(code, bodies[old].clone())?;
        }
        Ok(())
    }

    /// Names are told no more.
    fn parse_custom_section(&mut self, _: &mut Module, _: CustomSectionReader<'_>) -> Result<(), Error> {
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use wasm_encoder::{
        ExportKind, ExportSection, Function, IndirectNameMap, NameMap, NameSection, TypeSection, ValType,
    };

    use wasmparser::Payload;

    use super::*;

    /// Functions that give 1, 2 and what the first gives; the last is exported.
    fn three() -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], [ValType::I32]);
        let (mut functions, mut code, mut names) =
            (FunctionSection::new(), CodeSection::new(), NameMap::new());
        for (number, name) in ["z::h0123456789abcdef", "b", "a"].into_iter().enumerate() {
            functions.function(0);
            let mut body = Function::new([]);
            let mut say = body.instructions();
            match number {
                2 => say.call(0).end(),
                _ => say.i32_const(number as i32 + 1).end(),
            };
            code.function(&body);
            names.append(number as u32, name);
        }
        let mut exports = ExportSection::new();
        exports.export("last", ExportKind::Func, 2);
        let mut section = NameSection::new();
        section.functions(&names);
        section.locals(&IndirectNameMap::new());
        let mut module = Module::new();
        module.section(&types).section(&functions).section(&exports).section(&code).section(&section);
        module.finish()
    }

    #[test]
    fn calls_and_exports_follow_their_functions() {
        let grouped = by_name(&three()).expect("is wasm");
        wasmparser::validate(&grouped).expect("is valid");
        let (mut exported, mut bodies) = (None, Vec::new());
        for payload in Parser::new(0).parse_all(&grouped) {
            match payload.expect("reads") {
                Payload::ExportSection(section) => {
                    exported = section.into_iter().next().map(|e| e.expect("reads").index);
                }
                Payload::CodeSectionEntry(body) => bodies.push(body.as_bytes().to_vec()),
                Payload::CustomSection(section) => panic!("{} is left", section.name()),
                _ => {}
            }
        }
        // a, b, z: no locals; call 2; const 2; const 1.
        assert_eq!(exported, Some(0));
        assert_eq!(bodies, [vec![0, 0x10, 2, 0x0b], vec![0, 0x41, 2, 0x0b], vec![0, 0x41, 1, 0x0b]]);
    }

    #[test]
    fn copies_have_one_name() {
        assert_eq!(without_hash("_ZN8mistcoat4math3exp17h0123456789abcdefE"), "mistcoat::math::exp");
        assert_eq!(without_hash("a::b::h0123456789abcdef"), "a::b");
        assert_eq!(without_hash("a::hash"), "a::hash");
    }
}
