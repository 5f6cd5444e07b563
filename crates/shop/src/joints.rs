//! The loop's joints and ports: tight, leaking, open to the room, or capped.

use lowside_fluids::{Refrigerant, table::Table};
use lowside_plant::{
    circuit::Circuit,
    flow::{choked, k_from_hole},
    leak::Site,
    network::{Law, LinkId, Network, Node, NodeId, ROOM},
    plant::Plant,
    species::AIR,
    stream::Offtake,
};
use serde::{Deserialize, Serialize};

pub use crate::ports::{LowPort, Port, Side};
use crate::{detect::Spot, ports::BARE};

/// A joint between two parts, in the order of the flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Joint {
    /// Compressor and discharge hose.
    CompressorOut,
    /// Discharge hose and condenser.
    CondenserIn,
    /// Condenser and liquid line.
    CondenserOut,
    /// Liquid line and evaporator; the orifice tube sits here.
    EvaporatorIn,
    /// Evaporator and accumulator.
    EvaporatorOut,
    /// Accumulator and suction hose.
    AccumulatorOut,
    /// Suction hose and compressor.
    CompressorIn,
    /// Relief valve, screwed into the discharge hose's block.
    ReliefThread,
}

/// How many joints there are.
pub const JOINTS: usize = 8;

impl Joint {
    /// All of them.
    pub const ALL: [Self; JOINTS] = [
        Self::CompressorOut,
        Self::CondenserIn,
        Self::CondenserOut,
        Self::EvaporatorIn,
        Self::EvaporatorOut,
        Self::AccumulatorOut,
        Self::CompressorIn,
        Self::ReliefThread,
    ];

    /// Its name in messages.
    pub fn name(self) -> &'static str {
        match self {
            Self::CompressorOut => "joint of compressor and discharge hose",
            Self::CondenserIn => "joint of discharge hose and condenser",
            Self::CondenserOut => "joint of condenser and liquid line",
            Self::EvaporatorIn => "joint of liquid line and evaporator",
            Self::EvaporatorOut => "joint of evaporator and accumulator",
            Self::AccumulatorOut => "joint of accumulator and suction hose",
            Self::CompressorIn => "joint of suction hose and compressor",
            Self::ReliefThread => "joint of discharge hose and relief valve",
        }
    }

    /// The volumes it opens, as places in [`Openings`].
    fn opens(self) -> &'static [usize] {
        match self {
            Self::CompressorOut | Self::ReliefThread => &[DISCHARGE],
            Self::CondenserIn => &[DISCHARGE, CONDENSER_IN],
            Self::CondenserOut => &[CONDENSER_OUT, LIQUID],
            Self::EvaporatorIn => &[LIQUID, EVAPORATOR_IN],
            Self::EvaporatorOut => &[EVAPORATOR_OUT, ACCUMULATOR],
            Self::AccumulatorOut => &[ACCUMULATOR, SUCTION],
            Self::CompressorIn => &[SUCTION],
        }
    }
}

/// The seal that a joint is put together with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Seal {
    /// A new O-ring, wetted with oil.
    NewOiled,
    /// A new O-ring, dry: it rolls and nicks.
    NewDry,
    /// The old O-ring, wetted with oil: it has taken a set.
    OldOiled,
    /// The old O-ring, dry.
    OldDry,
    /// No O-ring.
    Missing,
}

impl Seal {
    /// All of them, each letting out more than the one before.
    pub const WORSE: [Self; 5] = [
        Self::NewOiled,
        Self::OldOiled,
        Self::NewDry,
        Self::OldDry,
        Self::Missing,
    ];

    /// Vapour it lets out of a loop at rest at 20 degC, kg/s (trade: 5 to 500 g a year; from memory).
    pub fn standing_leak(self) -> f64 {
        let grams_a_year = match self {
            Self::NewOiled | Self::Missing => 0.0,
            Self::OldOiled => 40.0,
            Self::NewDry => 150.0,
            Self::OldDry => 400.0,
        };
        grams_a_year * GRAM_A_YEAR
    }
}

/// How a joint is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fit {
    /// As it came: tight.
    Untouched,
    /// Put together with a seal.
    Made(Seal),
    /// Apart, both ends open to the room.
    Open,
    /// Apart, both ends capped.
    Capped,
}

impl Fit {
    /// Returns whether it leaks as much as `least` (kg/s at rest at 20 degC), so that oil shows.
    pub(crate) fn stains(self, least: f64) -> bool {
        match self {
            Self::Made(Seal::Missing) => true,
            Self::Made(seal) => seal.standing_leak() >= least,
            Self::Untouched | Self::Open | Self::Capped => false,
        }
    }
}

/// What an O-ring from the days of R-12 lets out once the loop holds R-134a, kg/s: its rubber has given its swelling to the old oil, and
/// the smaller molecule passes it (common practice renews them all at a conversion; 10 g a year is our own figure, plausible 2-50).
const OLD_RUBBER: f64 = 10.0 * GRAM_A_YEAR;

/// What an O-ring lets out that a part hanging loose has rubbed, kg/s: 300 g a year (own figure, plausible 100-1000).
const RUBBED: f64 = 300.0 * GRAM_A_YEAR;

/// One gram a year, kg/s.
pub const GRAM_A_YEAR: f64 = 1e-3 / 31_557_600.0;
/// Temperature at which leaks are stated, K.
const STATED_AT: f64 = 293.15;
/// Passage of an open end, m2 (8 mm; common practice).
const OPEN_END: f64 = 50e-6;
/// Passage of a joint made without an O-ring, m2 (own figure).
const NO_RING: f64 = 0.5e-6;
/// Discharge coefficient of all these (common practice).
const CD: f64 = 0.65;
/// Air that each open end swaps with the room by itself, m3/s: diffusion alone through half an inch gives 0.2 cm3/s, the
/// breathing of warm and cold the rest (own figure, set by the trade's "grams of water a day"; plausible 0.2-3).
pub(crate) const BREATH: f64 = 1.0e-6;
/// An open end breathes once its pressure is within this of the room's, Pa.
const AT_REST: f64 = 2e3;

const DISCHARGE: usize = 0;
const CONDENSER_IN: usize = 1;
const CONDENSER_OUT: usize = 2;
const LIQUID: usize = 3;
const EVAPORATOR_IN: usize = 4;
const EVAPORATOR_OUT: usize = 5;
const ACCUMULATOR: usize = 6;
const SUCTION: usize = 7;
/// How many volumes can be opened.
const ENDS: usize = 8;

/// The ways out of the loop through its joints and ports.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Openings {
    #[serde(skip)]
    nodes: [NodeId; ENDS],
    #[serde(skip)]
    links: [LinkId; ENDS],
    /// How each joint is.
    pub joints: [Fit; JOINTS],
    /// Which joints hands have taken apart in this bay: how they are made up since is known.
    opened: [bool; JOINTS],
    /// Whose O-rings a part that hung loose has rubbed.
    #[serde(default)]
    rubbed: [bool; JOINTS],
    /// The gas that the vehicle's own O-rings were made for.
    made_for: Refrigerant,
    /// The loop holds another, which they do not keep.
    old_rubber: bool,
    /// The low-side and the high-side port.
    pub ports: [Port; 2],
    /// Where the low-side port sits that hands work at.
    low_tap: LowPort,
    /// The other low-side port, where the vehicle has two.
    spare: Option<Port>,
    /// Holes that stand open while hands work at a volume.
    work: [Work; ENDS],
}

/// A hole that hands keep open for a while.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
struct Work {
    /// Its passage, m2.
    hole: f64,
    /// Time till it is shut, s.
    left: f64,
}

/// What leaks at one volume: passages that go both ways, and seeping that a vacuum presses shut, m2 and kg/s.
#[derive(Debug, Clone, Copy, Default)]
struct Leak {
    open_ends: f64,
    hole: f64,
    seep: f64,
}

impl Openings {
    /// All joints as they came; ports with fittings for `gas`, a second one on the low side if there are `two`: capped, its core
    /// as new, since nobody has been at it.
    pub fn new(net: &mut Network, c: &Circuit, gas: Refrigerant, two: bool) -> Self {
        let nodes = [
            c.high_side(),
            c.condenser.inlet(),
            c.condenser.outlet(),
            c.liquid_line.outlet(),
            c.evaporator.inlet(),
            c.evaporator.outlet(),
            c.low_side(),
            c.compressor_inlet(),
        ];
        let slip = Offtake::Slip;
        // The accumulator's joints and the low port are at its top.
        let top = Offtake::Top { floods: 0.9 };
        let shut = Law::Passage(0.0);
        let links = nodes.map(|n| {
            let how = if n == c.low_side() { top } else { slip };
            net.add_link("joints", (n, how), (ROOM, slip), shut)
        });
        Self {
            nodes,
            links,
            joints: [Fit::Untouched; JOINTS],
            opened: [false; JOINTS],
            rubbed: [false; JOINTS],
            made_for: gas,
            old_rubber: false,
            ports: [Port::new(gas); 2],
            low_tap: LowPort::Accumulator,
            spare: two.then(|| Port {
                cap: true,
                old_core: false,
                ..Port::new(gas)
            }),
            work: [Work::default(); ENDS],
        }
    }

    /// Gives a state that was read the ways out of openings that were built.
    pub(crate) fn put_with(&mut self, built: &Self) {
        (self.nodes, self.links) = (built.nodes, built.links);
    }

    /// Lets the vehicle's own O-rings feel what gas the loop holds: they do not keep what its kind is converted to, once the loop
    /// holds more of that than of their own. True when that makes another leak of them.
    pub(crate) fn feel(&mut self, plant: &Plant) -> bool {
        let old = self.made_for.data().retrofit.is_some() && plant.share_of(self.made_for) < 0.5;
        core::mem::replace(&mut self.old_rubber, old) != old
    }

    /// What a joint seeps at rest at 20 degC, kg/s; nothing while it is apart.
    fn seeps(&self, joint: Joint) -> f64 {
        let rubbed = if self.rubbed[joint as usize] {
            RUBBED
        } else {
            0.0
        };
        match self.fit(joint) {
            Fit::Made(seal) => seal.standing_leak() + rubbed,
            Fit::Untouched if self.old_rubber => OLD_RUBBER + rubbed,
            Fit::Untouched => rubbed,
            Fit::Open | Fit::Capped => 0.0,
        }
    }

    /// Lets a part that hangs loose rub a joint's O-ring, until it is made up anew.
    pub(crate) fn rub(&mut self, joint: Joint) {
        self.rubbed[joint as usize] = !self.apart(joint);
    }

    /// Every port that there is.
    pub fn all_ports(&self) -> impl Iterator<Item = &Port> {
        self.ports.iter().chain(&self.spare)
    }

    /// Where the low-side port sits that hands work at.
    pub fn low_tap(&self) -> LowPort {
        self.low_tap
    }

    /// The other low-side port, where there are two.
    pub fn other_low_port(&self) -> Option<Port> {
        self.spare
    }

    /// Goes to a low-side port; where there is only one, that is the accumulator's.
    pub fn go_to(&mut self, tap: LowPort) {
        if let Some(spare) = &mut self.spare
            && tap != self.low_tap
        {
            core::mem::swap(spare, &mut self.ports[Side::Low as usize]);
            self.low_tap = tap;
        }
    }

    /// The volume that a port opens.
    fn port_end(&self, side: Side) -> usize {
        match (side, self.low_tap) {
            (Side::Low, LowPort::Accumulator) => ACCUMULATOR,
            (Side::Low, LowPort::Compressor) => SUCTION,
            (Side::High, _) => DISCHARGE,
        }
    }

    /// How a joint is.
    pub fn fit(&self, joint: Joint) -> Fit {
        self.joints[joint as usize]
    }

    /// Takes a joint apart.
    pub(crate) fn take_apart(&mut self, joint: Joint) {
        self.joints[joint as usize] = Fit::Open;
        self.opened[joint as usize] = true;
        self.rubbed[joint as usize] = false;
    }

    /// Has a joint been taken apart in this bay? What it was made up with before, nobody here has seen.
    pub fn was_opened(&self, joint: Joint) -> bool {
        self.opened[joint as usize]
    }

    /// Has a joint made up with a seal, whoever did it.
    pub fn make_up(&mut self, joint: Joint, seal: Seal) {
        self.joints[joint as usize] = Fit::Made(seal);
    }

    /// Vapour that joints and ports would let out in all if the loop stood at saturation at 20 degC, kg/s; more than any record
    /// can hold where something is open.
    pub fn standing_leak(&self) -> f64 {
        let ports = self.all_ports().map(|port| {
            let (hole, seeps) = port.lets();
            if hole > 0.0 { f64::INFINITY } else { seeps }
        });
        self.joints_leak() + ports.sum::<f64>()
    }

    /// The same of the joints alone.
    pub fn joints_leak(&self) -> f64 {
        let joints = Joint::ALL.map(|joint| match self.fit(joint) {
            Fit::Made(Seal::Missing) | Fit::Open => f64::INFINITY,
            Fit::Made(_) | Fit::Capped | Fit::Untouched => self.seeps(joint),
        });
        joints.iter().sum()
    }

    /// A joint is apart.
    pub fn apart(&self, joint: Joint) -> bool {
        matches!(self.fit(joint), Fit::Open | Fit::Capped)
    }

    /// Greatest gauge pressure behind a joint, Pa, and whether liquid is there.
    pub fn behind(&self, plant: &Plant, joint: Joint) -> (f64, bool) {
        let mut worst = (0.0, false);
        for &end in joint.opens() {
            let s = &plant.network.node(self.nodes[end]).state;
            worst = (
                f64::max(worst.0, s.p - plant.day().p),
                worst.1 || s.m_liq > 1e-3,
            );
        }
        worst
    }

    /// The volume of the loop that a port leads into.
    pub fn port_node(&self, side: Side) -> NodeId {
        self.nodes[self.port_end(side)]
    }

    /// The same behind a port.
    pub fn behind_port(&self, plant: &Plant, side: Side) -> f64 {
        plant.network.node(self.port_node(side)).state.p - plant.day().p
    }

    fn leaks(&self, coupled: [bool; 2]) -> [Leak; ENDS] {
        let mut leaks = [Leak::default(); ENDS];
        for joint in Joint::ALL {
            let fit = self.fit(joint);
            for &end in joint.opens() {
                let l = &mut leaks[end];
                match fit {
                    Fit::Open => l.open_ends += 1.0,
                    Fit::Made(Seal::Missing) => l.hole += NO_RING,
                    Fit::Made(_) | Fit::Capped | Fit::Untouched => {
                        l.seep += self.seeps(joint) / joint.opens().len() as f64;
                    }
                }
            }
        }
        for (side, coupled) in [Side::Low, Side::High].into_iter().zip(coupled) {
            if !coupled {
                let (hole, seeps) = self.ports[side as usize].lets();
                leaks[self.port_end(side)].hole += hole;
                leaks[self.port_end(side)].seep += seeps;
            }
        }
        if let Some(port) = self.spare {
            let (hole, seeps) = port.lets();
            let end = match self.low_tap {
                LowPort::Accumulator => SUCTION,
                LowPort::Compressor => ACCUMULATOR,
            };
            leaks[end].hole += hole;
            leaks[end].seep += seeps;
        }
        for (leak, work) in leaks.iter_mut().zip(&self.work) {
            if work.left > 0.0 {
                leak.hole += work.hole;
            }
        }
        leaks
    }

    /// Which volumes hands have left open, or keep open now, with couplers on or off: a joint apart or made up without its O-ring, a port
    /// without core and cap.
    fn open_by_hand(&self, coupled: [bool; 2]) -> [bool; ENDS] {
        let mut open = self.work.map(|w| w.left > 0.0);
        for joint in Joint::ALL {
            let apart = match self.fit(joint) {
                Fit::Open => true,
                Fit::Made(Seal::Missing) => self.was_opened(joint),
                Fit::Made(_) | Fit::Capped | Fit::Untouched => false,
            };
            for &end in joint.opens() {
                open[end] |= apart;
            }
        }
        for (side, coupled) in [Side::Low, Side::High].into_iter().zip(coupled) {
            open[self.port_end(side)] |= !coupled && self.ports[side as usize].lets().0 > 0.0;
        }
        open
    }

    /// Something stands open that hands have opened.
    pub fn left_open(&self, coupled: [bool; 2]) -> bool {
        self.open_by_hand(coupled).contains(&true)
    }

    /// Oil that leaves by joints and ports in all, kg/s.
    pub(crate) fn oil_out(&self, net: &Network) -> f64 {
        let links = self.links.iter().map(|id| net.link(*id));
        links.map(|link| link.flow.max(0.0) * link.oil).sum()
    }

    /// What blows out of all that, kg/s: it is seen and heard.
    pub fn blows(&self, net: &Network, coupled: [bool; 2]) -> f64 {
        let open = self.open_by_hand(coupled).into_iter().zip(self.links);
        open.filter(|(open, _)| *open)
            .map(|(_, link)| net.link(link).flow.max(0.0))
            .sum()
    }

    /// Where most air flows in through all that, and how much in all, kg/s: it is heard.
    pub fn draws(&self, net: &Network, coupled: [bool; 2]) -> Option<(Spot, f64)> {
        let open = self.open_by_hand(coupled);
        let inward = |end: usize| (-net.link(self.links[end]).flow).max(0.0);
        let all: f64 = (0..ENDS).filter(|end| open[*end]).map(inward).sum();
        // Work at every joint opens every end; work at a port opens its own.
        let at_all = self.work.iter().all(|w| w.left > 0.0);
        let apart =
            |j: &Joint| matches!(self.fit(*j), Fit::Open | Fit::Made(Seal::Missing)) || at_all;
        let joints = Joint::ALL.into_iter().filter(apart).map(|j| {
            let flow = j.opens().iter().map(|end| inward(*end)).sum();
            (Spot::Joint(j), flow)
        });
        let ports =
            [(Side::Low, Site::LowPort), (Side::High, Site::HighPort)].map(|(side, site)| {
                let end = self.port_end(side);
                (Spot::Site(site), if open[end] { inward(end) } else { 0.0 })
            });
        // A joint goes before the port beside it: it is the wider hole.
        let most = ports
            .into_iter()
            .chain(joints)
            .max_by(|a: &(Spot, f64), b| a.1.total_cmp(&b.1));
        most.filter(|_| all > 0.0).map(|(at, _)| (at, all))
    }

    /// Sets the law of every way out. A seal that only seeps is pressed shut by the atmosphere: a vacuum does not show it.
    pub fn set_laws(&self, net: &mut Network, coupled: [bool; 2]) {
        for (leak, link) in self.leaks(coupled).iter().zip(self.links) {
            let k = leak.constant(net.table());
            let law = if leak.open_ends + leak.hole > 0.0 {
                Law::Passage(k)
            } else {
                Law::OneWay(k)
            };
            net.set_law(link, law);
        }
    }

    /// Hands work at a port or at what screws in beside it for `time` seconds: its bore stands open meanwhile.
    pub fn work_at_port(&mut self, side: Side, time: f64) {
        self.work[self.port_end(side)] = Work {
            hole: BARE,
            left: time,
        };
    }

    /// Hands take every joint apart and make it up again within `time` seconds: every end stands open meanwhile.
    pub fn work_at_all(&mut self, time: f64) {
        self.work = [Work {
            hole: OPEN_END,
            left: time,
        }; ENDS];
    }

    /// Lets `dt` seconds of such work pass; true when a hole is shut by it.
    pub fn pass(&mut self, dt: f64) -> bool {
        let mut shut = false;
        for work in &mut self.work {
            let open = work.left > 0.0;
            work.left = (work.left - dt).max(0.0);
            shut |= open && work.left <= 0.0;
        }
        shut
    }

    /// Every joint has been made up with a new oiled O-ring.
    pub fn all_new(&self) -> bool {
        self.joints.iter().all(|f| *f == Fit::Made(Seal::NewOiled))
    }

    /// Lets the open ends breathe for `dt` seconds.
    pub fn breathe(&self, plant: &mut Plant, dt: f64) {
        if self.joints.iter().all(|f| *f != Fit::Open) {
            return;
        }
        let p_room = plant.day().p;
        // Ports do not breathe: a core's hole is too narrow.
        for (leak, node) in self.leaks([true; 2]).iter().zip(self.nodes) {
            let at_rest = (plant.network.node(node).state.p - p_room).abs() < AT_REST;
            if leak.open_ends > 0.0 && at_rest {
                plant.network.breathe(node, leak.open_ends * BREATH * dt);
            }
        }
    }

    /// What escapes at a joint now, kg/s: all gas, and the refrigerant in it.
    pub fn escapes(&self, net: &Network, joint: Joint, coupled: [bool; 2]) -> Escape {
        let mine = match self.fit(joint) {
            Fit::Open => k_from_hole(CD, OPEN_END),
            Fit::Made(Seal::Missing) => k_from_hole(CD, NO_RING),
            Fit::Made(_) | Fit::Capped | Fit::Untouched => {
                seep(net.table(), self.seeps(joint) / joint.opens().len() as f64)
            }
        };
        let leaks = self.leaks(coupled);
        let mut sum = Escape::default();
        for &end in joint.opens() {
            let part = self.share(net, end, mine, &leaks[end]);
            sum.all += part.all;
            sum.refrigerant += part.refrigerant;
            sum.oil += part.oil;
        }
        sum
    }

    /// Refrigerant that escapes now where hands have made joints up without an O-ring, kg/s.
    pub fn escapes_without_ring(&self, net: &Network, coupled: [bool; 2]) -> f64 {
        let without =
            |joint: &Joint| self.fit(*joint) == Fit::Made(Seal::Missing) && self.was_opened(*joint);
        let joints = Joint::ALL.into_iter().filter(without);
        joints
            .map(|joint| self.escapes(net, joint, coupled).refrigerant)
            .sum()
    }

    /// What escapes at a port now.
    pub fn escapes_at_port(&self, net: &Network, side: Side, coupled: [bool; 2]) -> Escape {
        if coupled[side as usize] {
            return Escape::default();
        }
        let (port, end) = (self.ports[side as usize], self.port_end(side));
        let (hole, seeps) = port.lets();
        let mine = k_from_hole(CD, hole) + seep(net.table(), seeps);
        self.share(net, end, mine, &self.leaks(coupled)[end])
    }

    /// What of a volume's outflow a passage `mine` has.
    fn share(&self, net: &Network, end: usize, mine: f64, leak: &Leak) -> Escape {
        let all = leak.constant(net.table());
        if all <= 0.0 {
            return Escape::default();
        }
        let node = net.node(self.nodes[end]);
        let link = net.link(self.links[end]);
        let out = link.flow.max(0.0) * mine / all;
        Escape {
            all: out,
            refrigerant: out * refrigerant_share(node),
            oil: out * link.oil,
        }
    }
}

/// Share of a volume's gas that is refrigerant; all of it where there is only liquid.
pub fn refrigerant_share(node: &Node) -> f64 {
    let gas = node.state.m_gas + node.content[AIR];
    if gas > 0.0 {
        node.state.m_gas / gas
    } else {
        1.0
    }
}

/// What leaves at one place, kg/s.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Escape {
    /// All of it, be it refrigerant or nitrogen.
    pub all: f64,
    /// Refrigerant.
    pub refrigerant: f64,
    /// Oil.
    pub oil: f64,
}

impl Leak {
    /// All of it as one passage constant.
    fn constant(&self, table: &Table) -> f64 {
        k_from_hole(CD, self.open_ends * OPEN_END + self.hole) + seep(table, self.seep)
    }
}

/// Passage constant of a seeping that lets so much (kg/s) out of a loop at rest at 20 degC.
fn seep(table: &Table, standing: f64) -> f64 {
    let sat = table.sat(STATED_AT);
    // Gas of that pressure chokes.
    standing / choked(sat.rho_g, sat.p)
}
