//! Finding a leak: electronic detector, soap, dye and lamp. What each shows follows from what escapes there; nothing is drawn by
//! lot: a chance of finding is a signal against a threshold.

use lowside_plant::{leak::Site, plant::Plant, state::R_AIR};
use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{
        Error as _,
        value::{self, StrDeserializer},
    },
};

use crate::{
    joints::{self, Escape, GRAM_A_YEAR, Joint, Side},
    shop::Shop,
};

/// A place to search: a joint, or a site of a part or port. In text one name, as `accumulator-out` or `shaft-seal`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// A joint.
    Joint(Joint),
    /// A part of the loop, or the core of a port.
    Site(Site),
}

/// How many places there are to search.
pub const SPOTS: usize = Joint::ALL.len() + Site::ALL.len();

impl Spot {
    /// All of them: the joints, then the sites.
    pub fn all() -> impl Iterator<Item = Self> {
        let joints = Joint::ALL.into_iter().map(Self::Joint);
        joints.chain(Site::ALL.into_iter().map(Self::Site))
    }

    /// Its place among all of them.
    pub fn index(self) -> usize {
        match self {
            Self::Joint(joint) => joint as usize,
            Self::Site(site) => Joint::ALL.len() + site as usize,
        }
    }

    /// Gauge pressure behind it, Pa.
    pub fn pressure(self, plant: &Plant, shop: &Shop) -> f64 {
        match self {
            Self::Joint(joint) => shop.openings.behind(plant, joint).0,
            Self::Site(site) => {
                plant.network.node(site.node(&plant.circuit)).state.p - plant.day().p
            }
        }
    }

    /// What escapes there now.
    pub fn escape(self, plant: &Plant, shop: &Shop) -> Escape {
        let coupled = [shop.hands.low_coupled, shop.hands.high_coupled];
        let net = &plant.network;
        let site = match self {
            Self::Joint(joint) => return shop.openings.escapes(net, joint, coupled),
            Self::Site(site) => site,
        };
        let port = |side| shop.openings.escapes_at_port(net, side, coupled);
        let core = match site {
            Site::LowPort => port(Side::Low),
            Site::HighPort => port(Side::High),
            _ => Escape::default(),
        };
        let out = plant.leaks_out(site);
        let node = net.node(site.node(&plant.circuit));
        Escape {
            all: core.all + out,
            refrigerant: core.refrigerant + out * joints::refrigerant_share(node),
            oil: core.oil + plant.oil_leaks_out(site),
        }
    }
}

impl Serialize for Spot {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Joint(joint) => joint.serialize(s),
            Self::Site(site) => site.serialize(s),
        }
    }
}

impl<'de> Deserialize<'de> for Spot {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let name = String::deserialize(d)?;
        let text = || StrDeserializer::<value::Error>::new(&name);
        match (Joint::deserialize(text()), Site::deserialize(text())) {
            (Ok(joint), _) => Ok(Self::Joint(joint)),
            (_, Ok(site)) => Ok(Self::Site(site)),
            (Err(joints), Err(sites)) => {
                let sites = sites.to_string();
                let names = sites.split_once("one of ").map_or("", |(_, names)| names);
                Err(D::Error::custom(format!("{joints}, {names}")))
            }
        }
    }
}

/// The three settings of an electronic detector: what it has to find (SAE J2791), g of refrigerant a year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sensitivity {
    /// 4 g a year.
    High,
    /// 7 g a year.
    Medium,
    /// 14 g a year.
    Low,
}

impl Sensitivity {
    /// Least leak found, kg/s.
    pub fn threshold(self) -> f64 {
        GRAM_A_YEAR
            * match self {
                Self::High => 4.0,
                Self::Medium => 7.0,
                Self::Low => 14.0,
            }
    }
}

/// With what a place was searched.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Means {
    /// Electronic detector.
    Detector(Sensitivity),
    /// Soap.
    Soap,
    /// Lamp, with dye in the loop.
    Lamp,
}

/// What a search showed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// With what.
    pub means: Means,
    /// It showed a leak.
    pub found: bool,
    /// How strong against what is just found: 1 at the threshold.
    pub signal: f64,
    /// Least leak that this search would have found there, kg/s; none for the lamp, which shows what has been lost by then.
    pub least: Option<f64>,
    /// Gauge pressure behind the place, Pa.
    pub pressure: f64,
    /// Bay time of the search, s.
    pub at: f64,
}

/// Least gauge pressure under which a search can clear a place, Pa: 50 psi (SAE J1628; from memory).
pub const PROVING: f64 = 345e3;

impl Finding {
    fn new(
        means: Means,
        signal: f64,
        least: Option<f64>,
        plant: &Plant,
        shop: &Shop,
        spot: Spot,
    ) -> Self {
        Self {
            means,
            found: signal >= 1.0,
            signal,
            least,
            pressure: spot.pressure(plant, shop),
            at: shop.clock,
        }
    }

    /// Nothing was found by a search that would have found what a detector at its coarsest has to, 14 g a year, with pressure enough
    /// in the loop.
    pub fn clears(&self) -> bool {
        !self.found
            && self
                .least
                .is_some_and(|least| least <= Sensitivity::Low.threshold())
            && self.pressure >= PROVING
    }
}

/// Distance at which a detector has to find its leak, m: 3/8 in (SAE J2791; from memory).
const TESTED_AT: f64 = 9.5e-3;
/// Nearest that counts, m: the tip touches.
const TOUCHES: f64 = 3e-3;
/// Wind that halves what reaches the tip, m/s (own figure, plausible 0.2-1).
const HALVES: f64 = 0.5;
/// Wind of fans and belt around the joints while the engine runs, m/s (own figure).
const ENGINE_WIND: f64 = 3.0;
/// Least escape that makes bubbles, m3/s: 1276 g of R-134a a year (SAE J1628) at 20 degC and one atmosphere, 4.25 kg/m3.
const BUBBLES: f64 = 1276.0 * GRAM_A_YEAR / 4.25;
/// Least loss since the dye went in that shows under the lamp, kg (own figure: a drop of oil).
const SHOWS: f64 = 0.05e-3;
/// Gas constant, J/(mol K).
const R: f64 = 8.314_462_618;

/// Holds the tip of a detector so far from a place (m), in a wind (m/s).
pub fn sniff(
    plant: &Plant,
    shop: &Shop,
    spot: Spot,
    sensitivity: Sensitivity,
    distance: f64,
    wind: f64,
) -> Finding {
    let engine = if plant.settings.engine_on {
        ENGINE_WIND
    } else {
        0.0
    };
    let wind = (wind + engine) / HALVES;
    // The plume is as wide as it is far away: what the tip draws falls with the square of the distance.
    let near = TESTED_AT / distance.max(TOUCHES);
    let reaches = near * near / (1.0 + wind * wind);
    let least = sensitivity.threshold() / reaches;
    let signal = spot.escape(plant, shop).refrigerant / least;
    Finding::new(
        Means::Detector(sensitivity),
        signal,
        Some(least),
        plant,
        shop,
        spot,
    )
}

/// Brushes soap on a place.
pub fn soap(plant: &Plant, shop: &Shop, spot: Spot) -> Finding {
    let e = spot.escape(plant, shop);
    let day = plant.day();
    let refrigerant = plant.network.table().molar_mass() * day.p / (R * day.t);
    let other = day.p / (R_AIR * day.t);
    let volume = e.refrigerant / refrigerant + (e.all - e.refrigerant).max(0.0) / other;
    let (signal, least) = (volume / BUBBLES, BUBBLES * refrigerant);
    Finding::new(Means::Soap, signal, Some(least), plant, shop, spot)
}

/// Shines the lamp on a place.
pub fn lamp(plant: &Plant, shop: &Shop, spot: Spot) -> Finding {
    let signal = shop.stains[spot.index()] / SHOWS;
    Finding::new(Means::Lamp, signal, None, plant, shop, spot)
}
