//! Shortest way from start to end over segments and their links; a link that must be mended has a weight.

/// A link between two nodes.
#[derive(Clone, Debug)]
pub(crate) struct Link<T> {
    /// One node.
    pub a: usize,
    /// The other.
    pub b: usize,
    /// Nought where it is met, else what it costs to mend.
    pub weight: f64,
    /// What it is.
    pub what: T,
}

/// The links of the lightest way from `start` to `end`, in order; of equal ways the one whose links come first.
///
/// Dijkstra over a handful of nodes, so a plain scan finds the nearest. Weights are finite and not negative; a
/// link of another weight is left out.
pub(crate) fn lightest<T>(nodes: usize, links: &[Link<T>], start: usize, end: usize) -> Option<Vec<usize>> {
    let mut distance = vec![f64::INFINITY; nodes];
    let mut by: Vec<Option<usize>> = vec![None; nodes];
    let mut done = vec![false; nodes];
    *distance.get_mut(start)? = 0.0;
    loop {
        let open = (0..nodes).filter(|&n| !done[n] && distance[n].is_finite());
        let Some(near) = open.min_by(|&a, &b| distance[a].total_cmp(&distance[b])) else { break };
        done[near] = true;
        for (index, link) in links.iter().enumerate().filter(|(_, l)| l.weight >= 0.0 && l.weight.is_finite()) {
            let other = match near {
                n if n == link.a => link.b,
                n if n == link.b => link.a,
                _ => continue,
            };
            let total = distance[near] + link.weight;
            if other < nodes && total < distance[other] {
                distance[other] = total;
                by[other] = Some(index);
            }
        }
    }
    let mut way = Vec::new();
    let mut at = end;
    while at != start {
        let link = by.get(at).copied().flatten()?;
        way.push(link);
        at = if links[link].a == at { links[link].b } else { links[link].a };
    }
    way.reverse();
    Some(way)
}

/// The lightest set of links to cut so that nothing flows from `source` to `sink`; empty where nothing does.
/// A link of infinite weight cannot be cut. Augmenting paths on a small matrix.
pub(crate) fn lightest_cut<T>(nodes: usize, links: &[Link<T>], source: usize, sink: usize) -> Vec<usize> {
    let mut capacity = vec![vec![0.0_f64; nodes]; nodes];
    // A link that no mend can cut: dearer than all the others together.
    let most: f64 = links.iter().map(|l| l.weight).filter(|w| w.is_finite()).sum::<f64>() + 1.0;
    for link in links {
        let weight = if link.weight.is_finite() { link.weight } else { most };
        capacity[link.a][link.b] += weight;
        capacity[link.b][link.a] += weight;
    }
    loop {
        let from = reach(&capacity, source);
        if from[sink].is_none() {
            break;
        }
        let (mut at, mut least) = (sink, f64::INFINITY);
        while at != source {
            let Some(before) = from[at] else { break };
            least = least.min(capacity[before][at]);
            at = before;
        }
        at = sink;
        while at != source {
            let Some(before) = from[at] else { break };
            capacity[before][at] -= least;
            capacity[at][before] += least;
            at = before;
        }
    }
    let side = reach(&capacity, source);
    let inside = |n: usize| n == source || side[n].is_some();
    (0..links.len()).filter(|&i| inside(links[i].a) != inside(links[i].b)).collect()
}

/// For each node that still can be reached, the node before it.
fn reach(capacity: &[Vec<f64>], source: usize) -> Vec<Option<usize>> {
    const NOTHING: f64 = 1e-12;
    let mut from = vec![None; capacity.len()];
    let mut queue = std::collections::VecDeque::from([source]);
    while let Some(at) = queue.pop_front() {
        for next in 0..capacity.len() {
            if next != source && from[next].is_none() && capacity[at][next] > NOTHING {
                from[next] = Some(at);
                queue.push_back(next);
            }
        }
    }
    from
}

#[cfg(test)]
mod tests {
    use super::*;

    fn link(a: usize, b: usize, weight: f64) -> Link<()> {
        Link { a, b, weight, what: () }
    }

    #[test]
    fn the_lightest_way_is_found_and_ties_go_to_the_first() {
        let links = [link(0, 1, 1.0), link(1, 3, 1.0), link(0, 2, 0.5), link(2, 3, 1.0), link(0, 3, 1.5)];
        assert_eq!(lightest(4, &links, 0, 3), Some(vec![4]));
        assert_eq!(lightest(5, &links, 0, 4), None);
        assert_eq!(lightest(4, &[link(0, 3, f64::NAN)], 0, 3), None);
    }

    #[test]
    fn the_lightest_cut_is_found() {
        // Soil 0, footing 1, block 2, sill 3: cutting at the sill is lighter than around the block.
        let links = [link(0, 1, f64::INFINITY), link(1, 2, 0.2), link(0, 2, 0.6), link(2, 3, 0.2)];
        assert_eq!(lightest_cut(4, &links, 0, 3), vec![3]);
        assert_eq!(lightest_cut(4, &links[..3], 0, 3), Vec::<usize>::new());
        let thin = [link(0, 1, f64::INFINITY), link(1, 2, 0.2), link(2, 3, 0.5)];
        assert_eq!(lightest_cut(4, &thin, 0, 3), vec![1]);
    }
}
