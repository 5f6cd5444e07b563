//! The second law, audited: entropy made by every link, node, wall and coil in one tick.
//!
//! A step of the network ends at pressures and temperatures that its flows were found for, so entropy is reckoned there. With
//! p and T of every node at the end of the step:
//!
//! * a link makes m (s(h + w, p of the receiver) - s(h, p of the giver)): a passage keeps h and lets p fall, the compressor
//!   adds its work w;
//! * a node makes S after - S before - sum m s(h, p) in + sum m s(h, p) out - heat / T: mixing at constant volume;
//! * stirring makes, in both its nodes together, energy and species carried times the difference of 1/T and -mu/T;
//! * a wall makes C ln(T after / T before) less what the heat carried, heat / T of the node at one side and of the
//!   surroundings at the other; the air of a coil counts with what its warming or drying changes.
//!
//! What one takes out another takes in, so the sum over all is exactly the entropy of the whole after the tick less before and
//! less what came in from outside. S is concave in content and energy at constant volume; therefore a node that takes heat and
//! streams at its *end* state makes entropy, whatever the length of the step, but for two things, both of which vanish with the
//! length of the step faster than what is made and are stated as the `slack` of each account:
//!
//! * a stream leaves as it was drawn at the start of the step (its gap to the end state is of third order, see `node`);
//! * the flow was found for forecast pressures, which may differ from those that come about by the step's tolerance, and the
//!   compressor's work for pressures that may differ by `WORK_GROWTH`.
//!
//! Dalton's law, by which a node shares its pressure among vapour and air, leaves out that air presses the liquid and so raises
//! the pressure of its vapour (Poynting): v p_air / T for each kilogram that changed its phase.
//!
//! Refrigerant in oil has the energy of saturated liquid but a fixed volume; what that leaves out is counted as slack too. Air that
//! liquid squeezes needs none: each phase keeps its own law there, and so its entropy.
//!
//! To these comes what the tables lack of a perfect fit of s to u and p: [`TABLES`] of the entropy turned over.
//!
//! Near and above the critical point the tables bridge a gap and have no entropy of their own; the slack is infinite there.
//!
//! So it is where water boils, or answers for a part of its own pressure only; and a cooled compressor between two volumes, whose fan's heat and
//! shaft are one sum, makes no account.
//!
//! The audit runs on a copy of the plant: nothing of it is in the tick itself. Water bound as ice or in the desiccant, cabin and
//! outside air mixing are not part of it.

mod matter;

use lowside_fluids::{
    moist_air,
    moisture::{FUSION, T_FREEZE},
    table::Table,
};

use crate::{
    cabin::Outside,
    condenser,
    evaporator::{self, Air, LATENT},
    network::{Law, LinkId, Moved, NodeId, PerNode, ROOM, Taken, WORK_GROWTH},
    plant::{Plant, TickObserver},
    shell::{Around, Shell, ShellId},
    species::{DISSOLVED, REFRIGERANT},
    state::{CP_AIR, Phase, State},
};
use matter::{Water, gibbs, node_entropy, stream_entropy};

/// Share of the entropy turned over, h / T, that the tables' s may differ from what their u and p imply (largest 2e-8, along
/// saturation; the rest is room for a stream's own search). Test: `tables_obey_gibbs`.
pub const TABLES: f64 = 1e-5;
/// The same for compressed liquid, of its own change (largest 1.1 %, at the warm end of the tables).
pub const LIQUID: f64 = 0.015;
/// What counts as nothing, J/K: Boltzmann's constant (SI 2019), the entropy of less than a molecule.
const NOTHING: f64 = 1.380_649e-23;
/// Rounding of a wall's or a node's logarithm, of its heat capacity, and of a node's energy over its temperature.
const ROUNDING: f64 = 16.0 * f64::EPSILON;
/// Specific gas constant of water vapour, J/(kg K).
const R_WATER: f64 = 461.52;

/// Who made entropy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Maker {
    /// A link of the network, by flow or by the compressor's work.
    Link(LinkId),
    /// Stirring along a link, with the mixing it does at both ends.
    Stirring(LinkId),
    /// A node: mixing, and taking up heat.
    Node(NodeId),
    /// A shell of metal, between its node and its surroundings.
    Shell(ShellId),
    /// A cell of the condenser: refrigerant to wall to air.
    Condenser(usize),
    /// The evaporator: air to walls to refrigerant.
    Evaporator,
}

/// Entropy made in one tick.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Made {
    /// By whom.
    pub by: Maker,
    /// How much, J/K.
    pub entropy: f64,
    /// How far below zero it may lie by what the module's head names, J/K.
    pub slack: f64,
}

impl Made {
    /// How far it is below what the second law and the slack allow, J/K; 0 when it is not.
    pub fn breach(&self) -> f64 {
        (-self.entropy - self.slack).max(0.0)
    }
}

/// Entropy that the next tick of `plant` makes, by maker. The plant stays as it is; the tick is taken by a copy, as far as it goes.
pub fn audit(plant: &Plant) -> Vec<Made> {
    let mut ahead = plant.clone();
    let mut auditor = Auditor::new(plant);
    // A tick that ends half way is the plant's own to tell.
    let _ = ahead.tick_observed(crate::plant::TICK, &mut auditor);
    auditor.made(plant)
}

/// Entropy made (J/K) and slack (J/K) of one account.
#[derive(Debug, Clone, Copy, Default)]
struct Account {
    made: f64,
    slack: f64,
}

impl Account {
    /// Counts so much made out of so much turned over, with so much slack besides.
    fn count(&mut self, made: f64, turned_over: f64, slack: f64) {
        self.made += made;
        self.slack += TABLES * turned_over.abs() + slack + NOTHING;
    }
}

/// Whether a state lies where the tables only bridge a gap, near and above the critical point.
fn inexact(table: &Table, s: &State) -> bool {
    s.t >= table.t_max() && s.rho_gas > table.sat(s.t).rho_g
}

/// What air that presses on liquid would add to its vapour's entropy, J/(kg K): v p / T.
fn poynting(s: &State) -> f64 {
    if s.m_liq > 0.0 {
        s.p_air / s.rho_liq / s.t
    } else {
        0.0
    }
}

/// Both parts of what the entropy of a liquid changed by, by temperature and by volume, J/K.
fn liquid_change(was: &State, now: &State) -> f64 {
    let by_volume = (1.0 / now.rho_liq - 1.0 / was.rho_liq).abs() * now.m_liq;
    now.heat_capacity * ((now.t - was.t).abs() / now.t + now.dp_du * by_volume)
}

struct Auditor {
    links: Vec<Account>,
    stirring: Vec<Account>,
    nodes: PerNode<Account>,
    shells: Vec<Account>,
    condenser: [Account; condenser::CELLS],
    evaporator: Account,
    /// Mean over the step of 1 / T of each node, weighted with its heat, 1/K.
    cold: PerNode<f64>,
    /// Refrigerant that turned to vapour in each node during the step, less what its vapour grew by, kg.
    evaporated: PerNode<f64>,
    before: Option<Before>,
}

/// Walls and what surrounds them before heat passed.
struct Before {
    shells: Vec<(Shell, f64, f64, f64)>,
    condenser: [f64; condenser::CELLS],
    evaporator: [f64; evaporator::CELLS],
    /// Frost on the evaporator, kg.
    iced: f64,
    /// Temperature and heat capacity of every node.
    nodes: PerNode<(f64, f64)>,
    air: Air,
    p: f64,
    dt: f64,
}

impl Auditor {
    fn new(plant: &Plant) -> Self {
        let (net, links) = (&plant.network, plant.network.links().len());
        Self {
            links: vec![Account::default(); links],
            stirring: vec![Account::default(); links],
            nodes: net.per_node(Account::default()),
            shells: plant.shells.iter().map(|_| Account::default()).collect(),
            condenser: Default::default(),
            evaporator: Account::default(),
            cold: net.per_node(0.0),
            evaporated: net.per_node(0.0),
            before: None,
        }
    }

    fn made(&self, plant: &Plant) -> Vec<Made> {
        let net = &plant.network;
        let one = |(by, a): (Maker, &Account)| Made {
            by,
            entropy: a.made,
            slack: a.slack,
        };
        let links = net.link_ids().map(Maker::Link).zip(&self.links);
        let stirring = net.link_ids().map(Maker::Stirring).zip(&self.stirring);
        let nodes = net.node_ids().map(|id| (Maker::Node(id), &self.nodes[id]));
        let shells = plant.shells.ids().map(Maker::Shell).zip(&self.shells);
        let condenser = (0..).map(Maker::Condenser).zip(&self.condenser);
        let flows = links.chain(stirring).chain(nodes);
        let walls = shells
            .chain(condenser)
            .chain([(Maker::Evaporator, &self.evaporator)]);
        flows.chain(walls).map(one).collect()
    }

    /// A link's flow: what it makes itself, and what it takes from and brings to the nodes.
    fn flow(&mut self, k: usize, taken: &Taken<'_>, moved: &Moved<'_>) {
        let m = moved.flow.abs() * taken.dt;
        if m == 0.0 {
            return;
        }
        let net = taken.network();
        let (giver, taker, forecast) = if moved.flow > 0.0 {
            (moved.link.from.0, moved.link.to.0, moved.forecast)
        } else {
            let [from, to] = moved.forecast;
            (moved.link.to.0, moved.link.from.0, [to, from])
        };
        let (up, down) = (&net.node(giver).state, &net.node(taker).state);
        let (share, h) = (&moved.stream.share, moved.stream.h);
        let table = taken.table();
        let water = Water::of(taken.before(giver).0, up);
        let stream = (share, water);
        let s_up = stream_entropy(table, stream, h, up.p, up.t);
        let s_down = match moved.link.law {
            // The bay's edge lies at a vacuum pump's inlet: its shaft is in no book.
            Law::Pump(_) => s_up,
            _ => stream_entropy(table, stream, h + moved.added, down.p, up.t),
        };
        // The pressures the flow was found for may be off by so much: it may have gone up by that.
        let v = 1.0 / moved.stream.rho;
        let off = (forecast[0] - up.p).abs() + (forecast[1] - down.p).abs();
        let beyond = inexact(table, up) || inexact(table, down) || water == Water::Mixed;
        let mut slack = if beyond {
            f64::INFINITY
        } else {
            m * (s_up - stream_entropy(table, stream, h, up.p + off, up.t)).abs()
        };
        if matches!(moved.link.law, Law::Compressor(..)) {
            slack += m * v * up.p / up.t * WORK_GROWTH;
        }
        let turned = m * (h.abs() / up.t).max(1.0);
        // The fan's heat and the shaft of such a compressor are one sum: nothing says at what temperature heat left.
        let slack = if matches!(moved.link.law, Law::Transfer(_)) {
            f64::INFINITY
        } else {
            slack
        };
        self.links[k].count(m * (s_down - s_up), turned, slack);
        let rest = if beyond { f64::INFINITY } else { 0.0 };
        self.nodes[giver].count(m * s_up, turned, rest);
        self.nodes[taker].count(-m * s_down, turned, rest);
        let vapour = m * (share[REFRIGERANT] - moved.stream.liquid);
        self.evaporated[giver] += vapour;
        self.evaporated[taker] -= vapour;
        // A stream drawn at the start of the step leaves a node that has gone on: the tangent at the end state lies above it.
        if giver != ROOM {
            let liquid = moved.stream.liquid * poynting(up);
            let lag = gibbs(table, up, share, h) - liquid - s_up;
            self.nodes[giver].slack += m * lag.max(0.0);
        }
    }

    fn stir(&mut self, k: usize, taken: &Taken<'_>, moved: &Moved<'_>) {
        let (species, power) = &moved.stirred;
        if species.0.iter().all(|s| *s == 0.0) && *power == 0.0 {
            return;
        }
        let net = taken.network();
        let table = taken.table();
        let value = |s: &State| gibbs(table, s, species, *power) * taken.dt;
        let (from, to) = (moved.link.from.0, moved.link.to.0);
        let (out, into) = (value(&net.node(from).state), value(&net.node(to).state));
        // What is exchanged was drawn at the start of the step, when it made this.
        let at_start = value(&taken.before(to).2) - value(&taken.before(from).2);
        let lag = (into - out - at_start).abs();
        self.stirring[k].count(into - out, into.abs() + out.abs(), lag);
        self.evaporated[from] += species[REFRIGERANT] * taken.dt;
        self.evaporated[to] -= species[REFRIGERANT] * taken.dt;
        self.nodes[from].count(out, out, 0.0);
        self.nodes[to].count(-into, into, 0.0);
    }
}

impl TickObserver for Auditor {
    fn heat_comes(&mut self, plant: &Plant, outside: &Outside, dt: f64) {
        self.cold.reset(&plant.network, 0.0);
        let shells = plant.shells.ids().map(|id| {
            let shell = &plant.shells[id];
            let around = match shell.around {
                Around::Hood => plant.hood_t,
                Around::Room => outside.t,
                Around::Bath(t) => t,
            };
            let node = plant.network.node(shell.node);
            // A body that the shaft warms first: its heat then passes as from the warmer shell.
            let mut copy = *shell;
            if id == plant.circuit.body {
                let shaft = plant.network.link(plant.circuit.compressor()).shaft;
                copy.t += shaft * crate::compressor::BODY_LOSS * dt / shell.metal;
            }
            let (inward, from_out) = copy.pass(node, around, dt);
            (*shell, inward, from_out, around)
        });
        let mut nodes = plant.network.per_node((0.0, 0.0));
        for id in plant.network.node_ids() {
            let s = &plant.network.node(id).state;
            nodes[id] = (s.t, s.heat_capacity);
        }
        self.before = Some(Before {
            shells: shells.collect(),
            condenser: plant.condenser.wall,
            evaporator: plant.evaporator.wall,
            iced: plant.evaporator.iced(),
            nodes,
            air: plant.cabin.inlet(outside, plant.recirculates()),
            p: outside.p,
            dt,
        });
    }

    fn step(&mut self, taken: &Taken<'_>) {
        let net = taken.network();
        self.evaporated.reset(net, 0.0);
        for (k, moved) in taken.moved().enumerate() {
            self.flow(k, taken, &moved);
            self.stir(k, taken, &moved);
        }
        for i in net.node_ids() {
            let node = net.node(i);
            let (content, energy, state) = taken.before(i);
            let table = taken.table();
            let (s0, s1) = (
                node_entropy(table, content, energy, &state),
                node_entropy(table, &node.content, node.energy, &node.state),
            );
            let q = taken.heat(i) / node.state.t;
            // What stays put and is the same before and after has no error of its own: the change counts.
            let mut slack = 1.05
                * poynting(&node.state)
                * (self.evaporated[i] + node.state.m_gas - state.m_gas).abs()
                + ROUNDING * (node.state.heat_capacity + node.energy.abs() / node.state.t);
            let boils = |c, s| Water::of(c, s) == Water::Mixed;
            if inexact(table, &state)
                || inexact(table, &node.state)
                || boils(content, &state)
                || boils(&node.content, &node.state)
            {
                slack = f64::INFINITY;
            }
            if node.content[DISSOLVED] > 0.0 {
                // It has the energy of saturated liquid but a fixed volume: what that expands by does no work on it.
                let (was, now) = (table.sat(state.t), table.sat(node.state.t));
                let expands = (1.0 / now.rho_l - 1.0 / was.rho_l).abs();
                slack += node.content[DISSOLVED] * now.p * expands / node.state.t;
            }
            if state.phase == Phase::Liquid || node.state.phase == Phase::Liquid {
                slack += LIQUID * liquid_change(&state, &node.state);
            }
            self.nodes[i].count(s1 - s0 - q, (s1 - s0).abs() + q.abs(), slack);
            self.cold[i] += taken.share / node.state.t;
        }
    }

    fn heat_came(&mut self, plant: &Plant, coil: Air) {
        let Some(b) = self.before.take() else { return };
        // Heat passed towards where the node's temperature would have gone by it alone; what flowed may have moved it since.
        let lag = |q: f64, node: NodeId, cold: f64| {
            let (t, capacity) = b.nodes[node];
            q.abs() * (cold - 1.0 / (t + q / capacity)).abs()
        };
        let shells = b.shells.iter().zip(&plant.shells).zip(&mut self.shells);
        for (((was, inward, from_out, around), now), account) in shells {
            let made = was.metal * libm::log(now.t / was.t) + inward * self.cold[was.node]
                - from_out / around;
            account.count(
                made,
                0.0,
                lag(*inward, was.node, self.cold[was.node]) + ROUNDING * was.metal,
            );
        }
        let heat = |node| plant.network.heat_taken(node);
        let c = &plant.circuit;
        let cells = |k: usize| {
            c.condenser
                .nodes()
                .get(k)
                .copied()
                .unwrap_or(c.liquid_line.inlet())
        };
        let (flow, air_t) = plant.condenser_air;
        let metal = plant.condenser.energy() / plant.condenser.wall.iter().sum::<f64>();
        for (k, was) in b.condenser.iter().enumerate() {
            let (now, node, next) = (plant.condenser.wall[k], cells(k), cells(k + 1));
            // A flooded end takes its heat from the next volume.
            let beyond = plant.condenser.beyond;
            let own = -heat(node) - if k > 0 { beyond[k - 1] } else { 0.0 };
            let given = own + beyond[k] - metal * (now - was);
            let air = flow / condenser::CELLS as f64 * CP_AIR * b.dt;
            let made =
                metal * libm::log(now / was) - own * self.cold[node] - beyond[k] * self.cold[next]
                    + air * libm::log(1.0 + given / (air * air_t));
            let lag = lag(own, node, self.cold[node]) + lag(beyond[k], next, self.cold[next]);
            self.condenser[k].count(made, 0.0, lag + ROUNDING * metal);
        }
        let walls = plant.evaporator.energy() + plant.evaporator.iced() * FUSION;
        let metal = walls / plant.evaporator.wall.iter().sum::<f64>();
        let (mut made, mut slack) = (0.0, 0.0);
        let cells = c.evaporator.nodes().iter().zip(plant.evaporator.wall);
        for (was, (&node, now)) in b.evaporator.iter().zip(cells) {
            made += metal * libm::log(now / was) + heat(node) * self.cold[node];
            slack += lag(heat(node), node, self.cold[node]);
        }
        // Frost holds less entropy than the water it came from.
        made -= (plant.evaporator.iced() - b.iced) * FUSION / T_FREEZE;
        let wall = b.evaporator.iter().sum::<f64>() / evaporator::CELLS as f64;
        let air = plant.cabin.flow * b.dt;
        made += air * CP_AIR * libm::log(coil.t / b.air.t);
        let wetness = |w: f64| moist_air::vapour_pressure(w, b.p).max(1e-3);
        let over = wetness(coil.w) / wetness(moist_air::w_sat(wall, b.p));
        made -= air * (b.air.w - coil.w) * (LATENT / wall - R_WATER * libm::log(over));
        self.evaporator
            .count(made, 0.0, slack + ROUNDING * walls / wall);
    }
}
