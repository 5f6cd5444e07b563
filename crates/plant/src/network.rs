//! Nodes that hold species and energy, links that move them, and the step that advances all together.
//!
//! The step is implicit in pressure: every link answers linearly to the pressures at the end of the tick, every node's
//! pressure to what the links bring; the small linear system is solved, the flows applied, and each node's true pressure found
//! from what it then holds. Where that differs from the forecast (a node filled up, ran dry or condensed within the
//! tick) the node is linearised anew where it stands and the flows are found again. Whatever the forecast was worth, every
//! flux leaves one node and enters another, so that mass and energy close to rounding.

use std::sync::Arc;

use lowside_fluids::{Refrigerant, moist_air, table::Table, water};
use serde::{Deserialize, Serialize};

use crate::{
    built::{Built, Misfit},
    compressor::Compressor,
    film::Walls,
    flow::Rate,
    halt::{Cause, Halt, first_not_finite},
    orifice::Orifice,
    pump::Pump,
    sparse::Sparse,
    species::{AIR, Content, DISSOLVED, REFRIGERANT, SPECIES, WATER},
    state::{self, State},
    stream::{Offtake, OilPath, Stream},
    transfer::Transfer,
    tube::Tube,
};

mod edge;
mod heat;
mod ids;
mod mix;
mod rates;
mod step;

pub(crate) use rates::WORK_GROWTH;
pub(crate) use step::{Moved, Taken};

/// Share of a node's refrigerant that its oil may take up at once.
const MOST_DISSOLVED: f64 = 0.02;

/// A search that ends so near to an end of its range has found nothing, K.
const AT_END: f64 = 1e-3;

use heat::Answer;
pub use heat::Heat;
pub use ids::{FIRST, LinkId, NodeId, PerNode, ROOM};

/// A volume that holds species and energy.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Node {
    /// Name in ledgers and messages.
    #[serde(skip)]
    pub name: &'static str,
    /// Volume, m3.
    pub volume: f64,
    /// Masses held, kg.
    pub content: Content,
    /// Internal energy, J.
    pub energy: f64,
    /// Water bound here, as ice or in a desiccant: counted in the books, but out of the flow, kg.
    pub bound: f64,
    /// Water its oil has taken up, counted in the books, but out of the flow, kg.
    pub oil_water: f64,
    /// How its oil gets on its way.
    pub oil: OilPath,
    /// Refrigerant its oil takes up (negative: gives off), kg/s.
    pub dissolving: f64,
    /// Temperature and pressure of what it holds.
    pub state: State,
}

impl Node {
    /// Takes in species scaled by `factor`, and energy (J).
    fn gain(&mut self, species: &Content, factor: f64, energy: f64) {
        self.content.add(species, factor);
        self.energy += energy;
    }

    /// What is wrong with it, if anything: a number that is none, or an energy or a pressure beyond what the tables hold.
    fn unsound(&self) -> Option<Halt> {
        let s = &self.state;
        let off = (self.energy - s.energy) / s.heat_capacity;
        // What the search leaves over inside the range is a jump where two laws meet; at an end of it, it is what no state has.
        let inside = s.t > state::T_LOW + AT_END && s.t < state::T_HIGH - AT_END;
        if inside && off.is_finite() && s.p <= state::P_HIGH {
            return None;
        }
        let named = [
            ("the mass it holds", self.content.total()),
            ("its energy", self.energy),
            ("its temperature", s.t),
            ("its pressure", s.p),
            ("its heat capacity", 1.0 / s.heat_capacity),
        ];
        first_not_finite(self.name, &named).or(Some(Halt {
            place: self.name.into(),
            cause: if s.p > state::P_HIGH {
                Cause::Pressure {
                    p: s.p,
                    most: state::P_HIGH,
                }
            } else {
                Cause::Temperature {
                    t: s.t,
                    least: state::T_LOW,
                    most: state::T_HIGH,
                }
            },
        }))
    }

    /// After water was taken out between steps: the state follows with the next step; till then no more vapour and ice count than
    /// there is water.
    fn keep_water_within(&mut self) {
        let (s, water) = (&mut self.state, self.content[WATER]);
        s.m_steam = s.m_steam.min(water);
        s.m_ice = s.m_ice.min(water - s.m_steam);
    }
}

/// The law by which a link passes flow.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Law {
    /// Hole, valve, port, open end or leak, each with a sharp edge: effective area times sqrt 2, m2; 0 is shut.
    Passage(f64),
    /// Line or coil: as a passage, without an edge at which gas expands.
    Line(f64),
    /// As a passage, forward only: a check or relief valve.
    OneWay(f64),
    /// The orifice tube.
    Orifice(Orifice),
    /// A capillary leak of shape pi r^4/(16 L), m3.
    Leak(f64),
    /// A vacuum pump that turns, drawing from the first end.
    Pump(Pump),
    /// The compressor turning at so many turns a minute (0 = at rest; its valves then keep gas from flowing back).
    Compressor(Compressor, f64),
    /// A compressor that moves what it draws, cooled, into another volume; forward only.
    Transfer(Transfer),
}

impl Law {
    /// Returns the law with so much of its flow area open, 0 to 1. A machine has no passage to narrow.
    fn narrowed(self, open: f64) -> Self {
        match self {
            Self::Passage(k) => Self::Passage(k * open),
            Self::Line(k) => Self::Line(k * open),
            Self::OneWay(k) => Self::OneWay(k * open),
            Self::Orifice(o) => Self::Orifice(Orifice {
                open: o.open * open,
                ..o
            }),
            // pi r^4/(16 L): as the square of the area.
            Self::Leak(k) => Self::Leak(k * open * open),
            Self::Pump(_) | Self::Compressor(..) | Self::Transfer(_) => self,
        }
    }
}

/// A way from one node to another.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Link {
    /// Name in messages.
    #[serde(skip)]
    pub name: &'static str,
    /// Where forward flow comes from, and how it is drawn there.
    pub from: (NodeId, Offtake),
    /// Where forward flow goes, and how back-flow is drawn there.
    pub to: (NodeId, Offtake),
    /// Law of the flow: the sound one, narrowed to the share that is open.
    pub law: Law,
    /// The tubes of a passage, for thin gas (none: the hole of its law alone).
    pub tubes: [Tube; 2],
    /// Gas that both ends exchange by stirring, m3/s each way: it spreads air against the flow.
    pub stir: f64,
    /// Flow of the last tick, kg/s of everything, positive forward.
    pub flow: f64,
    /// Liquid share of the last tick's flow.
    pub liquid: f64,
    /// Oil share of the last tick's flow.
    pub oil: f64,
    /// Enthalpy of the last tick's stream as drawn, J/kg.
    pub h: f64,
    /// Shaft power of the last tick, W (compressor only).
    pub shaft: f64,
    /// The law it has when nothing restricts it.
    sound: Law,
    /// Open share of it, 0 (blocked) to 1 (sound).
    open: f64,
}

impl Link {
    /// Returns the open share, 0 (blocked) to 1 (sound).
    pub fn open(&self) -> f64 {
        self.open
    }

    /// Returns the law it has when nothing restricts it.
    pub fn sound(&self) -> Law {
        self.sound
    }

    /// Returns both ends as indexes.
    fn ends(&self) -> (usize, usize) {
        (self.from.0.index(), self.to.0.index())
    }
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
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Network {
    gas: Refrigerant,
    #[serde(skip)]
    table: Built<Table>,
    /// Only where two refrigerants are in the network.
    mix: Option<mix::Mix>,
    nodes: Vec<Node>,
    links: Vec<Link>,
    /// The nodes of the loop: two gases in it share one composition.
    #[serde(skip)]
    inside: Arc<[NodeId]>,
    account: Account,
    #[serde(skip)]
    pattern: Sparse,
    #[serde(skip)]
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
    /// What every link does, in the order of the links.
    ways: Vec<Way>,
    /// Links that are not shut, or stir, or have just been shut: nothing else is looked at in a step.
    open: Vec<usize>,
    /// The rates belong to the states and laws of now.
    fresh: bool,
    out: Vec<[f64; SPECIES]>,
    /// How the heat of every node answers to what the flows bring in the step.
    answers: Vec<Answer>,
    /// What flows bring to each node at the least, kg: only where flows are slowed.
    coming: Vec<[f64; SPECIES]>,
    /// Heat every node took up in the step, and in all steps of this advance, J.
    heat: Vec<f64>,
    heat_taken: Vec<f64>,
    /// What stirring takes out of each node in the step, kg.
    stirred_out: Vec<[f64; SPECIES]>,
}

/// What one link does in a step.
#[derive(Debug, Clone, Copy, Default)]
struct Way {
    rate: Rate,
    /// Pressure difference for which the rate's chord was taken, Pa.
    chord_dp: f64,
    /// What it draws at its first and at its second end, and which of them was drawn for this step.
    streams: [Stream; 2],
    drawn: [bool; 2],
    /// Work put into each kilogram, J/kg.
    added: f64,
    /// Net species (kg/s) and energy (W) that stirring carries.
    stirred: (Content, f64),
    /// Flow, kg/s, positive forward.
    flow: f64,
    /// Share of the flow that its donor could give were nothing to come into it.
    scale: f64,
}

impl Way {
    /// What goes along with this flow (kg/s); at rest what was drawn, at the first end if at both.
    fn stream(&self, flow: f64) -> &Stream {
        let second = flow < 0.0 || (flow == 0.0 && self.drawn[1] && !self.drawn[0]);
        &self.streams[usize::from(second)]
    }
}

impl Network {
    /// A network that holds only the room.
    pub fn new(gas: Refrigerant, room_t: f64, room_p: f64, room_humidity: f64) -> Self {
        let mut net = Self {
            gas,
            table: gas.shared_table().into(),
            mix: None,
            nodes: Vec::new(),
            links: Vec::new(),
            inside: Arc::new([]),
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
        let table = &self.table;
        self.work.fresh = false;
        let room = &mut self.nodes[ROOM.index()];
        let vapour = moist_air::vapour_pressure(w, p);
        room.content[AIR] = (p - vapour) * room.volume / (state::R_AIR * t);
        room.content[WATER] = vapour * room.volume / (water::GAS_CONSTANT * t);
        room.energy = state::energy_at(table, &room.content, room.volume, t);
        room.state = state::solve(table, &room.content, room.energy, room.volume, t);
    }

    /// What a volume open to the room holds: its air with its humidity.
    pub fn room_air(&self, volume: f64) -> Content {
        let room = &self.nodes[ROOM.index()];
        let mut content = Content::default();
        content.add(&room.content, volume / room.volume);
        content
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
        let table = &self.table;
        let energy = state::energy_at(table, &content, volume, t);
        let state = state::solve(table, &content, energy, volume, t);
        self.nodes.push(Node {
            name,
            volume,
            content,
            energy,
            bound: 0.0,
            oil_water: 0.0,
            oil: OilPath::new(oil_mobility),
            dissolving: 0.0,
            state,
        });
        self.mix_added();
        NodeId::at(self.nodes.len() - 1)
    }

    /// Adds a way between two nodes and returns its id.
    pub fn add_link(
        &mut self,
        name: &'static str,
        from: (NodeId, Offtake),
        to: (NodeId, Offtake),
        law: Law,
    ) -> LinkId {
        self.links.push(Link {
            name,
            from,
            to,
            law,
            tubes: [Tube::default(); 2],
            stir: 0.0,
            flow: 0.0,
            liquid: 0.0,
            oil: 0.0,
            h: 0.0,
            shaft: 0.0,
            sound: law,
            open: 1.0,
        });
        self.find_pattern();
        LinkId::at(self.links.len() - 1)
    }

    /// Says which nodes are the loop's, in the order of the flow.
    pub fn set_inside(&mut self, nodes: Arc<[NodeId]>) {
        self.inside = nodes;
    }

    fn find_pattern(&mut self) {
        let edges = self.links.iter().map(Link::ends);
        self.pattern = Sparse::new(self.nodes.len(), edges);
    }

    /// Passes the id of a node that there is.
    ///
    /// # Errors
    /// [`Misfit`] with `path` for another.
    pub(crate) fn knows_node(&self, path: &str, id: NodeId) -> Result<(), Misfit> {
        Misfit::index(path, id.index(), self.nodes.len())
    }

    /// Passes the id of a link that there is.
    ///
    /// # Errors
    /// [`Misfit`] with `path` for another.
    pub(crate) fn knows_link(&self, path: &str, id: LinkId) -> Result<(), Misfit> {
        Misfit::index(path, id.index(), self.links.len())
    }

    /// Puts a state that was read into this network as it was built: it has the names and tables of this one, and what follows from
    /// both. Links beyond those of this one have come about since, and are called `later`.
    ///
    /// # Errors
    /// [`Misfit`] when it belongs to another network; nothing has changed then.
    pub(crate) fn put(&mut self, mut state: Self, later: &'static str) -> Result<(), Misfit> {
        let count = self.nodes.len();
        Misfit::count("gas", state.gas as usize, self.gas as usize)?;
        Misfit::count("nodes", state.nodes.len(), count)?;
        let kept = state.links.len().min(self.links.len());
        Misfit::count("links", kept, self.links.len())?;
        for (k, link) in state.links.iter_mut().enumerate() {
            let built = self.links.get(k);
            link.name = built.map_or(later, |b| b.name);
            for (end, found, asked) in [
                ("from", link.from.0, built.map(|b| b.from.0)),
                ("to", link.to.0, built.map(|b| b.to.0)),
            ] {
                let path = || format!("links.{k}.{end}.0");
                match asked {
                    Some(asked) if found != asked => {
                        Misfit::count(&path(), found.index(), asked.index())?;
                    }
                    Some(_) => {}
                    None => self.knows_node(&path(), found)?,
                }
            }
        }
        state.table = match &mut state.mix {
            Some(mix) => mix.complete(self)?,
            None => self.gas.shared_table().into(),
        };
        let Self {
            nodes, mix, table, ..
        } = &mut state;
        for (id, (node, built)) in nodes.iter_mut().zip(&self.nodes).enumerate() {
            node.name = built.name;
            let own = mix.as_ref().and_then(|m| m.own(NodeId::at(id)));
            node.state.complete(own.unwrap_or(table), node.volume);
        }
        state.inside = Arc::clone(&self.inside);
        state.find_pattern();
        *self = state;
        Ok(())
    }

    /// The refrigerant; where there are two ([`Network::blend`]), the one the loop is made for.
    pub fn gas(&self) -> Refrigerant {
        self.gas
    }

    /// Property tables of the refrigerant in the loop.
    pub fn table(&self) -> &Table {
        &self.table
    }

    /// Property tables of what a node holds.
    pub fn table_of(&self, id: NodeId) -> &Table {
        self.mix
            .as_ref()
            .and_then(|m| m.own(id))
            .unwrap_or(&self.table)
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
        &self.nodes[id.index()]
    }

    /// One link.
    pub fn link(&self, id: LinkId) -> &Link {
        &self.links[id.index()]
    }

    /// Returns the nodes but the room, in the order in which they were added.
    pub fn node_ids(&self) -> impl Iterator<Item = NodeId> + use<> {
        (FIRST.index()..self.nodes.len()).map(NodeId::at)
    }

    /// Returns one value for each node, all alike.
    pub fn per_node<T: Clone>(&self, value: T) -> PerNode<T> {
        PerNode::new(self.nodes.len(), value)
    }

    /// Returns the links in the order in which they were added.
    pub fn link_ids(&self) -> impl Iterator<Item = LinkId> + use<> {
        (0..self.links.len()).map(LinkId::at)
    }

    /// Returns the node after this one in that order; after the last comes the first again.
    pub fn after(&self, id: NodeId) -> NodeId {
        let next = id.index() + 1;
        if next < self.nodes.len() {
            NodeId::at(next)
        } else {
            FIRST
        }
    }

    /// Sets a link's sound law (a valve turned, a speed changed); what restricts the link stays.
    pub fn set_law(&mut self, id: LinkId, law: Law) {
        let link = &mut self.links[id.index()];
        if link.sound != law {
            (link.sound, link.law) = (law, law.narrowed(link.open));
            self.work.fresh = false;
        }
    }

    /// Restricts a link to an open share of its flow area, 0 (blocked) to 1 (sound). At a given flow its pressure drop goes with
    /// one over the square of it.
    pub fn set_open(&mut self, id: LinkId, open: f64) {
        let link = &mut self.links[id.index()];
        (link.open, link.law) = (open, link.sound.narrowed(open));
        self.work.fresh = false;
    }

    /// Sets how a link's forward flow is drawn (heat along a tube).
    pub fn set_offtake(&mut self, id: LinkId, how: Offtake) {
        self.links[id.index()].from.1 = how;
        self.work.fresh = false;
    }

    /// Lets the oil of every node take up or give off refrigerant for `dt` seconds at the rates set. A node's energy stays what it
    /// is: the heat of solution warms it. Its state follows with the next step.
    pub fn dissolve(&mut self, dt: f64) {
        for node in &mut self.nodes[1..] {
            if node.dissolving == 0.0 {
                continue;
            }
            let c = &mut node.content;
            let moved = (node.dissolving * dt)
                .min(MOST_DISSOLVED * c[REFRIGERANT])
                .max(-c[DISSOLVED]);
            c[REFRIGERANT] -= moved;
            c[DISSOLVED] += moved;
        }
        self.work.fresh = false;
    }

    /// Sets the rate at which a node's oil takes up refrigerant, kg/s, and how its oil gets on its way now.
    pub fn set_oil(&mut self, id: NodeId, dissolving: f64, path: OilPath) {
        let node = &mut self.nodes[id.index()];
        (node.dissolving, node.oil) = (dissolving, path);
        self.work.fresh = false;
    }

    /// Makes a node one of tubes with these walls, on which its oil creeps as a film.
    pub fn set_walls(&mut self, id: NodeId, walls: Walls) {
        self.nodes[id.index()].oil.walls = Some(walls);
    }

    /// Says of a coil's node whether its oil lies in liquid, all of it, or on the walls.
    pub fn set_washed(&mut self, id: NodeId, washed: bool) {
        self.nodes[id.index()].oil.washed = f64::from(u8::from(washed));
    }

    /// Gives a passage the tubes it is made of, for thin gas.
    pub fn set_tubes(&mut self, id: LinkId, tubes: [Tube; 2]) {
        self.links[id.index()].tubes = tubes;
        self.work.fresh = false;
    }

    /// Lets both ends of a link exchange gas by stirring, m3/s each way.
    pub fn set_stir(&mut self, id: LinkId, volume_flow: f64) {
        self.links[id.index()].stir = volume_flow;
        self.work.fresh = false;
    }

    /// What crossed the edge so far.
    pub fn account(&self) -> Account {
        self.account
    }

    /// Species held by all nodes but the room, with the water bound in them and the refrigerant dissolved in their oil, kg.
    pub fn held(&self) -> Content {
        let mut sum = Content::default();
        for n in &self.nodes[1..] {
            sum.add(&n.content, 1.0);
            sum[WATER] += n.bound + n.oil_water;
        }
        sum.whole()
    }

    /// Internal energy of all nodes but the room, J.
    pub fn energy(&self) -> f64 {
        self.nodes[1..].iter().map(|n| n.energy).sum()
    }
}
