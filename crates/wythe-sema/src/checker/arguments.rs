//! Calls: functions, build-ups, records, conversions, parts by name.

use rustc_hash::FxHashMap;
use wythe_findings::{Finding, Fix, codes};
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Arg, DeclKind, ExprId, ExprKind, Function};
use wythe_units::{Dim, Kind};

use crate::checked::{Builtin, PartKind, Res, Target};
use crate::program::DefId;
use crate::signature::{ParamType, Signature};
use crate::suggest::closest;
use crate::types::Type;

use super::Checker;

impl Checker<'_> {
    pub(super) fn call(&mut self, id: ExprId, callee: ExprId, args: &[Arg]) -> Type {
        if let ExprKind::Name(name) = self.module[callee].kind
            && let Some(ty) = self.conversion(id, callee, name, args)
        {
            return ty;
        }
        let callee_type = self.infer_toward(callee, Some(&Type::Callable(DefId { file: self.file, index: u32::MAX })));
        match self.out.res(callee) {
            Res::Builtin(builtin) => return self.builtin(id, builtin, args),
            Res::Part(part) => return self.part(id, part, args),
            Res::Method(def) => {
                let Signature::Function { params, result } = self.signature_of(def) else { return Type::Unknown };
                let ExprKind::Field { of, .. } = self.module[callee].kind else { return Type::Unknown };
                let given = self.out.ty(of).clone();
                let mut generics = FxHashMap::default();
                if let Type::Generic(name) = &params[0].ty {
                    generics.insert(*name, given);
                }
                self.resolve(id, Res::Method(def));
                self.arguments(id, def, &params[1..], args, &mut generics);
                return self.instantiate(&result, &generics);
            }
            _ => {}
        }
        let Type::Callable(def) = callee_type else {
            for arg in args {
                self.infer(arg.value);
            }
            if callee_type != Type::Unknown {
                // A build-up that needs no arguments may still be given them.
                if let (Type::Buildup(_), Res::Def(def)) = (&callee_type, self.out.res(callee)) {
                    return self.call_def(id, def, args);
                }
                self.report(
                    Finding::new(codes::NOT_A_FUNCTION, self.module[callee].span, "this cannot be called")
                        .label(format!("this is {}", self.describe(&callee_type))),
                );
            }
            return Type::Unknown;
        };
        self.call_def(id, def, args)
    }

    fn call_def(&mut self, id: ExprId, def: DefId, args: &[Arg]) -> Type {
        self.resolve(id, Res::Def(def));
        let mut generics = FxHashMap::default();
        match self.signature_of(def) {
            Signature::Function { params, result } => {
                self.arguments(id, def, &params, args, &mut generics);
                self.instantiate(&result, &generics)
            }
            Signature::Buildup { params, kind } => {
                self.arguments(id, def, &params, args, &mut generics);
                Type::Buildup(kind)
            }
            Signature::Record(fields) => {
                let params: Vec<ParamType> = fields
                    .iter()
                    .map(|f| ParamType { name: f.name, ty: f.ty.clone(), default: f.default, contract: None })
                    .collect();
                self.arguments(id, def, &params, args, &mut generics);
                Type::Record(def)
            }
            _ => {
                for arg in args {
                    self.infer(arg.value);
                }
                Type::Unknown
            }
        }
    }

    /// Checks arguments against parameters, by name or in order.
    fn arguments(
        &mut self,
        id: ExprId,
        def: DefId,
        params: &[ParamType],
        args: &[Arg],
        generics: &mut FxHashMap<Symbol, Type>,
    ) {
        let mut given: Vec<Option<Span>> = vec![None; params.len()];
        let mut next = 0;
        for arg in args {
            let at = match arg.name {
                Some(name) => params.iter().position(|p| p.name == name.name),
                None => {
                    let at = (next < params.len()).then_some(next);
                    next += 1;
                    at
                }
            };
            let Some(at) = at else {
                self.infer(arg.value);
                self.unknown_argument(def, params, arg);
                continue;
            };
            let span = arg.name.map_or(self.module[arg.value].span, |n| n.span);
            if let Some(first) = given[at] {
                self.report(
                    Finding::new(codes::UNKNOWN_ARGUMENT, span, format!("`{}` is given twice", params[at].name))
                        .label("given again here")
                        .related(first, "first given here"),
                );
            }
            given[at] = Some(span);
            if let Some(target) = arg.name.and_then(|n| self.param_target(def, n.name)) {
                self.mention(span, target);
            }
            self.argument(&params[at], arg.value, generics);
        }
        let missing: Vec<_> = params
            .iter()
            .zip(&given)
            .filter(|(p, g)| g.is_none() && p.default.is_none() && !matches!(p.ty, Type::Optional(_)))
            .map(|(p, _)| format!("`{}` ({})", p.name, self.describe(&p.ty)))
            .collect();
        if !missing.is_empty() {
            self.report(
                Finding::new(
                    codes::MISSING_ARGUMENT,
                    self.module[id].span,
                    format!("`{}` needs {}", self.program.name_of(def), missing.join(" and ")),
                )
                .related(self.program.span_of(def), "declared here"),
            );
        }
    }

    /// What an argument's name refers to: a parameter, or a field of a record.
    fn param_target(&self, def: DefId, name: Symbol) -> Option<Target> {
        match &self.program.decl(def)?.kind {
            DeclKind::Fn(Function { params, .. }) | DeclKind::Buildup { params, .. } => {
                params.iter().find(|p| p.name.name == name).map(|p| Target::Local(p.name.span))
            }
            DeclKind::Record(fields) => {
                fields.iter().position(|f| f.name.name == name).map(|at| Target::Part(def, at as u32))
            }
            _ => None,
        }
    }

    fn argument(&mut self, param: &ParamType, value: ExprId, generics: &mut FxHashMap<Symbol, Type>) {
        let Type::Generic(name) = &param.ty else {
            // `[D]` and the like: the dimension is solved from the element.
            if let Type::List(inner) = &param.ty
                && let Type::Generic(name) = &**inner
            {
                if let Type::List(element) = self.infer(value) {
                    generics.entry(*name).or_insert((*element).clone());
                }
                return;
            }
            let due = self.instantiate(&param.ty, generics);
            self.expect(value, &due);
            return;
        };
        match generics.get(name).cloned() {
            Some(solved) => {
                self.expect(value, &solved);
            }
            None => {
                let ty = self.infer(value);
                if !(ty.is_quantity() || ty == Type::Unknown) {
                    self.mismatch(value, &param.ty, &ty);
                    return;
                }
                generics.insert(*name, ty);
            }
        }
    }

    fn instantiate(&self, ty: &Type, generics: &FxHashMap<Symbol, Type>) -> Type {
        match ty {
            Type::Generic(name) => generics.get(name).cloned().unwrap_or(Type::Unknown),
            Type::List(inner) => Type::list(self.instantiate(inner, generics)),
            Type::Optional(inner) => self.instantiate(inner, generics).optional(),
            other => other.clone(),
        }
    }

    fn unknown_argument(&mut self, def: DefId, params: &[ParamType], arg: &Arg) {
        let callee = self.program.name_of(def);
        let Some(name) = arg.name else {
            self.report(
                Finding::new(
                    codes::UNKNOWN_ARGUMENT,
                    self.module[arg.value].span,
                    format!("`{callee}` takes no more than {} values", params.len()),
                )
                .related(self.program.span_of(def), "declared here"),
            );
            return;
        };
        let near = closest(name.name.as_str(), params.iter().map(|p| p.name.as_str()));
        let all: Vec<_> = params.iter().map(|p| p.name.as_str()).collect();
        let mut finding =
            Finding::new(codes::UNKNOWN_ARGUMENT, name.span, format!("`{callee}` has no `{}`", name.name))
                .related(self.program.span_of(def), "declared here");
        if let Some(near) = near {
            finding = finding.mend(format!("did you mean `{near}`?")).fix(Fix::needs_consent(
                format!("write `{near}`"),
                name.span,
                near,
            ));
        } else if all.is_empty() {
            finding = finding.mend("it takes nothing");
        } else {
            finding = finding.mend(format!("it takes {}", all.join(", ")));
        }
        self.report(finding);
    }

    /// `Area(x)`: an open conversion to a kind or away from one.
    fn conversion(&mut self, id: ExprId, callee: ExprId, name: Symbol, args: &[Arg]) -> Option<Type> {
        let kind = Kind::of_type_name(name.as_str());
        let dim = match kind {
            Some(kind) => kind.dim(),
            None => Dim::of_type_name(name.as_str()).filter(|_| self.global(name).is_none())?.0,
        };
        let [arg] = args else { return None };
        self.resolve(callee, Res::Convert);
        self.resolve(id, Res::Convert);
        let given = self.infer(arg.value);
        match given {
            Type::Quantity(d, _) if d == dim => {}
            Type::Unknown => {}
            other => self.mismatch(arg.value, &Type::Quantity(dim, None), &other),
        }
        Some(Type::Quantity(dim, kind))
    }

    fn builtin(&mut self, id: ExprId, builtin: Builtin, args: &[Arg]) -> Type {
        self.resolve(id, Res::Builtin(builtin));
        let name = Builtin::ALL.iter().find(|(_, b)| *b == builtin).map_or("", |(n, _)| n);
        let list = match args {
            [only] => only.value,
            _ => {
                for arg in args {
                    self.infer(arg.value);
                }
                self.report(
                    Finding::new(codes::MISSING_ARGUMENT, self.module[id].span, format!("`{name}` takes one list"))
                        .mend(format!("write `{name}([…])`")),
                );
                return Type::Unknown;
            }
        };
        if matches!(builtin, Builtin::All | Builtin::Any) {
            self.expect(list, &Type::list(Type::Bool));
            return Type::Bool;
        }
        let element = self.element_of(list);
        match builtin {
            Builtin::Count => Type::NUMBER,
            _ => {
                let fits = element.is_quantity()
                    || element == Type::Unknown
                    || (builtin != Builtin::Sum && matches!(element, Type::Elevation | Type::Temperature | Type::Date));
                if !fits {
                    self.report(
                        Finding::new(
                            codes::TYPE_MISMATCH,
                            self.module[list].span,
                            format!("`{name}` takes quantities"),
                        )
                        .label(format!("these are {}", self.describe(&element))),
                    );
                    return Type::Unknown;
                }
                element
            }
        }
    }

    /// `f.wall(south)`: the name is a part's, not a value's.
    fn part(&mut self, id: ExprId, part: PartKind, args: &[Arg]) -> Type {
        self.resolve(id, Res::Part(part));
        let record = match part {
            PartKind::Wall => "Wall",
            PartKind::Pier => "Pier",
            PartKind::Opening => "Opening",
        };
        match args {
            [Arg { name: None, value }] => match self.module[*value].kind {
                ExprKind::Name(name) => {
                    self.resolve(*value, Res::Name(name));
                    self.out.types[value.0 as usize] = Type::Name;
                }
                _ => {
                    self.report(
                        Finding::new(codes::TYPE_MISMATCH, self.module[*value].span, "the name of a part is due here")
                            .mend("write it bare, such as `south` or `p1`"),
                    );
                }
            },
            _ => self.report(
                Finding::new(codes::MISSING_ARGUMENT, self.module[id].span, "one name is due in the brackets")
                    .mend("write it bare, such as `f.wall(south)`"),
            ),
        }
        Type::Record(self.program.prelude.record(record))
    }
}
