//! Everything a person can do to a bay. A log of these, with ticks, is the whole history.

use lowside_fluids::Gas;
use lowside_plant::plant::Plant;
use lowside_shop::{
    Shop,
    detect::{Sensitivity, Spot},
    flush::Flush,
    identifier::Port,
    joints::{Joint, Seal, Side, Tap},
    label::Particulars,
    meters::Point,
    oil::OilKind,
    parts::Part,
    vacuum::GaugePlace,
};
use lowside_units::{
    AbsolutePressure, GaugePressure, Length, Mass, Ratio, RotationSpeed, Speed, Temperature,
    Volume, VolumeFlow,
};
use serde::{Deserialize, Serialize};

mod bench;
mod caution;
mod gauge_set;
mod instruments;
mod pump;
mod refused;
mod retrofit;
mod text;
mod vehicle;
mod vessel;

pub use caution::Caution;
pub use refused::Refused;

/// An act. In text form `{"do":"engine","on":true}`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(remote = "Self", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Action {
    /// Start or stop the engine.
    Engine {
        /// Run it?
        on: bool,
    },
    /// Set the engine speed.
    EngineSpeed {
        /// 500 to 5000 rpm.
        speed: RotationSpeed,
    },
    /// Press the A/C button.
    AirConditioning {
        /// On?
        on: bool,
    },
    /// Set the blower step.
    Blower {
        /// 0 (off) to the vehicle's highest.
        step: u8,
    },
    /// Move the recirculation door.
    Recirculation {
        /// Shut to the outside?
        on: bool,
    },
    /// Road speed (a fan before the grille stands for it).
    RoadSpeed {
        /// 0 to 144 km/h.
        speed: Speed,
    },
    /// Open or shut windows and doors.
    Windows {
        /// Open?
        on: bool,
    },
    /// Change the day's temperature.
    Ambient {
        /// -10 to 50 degC.
        temperature: Temperature,
    },
    /// Change the day's relative humidity.
    Humidity {
        /// 5 to 100 %.
        share: Ratio,
    },
    /// Hang the gauge set on the wall and take down the one for a gas; couplers off and nothing on the service hose.
    GaugeSet {
        /// Whose fittings its hoses have.
        gas: Gas,
    },
    /// Put the low-side coupler on its port, or take it off.
    LowCoupler {
        /// On?
        on: bool,
    },
    /// Go to the other low-side port, where the vehicle has two; the coupler has to be off.
    LowTap {
        /// Where.
        at: Tap,
    },
    /// Put the high-side coupler on its port, or take it off.
    HighCoupler {
        /// On?
        on: bool,
    },
    /// Turn the low hand valve.
    LowValve {
        /// 0 (shut) to 1 (open).
        open: Ratio,
    },
    /// Turn the high hand valve.
    HighValve {
        /// 0 (shut) to 1 (open).
        open: Ratio,
    },
    /// Crack the service hose at the manifold to purge it, or tighten it.
    Purge {
        /// Cracked?
        on: bool,
    },
    /// Screw a full can onto the service hose (a used one goes to the shelf).
    TakeCan,
    /// Screw a full can of a certain gas onto the service hose: right or wrong, R-134a or R-12 (each other's only, and the
    /// vehicle's own).
    TakeCanOf {
        /// What the can holds.
        gas: Gas,
    },
    /// Take a sample at a service port into the refrigerant identifier.
    Identify {
        /// Which port; its coupler has to be on.
        port: Port,
    },
    /// Take the can off the service hose.
    DropCan,
    /// Open or shut the can's tap.
    Tap {
        /// Open?
        on: bool,
    },
    /// Turn the can over or back.
    Invert {
        /// Valve down?
        on: bool,
    },
    /// Stand the can in a water bath.
    Bath {
        /// Temperature of the water, 0 to 100 degC; none takes it out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        temperature: Option<Temperature>,
    },
    /// Change the day's air pressure, as by another altitude.
    AirPressure {
        /// 60 to 110 kPa.
        pressure: AbsolutePressure,
    },
    /// Screw the vacuum pump onto the service hose at rest, its isolation valve shut; what hangs there is put aside.
    TakePump {
        /// Free-air displacement, 1.5 to 8 cfm.
        speed: VolumeFlow,
    },
    /// Start or stop the vacuum pump.
    Pump {
        /// Let it turn?
        on: bool,
    },
    /// Open or shut the isolation valve at the pump.
    Isolation {
        /// Open?
        on: bool,
    },
    /// Open or shut the gas ballast of the pump.
    Ballast {
        /// Open?
        on: bool,
    },
    /// Change the pump's oil.
    PumpOil,
    /// Move the electronic vacuum gauge.
    VacuumGauge {
        /// To the pump's inlet, or to the loop.
        at: GaugePlace,
    },
    /// Screw a full self-sealing can onto the service hose.
    TakeSelfSealingCan,
    /// Screw the needle of the can's tap to a place: 0 % is all the way in and pierces the can, backed out lets it flow.
    TapScrew {
        /// 0 (in) to 1 (backed out all the way).
        back: Ratio,
    },
    /// Connect a charging cylinder, its valve shut; what hangs on the hose is put aside.
    TakeCylinder {
        /// What is in it; its fitting mates with no other gas's hose.
        gas: Gas,
        /// 500 g to 13.6 kg.
        holds: Mass,
    },
    /// Open the cylinder's valve and let it shut itself when so much has left it.
    Dose {
        /// 10 g to 5 kg.
        mass: Mass,
    },
    /// Connect the recovery machine with its cylinder, switched off; what hangs on the hose is put aside.
    TakeMachine {
        /// The gas it is kept for; its fitting mates with no other gas's hose.
        gas: Gas,
    },
    /// Start or stop the recovery machine.
    Machine {
        /// Run it?
        on: bool,
    },
    /// Set the vacuum at which the recovery machine stops itself.
    MachineStop {
        /// -90 to -5 kPa gauge.
        pressure: GaugePressure,
    },
    /// Give the recovery machine another cylinder; the one before is put on the shelf.
    ChangeCylinder {
        /// What it holds already, 0 to 10 kg.
        holds: Mass,
    },
    /// Take a joint apart. Under pressure it vents, and hurts.
    OpenJoint {
        /// Which.
        joint: Joint,
    },
    /// Cap both ends of a joint that is apart.
    CapJoint {
        /// Which.
        joint: Joint,
    },
    /// Put a joint together.
    CloseJoint {
        /// Which.
        joint: Joint,
        /// With what O-ring.
        seal: Seal,
    },
    /// Lay a part on the bench; its joints have to be apart.
    RemovePart {
        /// Which.
        part: Part,
    },
    /// Put the part that lies on the bench back in.
    RefitPart {
        /// Which.
        part: Part,
    },
    /// Throw the part on the bench away and lay a new one there.
    NewPart {
        /// Which.
        part: Part,
    },
    /// Push the orifice tube on the bench into its line.
    FitOrifice {
        /// Its bore, 0.8 to 3 mm.
        bore: Length,
        /// Inlet screen to the evaporator: the wrong way round.
        reversed: bool,
        /// With its O-rings.
        rings: bool,
    },
    /// Turn a part on the bench over above the measuring cup.
    DrainPart {
        /// Which.
        part: Part,
    },
    /// Wash a coil or line on the bench through.
    FlushPart {
        /// Which: condenser, liquid line or evaporator.
        part: Part,
        /// With what.
        with: Flush,
    },
    /// Pour oil into a part on the bench.
    PourOil {
        /// Which part.
        part: Part,
        /// 1 to 500 mL.
        volume: Volume,
        /// Which oil.
        oil: OilKind,
    },
    /// Press oil into the loop through the low-side port.
    InjectOil {
        /// 1 to 500 mL.
        volume: Volume,
        /// Which oil.
        oil: OilKind,
    },
    /// Screw a cap onto a port, or take it off.
    PortCap {
        /// Which port.
        side: Side,
        /// On?
        on: bool,
    },
    /// Screw a new core into a port, or the core out of it.
    Core {
        /// Which port.
        side: Side,
        /// In?
        fitted: bool,
    },
    /// Screw a conversion fitting for R-134a over an R-12 port: it locks and does not come off again. Under pressure it blows.
    ConvertPort {
        /// Which port.
        side: Side,
        /// With the old core changed for a new one (else left in under it)?
        new_core: bool,
    },
    /// Screw a high-pressure cut-out into the discharge line where there is none. Under pressure it blows.
    FitCutOut {
        /// Where it opens, 2000 to 3300 kPa gauge.
        opens: GaugePressure,
    },
    /// Turn the cycling switch's screw by quarters of a turn: negative is anticlockwise and lowers both its points.
    SwitchScrew {
        /// -8 to 8, two whole turns either way from where it came in all.
        quarters: i8,
    },
    /// Take every joint apart in turn and put it together with new oiled O-rings.
    RenewSeals,
    /// Connect dry nitrogen, its regulator backed off and its valve shut; what hangs on the hose is put aside.
    TakeNitrogen,
    /// Set the nitrogen regulator.
    Regulator {
        /// 0 to 1034 kPa gauge (150 psi).
        pressure: GaugePressure,
    },
    /// Search a place with the electronic detector.
    Sniff {
        /// Where.
        at: Spot,
        /// Its setting.
        sensitivity: Sensitivity,
        /// Distance of its tip, 0 to 100 mm.
        distance: Length,
        /// Draught in the bay, 0 to 10 m/s.
        wind: Speed,
    },
    /// Brush soap on a place.
    Soap {
        /// Where.
        at: Spot,
    },
    /// Press dye into the loop through the low-side port.
    Dye,
    /// Shine the lamp on a place.
    Lamp {
        /// Where.
        at: Spot,
    },
    /// Clamp the thermometer on a line or coil, or take it off.
    Clamp {
        /// Where; left out takes it off.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        at: Option<Point>,
    },
    /// Connect the meter at the clutch's plug, or take it off.
    ClutchMeter {
        /// Connected?
        on: bool,
    },
    /// Pinch a heater hose off, or let it go.
    HeaterHose {
        /// Pinched off?
        pinched: bool,
    },
    /// Start the stopwatch from zero, or stop it.
    Stopwatch {
        /// Run?
        on: bool,
    },
    /// Write the readings into the job record.
    NoteReadings {
        /// After the work (else before it)?
        after: bool,
    },
    /// Begin the performance test: for eight minutes the readings are held against those of a healthy vehicle of the kind.
    PerformanceTest,
    /// Stick a label under the hood.
    Label {
        /// The charge written on it, 50 g to 3 kg.
        charge: Mass,
        /// The refrigerant; left out, the vehicle's.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        gas: Option<Gas>,
        /// The oil, if it is named.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        oil: Option<OilKind>,
        /// What else a conversion's label says.
        #[serde(default, skip_serializing_if = "Particulars::none")]
        particulars: Particulars,
    },
    /// Take off whatever hangs on the service hose.
    Disconnect,
    /// Set the scale to zero with what stands on it.
    ZeroScale,
}

impl Action {
    /// Does the act, or refuses and changes nothing. True when it hurt somebody.
    ///
    /// # Errors
    /// [`Refused`], naming the field and its limits or what is missing.
    pub(crate) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<bool, Refused> {
        let mut hurt = false;
        match self {
            Self::Engine { .. }
            | Self::EngineSpeed { .. }
            | Self::AirConditioning { .. }
            | Self::Blower { .. }
            | Self::Recirculation { .. }
            | Self::RoadSpeed { .. }
            | Self::Windows { .. }
            | Self::HeaterHose { .. }
            | Self::Ambient { .. }
            | Self::Humidity { .. }
            | Self::AirPressure { .. } => vehicle::apply(self, plant)?,
            Self::LowCoupler { .. }
            | Self::LowTap { .. }
            | Self::HighCoupler { .. }
            | Self::LowValve { .. }
            | Self::HighValve { .. }
            | Self::Purge { .. }
            | Self::GaugeSet { .. } => gauge_set::apply(self, plant, shop)?,
            Self::TakeCan
            | Self::TakeCanOf { .. }
            | Self::DropCan
            | Self::Tap { .. }
            | Self::Invert { .. }
            | Self::Bath { .. }
            | Self::TakeSelfSealingCan
            | Self::TapScrew { .. }
            | Self::TakeCylinder { .. }
            | Self::Dose { .. }
            | Self::TakeMachine { .. }
            | Self::Machine { .. }
            | Self::MachineStop { .. }
            | Self::ChangeCylinder { .. }
            | Self::Disconnect
            | Self::TakeNitrogen
            | Self::Regulator { .. }
            | Self::ZeroScale => vessel::apply(self, plant, shop)?,
            Self::Sniff { .. }
            | Self::Soap { .. }
            | Self::Dye
            | Self::Lamp { .. }
            | Self::Clamp { .. }
            | Self::ClutchMeter { .. }
            | Self::Stopwatch { .. }
            | Self::NoteReadings { .. }
            | Self::PerformanceTest
            | Self::Label { .. } => instruments::apply(self, plant, shop)?,
            Self::Identify { port } => shop.identify(plant, port)?,
            Self::TakePump { .. }
            | Self::Pump { .. }
            | Self::Isolation { .. }
            | Self::Ballast { .. }
            | Self::PumpOil
            | Self::VacuumGauge { .. } => pump::apply(self, plant, shop)?,
            Self::OpenJoint { .. }
            | Self::CapJoint { .. }
            | Self::CloseJoint { .. }
            | Self::RemovePart { .. }
            | Self::RefitPart { .. }
            | Self::NewPart { .. }
            | Self::FitOrifice { .. }
            | Self::DrainPart { .. }
            | Self::FlushPart { .. }
            | Self::PourOil { .. }
            | Self::InjectOil { .. }
            | Self::PortCap { .. }
            | Self::Core { .. } => hurt = bench::apply(self, plant, shop)?,
            Self::ConvertPort { .. }
            | Self::FitCutOut { .. }
            | Self::SwitchScrew { .. }
            | Self::RenewSeals => hurt = retrofit::apply(self, plant, shop)?,
        }
        shop.set_laws(plant);
        Ok(hurt)
    }
}
