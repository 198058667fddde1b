//! Generates repositories of invented houses, the same bytes for the same number.

use std::fmt::Write as _;

/// One house file: a site, a foundation of an L shape, its openings, piers and beams, and a build-up of its own.
pub fn house(number: usize) -> String {
    let mut out = String::new();
    let feet = 30 + number % 17;
    let inches = number % 12;
    let _ = writeln!(
        out,
        "use \"../library/products.wythe\": foil_board_1_5in
use \"../library/closed_crawl.wythe\": stem_wall, pier_skirt, ground_cover, hatch_door, wall_to_ground, pier_to_ground
use \"../library/phases.wythe\": closed_crawl
use code us_residential_2021

/// House {number} of Cedar Row.
pub site row_{number} {{
    climate_zone: zone_4a
    termite_hazard: heavy
    soil {{ conductivity: 1.0 W per m K; water_table: deep }}
    climate: monthly(\"../climate/upland_4a.csv\")
}}
pub foundation house_{number} on row_{number} {{
    phases: closed_crawl
    joints: [wall_to_ground, pier_to_ground]
    walls {{
        build: stem_wall(board: foil_board_1_5in, gap: {}\")
        top: datum; grade: datum - 1' 4\"; ground: datum - 2' 8\"; footing: datum - 3' 4\"
        wall south runs east {feet}'
        wall east runs north 28' {inches}\" {{ step at 16' {{ grade: datum - 2' 8\"; footing: datum - 4' 8\" }} }}
        wall north runs west 20' {{ grade: datum - 2' 8\"; footing: datum - 4' 8\" }}
        wall inner runs south 8' 6\"
        wall porch runs west {}'
        wall west runs south 20'      // the walk closes
    }}",
        3 + number % 3,
        feet - 20,
    );
    for vent in 0..8 {
        let _ = writeln!(
            out,
            "    opening v{vent} in south at {}' 6\" {{ kind: vent; free_area: 72 in2; size: 16\" x 8\" }}",
            2 + 3 * vent
        );
    }
    let _ = writeln!(
        out,
        "    opening hatch in south at 26' {{ kind: access; build: hatch_door; size: 2' 8\" x 1' 8\"; sill: ground + 8\" }}
    piers p {{
        grid: 3 x 2; first: (10' 6\", 6' 8\"); spacing: 10' 6\" x 6' 8\"; size: 16\" x 16\"; top: datum - 9-1/4\"
        build: pier_skirt
    }}"
    );
    for pier in 0..6 {
        let _ = writeln!(
            out,
            "    pier q{pier} at ({}' 8\", 24') {{ size: 16\" x 16\"; build: pier_skirt(tail: 12\") }}",
            4 + pier
        );
        let _ = writeln!(
            out,
            "    beam b{pier} from (0', {pier}' 8\") to ({feet}', {pier}' 8\") {{ size: 2x10; drop: 9-1/4\" }}"
        );
    }
    out.push_str("    ground { build: ground_cover(overlap: 12\") }\n    conditioning { supply_air: 30 cfm }\n}\n");
    for own in 0..6 {
        let _ = writeln!(
            out,
            "pub buildup own_{own}(board: Board, gap: Length = 4\" where gap >= 3\", tail: Length = 12\" where tail >= 6\") for wall {{
    structure: block_8in
    head {{ during waterproofing {{ coat wall_membrane as head_coat over head }} }}
    inside {{                          // in the order it goes on
        during waterproofing {{ coat wall_membrane as wall_cap from top to top - 8\" }}
        during rough_in {{
            hang wall_liner from top - gap to ground by tail
            fasten wall_liner with drive_pin every 24\"
            tape seam_tape over heads of drive_pin
            set board from top - gap to ground
            fasten board with board_anchor by 6 per sheet
            tape foil_tape over top edge of board
            tape foil_tape over joints of board
            seal urethane along top edge of board to structure bead 3/8\"
        }}
    }}
}}
pub rule band_{own} {{
    severity: warning
    for each w in walls where site.termite_hazard >= Hazard.moderate
    require clear_above(w.inside, Board) >= 3 in and w.height * 2 <= 12 ft + {own} in
    otherwise \"leave 3 in clear at the top of {{w.name}}; {{clear_above(w.inside, Board) as in}} is left\"
    because: \"termite tubes must be seen before they reach the sill\"; source: \"common practice, no source\"
}}
pub let area_{own}: Area = sum([w.area for each w in house_{number}.walls where w.length > {own}']) + {own} ft2"
        );
    }
    out
}

/// Houses until the text has this many lines.
#[allow(dead_code, reason = "the test of the bench's source uses one house")]
pub fn lines(count: usize) -> String {
    let mut out = String::new();
    let mut number = 0;
    let mut have = 0;
    while have < count {
        // One file holds its `use` lines first, so only the first house brings them.
        let house = house(number);
        let body = if number == 0 { house.as_str() } else { house.split_once("\n\n").map_or("", |(_, body)| body) };
        have += body.lines().count();
        out.push_str(body);
        number += 1;
    }
    out
}
