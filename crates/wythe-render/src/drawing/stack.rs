//! Layers laid on a face one over the other, drawn thick enough to be seen: where each lies once those under it are
//! there.
//!
//! A face runs along one axis (`along`, such as the height of a wall) and layers stand off it on the other (`off`,
//! always counted away from the structure). Films follow what is under them; boards stay flat.

/// How a layer lies on what is under it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Nature {
    /// Follows every step.
    Film,
    /// Stays flat and bridges.
    Rigid,
}

/// How thick all is so far, piece by piece along the face.
#[derive(Clone, Debug)]
pub(super) struct Stack {
    pieces: Vec<(f64, f64, f64)>,
}

/// A stretch of a layer: along the face from, to, and how far off its two faces are.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Laid {
    pub from: f64,
    pub to: f64,
    pub under: f64,
    pub over: f64,
}

impl Stack {
    /// A bare face.
    pub fn new(from: f64, to: f64) -> Stack {
        let (from, to) = if from <= to { (from, to) } else { (to, from) };
        Stack { pieces: vec![(from, to, 0.0)] }
    }

    /// How far off the outermost layer is anywhere in a stretch.
    pub fn most(&self, from: f64, to: f64) -> f64 {
        let in_reach = |p: &&(f64, f64, f64)| p.0 < to - EPS && p.1 > from + EPS;
        self.pieces.iter().filter(in_reach).map(|p| p.2).fold(0.0, f64::max)
    }

    /// How far off the outermost layer is at a place.
    pub fn at(&self, place: f64) -> f64 {
        self.pieces.iter().find(|p| p.0 <= place && place <= p.1).map_or(0.0, |p| p.2)
    }

    /// Lays a layer from one place to another, and gives the stretches it comes to lie in, in order along the face.
    pub fn lay(&mut self, from: f64, to: f64, thick: f64, nature: Nature) -> Vec<Laid> {
        let (from, to) = if from <= to { (from, to) } else { (to, from) };
        self.cut(from);
        self.cut(to);
        let most = self.most(from, to);
        let mut out: Vec<Laid> = Vec::new();
        for piece in self.pieces.iter_mut().filter(|p| p.0 >= from - EPS && p.1 <= to + EPS) {
            let under = if nature == Nature::Rigid { most } else { piece.2 };
            piece.2 = under + thick;
            match out.last_mut() {
                Some(last) if (last.under - under).abs() < EPS && (last.to - piece.0).abs() < EPS => last.to = piece.1,
                _ => out.push(Laid { from: piece.0, to: piece.1, under, over: under + thick }),
            }
        }
        out
    }

    fn cut(&mut self, at: f64) {
        if let Some(i) = self.pieces.iter().position(|p| p.0 + EPS < at && at < p.1 - EPS) {
            let (from, to, off) = self.pieces[i];
            self.pieces[i].1 = at;
            self.pieces.insert(i + 1, (at, to, off));
            debug_assert!(from < at);
        }
    }
}

const EPS: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_film_follows_what_is_under_it_and_a_board_bridges() {
        let mut stack = Stack::new(0.0, 100.0);
        assert_eq!(stack.lay(0.0, 20.0, 1.0, Nature::Film), [Laid { from: 0.0, to: 20.0, under: 0.0, over: 1.0 }]);
        let liner = stack.lay(10.0, 100.0, 1.0, Nature::Film);
        assert_eq!(
            liner,
            [
                Laid { from: 10.0, to: 20.0, under: 1.0, over: 2.0 },
                Laid { from: 20.0, to: 100.0, under: 0.0, over: 1.0 }
            ]
        );
        let board = stack.lay(10.0, 100.0, 3.0, Nature::Rigid);
        assert_eq!(board, [Laid { from: 10.0, to: 100.0, under: 2.0, over: 5.0 }]);
        assert!((stack.at(50.0) - 5.0).abs() < 1e-9 && (stack.at(5.0) - 1.0).abs() < 1e-9);
    }
}
