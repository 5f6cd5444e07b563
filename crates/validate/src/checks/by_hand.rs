//! The whole job by hand: what a technician can look up or work out for every stage of it, beside what the bay shows.

mod flow;
mod leaks;

use lowside_fluids::{Refrigerant, water};
use lowside_plant::species::{OIL, REFRIGERANT};
use lowside_session::{Event, HoseAct, MachineAct, VehicleAct, VesselAct, greater};
use lowside_shop::{cylinder, ledger::Place, vacuum::MICRON};
use lowside_units::{Mass, Quantity, Ratio};

use super::{
    charge::LABEL,
    shop::{at_rest, opened, pump},
    with,
};
use crate::{
    Job,
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::Runs,
};

/// What fills the section. The charge of a conversion by the 75 to 85 % rule stands under "Conversion".
pub const JOBS: &[Job] = &[
    boiling,
    altitude,
    cylinder_limit,
    oil_shares,
    leaks::capillary,
    leaks::hole,
    flow::inferred,
    start_on_liquid,
];

/// A loop without gas and without a desiccant, which would take the water.
const EMPTY: [&str; 3] = [
    "start.charge=0g",
    "start.air=0.1mg",
    "vehicle.accumulator.desiccant=0g",
];
/// The atmosphere, Pa.
const ATMOSPHERE: f64 = 101_325.0;

/// Temperature, degC, and saturation pressure of water, Pa: steam tables after IAPWS-95, to their printed digits (from memory).
const STEAM: [(f64, f64); 10] = [
    (5.0, 872.6),
    (10.0, 1_228.2),
    (15.0, 1_705.8),
    (20.0, 2_339.3),
    (25.0, 3_169.9),
    (30.0, 4_247.0),
    (35.0, 5_629.0),
    (40.0, 7_384.9),
    (45.0, 9_595.0),
    (50.0, 12_352.0),
];

/// A loop at rest with only water in it stands at the pressure at which water boils on that day.
fn boiling(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Water boils in the loop as deep as the steam table says",
        "Ten temperatures, 5 to 50 degC: the boiling point at the printed pressure within 0.05 K, and the van's empty loop with 5 g of water \
         left in it at rest on such a day within 2 % of that pressure (40 Pa where that is more).",
        "IAPWS-95 (Wagner & Pruss 2002) as steam tables print it, from memory to the digits used",
    );
    let mut ours = Vec::new();
    let mut worst: f64 = 0.0;
    for (c, p) in STEAM {
        worst = worst.max((water::boiling_temperature(p) - 273.15 - c).abs());
        let mut all = EMPTY.to_vec();
        let day = with("day.ambient", c, "degC");
        all.extend([day.as_str(), "start.water=5g", "until=10min"]);
        let run = at_rest(runs, &all, &[])?;
        let by = (0.02 * p).max(40.0);
        let found = run.last().mean;
        check.find(Finding::within(
            format!("{c} degC ({:.0} micron)", p / MICRON),
            found,
            p - by,
            p + by,
            "Pa",
            0,
        ));
        ours.push((c, found));
    }
    check.find(Finding::error(
        "boiling point, largest of ten errors",
        worst,
        0.05,
        "K",
    ));
    check.plots.push(
        Plot::new("An empty loop with water in it", "day, degC", "Pa absolute")
            .log()
            .curve("ours", ours)
            .marks("steam table", STEAM.to_vec()),
    );
    Ok(vec![check])
}

/// Altitude, m, and pressure, Pa, of the standard atmosphere (ISO 2533:1975, from memory to the digits used).
const STANDARD: [(f64, f64); 7] = [
    (0.0, 101_325.0),
    (500.0, 95_461.0),
    (1_000.0, 89_875.0),
    (1_500.0, 84_556.0),
    (2_000.0, 79_495.0),
    (2_500.0, 74_683.0),
    (3_000.0, 70_109.0),
];
/// Pascals of an inch of mercury (NIST SP 811).
const INCH: f64 = 3_386.389;

/// A compound gauge shows a full vacuum as the day's air pressure, the electronic gauge as what is left.
fn altitude(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "A full vacuum read at an altitude",
        "On the compound gauge the air pressure of the standard atmosphere there, to the gauge's half step (1 kPa, 0.3 inHg); about an inch less \
         for each 1 000 ft (0.9 to 1.1); and the same loop reads the same on the absolute gauge at every altitude, to 5 micron.",
        "ISO 2533:1975 standard atmosphere, from memory; the inch for a thousand feet: common practice, no source",
    );
    let (mut points, mut absolute) = (Vec::new(), Vec::new());
    for (z, p) in STANDARD {
        let (day, air) = (
            with("day.pressure", p, "Pa"),
            with("start.air", 3.9 * p / ATMOSPHERE, "g"),
        );
        let run = opened(runs, &[day.as_str(), air.as_str(), "until=30min"], &pump())?;
        let inches = -run.bay.shop().instruments.low.reading() / INCH;
        let asked = p / INCH;
        check.find(Finding::within(
            format!("{z:.0} m: compound gauge"),
            inches,
            asked - 0.3,
            asked + 0.3,
            "inHg of vacuum",
            2,
        ));
        points.push((z, inches));
        absolute.push(run.last().mean / MICRON);
    }
    let feet = (STANDARD[6].0 - STANDARD[0].0) / 304.8;
    check.find(Finding::within(
        "lost for each 1 000 ft, to 3 000 m",
        (points[0].1 - points[6].1) / feet,
        0.9,
        1.1,
        "inHg",
        2,
    ));
    let ends = absolute.iter().fold((f64::INFINITY, 0.0_f64), |(a, b), x| {
        (a.min(*x), greater(b, *x))
    });
    check.find(Finding::within(
        format!("absolute gauge, largest less least ({:.0} micron)", ends.1),
        ends.1 - ends.0,
        0.0,
        5.0,
        "micron",
        1,
    ));
    check.plots.push(
        Plot::new("A full vacuum on the compound gauge", "altitude, m", "inHg")
            .marks("ours", points)
            .curve(
                "standard atmosphere",
                STANDARD.map(|(z, p)| (z, p / INCH)).to_vec(),
            ),
    );
    Ok(vec![check])
}

/// Saturated liquid at 54 degC, kg/m3.
const LIQUID_AT_54: [(Refrigerant, f64); 3] = [
    (Refrigerant::R134a, 1083.22),
    (Refrigerant::R12, 1195.57),
    (Refrigerant::R1234yf, 970.98),
];

/// The recovery cylinder takes four fifths of itself full of liquid at 54 degC, and the machine stops there.
fn cylinder_limit(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "The 80 % rule of a recovery cylinder",
        "Most that a cylinder of 11.9 kg of water may hold: four fifths of it in liquid of 54 degC (130 degF), within 0.2 %. A machine whose \
         cylinder was nearly full stops there of itself, within 1 %.",
        "the rule: 49 CFR 173.304a and SAE J2788, from memory; densities: CoolProp 8.0.0 (papers as under \"Refrigerants\")",
    );
    for (gas, rho) in LIQUID_AT_54 {
        let asked = 0.8 * 11.9e-3 * rho;
        check.find(Finding::within(
            format!("{gas}: limit"),
            cylinder::limit(gas.table()),
            0.998 * asked,
            1.002 * asked,
            "kg",
            3,
        ));
    }
    let asked = 0.8 * 11.9e-3 * LIQUID_AT_54[0].1;
    let holds = Mass::from_kg(asked - 0.4);
    let open = Ratio::from_fraction(1.0);
    let run = at_rest(
        runs,
        &["until=40min"],
        &[
            (
                0.0,
                MachineAct::TakeRecoveryMachine {
                    gas: Refrigerant::R134a,
                }
                .into(),
            ),
            (0.0, MachineAct::ChangeCylinder { holds }.into()),
            (0.0, HoseAct::LowValve { open }.into()),
            (0.0, HoseAct::HighValve { open }.into()),
            (0.0, MachineAct::RecoveryMachine { on: true }.into()),
        ],
    )?;
    let stopped = run
        .bay
        .events()
        .iter()
        .any(|(_, e)| *e == Event::CylinderFull);
    let held = run
        .bay
        .plant()
        .network
        .node(run.bay.shop().manifold.can)
        .content
        .whole()[REFRIGERANT];
    check.find(Finding::holds(
        "the machine on a cylinder that lacks 0.4 kg",
        if stopped {
            "stopped: full"
        } else {
            "did not stop"
        },
        "stops by itself",
        stopped,
    ));
    check.find(Finding::within(
        "what the cylinder then holds",
        held,
        0.99 * asked,
        1.01 * asked,
        "kg",
        3,
    ));
    Ok(vec![check])
}

/// Where the oil of a loop lies once it has run.
fn oil_shares(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Where the oil lies",
        "After ten minutes at 1 500 rpm, 35 degC, of the whole in an eight-ounce loop: compressor (with its suction line) 25 to 50 %, accumulator 25 to 40 %, \
         both coils together 7 to 38 %, each line a few percent (1 to 6).",
        "workshop manuals' oil tables, from memory; coils: Cremaschi & Ardiyansyah 2019, abstract",
    );
    let run = runs.healthy(&["until=10min"])?;
    let whole = run.bay.plant().vehicle.oil.si();
    let share = |place: Place| {
        let entry = run.bay.ledger().into_iter().find(|e| e.place == place);
        100.0 * entry.map_or(f64::NAN, |e| e.content[OIL]) / whole
    };
    for (what, place, least, most) in [
        (
            "compressor and suction line",
            Place::SuctionLine,
            25.0,
            50.0,
        ),
        ("accumulator", Place::Accumulator, 25.0, 40.0),
        ("discharge line", Place::DischargeLine, 1.0, 6.0),
        ("liquid line", Place::LiquidLine, 1.0, 6.0),
    ] {
        check.find(Finding::within(what, share(place), least, most, "%", 1));
    }
    let coils = share(Place::Evaporator) + share(Place::Condenser);
    check.find(
        Finding::within("both coils together", coils, 7.0, 38.0, "%", 1).instead_of(
            "evaporator 15 to 35 %, condenser 5 to 15 %",
            "The trade's tables are of parts taken apart at rest, after the liquid has boiled off; measured in a running loop is what both coils hold.",
        ),
    );
    Ok(vec![check])
}

/// Seconds from the first drop of liquid to the start.
const CHARGED: f64 = 120.0;

/// The engine is started on a high side that was just filled with liquid.
fn start_on_liquid(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "A start right after liquid charging",
        "The label's charge as liquid into the high side of an evacuated loop, 35 degC, two minutes, then a start at 3 000 rpm. Liquid that fills the condenser leaves little \
         of it to condense: within half a minute the high side passes what it settles at by a tenth at least (our figure); the cut-out may open, the relief valve stays shut. \
         That is why one waits and turns the compressor by hand first.",
        "common practice, no source",
    );
    let mut plot = Plot::new("High side after the start", "s", "kPa gauge");
    for (name, gas, label) in [
        ("healthy", Refrigerant::R134a, 1020.0),
        ("healthy-compact", Refrigerant::R134a, 564.0),
        ("healthy-crossover", Refrigerant::R1234yf, 585.0),
    ] {
        let open = |open: f64| {
            HoseAct::HighValve {
                open: Ratio::from_fraction(open),
            }
            .into()
        };
        let run = runs.play(
            name,
            &[
                "engine.on=false",
                "controls.ac=false",
                "start.charge=0g",
                "start.air=0.1mg",
                "day.ambient=35degC",
                "engine.speed=3000rpm",
                "until=12min",
            ],
            &[
                (
                    0.0,
                    VesselAct::TakeCylinder {
                        gas,
                        holds: Mass::from_kg(13.0),
                    }
                    .into(),
                ),
                (0.0, VesselAct::Invert { on: true }.into()),
                (0.0, open(1.0)),
                (
                    0.0,
                    VesselAct::Dose {
                        mass: Mass::from_g(label),
                    }
                    .into(),
                ),
                (CHARGED, open(0.0)),
                (CHARGED, VehicleAct::Engine { on: true }.into()),
                (CHARGED, VehicleAct::AirConditioning { on: true }.into()),
            ],
        )?;
        let after: Vec<_> = run.samples.iter().filter(|s| s.t >= CHARGED).collect();
        let top = after
            .iter()
            .filter(|s| s.t < CHARGED + 30.0)
            .map(|s| s.high)
            .reduce(greater)
            .unwrap_or(f64::NAN);
        let steady = run.on.high;
        let lifted = run
            .bay
            .events()
            .iter()
            .any(|(_, e)| *e == Event::ReliefLifted);
        check.find(Finding::holds(
            format!("{name}: peak"),
            format!("{top:.0} kPag"),
            format!("above 1.1 times the {steady:.0} kPag it settles at"),
            top > 1.1 * steady,
        ));
        check.find(Finding::holds(
            format!("{name}: relief valve"),
            if lifted { "lifted" } else { "shut" },
            "shut",
            !lifted,
        ));
        plot = plot.line(
            name,
            after
                .iter()
                .filter(|s| s.t < CHARGED + 120.0)
                .map(|s| (s.t - CHARGED, s.high))
                .collect(),
        );
    }
    check.find(Finding::not_yet(
        "five minutes' wait lets the liquid run down through the tube and lowers the peak",
        "gravity from volume to volume, down to the evaporator. Study: liquid that drains in exchange for gas (Wallis' flooding limit) through discharge line and \
         condenser alone moves the peak after five minutes by +2 % (healthy 2 423 to 2 473 kPag), since it fills the lower passes instead",
    ));
    check.plots.push(plot);
    Ok(vec![check])
}
