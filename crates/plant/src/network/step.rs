//! The step: end pressures found for all links together, flows applied, forecast held against truth.

use lowside_fluids::table::Table;

use super::{
    Law, Link, Network, Node, NodeId, PerNode, ROOM, Way, Workspace,
    heat::{Answer, Heat},
};
use crate::{
    halt::{Halt, first_not_finite, greater},
    species::{Content, OIL, SPECIES},
    state::{self, State},
    stream::Stream,
};

/// Forecast and true pressure may differ by this before the step is found anew: share, and Pa.
const TOLERANCE: (f64, f64) = (0.004, 400.0);
/// Corrections of one step at most; flows are conservative at any number.
const CORRECTIONS: usize = 6;
/// Times a step that will not agree may be quartered.
const QUARTERINGS: u8 = 3;
/// Pressure that is added where changes of pressure are compared, Pa: next to nothing may double.
const PACE_FLOOR: f64 = 1e3;
/// Share of a node's refrigerant that may leave within one step.
const LARGEST_DRAIN: f64 = 0.8;

/// A step just taken, to look at.
pub(crate) struct Taken<'a> {
    network: &'a Network,
    /// Its length, s.
    pub dt: f64,
    /// Share of the whole tick's part that this step is.
    pub share: f64,
}

/// What a link moved in a step.
pub(crate) struct Moved<'a> {
    /// The link.
    pub link: &'a Link,
    /// Flow, kg/s, positive forward.
    pub flow: f64,
    /// What flowed, as drawn at the end it came from.
    pub stream: &'a Stream,
    /// Work put into each kilogram on the way, J/kg.
    pub added: f64,
    /// Pressures at either end for which the flow was found, Pa.
    pub forecast: [f64; 2],
    /// Net species (kg/s) and energy (W) carried forward by stirring; nothing where nothing stirs.
    pub stirred: (Content, f64),
}

impl<'a> Taken<'a> {
    /// Property tables of the refrigerant.
    pub(crate) fn table(&self) -> &'a Table {
        self.network.table()
    }

    /// Heat a node took up in the step, J.
    pub(crate) fn heat(&self, node: NodeId) -> f64 {
        self.network.work.heat[node.index()]
    }

    /// The network as it is after the step.
    pub(crate) fn network(&self) -> &'a Network {
        self.network
    }

    /// Content, energy (J) and state of a node before the step. The state is found anew: what is done between ticks (water bound
    /// or set free) changes content and energy first.
    pub(crate) fn before(&self, node: NodeId) -> (&'a Content, f64, State) {
        let (content, energy, state) = &self.network.work.start[node.index()];
        let volume = self.network.node(node).volume;
        let state = state::solve(self.table(), content, *energy, volume, state.t);
        (content, *energy, state)
    }

    /// What every link moved, in the order of the links.
    pub(crate) fn moved(&self) -> impl Iterator<Item = Moved<'a>> {
        let (network, w) = (self.network, &self.network.work);
        network.links.iter().zip(&w.ways).map(|(link, way)| Moved {
            link,
            flow: way.flow,
            stream: way.stream(way.flow),
            added: way.added,
            forecast: [link.from.0, link.to.0].map(|end| w.p_end[end.index()]),
            stirred: if link.stir > 0.0 {
                way.stirred
            } else {
                (Content::default(), 0.0)
            },
        })
    }
}

/// Most of what a node holds of a species at the start of a step that stirring may take in it.
const STIRRED_MOST: f64 = 0.5;

/// Sums what stirring takes out of each node in a step, and slows what would take too much.
fn limit_stirring(links: &[Link], w: &mut Workspace, dt: f64) {
    w.stirred_out.clear();
    w.stirred_out.resize(w.start.len(), [0.0; SPECIES]);
    let stirring = || w.open.iter().copied().filter(|k| links[*k].stir > 0.0);
    let loser = |link: &Link, rate: f64| {
        let (from, to) = link.ends();
        if rate > 0.0 { from } else { to }
    };
    for k in stirring() {
        for (s, &rate) in w.ways[k].stirred.0.0.iter().enumerate() {
            w.stirred_out[loser(&links[k], rate)][s] += rate.abs() * dt;
        }
    }
    for k in stirring() {
        let (moved, energy) = w.ways[k].stirred;
        let mut scale = 1.0f64;
        for (s, &rate) in moved.0.iter().enumerate() {
            let node = loser(&links[k], rate);
            let (out, most) = (w.stirred_out[node][s], STIRRED_MOST * w.start[node].0[s]);
            if rate != 0.0 && out > most {
                scale = scale.min(most / out);
            }
        }
        if scale < 1.0 {
            w.ways[k].stirred = (Content(moved.0.map(|m| m * scale)), energy * scale);
        }
    }
}

/// Slows what would empty a node within the step. What flows into it meanwhile counts as held, so that much may pass through a small one.
fn limit_drain(links: &[Link], w: &mut Workspace, dt: f64, stirs: bool) {
    let mut limited = false;
    for &k in &w.open {
        let scale = drain_scale(&links[k], k, w, stirs, None);
        w.ways[k].scale = scale;
        limited |= scale < 1.0;
    }
    if !limited {
        return;
    }
    // What comes in at the least: each node slowed as if nothing came into it.
    let mut coming = core::mem::take(&mut w.coming);
    coming.clear();
    coming.resize(w.start.len(), [0.0; SPECIES]);
    for &k in &w.open {
        let way = &w.ways[k];
        let (from, to) = links[k].ends();
        let goal = if way.flow > 0.0 { to } else { from };
        let moved = way.flow.abs() * way.scale * dt;
        for (sum, share) in coming[goal].iter_mut().zip(way.stream(way.flow).share.0) {
            *sum += moved * share;
        }
    }
    for &k in &w.open {
        if w.ways[k].scale < 1.0 {
            let scale = drain_scale(&links[k], k, w, stirs, Some(&coming));
            w.ways[k].flow *= scale;
        }
    }
    w.coming = coming;
}

/// Returns the share of a link's flow that its donor can give in the step.
fn drain_scale(
    link: &Link,
    k: usize,
    w: &Workspace,
    stirs: bool,
    coming: Option<&[[f64; SPECIES]]>,
) -> f64 {
    let flow = w.ways[k].flow;
    let (from, to) = link.ends();
    let donor = if flow > 0.0 { from } else { to };
    if donor == ROOM.index() || flow == 0.0 {
        return 1.0;
    }
    let mut scale = 1.0f64;
    for (s, out) in w.out[donor].iter().enumerate() {
        let mut held = w.start[donor].0.0[s];
        if stirs {
            held -= w.stirred_out[donor][s].min(STIRRED_MOST * held);
        }
        if let Some(coming) = coming {
            held += coming[donor][s];
        }
        if *out > LARGEST_DRAIN * held {
            scale = scale.min(LARGEST_DRAIN * held / out);
        }
    }
    scale
}

impl Network {
    /// Advances every node by `dt` seconds; `heat` holds what each node takes up meanwhile (see [`Heat`] and
    /// [`heat_taken`](Self::heat_taken)).
    ///
    /// A step whose forecast cannot be brought to agree with the nodes' true pressures is taken again in four parts, those
    /// in four again if need be: a rule of the state alone, so that it is the same everywhere.
    ///
    /// # Errors
    /// [`Halt`] when a node would hold what is no number or what the tables do not hold; every node then is as it was before the
    /// step, or before the quarter that failed.
    pub fn advance(&mut self, dt: f64, heat: &PerNode<Heat>) -> Result<(), Halt> {
        self.advance_watched(dt, heat, &mut |_: &Taken<'_>| ())
    }

    /// As [`advance`](Self::advance), and shows every step that was taken to `watch`.
    pub(crate) fn advance_watched(
        &mut self,
        dt: f64,
        heat: &PerNode<Heat>,
        watch: &mut impl FnMut(&Taken<'_>),
    ) -> Result<(), Halt> {
        self.work.heat_taken.clear();
        self.work.heat_taken.resize(self.nodes.len(), 0.0);
        self.advance_part(dt, heat, 1.0, QUARTERINGS, watch)
    }

    fn advance_part(
        &mut self,
        dt: f64,
        heat: &PerNode<Heat>,
        share: f64,
        quarterings: u8,
        watch: &mut impl FnMut(&Taken<'_>),
    ) -> Result<(), Halt> {
        let agreed = self.attempt(dt, heat, share);
        if agreed || quarterings == 0 {
            if let Some(halt) = self.nodes[1..].iter().find_map(Node::unsound) {
                self.take_back();
                return Err(self.source().unwrap_or(halt));
            }
            self.unsettled += u64::from(!agreed);
            let w = &mut self.work;
            for (sum, q) in w.heat_taken.iter_mut().zip(&w.heat) {
                *sum += q;
            }
            self.close_books(dt);
            watch(&Taken {
                network: self,
                dt,
                share,
            });
            return Ok(());
        }
        self.take_back();
        for _ in 0..4 {
            self.advance_part(dt / 4.0, heat, share / 4.0, quarterings - 1, watch)?;
        }
        Ok(())
    }

    /// Returns the heat that a node took up when the network was advanced last, J.
    pub fn heat_taken(&self, node: NodeId) -> f64 {
        self.work.heat_taken[node.index()]
    }

    /// Returns the temperature at which a node took up that part of `heat` which depends on it, in the mean, K; its own where none does.
    pub fn touched_at(&self, node: NodeId, heat: Heat) -> f64 {
        if heat.hold > 0.0 {
            (heat.drive - self.heat_taken(node)) / heat.hold
        } else {
            self.node(node).state.t
        }
    }

    /// Fastest change of any node's pressure in the last step of `dt` seconds, 1/s of that pressure.
    pub fn pace(&self, dt: f64) -> f64 {
        let nodes = self.nodes.iter().zip(&self.work.start).skip(1);
        nodes
            .map(|(n, (_, _, was))| (n.state.p - was.p).abs() / (was.p + PACE_FLOOR))
            .fold(0.0, greater)
            / dt
    }

    /// Where it began, after a step that was taken back: in a node that was unsound already, or in a link that passes what is no number.
    /// The solution for all pressures carries either into every node at once.
    fn source(&self) -> Option<Halt> {
        let link = |(link, way): (&Link, &Way)| {
            let stream = way.stream(way.rate.flow);
            let named = [
                (
                    "its flow",
                    way.rate.flow + way.rate.by_from + way.rate.by_to,
                ),
                (
                    "what it draws",
                    stream.share.total() + stream.h + stream.rho,
                ),
                ("its work", way.added),
                (
                    "what stirring carries",
                    way.stirred.0.total() + way.stirred.1,
                ),
            ];
            first_not_finite(link.name, &named)
        };
        let node = self.nodes[1..].iter().find_map(Node::unsound);
        node.or_else(|| self.links.iter().zip(&self.work.ways).find_map(link))
    }

    /// Puts every node back to where the step began.
    fn take_back(&mut self) {
        for (node, start) in self.nodes.iter_mut().zip(&self.work.start) {
            (node.content, node.energy, node.state) = *start;
        }
    }

    /// One step with a share of the heat; true when forecast and truth agree at its end.
    fn attempt(&mut self, dt: f64, heat: &PerNode<Heat>, share: f64) -> bool {
        self.find_rates();
        let w = &mut self.work;
        w.fresh = false;
        w.start.resize(
            self.nodes.len(),
            (Content::default(), 0.0, State::default()),
        );
        for (start, node) in w.start.iter_mut().zip(&self.nodes) {
            start.0 = node.content;
            start.1 = node.energy;
            start.2 = node.state;
        }
        w.answers.clear();
        w.answers
            .extend((self.nodes.iter().zip(heat.values())).map(|(n, q)| q.answer(&n.state, share)));
        w.p_start.clear();
        w.p_start.extend(self.nodes.iter().map(|n| n.state.p));
        for round in 0..=CORRECTIONS {
            self.forecast(dt, round == 0);
            self.apply(dt);
            let agreed = self
                .nodes
                .iter()
                .zip(&self.work.p_end)
                .skip(1)
                .all(|(node, &p)| {
                    let p_true = node.state.p;
                    (p - p_true).abs() <= TOLERANCE.0 * p_true + TOLERANCE.1
                });
            let lawful = self.refresh_chords(round < CORRECTIONS);
            if agreed && lawful {
                return true;
            }
            self.corrections += 1;
        }
        false
    }

    /// Finds the end pressures and from them the flows: `work.p_end` and that of every way.
    fn forecast(&mut self, dt: f64, first: bool) {
        let Self {
            nodes,
            links,
            work: w,
            pattern,
            ..
        } = self;
        pattern.clear();
        for ((right, node), heat) in w.rhs.iter_mut().zip(&*nodes).zip(&w.answers) {
            *right = node.state.p;
            if first {
                *right += node.state.dp_du * heat.at_rest;
            }
        }
        for &k in &w.open {
            let (link, way) = (&links[k], &w.ways[k]);
            let (from, to) = link.ends();
            let rate = way.rate;
            if rate.is_none() {
                continue;
            }
            let stream = way.stream(if first { rate.flow } else { way.flow });
            // Flow = fixed + by_from P_from - by_to P_to, about the pressures at the start of the tick.
            let fixed = rate.flow - rate.by_from * w.p_start[from] + rate.by_to * w.p_start[to];
            let known = if first { 0.0 } else { way.flow };
            for (row, node, sign, added) in [(0, from, -1.0, 0.0), (1, to, 1.0, way.added)] {
                if node == ROOM.index() {
                    continue;
                }
                let gain = sign
                    * dt
                    * pressure_per_kg(
                        &nodes[node].state,
                        stream,
                        added,
                        &w.start[node].2,
                        w.answers[node],
                    );
                let mut right = w.rhs[node] + gain * (fixed - known);
                let mut beside = [-gain * rate.by_from, gain * rate.by_to];
                for (entry, other) in beside.iter_mut().zip([from, to]) {
                    if other == ROOM.index() {
                        right -= *entry * w.p_start[ROOM.index()];
                        *entry = 0.0;
                    }
                }
                w.rhs[node] = right;
                pattern.add(k, row, beside);
            }
        }
        pattern.solve(&mut w.rhs);
        w.p_end.clear();
        w.p_end.extend_from_slice(&w.rhs);
        self.find_flows(dt);
    }

    /// Finds the flows for the end pressures, draws the streams of reversed links, and slows what would empty a node within the step.
    fn find_flows(&mut self, dt: f64) {
        let Self {
            nodes,
            links,
            work: w,
            ..
        } = self;
        w.out.fill([0.0; SPECIES]);
        // Stirring takes its share whatever the flows do: they have the rest.
        let stirs = w
            .open
            .iter()
            .any(|&k| links[k].stir > 0.0 && w.ways[k].stirred.0 != Content::default());
        if stirs {
            limit_stirring(links, w, dt);
        }
        for &k in &w.open {
            let (link, way) = (&links[k], &mut w.ways[k]);
            let ((from, to), rate) = (link.ends(), way.rate);
            let mut flow = rate.flow + rate.by_from * (w.p_end[from] - w.p_start[from])
                - rate.by_to * (w.p_end[to] - w.p_start[to]);
            if matches!(
                link.law,
                Law::OneWay(_) | Law::Compressor(..) | Law::Transfer(_)
            ) {
                flow = flow.max(0.0);
            }
            way.flow = flow;
            if flow == 0.0 {
                continue;
            }
            let (end, donor) = if flow > 0.0 { (0, from) } else { (1, to) };
            // Drawn from the start of the step, as everything else: of what came in since there is none to hold back.
            let (content, _, state) = &w.start[donor];
            way.pull(end, link, state, content, &nodes[donor].oil);
            for (out, share) in w.out[donor].iter_mut().zip(way.streams[end].share.0) {
                *out += flow.abs() * dt * share;
            }
        }
        limit_drain(links, w, dt, stirs);
    }

    /// Moves the flows: every node's content and energy anew from the start of the step, then its state.
    fn apply(&mut self, dt: f64) {
        let Self {
            table,
            mix,
            nodes,
            links,
            work: w,
            ..
        } = self;
        let table = &**table;
        for (node, start) in nodes.iter_mut().zip(&w.start).skip(1) {
            node.content = start.0;
            node.energy = start.1;
        }
        for &k in &w.open {
            let (link, way) = (&links[k], &w.ways[k]);
            let (from, to) = link.ends();
            if link.stir > 0.0 {
                let (species, energy) = &way.stirred;
                nodes[from].gain(species, -dt, -energy * dt);
                nodes[to].gain(species, dt, energy * dt);
            }
            let moved = way.flow * dt;
            if moved == 0.0 {
                continue;
            }
            let stream = way.stream(moved);
            if from != ROOM.index() {
                nodes[from].gain(&stream.share, -moved, -moved * stream.h);
            }
            if to != ROOM.index() {
                nodes[to].gain(&stream.share, moved, moved * (stream.h + way.added));
            }
        }
        for (k, node) in nodes.iter_mut().enumerate().skip(1) {
            let (content, energy, state) = &w.start[k];
            let mut brought = node.energy - energy;
            let answer = w.answers[k];
            if answer.gives_way > 0.0 {
                for (s, du) in state.du_dm.iter().enumerate() {
                    brought -= du * (node.content.0[s] - content.0[s]);
                }
                w.heat[k] = answer.at_rest - answer.gives_way * brought;
            } else {
                w.heat[k] = answer.at_rest;
            }
            node.energy += w.heat[k];
            node.content.drop_dust();
            state::follow(
                table,
                &node.content,
                node.energy,
                node.volume,
                &mut node.state,
            );
        }
        if let Some(mix) = mix {
            mix.solve_own(nodes);
        }
    }

    /// Notes what crossed the edge, and each link's flow for readings and for the next tick.
    fn close_books(&mut self, dt: f64) {
        let Self {
            links,
            work: w,
            account,
            mix,
            ..
        } = self;
        if let Some(mix) = mix {
            mix.carry(links, w, dt);
        }
        for &k in &w.open {
            let (link, way) = (&mut links[k], &w.ways[k]);
            let flow = way.flow;
            let stream = way.stream(flow);
            link.flow = flow;
            link.liquid = stream.liquid;
            link.oil = stream.share[OIL];
            link.h = stream.h;
            link.shaft = flow * way.added / (1.0 - crate::compressor::BODY_LOSS);
            let moved = flow * dt;
            if moved == 0.0 {
                continue;
            }
            account.energy_in += moved * way.added;
            if link.from.0 == ROOM {
                let share = stream.share.whole();
                account.mass_in.add(&share, moved);
                account.to_room.add(&share, -moved);
                account.energy_in += moved * stream.h;
            }
            if link.to.0 == ROOM {
                let share = stream.share.whole();
                account.mass_in.add(&share, -moved);
                account.to_room.add(&share, moved);
                account.energy_in -= moved * stream.h;
            }
        }
    }
}

/// Pressure a node gains for each kilogram of a stream that enters with `added` J/kg on top, Pa/kg. Of what the stream would warm the
/// node by, its heat gives way to a share.
fn pressure_per_kg(s: &State, stream: &Stream, added: f64, start: &State, heat: Answer) -> f64 {
    let by_mass: f64 = stream.share.0.iter().zip(s.dp_dm).map(|(a, b)| a * b).sum();
    let mut energy = stream.h + added;
    if heat.gives_way > 0.0 {
        let du: f64 = (stream.share.0.iter().zip(start.du_dm))
            .map(|(a, b)| a * b)
            .sum();
        energy -= heat.gives_way * (energy - du);
    }
    by_mass + s.dp_du * energy
}
