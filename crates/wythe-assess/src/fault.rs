//! Faults of the input as findings: figures that cannot be, and what the physics refuses.

use wythe_findings::{Finding, codes};
use wythe_model::{Class, Control, Foundation, Product};
use wythe_physics::PhysicsError;
use wythe_physics::quantity::r_value_us;
use wythe_source::Span;

/// What the physics refused, at the part it was asked for.
pub(crate) fn refused(error: &PhysicsError, at: Span, of: &str) -> Finding {
    let mut finding = Finding::new(codes::FIGURE_REFUSED, at, format!("{of}: {error}"));
    finding.primary.text = "worked out for this".into();
    finding
}

/// Looks through the products of every assembly for figures that cannot be or hardly are.
pub(crate) fn products(f: &Foundation) -> Vec<Finding> {
    let mut seen: Vec<Span> = Vec::new();
    let mut out = Vec::new();
    for assembly in &f.assemblies {
        let works = assembly.faces.iter().flat_map(|face| &face.works);
        let placed = works.filter(|w| w.act.places()).filter_map(|w| Some((w.product.as_deref()?, w.layer_origin)));
        let structure = assembly.structure.as_deref().zip(assembly.structure_origin);
        for (product, at) in placed.chain(structure) {
            if !seen.contains(&product.origin) {
                seen.push(product.origin);
                out.extend(product_fault(product, at));
            }
        }
    }
    if let Some(soil) = f.site.soil_conductivity {
        let value = soil.mid.value;
        if value > 0.0 && !(0.2..=5.0).contains(&value) {
            let title = format!("the soil conducts {value:.3} W/(m·K), where soils conduct 0.2 to 5");
            out.push(
                Finding::new(codes::FIGURE_IMPLAUSIBLE, f.site.origin, title)
                    .mend("say the unit: W per m K, or Btu per h ft degF"),
            );
        }
    }
    out
}

fn product_fault(product: &Product, at: Span) -> Option<Finding> {
    let nought = |name: &str, value: Option<f64>| {
        let value = value?;
        (value.is_nan() || value <= 0.0).then(|| format!("{name} of `{}` is not over nought", product.name))
    };
    let fault = nought("the thickness", product.thickness.map(|t| t.value))
        .or_else(|| nought("the resistance", product.resistance.map(|r| r.low.value)))
        .or_else(|| nought("the conductivity", product.conductivity.map(|c| c.low.value)))
        .or_else(|| nought("the permeance", product.permeance.map(|p| p.mid.value)));
    if let Some(title) = fault {
        return Some(
            Finding::new(codes::LAYER_WITHOUT_THICKNESS, at, title)
                .label("used here")
                .related(product.origin, "stated here"),
        );
    }
    // A board of insulation has an inch: the widest published tables and aerogel at the end.
    let (resistance, thickness) = (product.layer_resistance()?, product.thickness?);
    if product.class != Class::Board || !product.controls.has(Control::Heat) {
        return None;
    }
    let per_inch = r_value_us(resistance) / (thickness.value / 0.0254);
    (!(1.5..=12.0).contains(&per_inch)).then(|| {
        Finding::new(codes::FIGURE_IMPLAUSIBLE, at, format!("`{}` has R-{per_inch:.1} an inch", product.name))
            .label("used here")
            .related(product.origin, "stated here")
            .cause("boards of insulation have R-2 to R-9 an inch")
            .mend("compare it with the label, its unit included")
    })
}
