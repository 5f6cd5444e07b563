//! What every link would pass at the pressures of now, and the streams it would draw.

use lowside_fluids::table::Table;

use super::{Law, Link, Network, Node, Way, Workspace};
use crate::{
    compressor::Work,
    flow::{self, Expands, Rate},
    halt::greater,
    leak, oil,
    orifice::{Inlet, Orifice},
    species::{AIR, Content, OIL, REFRIGERANT, SPECIES, WATER},
    state::{self, Phase, State},
    steam,
    stream::{OilPath, Stream, withdraw},
    tube::{self, Tube},
};

/// Growth of a pressure difference within a step from which a passage's chord is taken anew (flow would be 1.7 times too much).
const CHORD_GROWTH: f64 = 3.0;
/// Change of the pressure that the compressor delivers against, within a step, from which its work is taken anew.
pub(crate) const WORK_GROWTH: f64 = 0.01;
/// Least air for which stirring is worked out, kg.
const STIRRED_AIR: f64 = 1e-8;
/// Discharge coefficient of the orifice tube's mouth for thin gas, as in its own law.
const ORIFICE_CD: f64 = 0.78;
/// Most of the smaller gas space that stirring may exchange, 1/s.
const STIRRED_SHARE: f64 = 10.0;

impl Network {
    /// Largest share of any node's refrigerant and air that the flows of now would carry off in `dt` seconds, or that stirring would
    /// exchange. Oil and water
    /// do not count: they lie there, and what passes over them is no slower for it.
    pub fn courant(&mut self, dt: f64) -> f64 {
        self.find_rates();
        let w = &mut self.work;
        w.out.fill([0.0; SPECIES]);
        for &k in &w.open {
            let (link, way) = (&self.links[k], &w.ways[k]);
            let flow = way.rate.flow;
            let (from, to) = link.ends();
            let donor = if flow >= 0.0 { from } else { to };
            let share = &way.stream(flow).share;
            w.out[donor][0] += flow.abs() * (share[REFRIGERANT] + share[AIR]);
            if way.stirred.0 != Content::default() {
                let (a, b) = (&self.nodes[from], &self.nodes[to]);
                let v = stirred_volume(a, b, link.stir);
                // Each of a row of volumes gives to both sides and gets from both.
                for (end, node) in [(from, a), (to, b)] {
                    w.out[end][1] += 2.0 * v / node.state.v_gas;
                }
            }
        }
        let moving = |n: &Node| n.content[REFRIGERANT] + n.content[AIR] + 1e-4 * n.volume;
        self.nodes
            .iter()
            .zip(&w.out)
            .skip(1)
            .map(|(n, out)| (out[0] / moving(n)).max(out[1]) * dt)
            .fold(0.0, greater)
    }

    /// Flow of every link at the pressures of now, and the streams it would draw at either end.
    pub(super) fn find_rates(&mut self) {
        if self.work.fresh && self.work.ways.len() == self.links.len() {
            return;
        }
        let Self {
            table,
            nodes,
            links,
            work: w,
            ..
        } = self;
        w.fresh = true;
        w.fit(nodes.len(), links.len());
        w.open.clear();
        for (k, (link, way)) in links.iter().zip(&mut w.ways).enumerate() {
            (way.rate, way.added, way.flow) = (Rate::default(), 0.0, 0.0);
            let (shut, stirs) = (link.law.is_shut(), link.stir > 0.0);
            if shut && !stirs && link.flow == 0.0 {
                continue;
            }
            w.open.push(k);
            let (from, to) = link.ends();
            let (a, b) = (&nodes[from], &nodes[to]);
            if stirs {
                way.stirred = stirred(a, b, link.stir);
            }
            if shut {
                // What it drew when it was open is over.
                way.streams = [Stream::default(); 2];
            } else {
                way.rate = way.find_rate(table, link, a, b);
            }
        }
    }

    /// Takes the chords of passages anew whose pressure difference has grown beyond what their chord was taken for: a passage at
    /// rest passes little, not what its slope at rest would give; likewise the compressor's work, if the step is
    /// found `again`: else what was applied is what the books must hear of. True when none had to be.
    pub(super) fn refresh_chords(&mut self, again: bool) -> bool {
        let Self {
            table,
            nodes,
            links,
            work: w,
            ..
        } = self;
        let mut lawful = true;
        for &k in &w.open {
            let (link, way) = (&links[k], &mut w.ways[k]);
            let (from, to) = link.ends();
            if let Law::Compressor(c, rpm) = link.law {
                // Work is for the pressures at the end of the step, as the flow is; else the first ticks after the clutch
                // catches would lift gas for less than the isentropic work.
                let p_out = w.p_end[to] * w.p_start[from] / w.p_end[from].max(1.0);
                if way.flow > 0.0 && (p_out / way.chord_dp - 1.0).abs() > WORK_GROWTH {
                    lawful = false;
                    if !again {
                        continue;
                    }
                    let (content, _, state) = &w.start[from];
                    let work = c.work(table, state, content, &way.streams[0], p_out, rpm);
                    way.added = work.per_kg * (1.0 - crate::compressor::BODY_LOSS);
                    way.chord_dp = p_out;
                }
                continue;
            }
            if !matches!(link.law, Law::Passage(_) | Law::Line(_) | Law::OneWay(_)) {
                continue;
            }
            let dp = w.p_end[from] - w.p_end[to];
            if way.flow == 0.0 || dp.abs() < CHORD_GROWTH * (way.chord_dp.abs() + flow::LAMINAR) {
                continue;
            }
            let upstream = if dp >= 0.0 { from } else { to };
            let (up, p_up) = (&nodes[upstream].state, w.p_end[upstream]);
            let at_end = passage(link.law, &link.tubes, up, p_up, way.stream(dp), dp);
            let chord = at_end.by_from;
            way.rate = Rate {
                flow: chord * (w.p_start[from] - w.p_start[to]),
                by_from: chord,
                by_to: chord,
            };
            way.chord_dp = dp;
            lawful = false;
        }
        lawful
    }
}

/// Gas that enters a passage where the pressure upstream is `p`, its density moving with it.
fn gas(up: &State, p: f64, stream: &Stream, expands: Expands) -> tube::Inflow {
    tube::Inflow {
        p,
        rho: stream.rho * p / up.p,
        mu: tube::viscosity(up),
        liquid: stream.liquid,
        expands,
    }
}

/// Flow of a passage from dense gas down to vacuum; `p_up` is the pressure upstream, at or within a step of `up`.
fn passage(law: Law, tubes: &[Tube; 2], up: &State, p_up: f64, stream: &Stream, dp: f64) -> Rate {
    let expands = |gas: f64| match law {
        Law::Line(_) => Expands::line(gas),
        _ => Expands::edge(gas, stream.share[AIR]),
    };
    let (Law::Passage(k) | Law::Line(k) | Law::OneWay(k)) = law else {
        return Rate::default();
    };
    let dense = flow::passage(
        k,
        stream.rho,
        dp,
        (p_up, up.p_sat),
        stream.liquid,
        &expands(1.0 - stream.liquid),
    );
    if tube::is_thin(p_up) && p_up > 0.0 && up.p > 0.0 {
        tube::thin(dense, k, tubes, &gas(up, p_up, stream, expands(1.0)), dp)
    } else {
        dense
    }
}

impl Workspace {
    /// Makes room for so many nodes and links.
    fn fit(&mut self, n: usize, m: usize) {
        self.rhs.resize(n, 0.0);
        self.out.resize(n, [0.0; SPECIES]);
        self.heat.resize(n, 0.0);
        self.ways.resize(m, Way::default());
    }
}

impl Law {
    /// Nothing passes at any pressures.
    fn is_shut(&self) -> bool {
        matches!(*self, Self::Passage(k) | Self::Line(k) | Self::OneWay(k) | Self::Leak(k) if k <= 0.0)
    }
}

impl Way {
    /// Draws from an end of the link, the first (0) or the second (1), what `state` and `content` give there, unless that was done in
    /// this step.
    pub(super) fn pull(
        &mut self,
        end: usize,
        link: &Link,
        state: &State,
        content: &Content,
        oil: &OilPath,
    ) {
        if !self.drawn[end] {
            let how = if end == 0 { &link.from.1 } else { &link.to.1 };
            self.streams[end] = withdraw(state, content, how, link.flow, oil);
            self.drawn[end] = true;
        }
    }

    /// Draws from where the flow of a link from `a` to `b` would come, and finds what it is.
    fn find_rate(&mut self, table: &Table, link: &Link, a: &Node, b: &Node) -> Rate {
        let dp = a.state.p - b.state.p;
        self.chord_dp = dp;
        let forward = dp >= 0.0;
        // A machine draws from its first end whatever the pressures.
        let from_first = match link.law {
            Law::Pump(pump) => pump.draws(a.state.p),
            Law::Transfer(_) | Law::Compressor(..) => true,
            _ => forward,
        };
        self.drawn = [false; 2];
        let (end, donor) = if from_first { (0, a) } else { (1, b) };
        self.pull(end, link, &donor.state, &donor.content, &donor.oil);
        let up_node = if forward { a } else { b };
        let (up, stream) = (&up_node.state, self.stream(dp));
        match link.law {
            Law::OneWay(_) if !forward => Rate::default(),
            Law::Passage(_) | Law::Line(_) | Law::OneWay(_) => {
                passage(link.law, &link.tubes, up, up.p, stream, dp)
            }
            Law::Orifice(o) => orifice(table, o, up_node, stream, dp),
            Law::Leak(k) => {
                let g = gas(up, up.p, stream, Expands::line(1.0));
                let p_rho = up.p / up.gas_density(&up_node.content);
                let wet = (stream.liquid, up.rho_liq);
                // The size is the refrigerant's; the oil that weeps along comes on top.
                let with_oil = 1.0 / (1.0 - stream.share[OIL]).max(0.5);
                let rate = leak::capillary(k, up.p, dp.abs(), (p_rho, g.mu), wet);
                Rate {
                    flow: rate.flow * dp.signum() * with_oil,
                    by_from: rate.by_from * with_oil,
                    by_to: rate.by_to * with_oil,
                }
            }
            Law::Pump(pump) => {
                let air = 1.0 / (state::R_AIR * a.state.t);
                pump.rate(a.state.p, a.state.gas_density(&a.content), air)
            }
            Law::Transfer(m) => {
                let drawn = m.work(table, &a.state, &a.content, &self.streams[0], b.state.p);
                self.added = drawn.added;
                answers_to_suction(drawn.flow, a.state.p)
            }
            Law::Compressor(c, rpm) => {
                let drawn = &self.streams[0];
                let Work {
                    flow, leak, per_kg, ..
                } = c.work(table, &a.state, &a.content, drawn, b.state.p, rpm);
                self.added = per_kg * (1.0 - crate::compressor::BODY_LOSS);
                self.chord_dp = b.state.p;
                let whole = answers_to_suction(flow + leak, a.state.p);
                let back = leak / (-dp).max(flow::LAMINAR);
                Rate {
                    flow,
                    by_from: whole.by_from + back,
                    by_to: back,
                }
            }
        }
    }
}

/// Flow of a machine that takes the same volume whatever the pressure it draws from (Pa).
fn answers_to_suction(flow: f64, p: f64) -> Rate {
    Rate {
        flow,
        by_from: flow / p.max(1.0),
        by_to: 0.0,
    }
}

/// Flow of the orifice tube: its law, and a thin gas's where the pressure is low.
fn orifice(table: &Table, o: Orifice, up_node: &Node, stream: &Stream, dp: f64) -> Rate {
    let up = &up_node.state;
    let inlet = inlet(table, up_node, stream);
    let rate = o.rate(&inlet, dp.abs());
    let f = oil::orifice_factor(stream.share[OIL], inlet.subcooling, inlet.quality);
    let rate = Rate {
        flow: f * rate.flow * dp.signum(),
        by_from: f * rate.by_from,
        by_to: f * rate.by_to,
    };
    if tube::is_thin(up.p) {
        let tubes = [Tube::single(o.bore, o.length), Tube::default()];
        let hole = flow::k_from_hole(ORIFICE_CD, o.area());
        tube::thin(
            rate,
            hole,
            &tubes,
            &gas(up, up.p, stream, Expands::line(1.0)),
            dp,
        )
    } else {
        rate
    }
}

/// What a stirred volume flow (m3/s each way, in the mean) carries from one node's gas to another's: species kg/s and energy W.
/// As many molecules go as come, else stirring would lift gas against a pressure.
///
/// Without air the gas of both is alike and nothing is carried.
fn stirred(a: &Node, b: &Node, volume_flow: f64) -> (Content, f64) {
    let mut species = Content::default();
    let gas_space = a.state.v_gas.min(b.state.v_gas);
    let crowd = |n: &Node| n.state.p / n.state.t;
    // A volume without a single molecule has none to give in exchange.
    let gas_in_both = gas_space > 0.0 && crowd(a) > 0.0 && crowd(b) > 0.0;
    if a.content[AIR] + b.content[AIR] < STIRRED_AIR || !gas_in_both {
        return (species, 0.0);
    }
    let v = stirred_volume(a, b, volume_flow);
    let mut energy = 0.0;
    let mean = 0.5 * (crowd(a) + crowd(b));
    for (node, sign) in [(a, 1.0), (b, -1.0)] {
        let s = &node.state;
        let v = sign * v * mean / crowd(node);
        let vapour = v * s.m_gas / s.v_gas;
        let air = v * node.content[AIR] / s.v_gas;
        species[REFRIGERANT] += vapour;
        species[AIR] += air;
        energy += vapour * s.h_gas + air * state::CP_AIR * (s.t - state::T_ZERO);
        if s.m_steam > 0.0 {
            let water = v * s.m_steam / s.v_gas;
            species[WATER] += water;
            energy += water * steam::enthalpy(s.t);
        }
    }
    (species, energy)
}

/// Volume that stirring exchanges between two nodes each way, m3/s.
fn stirred_volume(a: &Node, b: &Node, volume_flow: f64) -> f64 {
    let gas_space = a.state.v_gas.min(b.state.v_gas);
    volume_flow.min(gas_space * STIRRED_SHARE)
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
