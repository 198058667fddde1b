//! What is written for a declaration or a statement as a whole, with stops to fill in.

use wythe_syntax::keywords::Keyword;

/// A declaration with stops.
pub(super) fn declaration(keyword: Keyword) -> Option<&'static str> {
    use Keyword as K;
    Some(match keyword {
        K::Use => "use \"$1\": $0",
        K::Let => "let ${1:name} = $0",
        K::Fn => "fn ${1:name}(${2:a: Length}) -> ${3:Length} = $0",
        K::Unit => "unit ${1:name}$0",
        K::Record => "record ${1:Name} {\n    ${2:field}: ${3:Length}$0\n}",
        K::Enum => "enum ${1:Name} { ${2:one}, ${3:two}$0 }",
        K::Product => {
            "product ${1:name}: ${2|Coating,Membrane,Board,Tape,Sealant,Fastener,Drain,Aggregate,Masonry,Concrete,Lumber,Equipment|} {\n    $0\n}"
        }
        K::Buildup => "buildup ${1:name}(${2}) for ${3|wall,pier,opening,ground|} {\n    $0\n}",
        K::Joint => "joint ${1:name} between ${2:wall.inside} and ${3:ground.face} {\n    during ${4:phase} { $0 }\n}",
        K::Phase => "phase ${1:name} { $0 }",
        K::Site => "site ${1:name} {\n    climate_zone: ${2:zone_4a}\n    $0\n}",
        K::Foundation => {
            "foundation ${1:name} on ${2:site} {\n    phases: ${3}\n    walls {\n        build: ${4}\n        top: datum; grade: datum - ${5:8}\"; ground: datum - ${6:2' 8\"}; footing: datum - ${7:3' 4\"}\n        wall south runs east ${8:40'}\n        wall east runs north ${9:28'}\n        wall north runs west ${8:40'}\n        wall west runs south ${9:28'}\n    }\n    $0\n}"
        }
        K::Rule => {
            "rule ${1:name} {\n    title: \"${2}\"\n    for each ${3:w} in ${4:walls}\n    require ${5}\n    otherwise \"${6}\"\n    because: \"${7}\"; source: \"${8}\"\n}"
        }
        K::Amend => "amend ${1:rule} {\n    require $0\n}",
        K::Waiver => {
            "waiver of ${1:rule} in ${2:foundation} {\n    because: \"${3}\"\n    who: \"${4}\"; until: ${5:2026-12-31}\n}"
        }
        K::Prices => "prices ${1:name} {\n    file: table(\"${2}\"); currency: USD$0\n}",
        K::Rates => "rates ${1:name} {\n    people: ${2:3}; day: ${3:8} h\n    $0\n}",
        K::Log => "log ${1:name} {\n    of_foundation: ${2}\n    entry ${3:2026-01-01} { $0 }\n}",
        K::Test => "test \"${1}\" {\n    expect $0\n}",
        _ => return None,
    })
}

/// A statement with stops.
pub(super) fn statement(keyword: Keyword) -> Option<&'static str> {
    use Keyword as K;
    Some(match keyword {
        K::Coat => "coat ${1} from ${2:top} to ${3:footing}$0",
        K::Drain => "drain ${1} along footing$0",
        K::Fill => "fill ${1} from footing to footing + ${2:12}\"$0",
        K::Lay => "lay ${1} by ${2:12}\"$0",
        K::Hang => "hang ${1} from ${2:top} to ground by ${3:12}\"$0",
        K::Set => "set ${1} from ${2:top} to ground$0",
        K::Fasten => "fasten ${1} with ${2} every ${3:24}\"$0",
        K::Cap => "cap ${1} over ${2:top edge} of ${3}$0",
        K::Tape => "tape ${1} over ${2:joints} of ${3}$0",
        K::Seal => "seal ${1} along ${2:top edge} of ${3} to structure bead ${4:3/8}\"$0",
        K::Lap => "lap ${1} over ${2} by ${3:12}\"$0",
        K::Remove => "remove $0",
        K::During => "during ${1} {\n    $0\n}",
        K::Wall => "wall ${1:name} runs ${2|east,north,west,south|} ${3:20'}$0",
        K::Step => "step at ${1:10'} { $0 }",
        K::Opening => "opening ${1:name} in ${2:wall} at ${3:4'} { kind: ${4:access}; size: ${5:2' 8\" x 1' 8\"}$0 }",
        K::Piers => {
            "piers ${1:p} {\n    grid: ${2:3 x 2}; first: (${3:10'}, ${4:8'}); spacing: ${5:10' x 8'}; size: ${6:16\" x 16\"}$0\n}"
        }
        K::Pier => "pier ${1:name} at (${2:10'}, ${3:8'}) { size: ${4:16\" x 16\"}$0 }",
        K::Pad => "pad ${1:name} at (${2:10'}, ${3:8'}) { size: ${4:4' x 4'}; depth: ${5:12\"}$0 }",
        K::Beam => "beam ${1:name} from (${2:0'}, ${3:8'}) to (${4:40'}, ${5:8'}) { size: ${6:2x10}$0 }",
        K::For => "for each ${1:w} in ${2:walls}",
        K::Require => "require $0",
        K::Otherwise => "otherwise \"$1\"$0",
        K::Let => "let ${1:name} = $0",
        K::Give => "give $0",
        K::Rate => "rate ${1:hang} ${2:140 ft2 per h}$0",
        K::Waste => "waste ${1:Board} ${2:8} %$0",
        K::Entry => "entry ${1:2026-01-01} { $0 }",
        K::Expect => "expect $0",
        _ => return None,
    })
}
