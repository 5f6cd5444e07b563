//! Where the names of the marks stand above the strip chart, in one row.

use crate::history::MarkKind;

/// Room between two names, px.
const GAP: f64 = 8.0;
/// From a mark to its name, px.
const STEP: f64 = 4.0;

/// A mark and its name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Named {
    /// Place of the mark, px.
    pub x: f64,
    /// Width of the name, px.
    pub width: f64,
    /// What it marks.
    pub kind: MarkKind,
}

/// The left end of each name, px; none if it is left out. `all` are in the order of time, between 0 and `right`.
///
/// Weighty ones come first: where they crowd, each moves aside, and one of a kind stands for several that would touch. The others stand
/// at their mark or end at the right, and what has no room there is left out.
pub fn places(all: &[Named], right: f64) -> Vec<Option<f64>> {
    let mut out = vec![None; all.len()];
    let mut weighty: Vec<usize> = Vec::new();
    let (mut end, mut run) = (f64::NEG_INFINITY, 0);
    for (k, m) in all.iter().enumerate().filter(|(_, m)| m.kind.weighty()) {
        if m.x + STEP >= end + GAP {
            run = weighty.len();
        } else if weighty[run..].iter().any(|&s| all[s].kind == m.kind) {
            continue;
        }
        let left = (m.x + STEP).max(end + GAP);
        out[k] = Some(left);
        end = left + m.width;
        weighty.push(k);
    }
    // What would run out at the right moves back, and those before it give way.
    let mut limit = right;
    for &k in weighty.iter().rev() {
        let left = out[k].unwrap_or(limit).min(limit - all[k].width);
        out[k] = Some(left);
        limit = left - GAP;
    }
    let mut taken: Vec<(f64, f64)> = weighty
        .iter()
        .filter_map(|&k| out[k].map(|left| (left, left + all[k].width)))
        .collect();
    for (k, m) in all.iter().enumerate().filter(|(_, m)| !m.kind.weighty()) {
        let left = (m.x + STEP).min(right - m.width);
        let end = left + m.width;
        let free = |&(a, b): &(f64, f64)| end + GAP <= a || left >= b + GAP;
        if left >= 0.0 && taken.iter().all(free) {
            out[k] = Some(left);
            taken.push((left, end));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(all: &[(f64, f64, MarkKind)]) -> Vec<Named> {
        let each = |&(x, width, kind): &(f64, f64, MarkKind)| Named { x, width, kind };
        all.iter().map(each).collect()
    }

    /// None touches another or runs out, whatever the crowd, and every kind of weighty mark is named.
    #[test]
    fn weighty_names_stay_in_any_crowd() {
        use MarkKind::{Burst, CanEmpty, CutOut, EngineOff, EngineOn, HoseBurst, Relief};
        for from in [0.0, 40.0, 300.0, 640.0] {
            for step in [0.0, 1.0, 9.0, 30.0] {
                let kinds = [
                    EngineOn, CanEmpty, CutOut, Relief, CutOut, HoseBurst, EngineOff, Burst,
                ];
                let at = |k: usize| (from + step * k as f64).min(660.0);
                let all: Vec<_> = kinds
                    .iter()
                    .enumerate()
                    .map(|(k, kind)| (at(k), 50.0, *kind))
                    .collect();
                let all = named(&all);
                let left = places(&all, 662.0);
                let mut spans: Vec<_> = left.iter().flatten().map(|&l| (l, l + 50.0)).collect();
                spans.sort_by(|a, b| a.0.total_cmp(&b.0));
                assert!(
                    spans.windows(2).all(|w| w[0].1 < w[1].0),
                    "{from} {step}: {spans:?}"
                );
                assert!(
                    spans.iter().all(|s| s.0 >= 0.0 && s.1 <= 662.0),
                    "{from} {step}: {spans:?}"
                );
                for kind in kinds.into_iter().filter(|k| k.weighty()) {
                    let told = all
                        .iter()
                        .zip(&left)
                        .any(|(m, l)| m.kind == kind && l.is_some());
                    assert!(told, "{from} {step}: {kind:?}");
                }
            }
        }
    }

    #[test]
    fn other_names_stand_at_their_mark_or_not_at_all() {
        use MarkKind::{Burst, EngineOn, PumpOff, PumpOn};
        let all = named(&[
            (10.0, 40.0, EngineOn),
            (30.0, 40.0, PumpOn),
            (70.0, 40.0, Burst),
            (300.0, 80.0, PumpOff),
            (580.0, 40.0, PumpOn),
        ]);
        let left = places(&all, 600.0);
        assert_eq!(
            left,
            [Some(14.0), None, Some(74.0), Some(304.0), Some(560.0)]
        );
    }
}
