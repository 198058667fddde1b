//! Repositories of generated houses, for benchmarks and growth tests. The same number gives the same house.

use std::fmt::Write as _;

/// A small reproducible source of numbers: Knuth's MMIX linear congruence (The Art of Computer Programming, 3.3.4).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % sides.max(1)
    }
}

/// The library and site every generated house uses: file name and text.
pub const LIBRARY: [(&str, &str); 3] = [
    ("library/products.wythe", include_str!("../../examples/cedar_row/library/products.wythe")),
    ("library/closed_crawl.wythe", include_str!("../../examples/cedar_row/library/closed_crawl.wythe")),
    ("library/phases.wythe", include_str!("../../examples/cedar_row/library/phases.wythe")),
];

/// The path of a house.
pub fn house_path(number: u64) -> String {
    format!("houses/block_{:02}/house_{number}.wythe", number % 40)
}

/// A house of about 250 lines: a comb of bays with steps, openings, piers, beams, notes and tests.
pub fn house(number: u64) -> String {
    let mut dice = Dice(number.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1);
    for _ in 0..4 {
        dice.roll(2);
    }
    let name = format!("house_{number}");
    let bays = 3 + dice.roll(3);
    let bay = 14 + dice.roll(6);
    let gap = 3 + dice.roll(3);
    let deep = 24 + dice.roll(8);
    let jog = 4 + dice.roll(4);
    let width = bays * 2 * bay;
    let mut out = String::new();
    let o = &mut out;
    let _ = writeln!(o, "/// House {number}: {bays} bays of {bay} ft, set back {jog} ft between them.\n");
    o.push_str("use \"../../library/products.wythe\": foil_board_2in\n");
    o.push_str("use \"../../library/closed_crawl.wythe\": stem_wall, pier_skirt, ground_cover, hatch_door, vent_plug, wall_to_ground, pier_to_ground\n");
    o.push_str("use \"../../library/phases.wythe\": closed_crawl\n\n");
    let _ = writeln!(
        o,
        "site lot_{number} {{\n    climate_zone: zone_4a\n    termite_hazard: heavy\n    soil {{ conductivity: 0.{} W per m K .. 1.{} W per m K; water_table: deep }}\n    frost_depth: {}\"\n}}\n",
        6 + dice.roll(4),
        1 + dice.roll(8),
        12 + dice.roll(12)
    );
    let _ = writeln!(o, "let bay_{number} = {bay}'                  // one bay, outside of the masonry");
    let _ = writeln!(
        o,
        "let depth_{number} = bay_{number} * 2 - {jog}'\nlet share_{number} = depth_{number} / bay_{number}\n"
    );
    let _ = writeln!(o, "pub foundation {name} on lot_{number} {{");
    o.push_str("    phases: closed_crawl\n    joints: [wall_to_ground, pier_to_ground]\n    walls {\n");
    let _ = writeln!(o, "        build: stem_wall(board: foil_board_2in, gap: {gap}\")");
    o.push_str("        top: datum; grade: datum - 8\"; ground: datum - 2' 8\"; footing: datum - 3' 4\"\n");
    for b in 0..bays * 2 {
        let _ = writeln!(o, "        // bay {} of the street side", b + 1);
        let _ = writeln!(o, "        wall south_{b} runs east {bay}'");
    }
    let _ = writeln!(
        o,
        "        wall east runs north {deep}' {{ step at {}' {{ grade: datum - 2' 8\"; footing: datum - 4' 8\" }} }}",
        deep / 2
    );
    for b in 0..bays {
        let step = "{ grade: datum - 2' 8\"; footing: datum - 4' 8\" }";
        let _ = writeln!(o, "        wall back_{b} runs west {bay}' {step}");
        let _ = writeln!(o, "        wall in_{b} runs south {jog}' {step}     // the set-back begins");
        let _ = writeln!(o, "        wall court_{b} runs west {bay}' {step}");
        if b + 1 < bays {
            let _ = writeln!(o, "        wall out_{b} runs north {jog}' {step}    // and ends");
        }
    }
    let _ = writeln!(o, "        wall west runs south {}'\n    }}", deep - jog);
    let _ = writeln!(
        o,
        "    opening hatch in south_0 at 4' {{ kind: access; build: hatch_door; size: 2' 8\" x 1' 8\"; sill: ground + 8\" }}"
    );
    for b in 1..bays * 2 {
        let at = 2 + dice.roll(bay - 6);
        let _ = writeln!(
            o,
            "    opening v{b} in south_{b} at {at}' {}\" {{ kind: vent; build: vent_plug; free_area: {} in2; size: 16\" x 8\" }}",
            dice.roll(12),
            64 + dice.roll(12)
        );
    }
    for b in 0..bays * 2 {
        let x = b * bay + 4;
        let _ = writeln!(
            o,
            "    piers row_{b}_ {{\n        // under bay {}\n        grid: 2 x 2; first: ({x}', 6' {}\"); spacing: {}' x 5' 4\"; size: 16\" x 16\"\n        top: datum - 9-1/4\"; build: pier_skirt\n    }}",
            b + 1,
            dice.roll(8),
            bay - 8
        );
        let _ = writeln!(
            o,
            "    pad post_{b} at ({}' 2\", 13') {{ size: 2' x 2'; depth: {}\" }}",
            x + 2,
            10 + dice.roll(4)
        );
    }
    let _ = writeln!(o, "    ground {{ build: ground_cover(overlap: {}\"); outlet: true }}", 12 + dice.roll(3));
    let _ = writeln!(
        o,
        "    conditioning {{ supply_air: {} cfm; return_path: true; humidity_sensor: true }}",
        width * deep / 50 + 10
    );
    o.push_str("    sill { treated: true; gasket: true; rim_insulated: true; rim_sealed: true }\n}\n\n");
    tests(o, number, bays, bay, deep, jog, gap);
    out
}

fn tests(o: &mut String, number: u64, bays: u64, bay: u64, deep: u64, jog: u64, gap: u64) {
    let perimeter = 2 * (2 * bays * bay) + deep + (deep - jog) + jog * (2 * bays - 1);
    let _ = writeln!(o, "test \"the outline of house {number}\" {{\n    let f = house_{number}");
    let _ =
        writeln!(o, "    expect f.perimeter == {perimeter}'\n    expect count(f.walls) == {}", 2 * bays + 1 + 4 * bays);
    let _ = writeln!(
        o,
        "    expect count(f.all_piers) == {}\n    expect f.floor_area > 100 ft2 and f.floor_area < 20_000 ft2",
        bays * 8
    );
    for b in 0..bays * 2 {
        let _ = writeln!(o, "    expect f.wall(south_{b}).length == {bay}'");
        let _ = writeln!(o, "    expect f.wall(south_{b}).bare_band == {gap}\" within 1/16 in");
        let _ = writeln!(
            o,
            "    expect f.wall(south_{b}).height == 3' 4\" and f.wall(south_{b}).resistance(board_band) >= R-10"
        );
    }
    o.push_str("}\n\n");
    for b in 0..bays * 3 {
        let _ = writeln!(o, "/// What bay {b} takes, by area and not by nesting: a rough figure for the first talk.");
        let _ = writeln!(o, "let face_{number}_{b} = bay_{number} * (2' 8\" - {gap}\")");
        let _ =
            writeln!(o, "let sheets_{number}_{b} = face_{number}_{b} / 32 ft2                    // of 4 ft by 8 ft");
        let _ = writeln!(
            o,
            "let heavy_{number}_{b} = if sheets_{number}_{b} > 1.5 then face_{number}_{b} * 1.08 else face_{number}_{b} * 1.12\n"
        );
    }
}

#[cfg(test)]
mod tests {
    use super::house;

    #[test]
    fn the_same_number_gives_the_same_house() {
        assert_eq!(house(7), house(7));
        assert_ne!(house(7), house(8));
    }
}
