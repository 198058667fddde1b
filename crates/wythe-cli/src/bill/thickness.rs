//! A thickness where a product is due: the product of that thickness, like the one that stands there.

use std::sync::Arc;

use uom::si::f64::Length;
use uom::si::length::{foot, inch, meter, millimeter};
use wythe_model::Product;
use wythe_sema::DefId;
use wythe_syntax::ast::{ExprKind, UseTarget};
use wythe_units::{Scalar, parse_length_marks};

use super::plans::Plans;
use super::vary::Variation;

/// The variation with thicknesses turned into products, where the argument of its name is a product.
pub(crate) fn chosen(plans: &Plans, def: DefId, vary: &Variation) -> Result<Variation, String> {
    let Some(now) = standing(plans, def, &vary.name) else { return Ok(vary.clone()) };
    let like: Vec<&Arc<Product>> =
        plans.ledgers.products.iter().filter(|p| p.class == now.class && p.facing == now.facing).collect();
    let choose = |value: &String| -> Result<String, String> {
        let Some(thickness) = length(value) else { return Ok(value.clone()) };
        let near =
            |p: &&&Arc<Product>| p.thickness.is_some_and(|t| (t - thickness).abs() < Length::new::<millimeter>(0.1));
        // The one that stands there goes first, then one the file knows by name.
        let rank = |p: &&Arc<Product>| (p.name != now.name, !known_here(plans, def, p.name.as_str()));
        let found = like.iter().filter(near).copied().min_by_key(rank);
        found.map(|p| p.name.to_string()).ok_or_else(|| {
            let mut known: Vec<String> = like
                .iter()
                .filter_map(|p| {
                    Some(format!("{} of {} in", p.name, (p.thickness?.get::<inch>() * 100.0).round() / 100.0))
                })
                .collect();
            known.sort_unstable();
            format!("no product like `{}` is {value} thick; there are: {}", now.name, known.join(", "))
        })
    };
    let values = vary.values.iter().map(choose).collect::<Result<Vec<_>, _>>()?;
    Ok(Variation { name: vary.name.clone(), values })
}

/// Whether a file declares or takes in a name.
fn known_here(plans: &Plans, def: DefId, name: &str) -> bool {
    let Some(data) = plans.opened.project.program().module(def.file) else { return false };
    let imported = data.module.uses.iter().any(|u| match &u.target {
        UseTarget::File { imports, .. } => imports.iter().any(|i| i.local().name.as_str() == name),
        UseTarget::Code(_) => false,
    });
    imported || data.module.decls.iter().any(|d| d.name.name.as_str() == name)
}

/// The product that is the argument of a name in the foundation.
fn standing(plans: &Plans, def: DefId, name: &str) -> Option<Arc<Product>> {
    let data = plans.opened.project.program().module(def.file)?;
    let decl = data.module.decls.get(def.index as usize)?;
    let calls = data.module.exprs.iter().filter(|e| decl.span.holds(e.span));
    let args = calls.filter_map(|e| match &e.kind {
        ExprKind::Call { args, .. } => Some(args),
        _ => None,
    });
    let value = args.flatten().find(|a| a.name.is_some_and(|n| n.name.as_str() == name))?.value;
    let text = plans.opened.project.text(def.file).get(data.module[value].span.range())?.trim();
    plans.ledgers.products.iter().find(|p| p.name.as_str() == text).cloned()
}

/// `2"`, `1.5 in`, `50 mm`.
fn length(text: &str) -> Option<Length> {
    if let Ok(quantity) = parse_length_marks(text) {
        return Some(Length::new::<meter>(quantity.value.to_f64()));
    }
    let at = text.find(|c: char| c.is_alphabetic())?;
    let (number, unit) = text.split_at(at);
    let number = Scalar::parse(number.trim()).ok()?.to_f64();
    match unit.trim() {
        "in" => Some(Length::new::<inch>(number)),
        "ft" => Some(Length::new::<foot>(number)),
        "mm" => Some(Length::new::<millimeter>(number)),
        "cm" => Some(Length::new::<millimeter>(number * 10.0)),
        _ => None,
    }
}
