//! Gauge set and hoses: volumes and valves between the loop's ports and whatever hangs on the service hose.

use lowside_plant::{
    flow::k_from_hole,
    network::{Law, LinkId, NodeId, ROOM},
    plant::Plant,
    shell::{Around, Shell, ShellId},
    species::Content,
    state::R_AIR,
    stream::Offtake,
    tube::Tube,
};

use crate::can;

/// Inside volume of a hose 1.5 m long and 4.6 mm wide with its share of the manifold, m3.
pub const HOSE_VOLUME: f64 = 25e-6 + 5e-6;
/// Inside diameter of hose, m (quarter-inch hose; common practice).
pub const HOSE_BORE: f64 = 4.6e-3;
/// Length of a hose, m.
const HOSE_LENGTH: f64 = 1.5;
/// The depressed core of a port, for thin gas: as wide as [`VALVE_AREA`] and a centimetre long (own figure).
const CORE: Tube = Tube::single(2e-3, 10e-3);
/// Half a hose, for thin gas: a volume's pressure is that of its middle.
const HALF_HOSE: Tube = Tube::single(HOSE_BORE, 0.5 * HOSE_LENGTH);
/// Passage of a hand valve or a port with its core, m2 (2 mm channel).
const VALVE_AREA: f64 = 3.1e-6;
/// Passage of the cracked fitting through which a hose is purged, m2.
const PURGE_AREA: f64 = 0.5e-6;
/// Hole that a bursting can opens, m2.
const BURST_AREA: f64 = 400e-6;
/// Discharge coefficient of a sharp passage.
const CD: f64 = 0.65;
/// Liquid share of the can below which an inverted can draws vapour.
const CAN_PULL_THROUGH: f64 = 0.01;

/// Gauge set and hoses: where the shop's volumes and valves stand in the network.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Manifold {
    /// Hose on the low-side port, with the compound gauge.
    pub low_hose: NodeId,
    /// Hose on the high-side port, with the high-pressure gauge.
    pub high_hose: NodeId,
    /// Service hose with the manifold's bar.
    pub service_hose: NodeId,
    /// What hangs on the service hose: can, charging cylinder, the recovery machine's cylinder, or the inlet of the vacuum pump.
    /// Empty when nothing does.
    pub can: NodeId,
    /// Low-side port at the accumulator, and coupler.
    pub low_port: LinkId,
    /// Low-side port at the compressor, where there is one.
    pub compressor_port: Option<LinkId>,
    /// High-side port and coupler.
    pub high_port: LinkId,
    /// Low hand valve.
    pub low_valve: LinkId,
    /// High hand valve.
    pub high_valve: LinkId,
    /// Tap of an upright can, vapour valve of a cylinder, isolation valve of the pump.
    pub tap_vapour: LinkId,
    /// Tap of an inverted can, liquid valve of a cylinder.
    pub tap_liquid: LinkId,
    /// Recovery machine, from the service hose into its cylinder.
    pub machine: LinkId,
    /// End of the service hose, open to the room when nothing hangs on it, or cracked to purge.
    pub hose_end: LinkId,
    /// Wall of the can, through which it bursts, or the pump itself.
    pub can_wall: LinkId,
    /// Which shell of the plant is the can's.
    pub can_shell: ShellId,
}

impl Manifold {
    /// Returns the three hoses: low, high, service.
    pub fn hoses(&self) -> [NodeId; 3] {
        [self.low_hose, self.high_hose, self.service_hose]
    }
}

/// How gas leaves a can by its tap upright: from the top, and while it is `rocked` liquid too, as long as that reaches the valve of a can
/// that lies.
pub fn can_top(rocked: bool) -> Offtake {
    Offtake::Top {
        floods: if rocked { can::ON_ITS_SIDE } else { 0.97 },
    }
}

/// How far a passage is open, as a law.
pub fn opening(area: f64, open: f64) -> Law {
    Law::Passage(k_from_hole(CD, area * open))
}

/// Law of a hand valve or port at `open` (0 to 1).
pub fn valve(open: f64) -> Law {
    opening(VALVE_AREA, open)
}

/// Law of a valve that lets nothing back.
pub fn check_valve(open: f64) -> Law {
    Law::OneWay(k_from_hole(CD, VALVE_AREA * open))
}

/// Law of the service hose's end.
pub fn hose_end(open_end: bool, purging: bool) -> Law {
    let bore = core::f64::consts::FRAC_PI_4 * HOSE_BORE * HOSE_BORE;
    if open_end {
        opening(bore, 0.3)
    } else if purging {
        opening(PURGE_AREA, 1.0)
    } else {
        Law::Passage(0.0)
    }
}

/// Law of a burst wall.
pub fn burst(burst: bool) -> Law {
    opening(BURST_AREA, if burst { 1.0 } else { 0.0 })
}

/// Adds hoses, valves and an empty place for a can to a vehicle's network.
///
/// Low and high hose hold what the loop's evacuation left in them (`residue`, Pa of air); the service hose is open to the room.
pub fn connect(plant: &mut Plant, residue: f64) -> Manifold {
    let day = plant.day();
    let t = day.t;
    let air = |p: f64| Content::air(p * HOSE_VOLUME / (R_AIR * t));
    let net = &mut plant.network;
    let slip = Offtake::Slip;
    let low_hose = net.add_node("low-side hose", HOSE_VOLUME, air(residue), t, 0.03);
    let high_hose = net.add_node("high-side hose", HOSE_VOLUME, air(residue), t, 0.03);
    let open = net.room_air(HOSE_VOLUME);
    let service_hose = net.add_node("service hose", HOSE_VOLUME, open, t, 0.03);
    let can = net.add_node("can", can::VOLUME, Content::default(), t, 0.0);
    let shut = Law::Passage(0.0);
    let (loop_low, loop_high) = (plant.circuit.low_side(), plant.circuit.high_side());
    let top = Offtake::Top { floods: 0.9 };
    let low_port = net.add_link("low-side port", (low_hose, slip), (loop_low, top), shut);
    let high_port = net.add_link("high-side port", (high_hose, slip), (loop_high, slip), shut);
    let low_valve = net.add_link(
        "low hand valve",
        (service_hose, slip),
        (low_hose, slip),
        shut,
    );
    let high_valve = net.add_link(
        "high hand valve",
        (service_hose, slip),
        (high_hose, slip),
        shut,
    );
    let tap_vapour = net.add_link("can tap", (can, can_top(false)), (service_hose, slip), shut);
    let tap_liquid = net.add_link(
        "can tap",
        (
            can,
            Offtake::Bottom {
                pull_through: CAN_PULL_THROUGH,
            },
        ),
        (service_hose, slip),
        shut,
    );
    let machine = net.add_link("recovery machine", (service_hose, slip), (can, slip), shut);
    let hose_end = net.add_link("service hose end", (service_hose, slip), (ROOM, slip), shut);
    let can_wall = net.add_link("can wall", (can, slip), (ROOM, slip), shut);
    let loop_suction = plant.circuit.compressor_inlet();
    let compressor_port = plant.vehicle.compressor_port.then(|| {
        let name = "low-side port at the compressor";
        let link = net.add_link(name, (low_hose, slip), (loop_suction, slip), shut);
        net.set_tubes(link, [CORE, HALF_HOSE]);
        link
    });
    let none = Tube::default();
    for (link, tubes) in [
        (low_port, [CORE, HALF_HOSE]),
        (high_port, [CORE, HALF_HOSE]),
        (low_valve, [HALF_HOSE, HALF_HOSE]),
        (high_valve, [HALF_HOSE, HALF_HOSE]),
        (tap_vapour, [HALF_HOSE, none]),
        (tap_liquid, [HALF_HOSE, none]),
        (hose_end, [HALF_HOSE, none]),
    ] {
        net.set_tubes(link, tubes);
    }
    let can_shell = walls(plant, [low_hose, high_hose, service_hose], can, t);
    Manifold {
        low_hose,
        high_hose,
        service_hose,
        can,
        low_port,
        compressor_port,
        high_port,
        low_valve,
        high_valve,
        tap_vapour,
        tap_liquid,
        machine,
        hose_end,
        can_wall,
        can_shell,
    }
}

/// Adds the walls of hoses and can, all at `t`; returns the can's.
fn walls(plant: &mut Plant, hoses: [NodeId; 3], can: NodeId, t: f64) -> ShellId {
    // Rubber hose: about 120 g at 1.5 kJ/(kg K), in still air.
    for node in hoses {
        plant.shells.add(Shell {
            node,
            t,
            metal: 180.0,
            inside: 2.0,
            outside: 0.8,
            around: Around::Room,
        });
    }
    plant.shells.add(Shell {
        node: can,
        t,
        metal: can::METAL,
        inside: can::INSIDE,
        outside: can::IN_AIR,
        around: Around::Room,
    })
}
