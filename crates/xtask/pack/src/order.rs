//! The order in which a module's functions are sent.
//!
//! A packer tells in fewer bits what it has seen shortly before, so functions that are alike belong together. The
//! best order is as hard to find as the shortest tour of all places; here each function is followed by the
//! one that has the most in common with those just before it, where what few have counts for more: what many
//! have is never far back. Of 64 orders, by how far before and how much longer each is taken for, the best
//! packed as it is sent now was no smaller (2026-11-30).

use std::collections::{BTreeSet, HashMap, VecDeque};
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, anyhow};
use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{CodeSection, FunctionSection, Module};
use wasmparser::{CodeSectionReader, FunctionSectionReader, Parser, Payload, TypeRef};

/// How many bytes in a row are compared; measured on the page's code from 4 to 10.
const RUN: usize = 6;
/// How far back a function is compared, bytes; measured on the page's code from 1,000 to 150,000.
const WINDOW: usize = 3_000;
/// What a function's length is taken for more than it is, bytes, so that the shortest do not come first.
const LONGER: usize = 100;
/// How many functions can be named in one byte: the optimiser has put there what is called most.
const NAMED_IN_A_BYTE: usize = 128;

/// Puts a module's functions in an order that packs better; nothing else of it changes.
pub(crate) fn arrange(file: &Path) -> Result<()> {
    let wasm = &fs::read(file).with_context(|| format!("cannot read {}", file.display()))?;
    let arranged = arranged(wasm).with_context(|| format!("{} cannot be arranged", file.display()))?;
    fs::write(file, arranged).with_context(|| format!("cannot write {}", file.display()))
}

fn arranged(wasm: &[u8]) -> Result<Vec<u8>> {
    let (imported, bodies) = functions(wasm)?;
    let order = order(&bodies, NAMED_IN_A_BYTE.saturating_sub(imported));
    let mut place = vec![0; order.len()];
    for (new, old) in order.iter().enumerate() {
        place[*old] = new;
    }
    let mut module = Module::new();
    Placed { imported, order, place }
        .parse_core_module(&mut module, Parser::new(0), wasm)
        .map_err(|error| anyhow!("{error}"))?;
    Ok(module.finish())
}

/// How many functions a module imports, and the bodies of its own.
fn functions(wasm: &[u8]) -> Result<(usize, Vec<&[u8]>)> {
    let (mut imported, mut bodies) = (0, Vec::new());
    for payload in Parser::new(0).parse_all(wasm) {
        match payload? {
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    imported += usize::from(matches!(import?.ty, TypeRef::Func(_)));
                }
            }
            Payload::CodeSectionEntry(body) => bodies.push(body.as_bytes()),
            _ => {}
        }
    }
    Ok((imported, bodies))
}

/// Which of the old functions comes first, second and so on; the first `kept` stay where they are.
fn order(bodies: &[&[u8]], kept: usize) -> Vec<usize> {
    let lengths: Vec<_> = bodies.iter().map(|body| body.len()).collect();
    let mut window = Window::over(shared_runs(bodies), lengths);
    let kept = kept.min(bodies.len());
    let mut order: Vec<_> = (0..kept).collect();
    order.iter().for_each(|function| window.take(*function));
    let mut left: BTreeSet<_> = (kept..bodies.len()).collect();
    while let Some(next) = left.iter().copied().reduce(|best, other| window.nearer(best, other)) {
        left.remove(&next);
        window.take(next);
        order.push(next);
    }
    order
}

/// The functions that a packer still sees.
struct Window {
    /// Of each function: its runs, its length, and what those of its runs that are in the window weigh.
    runs: Vec<Vec<usize>>,
    lengths: Vec<usize>,
    in_common: Vec<usize>,
    /// Of each run: the functions that have it, what it weighs, and how many of those are in the window.
    holders: Vec<Vec<usize>>,
    weights: Vec<usize>,
    seen: Vec<usize>,
    inside: VecDeque<usize>,
}

impl Window {
    /// Nothing seen yet.
    fn over(runs: Vec<Vec<usize>>, lengths: Vec<usize>) -> Self {
        let count = runs.iter().flatten().max().map_or(0, |last| last + 1);
        let mut holders = vec![Vec::new(); count];
        for (function, runs) in runs.iter().enumerate() {
            runs.iter().for_each(|run| holders[*run].push(function));
        }
        let weights = holders.iter().map(|holders| weight(holders.len())).collect();
        let (in_common, seen) = (vec![0; runs.len()], vec![0; count]);
        Self { runs, lengths, in_common, holders, weights, seen, inside: VecDeque::new() }
    }

    /// Which of two has the greater part of itself in the window; of two alike the one before.
    fn nearer(&self, one: usize, other: usize) -> usize {
        let weighed =
            |function: usize, against: usize| self.in_common[function] * (self.lengths[against] + LONGER);
        if weighed(other, one) > weighed(one, other) { other } else { one }
    }

    /// Takes a function in, and lets go of what is then too far back.
    fn take(&mut self, function: usize) {
        self.inside.push_back(function);
        for run in &self.runs[function] {
            self.seen[*run] += 1;
            if self.seen[*run] == 1 {
                self.holders[*run].iter().for_each(|holder| self.in_common[*holder] += self.weights[*run]);
            }
        }
        while self.inside.iter().map(|function| self.lengths[*function]).sum::<usize>() > WINDOW {
            let Some(gone) = self.inside.pop_front() else { break };
            for run in &self.runs[gone] {
                self.seen[*run] -= 1;
                if self.seen[*run] == 0 {
                    self.holders[*run]
                        .iter()
                        .for_each(|holder| self.in_common[*holder] -= self.weights[*run]);
                }
            }
        }
    }
}

/// What a run weighs that so many functions have.
const fn weight(holders: usize) -> usize {
    1000 / holders
}

/// The runs of bytes of each function that another has too, numbered.
fn shared_runs(bodies: &[&[u8]]) -> Vec<Vec<usize>> {
    let runs = |body: &[u8]| body.array_windows::<RUN>().copied().collect::<BTreeSet<_>>();
    let mut held: HashMap<[u8; RUN], usize> = HashMap::new();
    for body in bodies {
        for run in runs(body) {
            *held.entry(run).or_default() += 1;
        }
    }
    let mut numbers: HashMap<[u8; RUN], usize> = HashMap::new();
    let mut numbered = |run| {
        let next = numbers.len();
        *numbers.entry(run).or_insert(next)
    };
    bodies
        .iter()
        .map(|body| runs(body).into_iter().filter(|run| held[run] > 1).map(&mut numbered).collect())
        .collect()
}

/// A module written again with its functions in another order.
struct Placed {
    imported: usize,
    /// The old function of each new place, and the new place of each old function.
    order: Vec<usize>,
    place: Vec<usize>,
}

impl Reencode for Placed {
    type Error = std::convert::Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error<Self::Error>> {
        let own = (function as usize).checked_sub(self.imported);
        Ok(own.map_or(function, |own| (self.imported + self.place[own]) as u32))
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error<Self::Error>> {
        let types = section.into_iter().collect::<Result<Vec<_>, _>>()?;
        for old in &self.order {
            functions.function(types[*old]);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error<Self::Error>> {
        let bodies = section.into_iter().collect::<Result<Vec<_>, _>>()?;
        for old in self.order.clone() {
            self.parse_function_body(code, bodies[old].clone())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_encoder::{
        EntityType, ExportKind, ExportSection, Function, ImportSection, StartSection, TypeSection, ValType,
    };
    use wasmparser::Operator;

    #[test]
    fn what_is_alike_comes_together() {
        let (long, short) = (b"the upper arm turns about its pivots", b"steel, rubber, paint and grease");
        let mut alike = *long;
        alike[0] = b'T';
        let bodies: [&[u8]; 4] = [long, short, b"0123456789", &alike];
        assert_eq!(order(&bodies, 1), [0, 3, 1, 2]);
        assert_eq!(order(&bodies, 3), [0, 1, 2, 3]);
        assert_eq!(order(&bodies, 9), [0, 1, 2, 3]);
        assert!(order(&[], 1).is_empty());
    }

    #[test]
    fn what_is_too_far_back_is_forgotten() {
        let far = vec![0; WINDOW];
        let bodies: [&[u8]; 5] = [b"upper arm", &far, b"lower arm", b"lower arms", b"upper arms"];
        assert_eq!(order(&bodies, 3), [0, 1, 2, 3, 4]);
        let bodies: [&[u8]; 5] = [b"upper arm", &far[1000..], b"lower rod", b"lower arms", b"upper arms"];
        assert_eq!(order(&bodies, 3), [0, 1, 2, 4, 3]);
    }

    /// Three functions: `one`, `start`, and `other`, which gives a number, is like `one`, calls `start`
    /// and is sent out. So many are imported that none is kept in place.
    #[test]
    fn whatever_names_a_function_still_names_it() {
        const ONE: u32 = NAMED_IN_A_BYTE as u32;
        const START: u32 = ONE + 1;
        const OTHER: u32 = ONE + 2;
        let mut types = TypeSection::new();
        types.ty().function([], []);
        types.ty().function([], [ValType::I32]);
        let mut imports = ImportSection::new();
        (0..ONE).for_each(|_| _ = imports.import("page", "f", EntityType::Function(0)));
        let mut own = FunctionSection::new();
        own.function(0).function(0).function(1);
        let mut exports = ExportSection::new();
        exports.export("other", ExportKind::Func, OTHER);
        let start = StartSection { function_index: START };
        let mut code = CodeSection::new();
        let body = |numbers: [i64; 4]| {
            let mut body = Function::new([]);
            numbers.into_iter().for_each(|number| _ = body.instructions().i64_const(number << 40).drop());
            body
        };
        let mut one = body([1, 2, 3, 4]);
        one.instructions().end();
        let mut middle = body([-5, -6, -7, -8]);
        middle.instructions().end();
        let mut other = body([1, 2, 3, 4]);
        other.instructions().call(START).i32_const(7).end();
        code.function(&one).function(&middle).function(&other);
        let mut module = Module::new();
        module.section(&types).section(&imports).section(&own).section(&exports).section(&start);
        let wasm = {
            module.section(&code);
            module.finish()
        };

        let arranged = arranged(&wasm).unwrap();
        assert_eq!(functions(&wasm).unwrap().1[0], functions(&arranged).unwrap().1[0]);
        assert_eq!(functions(&wasm).unwrap().1[1], functions(&arranged).unwrap().1[2]);
        let mut named = Vec::new();
        for payload in Parser::new(0).parse_all(&arranged) {
            match payload.unwrap() {
                Payload::FunctionSection(types) => named.extend(types.into_iter().map(Result::unwrap)),
                Payload::ExportSection(exports) => {
                    named.extend(exports.into_iter().map(|export| export.unwrap().index));
                }
                Payload::StartSection { func, .. } => named.push(func),
                Payload::CodeSectionEntry(body) => {
                    for operator in body.get_operators_reader().unwrap() {
                        if let Operator::Call { function_index } = operator.unwrap() {
                            named.push(function_index);
                        }
                    }
                }
                _ => {}
            }
        }
        assert_eq!(named, [0, 1, 0, ONE + 1, ONE + 2, ONE + 2]);
    }
}
