//! Puts the functions of the WASM into an order in which gzip finds more that it has seen before.
//!
//! gzip looks 32 kB back, and many functions are nearly the same: one for each type that a piece of code was
//! made for. Those come next to each other. What the program does stays the same; only the numbers of its
//! functions change.

use super::alike::alike_together;
use std::convert::Infallible;
use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{CodeSection, FunctionSection, Module};
use wasmparser::{
    CodeSectionReader, FunctionBody, FunctionSectionReader, Parser, Payload, TypeRef,
};

/// The same program with its functions in order.
pub(crate) fn ordered(wasm: &[u8]) -> Result<Vec<u8>, String> {
    let mut order = Order::of(wasm).map_err(|fault| fault.to_string())?;
    let mut module = Module::new();
    order
        .parse_core_module(&mut module, Parser::new(0), wasm)
        .map_err(|fault| fault.to_string())?;
    Ok(module.finish())
}

/// Which function comes where.
struct Order {
    /// Functions of the browser; their numbers come first and stay.
    imported: usize,
    /// The functions in their new order.
    order: Vec<usize>,
    /// Where each has gone.
    place: Vec<usize>,
}

impl Order {
    fn of(wasm: &[u8]) -> wasmparser::Result<Self> {
        let mut imported = 0;
        let mut bodies: Vec<&[u8]> = Vec::new();
        for part in Parser::new(0).parse_all(wasm) {
            match part? {
                Payload::ImportSection(section) => {
                    for import in section.into_imports() {
                        imported += usize::from(matches!(import?.ty, TypeRef::Func(_)));
                    }
                }
                Payload::CodeSectionEntry(body) => bodies.push(body.as_bytes()),
                _ => {}
            }
        }
        let order = alike_together(&bodies);
        let mut place = vec![0; order.len()];
        for (to, &from) in order.iter().enumerate() {
            place[from] = to;
        }
        Ok(Self { imported, order, place })
    }
}

impl Reencode for Order {
    type Error = Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error> {
        let own = (function as usize).checked_sub(self.imported);
        let moved = own.and_then(|own| self.place.get(own)).map(|place| self.imported + place);
        Ok(moved.map_or(function, |moved| moved as u32))
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error> {
        let types: Vec<u32> = section.into_iter().collect::<Result<_, _>>()?;
        for from in self.order.clone() {
            functions.function(types[from]);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error> {
        let bodies: Vec<FunctionBody<'_>> = section.into_iter().collect::<Result<_, _>>()?;
        for from in self.order.clone() {
            self.parse_function_body(code, bodies[from].clone())?;
        }
        Ok(())
    }
}
