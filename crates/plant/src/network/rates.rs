//! What every link would pass at the pressures of now, and the streams it would draw.

use lowside_fluids::table::Table;

use super::{Law, Network, Node};
use crate::{
    compressor::Work,
    flow::{self, Rate},
    oil,
    orifice::Inlet,
    species::{AIR, Content, OIL, REFRIGERANT, SPECIES},
    state::{self, Phase},
    stream::{Stream, draw},
};

/// Growth of a pressure difference within a step from which a passage's chord is taken anew (flow would be 1.7 times too much).
const CHORD_GROWTH: f64 = 3.0;
/// Least air for which stirring is worked out, kg.
const STIRRED_AIR: f64 = 1e-8;
/// Most of the smaller gas space that stirring may exchange, 1/s.
const STIRRED_SHARE: f64 = 10.0;

impl Network {
    /// Largest share of any node's refrigerant and air that the flows of now would carry off in `dt` seconds. Oil and water
    /// do not count: they lie there, and what passes over them is no slower for it.
    pub fn courant(&mut self, dt: f64) -> f64 {
        self.find_rates();
        let w = &mut self.work;
        w.out.fill([0.0; SPECIES]);
        for ((link, rate), streams) in self.links.iter().zip(&w.rates).zip(&w.streams) {
            let (donor, share) = if rate.flow >= 0.0 {
                (link.from.0, &streams.0.share)
            } else {
                (link.to.0, &streams.1.share)
            };
            w.out[donor][0] += rate.flow.abs() * (share[REFRIGERANT] + share[AIR]);
        }
        let moving = |n: &Node| n.content[REFRIGERANT] + n.content[AIR] + 1e-4 * n.volume;
        self.nodes
            .iter()
            .zip(&w.out)
            .skip(1)
            .map(|(n, out)| out[0] * dt / moving(n))
            .fold(0.0, f64::max)
    }

    /// Flow of every link at the pressures of now, and the streams it would draw at either end.
    pub(super) fn find_rates(&mut self) {
        if self.work.fresh && self.work.rates.len() == self.links.len() {
            return;
        }
        let table = self.table();
        let Self {
            nodes,
            links,
            work: w,
            ..
        } = self;
        w.fresh = true;
        let (n, m) = (nodes.len(), links.len());
        w.rhs.resize(n, 0.0);
        w.out.resize(n, [0.0; SPECIES]);
        w.flows.resize(m, 0.0);
        w.rates.resize(m, Rate::default());
        w.chord_dp.resize(m, 0.0);
        w.added.resize(m, 0.0);
        w.stirred.resize(m, (Content::default(), 0.0));
        w.streams.resize(m, (Stream::default(), Stream::default()));
        for (k, link) in links.iter().enumerate() {
            let (a, b) = (&nodes[link.from.0], &nodes[link.to.0]);
            w.added[k] = 0.0;
            if link.stir > 0.0 {
                w.stirred[k] = stirred(a, b, link.stir);
            }
            if matches!(link.law, Law::Passage(k) | Law::OneWay(k) if k <= 0.0) {
                w.rates[k] = Rate::default();
                continue;
            }
            let pull =
                |node: &Node, how| draw(&node.state, &node.content, how, link.flow, node.oil);
            let dp = a.state.p - b.state.p;
            w.chord_dp[k] = dp;
            let forward = dp >= 0.0;
            // The end that cannot be drawn from within this tick is left as it was: only a reversal asks for it.
            if forward || link.flow > 0.0 {
                w.streams[k].0 = pull(a, link.from.1);
            }
            if !forward || link.flow < 0.0 {
                w.streams[k].1 = pull(b, link.to.1);
            }
            let (up_node, stream) = if forward {
                (a, &w.streams[k].0)
            } else {
                (b, &w.streams[k].1)
            };
            let up = &up_node.state;
            w.rates[k] = match link.law {
                Law::Passage(c) => flow::passage(c, stream.rho, dp, up.p, up.p_sat, stream.liquid),
                Law::OneWay(c) if forward => {
                    flow::passage(c, stream.rho, dp, up.p, up.p_sat, stream.liquid)
                }
                Law::OneWay(_) => Rate::default(),
                Law::Orifice(o) => {
                    let inlet = inlet(table, up_node, stream);
                    let rate = o.rate(&inlet, dp.abs());
                    let f = oil::orifice_factor(stream.share[OIL], inlet.subcooling, inlet.quality);
                    Rate {
                        flow: f * rate.flow * dp.signum(),
                        by_from: f * rate.by_from,
                        by_to: f * rate.by_to,
                    }
                }
                Law::Compressor(c, rpm) => {
                    let stream = pull(a, link.from.1);
                    w.streams[k].0 = stream;
                    let Work { flow, per_kg, .. } =
                        c.work(table, &a.state, &a.content, &stream, b.state.p, rpm);
                    w.added[k] = per_kg * (1.0 - crate::compressor::BODY_LOSS);
                    Rate {
                        flow,
                        by_from: flow / a.state.p.max(1.0),
                        by_to: 0.0,
                    }
                }
            };
        }
    }

    /// Takes the chords of passages anew whose pressure difference has grown beyond what their chord was taken for: a passage at
    /// rest passes little, not what its slope at rest would give. True when none had to be.
    pub(super) fn refresh_chords(&mut self) -> bool {
        let Self {
            nodes,
            links,
            work: w,
            ..
        } = self;
        let mut lawful = true;
        for (k, link) in links.iter().enumerate() {
            let (Law::Passage(c) | Law::OneWay(c)) = link.law else {
                continue;
            };
            let (from, to) = (link.from.0, link.to.0);
            let dp = w.p_end[from] - w.p_end[to];
            if w.flows[k] == 0.0 || dp.abs() < CHORD_GROWTH * (w.chord_dp[k].abs() + flow::LAMINAR)
            {
                continue;
            }
            let (up, stream) = if dp >= 0.0 {
                (&nodes[from].state, &w.streams[k].0)
            } else {
                (&nodes[to].state, &w.streams[k].1)
            };
            let p_up = if dp >= 0.0 {
                w.p_end[from]
            } else {
                w.p_end[to]
            };
            let at_end = flow::passage(c, stream.rho, dp, p_up, up.p_sat, stream.liquid);
            let chord = at_end.by_from;
            w.rates[k] = Rate {
                flow: chord * (w.p_start[from] - w.p_start[to]),
                by_from: chord,
                by_to: chord,
            };
            w.chord_dp[k] = dp;
            lawful = false;
        }
        lawful
    }
}

/// What a stirred volume flow (m3/s each way) carries from one node's gas to another's: species kg/s and energy W.
///
/// Without air the gas of both is alike and nothing is carried.
fn stirred(a: &Node, b: &Node, volume_flow: f64) -> (Content, f64) {
    let mut species = Content::default();
    let gas_space = a.state.v_gas.min(b.state.v_gas);
    if a.content[AIR] + b.content[AIR] < STIRRED_AIR || gas_space <= 0.0 {
        return (species, 0.0);
    }
    let v = volume_flow.min(gas_space * STIRRED_SHARE);
    let mut energy = 0.0;
    for (node, sign) in [(a, 1.0), (b, -1.0)] {
        let s = &node.state;
        let vapour = sign * v * s.m_gas / s.v_gas;
        let air = sign * v * node.content[AIR] / s.v_gas;
        species[REFRIGERANT] += vapour;
        species[AIR] += air;
        energy += vapour * s.h_gas + air * state::CP_AIR * (s.t - state::T_ZERO);
    }
    (species, energy)
}

/// The orifice's inlet conditions, from the state upstream and what is drawn there.
fn inlet(table: &Table, node: &Node, stream: &Stream) -> Inlet {
    let up = &node.state;
    let refrigerant = stream.share[REFRIGERANT].max(1e-9);
    let quality = match up.phase {
        Phase::Liquid => 0.0,
        _ => (1.0 - stream.liquid / refrigerant).clamp(0.0, 1.0),
    };
    let subcooling = if quality > 0.0 {
        0.0
    } else {
        (table.t_sat(up.p) - up.t).max(0.0)
    };
    Inlet {
        p: up.p,
        p_sat: up.p_sat,
        subcooling,
        quality,
        rho_liq: up.rho_liq,
        rho_gas: up.gas_density(&node.content),
        p_crit: table.p_crit(),
        t_crit: table.t_crit(),
    }
}
