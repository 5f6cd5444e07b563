//! Nodes that hold species and energy, links that move them, and the step that advances all together.
//!
//! The step is implicit in pressure: every link answers linearly to the pressures at the end of the tick, every node's
//! pressure to what the links bring; the small linear system is solved, the flows applied, and each node's true pressure found
//! from what it then holds. Where that differs from the forecast (a node filled up, ran dry or condensed within the
//! tick) the node is linearised anew where it stands and the flows are found again. Whatever the forecast was worth, every
//! flux leaves one node and enters another, so that mass and energy close to rounding.

use lowside_fluids::{Gas, table::Table};
use serde::{Deserialize, Serialize};

use crate::{
    compressor::{Compressor, Work},
    flow::{self, Rate},
    orifice::{Inlet, Orifice},
    sparse::Sparse,
    species::{AIR, Content, REFRIGERANT, SPECIES, WATER},
    state::{self, Phase, State},
    stream::{Draw, Stream, draw},
};

/// Which node: its place in the network. Node 0 is the room.
pub type NodeId = usize;
/// Which link: its place in the network.
pub type LinkId = usize;
/// The room air: a node without end that nothing done in the bay changes.
pub const ROOM: NodeId = 0;

/// A volume that holds species and energy.
#[derive(Debug, Clone)]
pub struct Node {
    /// Name in ledgers and messages.
    pub name: &'static str,
    /// Volume, m3.
    pub volume: f64,
    /// Masses held, kg.
    pub content: Content,
    /// Internal energy, J.
    pub energy: f64,
    /// Water bound here, as ice or in a desiccant: counted in the books, but out of the flow, kg.
    pub bound: f64,
    /// How easily oil creeps along as a film where only gas flows: its speed over that of the gas.
    pub oil_mobility: f64,
    /// Temperature and pressure of what it holds.
    pub state: State,
}

/// The law by which a link passes flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// Tube, hose, valve or leak: effective area times sqrt 2, m2; 0 is shut.
    Passage(f64),
    /// As a passage, forward only: a check or relief valve.
    OneWay(f64),
    /// The orifice tube.
    Orifice(Orifice),
    /// The compressor turning at so many turns a minute (0 = at rest; its valves then keep gas from flowing back).
    Compressor(Compressor, f64),
}

/// A way from one node to another.
#[derive(Debug, Clone)]
pub struct Link {
    /// Name in messages.
    pub name: &'static str,
    /// Where forward flow comes from, and how it is drawn there.
    pub from: (NodeId, Draw),
    /// Where forward flow goes, and how back-flow is drawn there.
    pub to: (NodeId, Draw),
    /// Law of the flow.
    pub law: Law,
    /// Gas that both ends exchange by stirring, m3/s each way: it spreads air against the flow.
    pub stir: f64,
    /// Flow of the last tick, kg/s of everything, positive forward.
    pub flow: f64,
    /// Liquid share of the last tick's flow.
    pub liquid: f64,
    /// Enthalpy of the last tick's stream as drawn, J/kg.
    pub h: f64,
    /// Shaft power of the last tick, W (compressor only).
    pub shaft: f64,
}

/// What crossed the edge of the bay, so that the books can be closed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct Account {
    /// Species taken in from outside, kg: from the room (negative = vented) and by refills and fillings.
    pub mass_in: Content,
    /// Species that went out into the room through openings, kg (negative = drawn in).
    pub to_room: Content,
    /// Energy taken in by streams from the room, by shafts and by heat, J.
    pub energy_in: f64,
}

/// A network of nodes and links around one refrigerant.
#[derive(Debug, Clone)]
pub struct Network {
    gas: Gas,
    nodes: Vec<Node>,
    links: Vec<Link>,
    account: Account,
    pattern: Sparse,
    work: Workspace,
    /// Times a step had to be found anew since the start, for the curious.
    pub corrections: u64,
    /// Steps taken although forecast and truth still disagreed after the last quartering.
    pub unsettled: u64,
}

/// Arrays kept between steps so that a step allocates nothing.
#[derive(Debug, Clone, Default)]
struct Workspace {
    start: Vec<(Content, f64, State)>,
    rhs: Vec<f64>,
    p_start: Vec<f64>,
    p_end: Vec<f64>,
    rates: Vec<Rate>,
    /// Pressure difference for which each rate's chord was taken, Pa.
    chord_dp: Vec<f64>,
    streams: Vec<(Stream, Stream)>,
    added: Vec<f64>,
    /// Net species (kg/s) and energy (W) that stirring carries along each link.
    stirred: Vec<(Content, f64)>,
    flows: Vec<f64>,
    /// The rates belong to the states and laws of now.
    fresh: bool,
    out: Vec<[f64; SPECIES]>,
}

/// Forecast and true pressure may differ by this before the step is found anew: share, and Pa.
const TOLERANCE: (f64, f64) = (0.004, 400.0);
/// Growth of a pressure difference within a step from which a passage's chord is taken anew (flow would be 1.7 times too much).
const CHORD_GROWTH: f64 = 3.0;
/// Corrections of one step at most; flows are conservative at any number.
const CORRECTIONS: usize = 6;
/// Times a step that will not agree may be quartered.
const QUARTERINGS: u8 = 2;
/// Least air for which stirring is worked out, kg.
const STIRRED_AIR: f64 = 1e-8;
/// Most of the smaller gas space that stirring may exchange, 1/s.
const STIRRED_SHARE: f64 = 10.0;
/// Share of a node's refrigerant that may leave within one step.
const LARGEST_DRAIN: f64 = 0.8;

impl Network {
    /// A network that holds only the room.
    pub fn new(gas: Gas, room_t: f64, room_p: f64, room_humidity: f64) -> Self {
        let mut net = Self {
            gas,
            nodes: Vec::new(),
            links: Vec::new(),
            account: Account::default(),
            pattern: Sparse::default(),
            work: Workspace::default(),
            corrections: 0,
            unsettled: 0,
        };
        net.add_node("room", 1.0, Content::default(), room_t, 0.0);
        net.set_room(room_t, room_p, room_humidity);
        net
    }

    /// Sets the room air: temperature K, pressure Pa, humidity ratio kg/kg.
    pub fn set_room(&mut self, t: f64, p: f64, w: f64) {
        let table = self.table();
        self.work.fresh = false;
        let room = &mut self.nodes[ROOM];
        let air = p * room.volume / (state::R_AIR * t);
        // Water vapour rides along as a trace; the pressure of the room counts as air alone.
        room.content = Content([0.0, air, 0.0, 0.0]);
        room.energy = state::energy_at(table, &room.content, room.volume, t);
        room.state = state::solve(table, &room.content, room.energy, room.volume, t);
        room.content[WATER] = air * w;
    }

    /// Adds a volume at temperature `t` (K) and returns its id.
    pub fn add_node(
        &mut self,
        name: &'static str,
        volume: f64,
        content: Content,
        t: f64,
        oil_mobility: f64,
    ) -> NodeId {
        let table = self.table();
        let energy = state::energy_at(table, &content, volume, t);
        let state = state::solve(table, &content, energy, volume, t);
        self.nodes.push(Node {
            name,
            volume,
            content,
            energy,
            bound: 0.0,
            oil_mobility,
            state,
        });
        self.nodes.len() - 1
    }

    /// Adds a way between two nodes and returns its id.
    pub fn add_link(
        &mut self,
        name: &'static str,
        from: (NodeId, Draw),
        to: (NodeId, Draw),
        law: Law,
    ) -> LinkId {
        self.links.push(Link {
            name,
            from,
            to,
            law,
            stir: 0.0,
            flow: 0.0,
            liquid: 0.0,
            h: 0.0,
            shaft: 0.0,
        });
        let edges: Vec<_> = self.links.iter().map(|l| (l.from.0, l.to.0)).collect();
        self.pattern = Sparse::new(self.nodes.len(), edges.into_iter());
        self.links.len() - 1
    }

    /// The refrigerant.
    pub fn gas(&self) -> Gas {
        self.gas
    }

    /// Property tables of the refrigerant.
    pub fn table(&self) -> &'static Table {
        self.gas.table()
    }

    /// All nodes, the room first.
    pub fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// All links.
    pub fn links(&self) -> &[Link] {
        &self.links
    }

    /// One node.
    pub fn node(&self, id: NodeId) -> &Node {
        &self.nodes[id]
    }

    /// One link.
    pub fn link(&self, id: LinkId) -> &Link {
        &self.links[id]
    }

    /// Sets a link's law (a valve turned, a speed changed).
    pub fn set_law(&mut self, id: LinkId, law: Law) {
        if self.links[id].law != law {
            self.links[id].law = law;
            self.work.fresh = false;
        }
    }

    /// Refills a node with other matter, as when a can is swapped; what it held before is returned with its energy.
    /// The books count it as taken in from outside.
    pub fn refill(&mut self, id: NodeId, volume: f64, content: Content, t: f64) -> (Content, f64) {
        let table = self.table();
        self.work.fresh = false;
        let node = &mut self.nodes[id];
        let before = (node.content, node.energy);
        node.volume = volume;
        node.content = content;
        node.energy = state::energy_at(table, &content, volume, t);
        node.state = state::solve(table, &content, node.energy, volume, t);
        self.account.mass_in.add(&content, 1.0);
        self.account.mass_in.add(&before.0, -1.0);
        self.account.energy_in += node.energy - before.1;
        before
    }

    /// Puts matter of its own temperature into a node from outside (a charge at the start, water left in, oil poured).
    pub fn inject(&mut self, id: NodeId, content: &Content) {
        let table = self.table();
        self.work.fresh = false;
        let node = &mut self.nodes[id];
        let mut all = node.content;
        all.add(content, 1.0);
        all.drop_dust();
        let energy = state::energy_at(table, &all, node.volume, node.state.t);
        self.account.mass_in.add(content, 1.0);
        self.account.energy_in += energy - node.energy;
        node.content = all;
        node.energy = energy;
        node.state = state::solve(table, &all, energy, node.volume, node.state.t);
    }

    /// Binds so much of a node's water, kg (negative: sets it free), which gives off so much heat for each kilogram, J/kg. What
    /// is bound counts no energy of its own but minus that heat: the water's own warmth stays in the node.
    pub fn bind(&mut self, id: NodeId, water: f64, heat: f64) {
        let node = &mut self.nodes[id];
        let moved = water.min(node.content[WATER]).max(-node.bound);
        node.content[WATER] -= moved;
        node.bound += moved;
        node.energy += moved * heat;
        self.work.fresh = false;
    }

    /// Puts bound water into a node from outside (a desiccant that was not dry), kg.
    pub fn inject_bound(&mut self, id: NodeId, water: f64) {
        self.nodes[id].bound += water;
        self.account.mass_in[WATER] += water;
    }

    /// Lets both ends of a link exchange gas by stirring, m3/s each way.
    pub fn set_stir(&mut self, id: LinkId, volume_flow: f64) {
        self.links[id].stir = volume_flow;
        self.work.fresh = false;
    }

    /// What crossed the edge so far.
    pub fn account(&self) -> Account {
        self.account
    }

    /// Counts heat that came in from outside the bay, J.
    pub fn count_energy(&mut self, joules: f64) {
        self.account.energy_in += joules;
    }

    /// Species held by all nodes but the room, with the water bound in them, kg.
    pub fn held(&self) -> Content {
        let mut sum = Content::default();
        for n in &self.nodes[1..] {
            sum.add(&n.content, 1.0);
            sum[WATER] += n.bound;
        }
        sum
    }

    /// Internal energy of all nodes but the room, J.
    pub fn energy(&self) -> f64 {
        self.nodes[1..].iter().map(|n| n.energy).sum()
    }

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

    /// Advances every node by `dt` seconds; `heat` holds the joules each node takes up meanwhile (already counted).
    ///
    /// A step whose forecast cannot be brought to agree with the nodes' true pressures is taken again in four parts, those
    /// in four again if need be: a rule of the state alone, so that it is the same everywhere.
    pub fn advance(&mut self, dt: f64, heat: &[f64]) {
        self.advance_part(dt, heat, 1.0, QUARTERINGS);
    }

    fn advance_part(&mut self, dt: f64, heat: &[f64], share: f64, quarterings: u8) {
        let agreed = self.attempt(dt, heat, share);
        if agreed || quarterings == 0 {
            self.unsettled += u64::from(!agreed);
            self.close_books(dt);
            return;
        }
        for (node, start) in self.nodes.iter_mut().zip(&self.work.start) {
            (node.content, node.energy, node.state) = *start;
        }
        for _ in 0..4 {
            self.advance_part(dt / 4.0, heat, share / 4.0, quarterings - 1);
        }
    }

    /// One step with a share of the heat; true when forecast and truth agree at its end.
    fn attempt(&mut self, dt: f64, heat: &[f64], share: f64) -> bool {
        self.find_rates();
        let w = &mut self.work;
        w.fresh = false;
        w.start.clear();
        w.start
            .extend(self.nodes.iter().map(|n| (n.content, n.energy, n.state)));
        w.p_start.clear();
        w.p_start.extend(self.nodes.iter().map(|n| n.state.p));
        w.flows.fill(0.0);
        for round in 0..=CORRECTIONS {
            self.forecast(dt, heat, share, round == 0);
            self.apply(dt, heat, share);
            let agreed = self
                .nodes
                .iter()
                .zip(&self.work.p_end)
                .skip(1)
                .all(|(node, &p)| {
                    let p_true = node.state.p;
                    (p - p_true).abs() <= TOLERANCE.0 * p_true + TOLERANCE.1
                });
            let lawful = self.refresh_chords();
            if agreed && lawful {
                return true;
            }
            self.corrections += 1;
        }
        false
    }

    /// Takes the chords of passages anew whose pressure difference has grown beyond what their chord was taken for: a passage at
    /// rest passes little, not what its slope at rest would give. True when none had to be.
    fn refresh_chords(&mut self) -> bool {
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

    /// Flow of every link at the pressures of now, and the streams it would draw at either end.
    fn find_rates(&mut self) {
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
            let pull = |node: &Node, how| {
                draw(
                    &node.state,
                    &node.content,
                    how,
                    link.flow,
                    node.oil_mobility,
                )
            };
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
                    let rate = o.rate(&inlet(table, up_node, stream), dp.abs());
                    Rate {
                        flow: rate.flow * dp.signum(),
                        ..rate
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

    /// Finds the end pressures and from them the flows: `work.p_end`, `work.flows`.
    fn forecast(&mut self, dt: f64, heat: &[f64], share: f64, first: bool) {
        let Self {
            nodes,
            links,
            work: w,
            pattern,
            ..
        } = self;
        pattern.clear();
        for (i, node) in nodes.iter().enumerate() {
            w.rhs[i] = node.state.p
                + if first {
                    node.state.dp_du * heat[i] * share
                } else {
                    0.0
                };
        }
        for (k, link) in links.iter().enumerate() {
            let (from, to) = (link.from.0, link.to.0);
            let rate = w.rates[k];
            if rate.by_from == 0.0 && rate.by_to == 0.0 && rate.flow == 0.0 {
                continue;
            }
            let known = if first { rate.flow } else { w.flows[k] };
            let stream = if known >= 0.0 {
                &w.streams[k].0
            } else {
                &w.streams[k].1
            };
            // Flow = fixed + by_from P_from - by_to P_to, about the pressures at the start of the tick.
            let fixed = rate.flow - rate.by_from * w.p_start[from] + rate.by_to * w.p_start[to];
            let known = if first { 0.0 } else { w.flows[k] };
            for (node, sign, added) in [(from, -1.0, 0.0), (to, 1.0, w.added[k])] {
                if node == ROOM {
                    continue;
                }
                let gain = sign * dt * pressure_per_kg(&nodes[node].state, stream, added);
                w.rhs[node] += gain * (fixed - known);
                for (other, by) in [(from, rate.by_from), (to, -rate.by_to)] {
                    if other == ROOM {
                        w.rhs[node] += gain * by * w.p_start[ROOM];
                    } else {
                        pattern.add(node, other, -gain * by);
                    }
                }
            }
        }
        pattern.solve(&mut w.rhs);
        w.p_end.clear();
        w.p_end.extend_from_slice(&w.rhs);
        for (k, link) in links.iter().enumerate() {
            let (from, to) = (link.from.0, link.to.0);
            let rate = w.rates[k];
            let mut flow = rate.flow + rate.by_from * (w.p_end[from] - w.p_start[from])
                - rate.by_to * (w.p_end[to] - w.p_start[to]);
            if matches!(link.law, Law::OneWay(_) | Law::Compressor(..)) {
                flow = flow.max(0.0);
            }
            w.flows[k] = flow;
        }
        self.hold_back(dt);
    }

    /// Slows the flows out of a node that they would empty within the step, and draws the streams of reversed links.
    fn hold_back(&mut self, dt: f64) {
        let Self {
            nodes,
            links,
            work: w,
            ..
        } = self;
        w.out.fill([0.0; SPECIES]);
        for (k, link) in links.iter().enumerate() {
            let flow = w.flows[k];
            if flow == 0.0 {
                continue;
            }
            let reversed = (flow < 0.0) != (w.rates[k].flow < 0.0);
            let (donor, how) = if flow > 0.0 { link.from } else { link.to };
            if reversed {
                let node = &nodes[donor];
                // Where trial states exist the start content is gone; the trial serves, being within one step of it.
                let s = draw(
                    &node.state,
                    &node.content,
                    how,
                    link.flow,
                    node.oil_mobility,
                );
                if flow > 0.0 {
                    w.streams[k].0 = s;
                } else {
                    w.streams[k].1 = s;
                }
            }
            let stream = if flow > 0.0 {
                &w.streams[k].0
            } else {
                &w.streams[k].1
            };
            for (out, share) in w.out[donor].iter_mut().zip(stream.share.0) {
                *out += flow.abs() * dt * share;
            }
        }
        for (k, link) in links.iter().enumerate() {
            let flow = w.flows[k];
            let donor = if flow > 0.0 { link.from.0 } else { link.to.0 };
            if donor == ROOM || flow == 0.0 {
                continue;
            }
            let (out, held) = (w.out[donor], w.start[donor].0);
            let mut scale = 1.0f64;
            for s in 0..SPECIES {
                if out[s] > LARGEST_DRAIN * held[s] {
                    scale = scale.min(LARGEST_DRAIN * held[s] / out[s]);
                }
            }
            w.flows[k] *= scale;
        }
    }

    /// Moves the flows: every node's content and energy anew from the start of the step, then its state.
    fn apply(&mut self, dt: f64, heat: &[f64], share: f64) {
        let table = self.table();
        let Self {
            nodes,
            links,
            work: w,
            ..
        } = self;
        for ((node, start), q) in nodes.iter_mut().zip(&w.start).zip(heat).skip(1) {
            node.content = start.0;
            node.energy = start.1 + q * share;
        }
        for (k, link) in links.iter().enumerate() {
            let (from, to) = (link.from.0, link.to.0);
            if link.stir > 0.0 {
                let (species, energy) = &w.stirred[k];
                nodes[from].content.add(species, -dt);
                nodes[from].energy -= energy * dt;
                nodes[to].content.add(species, dt);
                nodes[to].energy += energy * dt;
            }
            let moved = w.flows[k] * dt;
            if moved == 0.0 {
                continue;
            }
            let stream = if moved > 0.0 {
                &w.streams[k].0
            } else {
                &w.streams[k].1
            };
            if from != ROOM {
                nodes[from].content.add(&stream.share, -moved);
                nodes[from].energy -= moved * stream.h;
            }
            if to != ROOM {
                nodes[to].content.add(&stream.share, moved);
                nodes[to].energy += moved * (stream.h + w.added[k]);
            }
        }
        for node in &mut nodes[1..] {
            node.content.drop_dust();
            node.state = state::solve(table, &node.content, node.energy, node.volume, node.state.t);
        }
    }

    /// Notes what crossed the edge, and each link's flow for readings and for the next tick.
    fn close_books(&mut self, dt: f64) {
        let Self {
            links,
            work: w,
            account,
            ..
        } = self;
        for (k, link) in links.iter_mut().enumerate() {
            let flow = w.flows[k];
            let stream = if flow >= 0.0 {
                &w.streams[k].0
            } else {
                &w.streams[k].1
            };
            link.flow = flow;
            link.liquid = stream.liquid;
            link.h = stream.h;
            link.shaft = flow * w.added[k] / (1.0 - crate::compressor::BODY_LOSS);
            let moved = flow * dt;
            account.energy_in += moved * w.added[k];
            if link.from.0 == ROOM {
                account.mass_in.add(&stream.share, moved);
                account.to_room.add(&stream.share, -moved);
                account.energy_in += moved * stream.h;
            }
            if link.to.0 == ROOM {
                account.mass_in.add(&stream.share, -moved);
                account.to_room.add(&stream.share, moved);
                account.energy_in -= moved * stream.h;
            }
        }
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

/// Pressure a node gains for each kilogram of a stream that enters with `added` J/kg on top, Pa/kg.
fn pressure_per_kg(s: &State, stream: &Stream, added: f64) -> f64 {
    let by_mass: f64 = stream.share.0.iter().zip(s.dp_dm).map(|(a, b)| a * b).sum();
    by_mass + s.dp_du * (stream.h + added)
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
