//! How joints, parts and papers look to whoever works there.

use lowside_fluids::Refrigerant;
use lowside_session::Bay;
use lowside_shop::{
    Shop,
    detect::{Finding, Means},
    joints::{Fit, Joint, Seal},
    oil::worksheet,
    parts::{Part, look},
    record::Performance,
    shop::SCREW,
};
use lowside_units::Quantity;

use crate::{
    performance_test::{asked, progress},
    senses::Look,
};

/// How a joint looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JointLook {
    /// Nobody here has taken it apart: what seals it is not seen.
    Unopened,
    /// It was put together here, with this seal.
    Made(Seal),
    /// Apart, open to the room.
    Open,
    /// Apart, capped.
    Capped,
}

impl JointLook {
    pub(super) fn of(shop: &Shop, joint: Joint) -> Self {
        match shop.openings.fit(joint) {
            Fit::Open => Self::Open,
            Fit::Capped => Self::Capped,
            Fit::Made(seal) if shop.openings.was_opened(joint) => Self::Made(seal),
            Fit::Made(_) | Fit::Untouched => Self::Unopened,
        }
    }
}

/// What a search for a leak showed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Searched {
    /// With what.
    pub means: Means,
    /// It showed a leak.
    pub found: bool,
}

impl From<&Finding> for Searched {
    fn from(f: &Finding) -> Self {
        Self {
            means: f.means,
            found: f.found,
        }
    }
}

/// A part as hands and eyes have it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartLook {
    /// It lies on the bench.
    pub out: bool,
    /// What is seen in it; none while it is shut.
    pub look: Option<Look>,
    /// Oil measured out of it so far, kg.
    pub drained: f64,
    /// Oil poured into it so far, kg.
    pub poured: f64,
    /// New ones laid ready so far.
    pub renewed: u32,
    /// It lies on the bench without its caps.
    pub bare: bool,
    /// Its bolts are out.
    pub unbolted: bool,
}

impl PartLook {
    pub(super) fn of(bay: &Bay, part: Part) -> Self {
        let (shop, at) = (bay.shop(), part as usize);
        let open = || part.joints().iter().any(|j| shop.openings.apart(*j));
        let seen = match &shop.bench[at] {
            Some(out) => Some(out.seen),
            None => open().then(|| look(bay.plant(), part)),
        };
        Self {
            out: shop.bench[at].is_some(),
            look: seen.as_ref().map(Look::from),
            drained: shop.oil.drained[at],
            poured: shop.oil.poured[at],
            renewed: shop.renewed[at],
            bare: shop.bench[at].is_some_and(|b| b.bare),
            unbolted: shop.is_unbolted(part),
        }
    }
}

/// The performance test as its sheet has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestSheet {
    /// What it asks for and is so.
    pub asked: [bool; 6],
    /// Share that is done, while it runs.
    pub progress: Option<f64>,
    /// It was broken off.
    pub disturbed: bool,
    /// What the last one found.
    pub found: Option<Performance>,
}

impl TestSheet {
    pub(super) fn of(bay: &Bay) -> Self {
        Self {
            asked: asked(bay),
            progress: progress(bay),
            disturbed: bay.test_disturbed(),
            found: bay.performance(),
        }
    }
}

/// What is printed on the vehicle and its parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Printed {
    /// Charge on the maker's label, kg.
    pub label_charge: f64,
    /// The gas on that label.
    pub built_for: Refrigerant,
    /// Where the cycling switch opens and closes by its data sheet and the turns of its screw, Pa gauge.
    pub cycling: [f64; 2],
    /// Where the high-pressure cut-out opens, Pa gauge; none where there is none.
    pub cut_out: Option<f64>,
}

impl Printed {
    pub(super) fn of(bay: &Bay) -> Self {
        let (plant, vehicle) = (bay.plant(), &bay.plant().vehicle);
        let turned = bay.shop().switch_turns * SCREW;
        let switches = &vehicle.switches;
        Self {
            label_charge: vehicle.label_charge.si(),
            built_for: vehicle.refrigerant,
            cycling: [switches.low_opens, switches.low_closes].map(|p| p.si() + turned),
            cut_out: plant.drive.cut_out_opens(),
        }
    }
}

/// What is weighed and measured, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighed {
    /// What cans and cylinders have given, by the scale.
    pub given: f64,
    /// What the recovery machine's cylinder has gained, by its scale.
    pub recovered: f64,
    /// Oil drained and separated, by the measuring cup.
    pub oil_out: f64,
    /// Oil poured, injected and come with new parts.
    pub oil_in: f64,
    /// Oil in the recovery machine's separator.
    pub separator: f64,
}

impl Weighed {
    pub(super) fn of(bay: &Bay) -> Self {
        let (plant, shop) = (bay.plant(), bay.shop());
        let sheet = worksheet(plant, shop);
        Self {
            given: by_scale(shop, shop.given(plant)),
            recovered: by_scale(shop, shop.recovered(plant)),
            oil_out: sheet.out,
            oil_in: sheet.put_in,
            separator: shop.station.separator,
        }
    }
}

/// A mass (kg) as the scale tells it.
pub(super) fn by_scale(shop: &Shop, kg: f64) -> f64 {
    let step = shop.instruments.scale.resolution;
    (kg / step).round() * step
}
