//! The checker of one module: names, types, dimensions.

mod arguments;
mod expect;
mod field;
mod infer;
mod literal;
mod lookup;
mod name;
mod operator;
mod written_type;

use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};
use wythe_findings::Finding;
use wythe_model::SurfaceKind;
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::ast::{DeclKind, ExprId, Function, Ident, Let, Module, Param};
use wythe_syntax::limits::MAX_FINDINGS;
use wythe_units::CompoundUnit;

use crate::blocks;
use crate::checked::{Checked, Res, Target};
use crate::program::{DefId, ModuleData, Program};
use crate::signature::{FieldType, ParamType, Signature};
use crate::types::Type;

/// Checks a module. The modules it uses must have been checked before.
pub fn check_module(program: &Program, file: FileId) -> Checked {
    let Some(data) = program.module(file) else { return Checked::default() };
    let mut checker = Checker::new(program, data, file);
    checker.out.findings.extend(data.declared.findings.iter().cloned());
    checker.imports();
    for index in 0..data.module.decls.len() {
        checker.signature(index as u32);
    }
    for index in 0..data.module.decls.len() {
        checker.decl(index as u32);
    }
    let mut out = checker.out;
    out.signatures = checker.signatures.into_iter().map(Option::unwrap_or_default).collect();
    out
}

/// A name bound inside a declaration.
#[derive(Clone)]
pub(crate) struct Local {
    pub name: Symbol,
    pub ty: Type,
    pub res: Res,
    pub span: Span,
}

pub(crate) struct Checker<'a> {
    pub program: &'a Program,
    pub data: &'a ModuleData,
    pub module: &'a Module,
    pub file: FileId,
    pub out: Checked,
    pub locals: Vec<Local>,
    /// Dimensions the function at hand is generic over.
    pub generics: Vec<Symbol>,
    /// The record whose fields stand for themselves: the foundation, inside a rule.
    pub whole: Option<DefId>,
    imported: FxHashMap<Symbol, (DefId, Span)>,
    /// Units put together so far, by their text.
    units: FxHashMap<&'a str, Arc<CompoundUnit>>,
    signatures: Vec<Option<Signature>>,
    /// Declarations of units whose value has been looked at.
    units_read: FxHashSet<u32>,
    /// Declarations whose signature or unit is being worked out, to see a circle.
    under_way: Vec<u32>,
}

impl<'a> Checker<'a> {
    fn new(program: &'a Program, data: &'a ModuleData, file: FileId) -> Self {
        let module: &Module = &data.module;
        let count = module.exprs.len();
        let out =
            Checked { types: vec![Type::Unknown; count], resolutions: vec![Res::None; count], ..Checked::default() };
        Checker {
            program,
            data,
            module,
            file,
            out,
            locals: Vec::new(),
            generics: Vec::new(),
            whole: None,
            imported: FxHashMap::default(),
            units: FxHashMap::default(),
            signatures: vec![None; module.decls.len()],
            units_read: FxHashSet::default(),
            under_way: Vec::new(),
        }
    }

    pub(crate) fn report(&mut self, finding: Finding) {
        // One more than is shown, so that whoever shows them knows that there are more.
        if self.out.findings.len() <= MAX_FINDINGS {
            self.out.findings.push(finding);
        }
    }

    pub(crate) fn mention(&mut self, span: Span, target: Target) {
        self.out.mentions.push((span, target));
    }

    /// Records what a name outside an expression stands for.
    pub(crate) fn note_ident(&mut self, ident: Ident, res: Res) {
        self.out.idents.insert(ident.span.start, res);
    }

    pub(crate) fn describe(&self, ty: &Type) -> String {
        ty.describe(self.program)
    }

    pub(crate) fn text(&self, span: Span) -> &'a str {
        span.text(&self.data.text)
    }

    /// The signature of a declaration of any module.
    pub(crate) fn signature_of(&mut self, def: DefId) -> Signature {
        if def.file == self.file {
            return self.signature(def.index);
        }
        let checked = self.program.checked(def.file);
        checked.and_then(|c| c.signatures.get(def.index as usize)).cloned().unwrap_or_default()
    }

    /// The signature of a declaration of this module, worked out when first asked for.
    fn signature(&mut self, index: u32) -> Signature {
        if let Some(known) = &self.signatures[index as usize] {
            return known.clone();
        }
        if self.under_way.contains(&index) {
            self.circle(index);
            self.signatures[index as usize] = Some(Signature::Unknown);
            return Signature::Unknown;
        }
        self.under_way.push(index);
        let locals = std::mem::take(&mut self.locals);
        let generics = std::mem::take(&mut self.generics);
        let whole = self.whole.take();
        let found = self.work_out_signature(index);
        (self.locals, self.generics, self.whole) = (locals, generics, whole);
        self.under_way.pop();
        // A circle found on the way stands.
        self.signatures[index as usize].get_or_insert(found).clone()
    }

    fn work_out_signature(&mut self, index: u32) -> Signature {
        let decl = &self.module.decls[index as usize];
        match &decl.kind {
            DeclKind::Let(binding) => Signature::Value(self.let_type(binding)),
            DeclKind::Fn(function) => {
                self.generics = function.generics.iter().map(|g| g.name).collect();
                let params = self.params(&function.params);
                let result = self.written_type(&function.result);
                Signature::Function { params, result }
            }
            DeclKind::Record(fields) => Signature::Record(
                fields
                    .iter()
                    .map(|f| FieldType { name: f.name.name, ty: self.written_type(&f.ty), default: f.default })
                    .collect(),
            ),
            DeclKind::Enum { ordered, members } => {
                Signature::Enum { ordered: *ordered, members: members.iter().map(|m| m.name).collect() }
            }
            DeclKind::Product { class, .. } => Signature::Value(Type::Product(self.class(*class))),
            DeclKind::Buildup { params, kind, .. } => {
                let params = self.params(params);
                match SurfaceKind::of_word(kind.name.as_str()) {
                    Some(kind) => Signature::Buildup { params, kind },
                    None => {
                        self.unknown_surface(*kind);
                        Signature::Unknown
                    }
                }
            }
            DeclKind::Joint { .. } => Signature::Value(Type::Joint),
            DeclKind::Phase(_) => Signature::Value(Type::Phase),
            DeclKind::Site(_) => Signature::Value(Type::Record(self.program.prelude.record("Site"))),
            DeclKind::Foundation { .. } => Signature::Value(Type::Record(self.program.prelude.record("Foundation"))),
            DeclKind::Unit(_)
            | DeclKind::Rule(_)
            | DeclKind::Amend { .. }
            | DeclKind::Waiver { .. }
            | DeclKind::Prices(_)
            | DeclKind::Rates(_)
            | DeclKind::Log(_)
            | DeclKind::Test { .. } => Signature::Other,
        }
    }

    fn params(&mut self, params: &[Param]) -> Arc<[ParamType]> {
        params
            .iter()
            .map(|p| ParamType {
                name: p.name.name,
                ty: self.written_type(&p.ty),
                default: p.default,
                contract: p.contract,
            })
            .collect()
    }

    /// The type of a `let`, which also checks its value.
    pub(crate) fn let_type(&mut self, binding: &Let) -> Type {
        match &binding.ty {
            None => self.infer(binding.value),
            Some(written) => {
                let due = self.written_type(written);
                let given = self.expect(binding.value, &due);
                // A loose annotation (`Price`) is met by an exact type, which says more.
                if matches!(due, Type::Loose(_)) { given } else { due }
            }
        }
    }

    /// Checks the inside of a declaration.
    fn decl(&mut self, index: u32) {
        let module = self.module;
        let decl = &module.decls[index as usize];
        self.locals.clear();
        self.generics.clear();
        self.whole = None;
        match &decl.kind {
            DeclKind::Let(_) => {}
            DeclKind::Fn(function) => self.function(index, function),
            DeclKind::Record(fields) => {
                for field in fields {
                    if let Some(default) = field.default {
                        let ty = self.written_type(&field.ty);
                        self.expect(default, &ty);
                    }
                }
            }
            DeclKind::Enum { .. } => {}
            DeclKind::Unit(value) => {
                if let Some(value) = value {
                    self.infer(*value);
                }
            }
            _ => blocks::check_decl(self, decl, index),
        }
        self.locals.clear();
        self.whole = None;
    }

    fn function(&mut self, index: u32, function: &Function) {
        let Signature::Function { params, result } = self.signature(index) else { return };
        self.generics = function.generics.iter().map(|g| g.name).collect();
        self.bind_params(&function.params, &params);
        for binding in &function.lets {
            let ty = self.let_type(binding);
            self.bind(binding.name, ty);
        }
        if let Some(body) = function.body {
            self.expect(body, &result);
        }
    }

    /// Binds the parameters of a function or a build-up and checks their defaults and contracts.
    pub(crate) fn bind_params(&mut self, written: &[Param], params: &[ParamType]) {
        for (number, (param, known)) in written.iter().zip(params).enumerate() {
            if let Some(default) = param.default {
                self.expect(default, &known.ty);
            }
            self.locals.push(Local {
                name: param.name.name,
                ty: known.ty.clone(),
                res: Res::Param(number as u32),
                span: param.name.span,
            });
            if let Some(contract) = param.contract {
                self.expect(contract, &Type::Bool);
            }
        }
    }

    /// Binds a name from here on.
    pub(crate) fn bind(&mut self, ident: Ident, ty: Type) {
        self.locals.push(Local { name: ident.name, ty, res: Res::Local(ident.name), span: ident.span });
    }

    /// Checks an expression and gives its type.
    pub(crate) fn infer(&mut self, id: ExprId) -> Type {
        self.infer_toward(id, None)
    }
}
