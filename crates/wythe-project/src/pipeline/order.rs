//! The order in which files are checked: what is used before what uses it.

use std::collections::VecDeque;

use petgraph::algo::kosaraju_scc;
use petgraph::graph::{DiGraph, NodeIndex};
use rustc_hash::{FxHashMap, FxHashSet};
use wythe_findings::{Finding, codes};
use wythe_source::{FileId, Span};

/// The order of checking.
#[derive(Clone, Debug, Default)]
pub(crate) struct Order {
    /// Files in levels: a file uses files of earlier levels only, or stands in one circle with those of its own.
    pub levels: Vec<Vec<FileId>>,
    /// The level of each file.
    pub level: FxHashMap<FileId, u32>,
    /// The files that use a file.
    pub dependents: FxHashMap<FileId, Vec<FileId>>,
    /// One shortest circle of each knot of files that use each other, from its first file by path; in the order of those.
    pub circles: Vec<Vec<FileId>>,
}

/// Orders files, given by path, by what they use.
pub(crate) fn order<'a>(files: &[FileId], uses: impl Fn(FileId) -> &'a [Option<FileId>]) -> Order {
    let mut graph: DiGraph<FileId, ()> = DiGraph::with_capacity(files.len(), files.len());
    let nodes: FxHashMap<FileId, NodeIndex> = files.iter().map(|&f| (f, graph.add_node(f))).collect();
    let mut order = Order::default();
    for &file in files {
        for used in uses(file).iter().flatten() {
            if let Some(&node) = nodes.get(used) {
                graph.add_edge(nodes[&file], node, ());
                order.dependents.entry(*used).or_default().push(file);
            }
        }
    }
    let mut circles: Vec<Vec<NodeIndex>> = Vec::new();
    let mut level_of: Vec<usize> = vec![0; files.len()];
    // Knots come in the order of use: what is used first.
    for mut knot in kosaraju_scc(&graph) {
        knot.sort();
        let below = knot.iter().flat_map(|&n| graph.neighbors(n)).filter(|n| knot.binary_search(n).is_err());
        let level = below.map(|n| level_of[n.index()] + 1).max().unwrap_or(0);
        for node in &knot {
            level_of[node.index()] = level;
        }
        circles.extend(circle(&graph, &knot));
    }
    circles.sort();
    order.circles = circles.into_iter().map(|circle| circle.into_iter().map(|n| graph[n]).collect()).collect();
    order.levels = vec![Vec::new(); level_of.iter().max().map_or(0, |deepest| deepest + 1)];
    for (&file, &level) in files.iter().zip(&level_of) {
        order.levels[level].push(file);
        order.level.insert(file, level as u32);
    }
    order
}

/// A shortest circle through the first node of a knot, which is that of the first file by path.
fn circle(graph: &DiGraph<FileId, ()>, knot: &[NodeIndex]) -> Option<Vec<NodeIndex>> {
    let first = *knot.first()?;
    let mut came_from: FxHashMap<NodeIndex, NodeIndex> = FxHashMap::default();
    let mut queue = VecDeque::from([first]);
    while let Some(node) = queue.pop_front() {
        let mut next: Vec<_> = graph.neighbors(node).filter(|n| knot.binary_search(n).is_ok()).collect();
        next.sort();
        for used in next {
            if used == first {
                let mut way = vec![node];
                while let Some(&before) = way.last().and_then(|n| came_from.get(n)) {
                    way.push(before);
                }
                way.reverse();
                return Some(way);
            }
            if let std::collections::hash_map::Entry::Vacant(entry) = came_from.entry(used) {
                entry.insert(node);
                queue.push_back(used);
            }
        }
    }
    None
}

impl Order {
    /// Files in their levels, lowest first; those the order does not know are left out.
    pub(crate) fn leveled(&self, files: impl Iterator<Item = FileId>) -> Vec<Vec<FileId>> {
        let mut known: Vec<(u32, FileId)> = files.filter_map(|file| Some((*self.level.get(&file)?, file))).collect();
        known.sort_unstable();
        known.chunk_by(|a, b| a.0 == b.0).map(|level| level.iter().map(|(_, file)| *file).collect()).collect()
    }
}

/// Every file that uses one of `changed`, directly or through others, and those themselves.
pub(crate) fn affected(order: &Order, changed: &FxHashSet<FileId>) -> FxHashSet<FileId> {
    let mut reached = changed.clone();
    let mut open: Vec<FileId> = changed.iter().copied().collect();
    while let Some(file) = open.pop() {
        for &user in order.dependents.get(&file).into_iter().flatten() {
            if reached.insert(user) {
                open.push(user);
            }
        }
    }
    reached
}

/// Says that files use each other in a circle. `line` gives the place of the `use` line between two files.
pub(crate) fn circle_finding(
    circle: &[FileId],
    name: impl Fn(FileId) -> String,
    line: impl Fn(FileId, FileId) -> Option<Span>,
) -> Option<Finding> {
    let step = |at: usize| (circle[at], circle[(at + 1) % circle.len()]);
    let (first, second) = step(0);
    let title = if circle.len() == 1 { "a file uses itself" } else { "files use each other in a circle" };
    let mut names: Vec<String> = circle.iter().map(|&f| format!("`{}`", name(f))).collect();
    names.push(names.first()?.clone());
    let mut finding = Finding::new(codes::USE_CYCLE, line(first, second)?, title)
        .label(format!("leads to `{}`", name(second)))
        .cause(names.join(" uses "))
        .mend("move what both need into a third file, and use that from both");
    for at in 1..circle.len() {
        let (from, to) = step(at);
        if let Some(place) = line(from, to) {
            finding = finding.related(place, format!("leads to `{}`", name(to)));
        }
    }
    Some(finding)
}

#[cfg(test)]
mod tests {
    use rustc_hash::{FxHashMap, FxHashSet};
    use wythe_source::FileId;

    use super::{Order, affected, order};

    fn ordered(edges: &[(u32, &[u32])]) -> Order {
        let files: Vec<FileId> = edges.iter().map(|(f, _)| FileId(*f)).collect();
        let uses: FxHashMap<FileId, Vec<Option<FileId>>> =
            edges.iter().map(|(f, to)| (FileId(*f), to.iter().map(|t| Some(FileId(*t))).collect())).collect();
        order(&files, |f| &uses[&f])
    }

    fn ids(files: &[u32]) -> Vec<FileId> {
        files.iter().map(|f| FileId(*f)).collect()
    }

    #[test]
    fn what_is_used_comes_first() {
        let found = ordered(&[(0, &[1, 2]), (1, &[2]), (2, &[]), (3, &[])]);
        assert_eq!(found.levels, [ids(&[2, 3]), ids(&[1]), ids(&[0])]);
        assert_eq!(found.circles, Vec::<Vec<FileId>>::new());
        let changed = FxHashSet::from_iter([FileId(1)]);
        assert_eq!(affected(&found, &changed), FxHashSet::from_iter(ids(&[0, 1])));
    }

    #[test]
    fn each_knot_gives_one_shortest_circle() {
        let found = ordered(&[(0, &[1]), (1, &[2, 3]), (2, &[1]), (3, &[0]), (4, &[4]), (5, &[0])]);
        assert_eq!(found.circles, [ids(&[0, 1, 3]), ids(&[4])]);
        assert_eq!(found.levels, [ids(&[0, 1, 2, 3, 4]), ids(&[5])]);
    }

    #[test]
    fn a_long_chain_needs_no_deep_stack() {
        let edges: Vec<(u32, Vec<u32>)> = (0..20_000).map(|n| (n, vec![n + 1])).collect();
        let mut edges: Vec<(u32, &[u32])> = edges.iter().map(|(n, to)| (*n, to.as_slice())).collect();
        edges.push((20_000, &[]));
        assert_eq!(ordered(&edges).levels.len(), 20_001);
    }
}
