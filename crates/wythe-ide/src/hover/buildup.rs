//! A build-up layer by layer, from outside to inside, with the source of each figure.

use wythe_model::{Act, Assembly, Product, SurfaceKind, ThermalResistance};
use wythe_project::Project;
use wythe_source::Symbol;

use crate::figures::{figure, thickness};

/// A layer of a build-up in the order it lies, outside first.
pub(crate) struct Lies<'a> {
    /// Its name.
    pub name: Symbol,
    /// The face it lies on; the structure lies on none.
    pub face: &'static str,
    /// What it is made of.
    pub product: &'a Product,
}

/// The layers that cover a surface, from outside to inside. Layers taken away again are left out.
pub(crate) fn layers_of(assembly: &Assembly) -> Vec<Lies<'_>> {
    let on = |face: &'static str| {
        let works = assembly.face(face).map(|f| f.works.as_slice()).unwrap_or_default();
        let removed = |name: Symbol| works.iter().any(|w| w.act == Act::Remove && w.layer == name);
        let covers = works.iter().filter(move |w| {
            matches!(w.act, Act::Coat | Act::Hang | Act::Set | Act::Lay | Act::Fill) && !removed(w.layer)
        });
        covers.filter_map(|w| Some(Lies { name: w.layer, face, product: w.product.as_deref()? })).collect::<Vec<_>>()
    };
    let mut out = on("outside");
    out.reverse();
    out.extend(assembly.structure.as_deref().map(|p| Lies { name: p.name, face: "structure", product: p }));
    out.extend(on("inside"));
    out.extend(on("face"));
    out
}

/// The sum of the resistances of all layers, without films; nothing where none is known.
pub(crate) fn total_resistance(assembly: &Assembly) -> Option<ThermalResistance> {
    let each = layers_of(assembly).into_iter().filter_map(|l| l.product.layer_resistance()).filter(|r| r.is_finite());
    each.reduce(|a, b| a + b)
}

/// The table of a build-up's layers.
pub(super) fn table(project: &Project, assembly: &Assembly) -> String {
    let options = &project.manifest().display;
    let layers = layers_of(assembly);
    if layers.is_empty() {
        return String::new();
    }
    let dash = || "–".to_owned();
    let mut out = String::from("| layer | on | thickness | R | permeance | source |\n|---|---|---|---|---|---|\n");
    for layer in &layers {
        let p = layer.product;
        out.push_str(&format!(
            "| {} | {} | {} | {} | {} | {} |\n",
            if layer.name == p.name { layer.name.to_string() } else { format!("{} ({})", layer.name, p.name) },
            layer.face,
            p.thickness.map_or_else(dash, |t| thickness(t, options)),
            p.layer_resistance().map_or_else(dash, |r| figure(r, options)),
            p.permeance.map_or_else(dash, |i| figure(i.mid, options)),
            p.source.as_deref().unwrap_or("–").replace('|', "/"),
        ));
    }
    if let Some(total) = total_resistance(assembly) {
        let whole = if assembly.kind == SurfaceKind::Wall { ", where every layer lies" } else { "" };
        out.push_str(&format!("\n**{}** without films{whole}", figure(total, options)));
    }
    out
}
