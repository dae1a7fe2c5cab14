//! Brings pieces of code that have much in common next to each other.
//!
//! The order in which neighbours share the most is a travelling salesman's. The greedy way to one (common practice)
//! takes the best pair whose ends are both still free, again and again.

use std::cmp::Reverse;
use std::collections::HashMap;

/// What two pieces have in common is counted in stretches of so many bytes: a few instructions.
const STRETCH: usize = 8;
/// A stretch in more pieces than this tells nothing about any two of them.
const COMMON: usize = 30;

/// The places of the pieces in their new order.
pub(crate) fn alike_together(pieces: &[&[u8]]) -> Vec<usize> {
    let mut shared: Vec<((usize, usize), u32)> = shared(pieces).into_iter().collect();
    // By the places too, so that the same pieces always give the same order.
    shared.sort_unstable_by_key(|&(pair, count)| (Reverse(count), pair));
    let mut chains = Chains::new(pieces.len());
    for ((one, other), _) in shared {
        chains.join(one, other);
    }
    chains.in_order(pieces)
}

/// How many stretches each two pieces share; pairs that share none are left out.
fn shared(pieces: &[&[u8]]) -> HashMap<(usize, usize), u32> {
    let mut found: Vec<(&[u8], usize)> = Vec::new();
    for (place, piece) in pieces.iter().enumerate() {
        found.extend(piece.windows(STRETCH).map(|stretch| (stretch, place)));
    }
    found.sort_unstable();
    found.dedup();
    let mut shared = HashMap::new();
    for same in found.chunk_by(|a, b| a.0 == b.0).filter(|same| same.len() <= COMMON) {
        for (at, &(_, one)) in same.iter().enumerate() {
            for &(_, other) in &same[at + 1..] {
                *shared.entry((one, other)).or_default() += 1;
            }
        }
    }
    shared
}

/// Pieces joined end to end, each with two neighbours at most.
struct Chains {
    neighbours: Vec<Vec<usize>>,
    /// For each piece one further along its chain's tree; the root is the chain's name.
    towards_root: Vec<usize>,
}

impl Chains {
    fn new(pieces: usize) -> Self {
        Self { neighbours: vec![Vec::new(); pieces], towards_root: (0..pieces).collect() }
    }

    /// Makes two pieces neighbours, unless one has two already or they are in one chain.
    fn join(&mut self, one: usize, other: usize) {
        let free = |piece: usize| self.neighbours[piece].len() < 2;
        if free(one) && free(other) {
            let (root, others) = (self.root(one), self.root(other));
            if root != others {
                self.towards_root[root] = others;
                self.neighbours[one].push(other);
                self.neighbours[other].push(one);
            }
        }
    }

    fn root(&mut self, mut piece: usize) -> usize {
        while self.towards_root[piece] != piece {
            self.towards_root[piece] = self.towards_root[self.towards_root[piece]];
            piece = self.towards_root[piece];
        }
        piece
    }

    /// One chain after the other, those whose first pieces end alike next to each other.
    fn in_order(self, pieces: &[&[u8]]) -> Vec<usize> {
        let mut ends: Vec<usize> =
            (0..pieces.len()).filter(|&piece| self.neighbours[piece].len() < 2).collect();
        ends.sort_by(|&a, &b| pieces[a].iter().rev().cmp(pieces[b].iter().rev()));
        let mut taken = vec![false; pieces.len()];
        let mut order = Vec::with_capacity(pieces.len());
        for end in ends {
            let mut next = Some(end).filter(|&end| !taken[end]);
            while let Some(piece) = next {
                taken[piece] = true;
                order.push(piece);
                next = self.neighbours[piece].iter().copied().find(|&other| !taken[other]);
            }
        }
        order
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_alike_comes_together_and_nothing_is_lost() {
        let texts = [
            "the first of the walks",
            "something else altogether",
            "the first of the talks",
            "",
            "something else again",
            "short",
        ];
        let pieces: Vec<&[u8]> = texts.iter().map(|text| text.as_bytes()).collect();
        let order = alike_together(&pieces);
        let place = |piece| order.iter().position(|&it| it == piece).unwrap();
        assert_eq!(place(0).abs_diff(place(2)), 1, "{order:?}");
        assert_eq!(place(1).abs_diff(place(4)), 1, "{order:?}");
        let mut all = order.clone();
        all.sort_unstable();
        assert_eq!(all, [0, 1, 2, 3, 4, 5]);
    }

    #[test]
    fn a_ring_of_likes_is_cut_once() {
        let pieces = [b"abcdefghijkl".as_slice(), b"abcdefghijkl", b"abcdefghijkl"];
        let mut order = alike_together(&pieces);
        order.sort_unstable();
        assert_eq!(order, [0, 1, 2]);
    }
}
