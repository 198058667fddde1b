//! Faults of levels, gathered: stretches with the same levels at fault are one finding, with the others beside it.

use wythe_findings::{Code, Finding};
use wythe_model::{Length, Levels, Stretch, Wall};

use super::Site;

/// Two elevations at fault, and the stretches that have them.
type Group<'a> = ((Length, Length), Vec<(&'a Wall, &'a Stretch)>);

/// One finding for each pair of figures at fault: `figures` gives them where a stretch is at fault.
pub(super) fn gather(
    site: &Site<'_>,
    code: Code,
    figures: impl Fn(&Levels) -> Option<(Length, Length)>,
    finding: impl Fn(&Wall, (Length, Length)) -> (String, String, String),
    out: &mut Vec<Finding>,
) {
    let mut groups: Vec<Group<'_>> = Vec::new();
    for wall in &site.f.walls {
        for stretch in &wall.stretches {
            let Some(pair) = figures(&stretch.levels) else { continue };
            match groups.iter_mut().find(|(of, _)| *of == pair) {
                Some((_, members)) => members.push((wall, stretch)),
                None => groups.push((pair, vec![(wall, stretch)])),
            }
        }
    }
    for (pair, members) in groups {
        let Some(((wall, stretch), rest)) = members.split_first() else { continue };
        let (title, label, mend) = finding(wall, pair);
        let mut found = Finding::new(code, stretch.origin, title).label(label).mend(mend).item(site.item(wall.name));
        for (other, stretch) in rest {
            found = found.related(stretch.origin, format!("`{}` too", other.name));
        }
        out.push(found);
    }
}
