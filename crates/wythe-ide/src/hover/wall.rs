//! A wall as it is asked about on site: how long and high inside, where the board's top lands, band by band, and
//! what goes on next.

use wythe_eval::films;
use wythe_model::geometry::{Basis, Plan, strips};
use wythe_model::quantity::{quantities, wall_average, wall_bands};
use wythe_model::{Act, Class, Foundation, MeasuredFace};
use wythe_project::Project;

use crate::figures::{figure, measure, percent};
use crate::progress;

/// What is told of a wall.
pub(super) fn told(project: &Project, f: &Foundation, number: usize) -> String {
    let options = &project.manifest().display;
    let plan = Plan::of(f, Basis::Design);
    let (Some(wall), Some(drawn)) = (f.walls.get(number), plan.walls.get(number)) else { return String::new() };
    let mut out = vec![format!(
        "**{}** wall of {}: {} outside, **{} inside**",
        wall.name,
        f.name,
        figure(drawn.outside.length(), options),
        figure(drawn.inside.length(), options),
    )];
    let several = wall.stretches.len() > 1;
    for strip in strips(wall, drawn.line(MeasuredFace::Inside)) {
        let levels = &strip.levels;
        let reach = if several {
            format!("from {} to {}: ", figure(strip.from, options), figure(strip.to, options))
        } else {
            String::new()
        };
        out.push(format!(
            "- {reach}**{} high inside**, crawl floor to top of masonry; {} from footing to top",
            figure(levels.top - levels.ground, options),
            figure(levels.top - levels.footing, options),
        ));
        out.extend(boards(f, number).map(|(name, extent)| {
            let (low, high) = extent.on(levels);
            format!(
                "- top of {name}: **{} below the top of the masonry**, {} above the crawl floor; it is {} high",
                figure(levels.top - high, options),
                figure(high - levels.ground, options),
                figure(high - low, options),
            )
        }));
    }
    let mut parts = vec![out.join("\n")];
    parts.extend(bands(project, f, number));
    parts.extend(progress::next_on_wall(project, f, number));
    parts.extend(amounts(project, f, number));
    parts.join("\n\n")
}

fn boards(f: &Foundation, wall: usize) -> impl Iterator<Item = (String, wythe_model::Extent)> {
    let assembly = f.walls.get(wall).and_then(|w| w.assembly).and_then(|id| f.assemblies.get(id.0 as usize));
    let works = assembly.and_then(|a| a.face("inside")).map(|face| face.works.as_slice()).unwrap_or_default();
    works.iter().filter_map(|w| {
        let product = w.product.as_ref()?;
        (w.act == Act::Set && product.class == Class::Board).then_some(())?;
        let name =
            if product.name == w.layer { product.name.to_string() } else { format!("{} ({})", w.layer, product.name) };
        Some((name, w.extent?))
    })
}

/// The bands of the inside, from the top down, with resistance, transmittance and share of the loss.
fn bands(project: &Project, f: &Foundation, wall: usize) -> Option<String> {
    let options = &project.manifest().display;
    let bands = wall_bands(f, wall, Basis::Design);
    let average = wall_average(&bands, films())?;
    let mut out = String::from("| band | high | layers | R | U | share of the loss |\n|---|---|---|---|---|---|\n");
    for ((band, u), share) in bands.iter().zip(&average.band_u).zip(&average.loss_shares) {
        let layers: Vec<_> = band.layers.iter().map(|(name, r)| format!("{name} {}", figure(*r, options))).collect();
        out.push_str(&format!(
            "| {}{} | {} | {} | {} | {} | {} |\n",
            if band.bare { "bare" } else { "insulated" },
            if band.above_grade { ", above grade" } else { ", below grade" },
            figure(band.height(), options),
            if layers.is_empty() { "–".into() } else { layers.join(" + ") },
            figure(band.r_total, options),
            figure(*u, options),
            percent(share.value),
        ));
    }
    out.push_str(&format!("\nR without films; U with films, **{}** over the wall", figure(average.u, options)));
    Some(out)
}

/// What the wall takes of each product.
fn amounts(project: &Project, f: &Foundation, wall: usize) -> Option<String> {
    let options = &project.manifest().display;
    let name = f.walls.get(wall)?.name;
    let all = quantities(f, Basis::Design);
    let mut sums: Vec<(String, Vec<String>)> = Vec::new();
    for line in all.of_element(name).filter(|l| l.face.as_str() == "inside") {
        let Some(product) = line.product else { continue };
        let text = measure(line.measure, options);
        match sums.iter_mut().find(|(p, _)| *p == product.as_str()) {
            Some((_, amounts)) => amounts.push(text),
            None => sums.push((product.to_string(), vec![text])),
        }
    }
    let items: Vec<_> =
        sums.into_iter().map(|(product, amounts)| format!("{product} {}", amounts.join(" + "))).collect();
    (!items.is_empty()).then(|| format!("Net inside: {}", items.join("; ")))
}
