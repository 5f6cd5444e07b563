//! Places of the drawing that hands and instruments go to: joints, ports and switches by hand; places to search, to clamp, to measure and to
//! take a sample with what was picked up.
use lowside_present::{
    bench::{Item, Joint, Part as Piece, Place, Side, Standing},
    parts::Part,
    tools::{Point, Sensitivity, Site, Spot, Tools, identify},
};
use lowside_session::{Action, InstrumentAct};
use lowside_units::{Length, Quantity, Speed};
use yew::{Callback, Html, classes, html};

use super::presses;
use crate::{bench, words};

/// An instrument that is picked up and put on a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Instrument {
    /// Electronic leak detector.
    Detector,
    /// Soap and brush.
    Soap,
    /// Lamp for the dye.
    Lamp,
    /// Clamp thermometer.
    Clamp,
    /// Meter at the clutch's plug.
    Meter,
    /// Refrigerant identifier.
    Identifier,
}

/// How the detector's tip is held: near and still, as one should.
const NEAR_MM: f64 = 5.0;

impl Instrument {
    /// All of them, as they lie in the tray.
    pub(crate) const ALL: [Self; 6] = [
        Self::Detector,
        Self::Soap,
        Self::Lamp,
        Self::Clamp,
        Self::Meter,
        Self::Identifier,
    ];

    /// Its name, and its outline in 40 by 32.
    pub(super) fn look(self) -> (&'static str, &'static str) {
        match self {
            Self::Detector => (
                words::detector(),
                "M5 4h17v13H5zM9 8h9M8 17v11h7V17M22 8c7 0 5 16 12 14l3-3",
            ),
            Self::Soap => (
                words::soap(),
                "M8 12h10v17H8zM10 12V6h6v6M8 20h10M25 29l7-20M30 4l5 2-3 6-5-2zM22 7a2 2 0 1 0 .1 0",
            ),
            Self::Lamp => (
                words::lamp(),
                "M3 13h17v7H3zM20 11l7-3v17l-7-3zM31 8l5-3M31 16h6M31 24l5 3",
            ),
            Self::Clamp => (
                words::clamp(),
                "M13 29V18C6 14 8 6 14 4M21 29V18c7-4 5-12-1-14M13 18h8M17 9a1 1 0 1 0 .1 0",
            ),
            Self::Meter => (
                words::meter(),
                "M5 3h16v26H5zM8 7h10v6H8zM13 17a4 4 0 1 0 .1 0M21 24c9 0 6-12 12-15M21 27c12 1 9-8 15-11",
            ),
            Self::Identifier => (
                words::identifier(),
                "M4 5h22v22H4zM8 9h14v7H8zM9 21h2M14 21h2M19 21h2M26 16c7 0 4-9 10-9",
            ),
        }
    }

    fn searches(self, at: Spot) -> Action {
        match self {
            Self::Soap => InstrumentAct::Soap { at },
            Self::Lamp => InstrumentAct::Lamp { at },
            _ => InstrumentAct::Sniff {
                at,
                sensitivity: Sensitivity::High,
                distance: Length::from_mm(NEAR_MM),
                wind: Speed::from_si(0.0),
            },
        }
        .into()
    }

    /// What it does at a part that is pressed rather than at one of its places.
    pub(super) fn at(self, part: Part, tools: &Tools) -> Option<Action> {
        let point = match part {
            Part::Discharge => Point::Discharge,
            Part::Condenser => Point::CondenserMiddle,
            Part::Liquid => Point::LiquidLine,
            Part::Orifice => Point::EvaporatorIn,
            Part::Evaporator => Point::EvaporatorOut,
            Part::Accumulator => Point::Accumulator,
            Part::Suction => Point::Suction,
            _ => Point::RadiatorHose,
        };
        match self {
            Self::Detector | Self::Soap | Self::Lamp => {
                let site = part.piece()?.sites().first().copied();
                Some(self.searches(site.map_or(Spot::Joint(Joint::EvaporatorIn), Spot::Site)))
            }
            Self::Clamp if point == Point::RadiatorHose => None,
            Self::Clamp => Some(InstrumentAct::Clamp { at: Some(point) }.into()),
            Self::Meter => (part == Part::Compressor).then(|| plugged(tools)),
            Self::Identifier => match part {
                Part::Suction | Part::Accumulator | Part::LowHose => Some(identify(true)),
                Part::Discharge | Part::HighHose => Some(identify(false)),
                _ => None,
            },
        }
    }

    /// The places it goes to.
    fn marks(self, tools: &Tools) -> Vec<Mark> {
        let (tool, _) = self.look();
        let named = |place: &str, found: &str| format!("{tool}, {place}: {found}");
        match self {
            Self::Detector | Self::Soap | Self::Lamp => tools
                .search
                .iter()
                .map(|(spot, searched)| {
                    let (kind, found) = match searched {
                        None => (Kind::Free, words::stand_unsearched()),
                        Some(s) if s.found => (Kind::Bad, words::stand_leaks()),
                        Some(_) => (Kind::Done, words::stand_no_leak()),
                    };
                    let name = named(&words::spot_name(*spot), found);
                    Mark::does(spot_at(*spot), kind, name, self.searches(*spot))
                })
                .collect(),
            Self::Clamp => Point::ALL
                .iter()
                .map(|point| {
                    let reads = tools.clamp.as_ref().filter(|(at, _)| at == point);
                    let at = reads.is_none().then_some(*point);
                    let found =
                        reads.map_or_else(|| words::clamp_off().to_owned(), |(_, t)| t.to_string());
                    let kind = if reads.is_some() {
                        Kind::Done
                    } else {
                        Kind::Free
                    };
                    let name = named(words::point(*point), &found);
                    Mark::does(
                        point_at(*point),
                        kind,
                        name,
                        InstrumentAct::Clamp { at }.into(),
                    )
                })
                .collect(),
            Self::Meter => {
                let reads = tools.clutch.as_ref().map(|[v, a]| format!("{v}, {a}"));
                let kind = if reads.is_some() {
                    Kind::Done
                } else {
                    Kind::Free
                };
                let name = named(
                    words::clutch(),
                    &reads.unwrap_or_else(|| words::clamp_off().to_owned()),
                );
                vec![Mark::does(CLUTCH, kind, name, plugged(tools))]
            }
            Self::Identifier => vec![(LOW_PORT, true), (HIGH_PORT, false)]
                .into_iter()
                .map(|(at, low)| {
                    let port = words::port_name(if low { Side::Low } else { Side::High });
                    Mark::does(at, Kind::Free, format!("{tool}, {port}"), identify(low))
                })
                .collect(),
        }
    }
}

/// Puts the meter on, or takes it off.
fn plugged(tools: &Tools) -> Action {
    let on = tools.clutch.is_none();
    InstrumentAct::ClutchMeter { on }.into()
}

const LOW_PORT: (f64, f64) = (332.0, 112.0);
const HIGH_PORT: (f64, f64) = (560.0, 96.0);
const CLUTCH: (f64, f64) = (524.0, 200.0);
const CLUTCH_PLUG: (f64, f64) = (548.0, 188.0);
const LOW_SWITCH: (f64, f64) = (245.0, 78.0);
const CUT_OUT: (f64, f64) = (620.0, 98.0);
const BATTERY: (f64, f64) = (606.0, 326.0);

/// Where a joint is, and whether its pipe stands upright there.
fn joint_at(joint: Joint) -> ((f64, f64), bool) {
    match joint {
        Joint::CompressorOut => ((470.0, 136.0), true),
        Joint::CondenserIn => ((676.0, 104.0), false),
        Joint::CondenserOut => ((676.0, 396.0), false),
        Joint::EvaporatorIn => ((282.0, 410.0), false),
        Joint::EvaporatorOut => ((198.0, 98.0), false),
        Joint::AccumulatorOut => ((280.0, 122.0), false),
        Joint::CompressorIn => ((436.0, 178.0), true),
        Joint::ReliefThread => ((512.0, 122.0), true),
    }
}

/// Where a place to search is.
fn spot_at(spot: Spot) -> (f64, f64) {
    let site = match spot {
        Spot::Joint(joint) => return joint_at(joint).0,
        Spot::Site(site) => site,
    };
    match site {
        Site::ShaftSeal => (509.0, 232.0),
        Site::DischargeHose => (618.0, 104.0),
        Site::CondenserTop => (722.0, 136.0),
        Site::CondenserBottom => (722.0, 352.0),
        Site::LiquidLine => (430.0, 410.0),
        Site::EvaporatorInlet => (104.0, 362.0),
        Site::EvaporatorOutlet => (104.0, 146.0),
        Site::Accumulator => (245.0, 190.0),
        Site::SuctionHose => (386.0, 122.0),
        Site::LowPort => LOW_PORT,
        Site::HighPort => HIGH_PORT,
        Site::ReliefValve => (512.0, 166.0),
    }
}

/// Where the clamp thermometer goes.
fn point_at(point: Point) -> (f64, f64) {
    match point {
        Point::Discharge => (590.0, 104.0),
        Point::CondenserIn => (676.0, 104.0),
        Point::CondenserMiddle => (716.0, 248.0),
        Point::CondenserOut => (676.0, 396.0),
        Point::LiquidLine => (430.0, 410.0),
        Point::EvaporatorIn => (140.0, 410.0),
        Point::EvaporatorOut => (146.0, 98.0),
        Point::Accumulator => (245.0, 190.0),
        Point::Suction => (386.0, 122.0),
        Point::RadiatorHose => (520.0, 330.0),
    }
}

/// Where what hands work on is drawn.
pub(super) fn place_of(item: Item, standing: Standing) -> (f64, f64) {
    match item {
        Item::Joint(joint) => joint_at(joint).0,
        Item::Port(Side::Low) => LOW_PORT,
        Item::Port(Side::High) => HIGH_PORT,
        Item::Switch(Side::Low) => LOW_SWITCH,
        Item::Switch(Side::High) => CUT_OUT,
        Item::Drive => CLUTCH_PLUG,
        Item::Battery => BATTERY,
        // The cloth is at the drawing's foot.
        Item::Part(_) if standing == Standing::OnBench => (400.0, 456.0),
        Item::Part(piece) => match piece {
            Piece::Compressor => (454.0, 217.0),
            Piece::DischargeHose => point_at(Point::Discharge),
            Piece::Condenser => point_at(Point::CondenserMiddle),
            Piece::LiquidLine => point_at(Point::LiquidLine),
            Piece::Orifice => (230.0, 410.0),
            Piece::Evaporator => (104.0, 254.0),
            Piece::Accumulator => point_at(Point::Accumulator),
            Piece::SuctionHose => point_at(Point::Suction),
            Piece::ReliefValve => spot_at(Spot::Site(Site::ReliefValve)),
        },
    }
}

/// How a mark looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// Nothing was done here yet.
    Free,
    /// It was, and found in order.
    Done,
    /// It was, and found wrong.
    Bad,
    /// A joint as it is, with its pipe upright or not.
    Joint(Standing, bool),
    /// What is drawn there already.
    Drawn,
    /// The relief valve in its place.
    Relief,
    /// A plug, on or pulled.
    Plug(Standing),
    /// The battery with its lead.
    Battery(Standing),
}

/// What a press on a mark does.
#[derive(Clone, Copy)]
enum Press {
    Act(Action),
    Choose(Item),
}

struct Mark {
    at: (f64, f64),
    kind: Kind,
    name: String,
    press: Press,
}

impl Mark {
    fn does(at: (f64, f64), kind: Kind, name: String, act: Action) -> Self {
        let press = Press::Act(act);
        Self {
            at,
            kind,
            name,
            press,
        }
    }

    /// What hands work on, and how it stands; parts but the relief valve are pressed themselves.
    fn of((item, standing): Place) -> Option<Self> {
        let kind = match item {
            Item::Joint(joint) => Kind::Joint(standing, joint_at(joint).1),
            Item::Port(_) => Kind::Drawn,
            Item::Switch(_) | Item::Drive => Kind::Plug(standing),
            Item::Battery => Kind::Battery(standing),
            Item::Part(Piece::ReliefValve) if standing != Standing::OnBench => Kind::Relief,
            Item::Part(_) => return None,
        };
        let at = place_of(item, standing);
        let name = format!("{}: {}", bench::name(item), words::standing_of(standing));
        let press = Press::Choose(item);
        Some(Self {
            at,
            kind,
            name,
            press,
        })
    }
}

/// What the drawing's places are made from.
pub(super) struct Board<'a> {
    pub(super) places: &'a [Place],
    pub(super) tools: &'a Tools,
    pub(super) hand: Option<Instrument>,
    pub(super) chosen: Option<Item>,
    /// Gas blows out of what is open.
    pub(super) blows: bool,
    pub(super) choose: &'a Callback<Item>,
    pub(super) act: &'a Callback<Action>,
}

/// All places of the hand, or of the instrument in it.
pub(super) fn marks(b: &Board<'_>) -> Html {
    let marks = b.hand.map_or_else(
        || {
            b.places
                .iter()
                .filter_map(|place| Mark::of(*place))
                .collect()
        },
        |tool| tool.marks(b.tools),
    );
    html! { <g class="marks">
        { for marks.into_iter().map(|mark| draw(b, mark)) }
        if let Some((point, t)) = &b.tools.clamp { { reads(point_at(*point), &t.to_string()) } }
        if let Some([volts, amperes]) = &b.tools.clutch { { reads(CLUTCH, &format!("{volts}, {amperes}")) } }
    </g> }
}

/// What an instrument reads where it was put.
fn reads((x, y): (f64, f64), text: &str) -> Html {
    html! { <g class="reads" transform={format!("translate({x} {y})")} aria-hidden="true">
        <path class="jaw" d="M-6-9q-7 9 0 18M6-9q7 9 0 18M0 10v10" /><text y="34" text-anchor="middle">{ text }</text>
    </g> }
}

fn draw(b: &Board<'_>, mark: Mark) -> Html {
    let Mark {
        at: (x, y),
        kind,
        name,
        press,
    } = mark;
    let chosen = matches!(press, Press::Choose(item) if b.chosen == Some(item));
    let (choose, act) = (b.choose.clone(), b.act.clone());
    let go = move || match press {
        Press::Act(action) => act.emit(action),
        Press::Choose(item) => choose.emit(item),
    };
    let (click, key) = presses(go);
    html! {
        <g key={name.clone()} role="button" tabindex="0" class={classes!("mark", chosen.then_some("chosen"))} aria-label={name.clone()}
            aria-pressed={chosen.to_string()} transform={format!("translate({x} {y})")} onclick={click} onkeydown={key}>
            <title>{ name }</title>
            <circle class="target" r="15" />
            { glyph(kind, b.blows) }
        </g>
    }
}

fn glyph(kind: Kind, blows: bool) -> Html {
    match kind {
        Kind::Drawn => html! {},
        Kind::Free => html! { <circle class="dot" r="8" /> },
        Kind::Done => {
            html! { <><circle class="dot" r="8" /><path class="tick" d="M-4 0l3 3.4 5-7" /></> }
        }
        Kind::Bad => {
            html! { <><circle class="dot bad" r="9" /><path class="cross" d="M0-5V1.5M0 4.6v.2" /></> }
        }
        Kind::Relief => html! {
            <><path class="pipe" d="M0-34V-12" /><path class="body" d="M-8-12h16v8l-3 4v9H-5V0l-3-4z" /><path class="fin" d="M-8-8h16" /></>
        },
        Kind::Plug(standing) => html! {
            if standing == Standing::Loosened { <path class="apart" d="M3-12L15-24M9-12h7v-7" /> }
        },
        Kind::Battery(standing) => {
            let lead = if standing == Standing::Loosened {
                "M-14-11q-12-16-22-6"
            } else {
                "M-14-15q-12-14-22-4"
            };
            html! { <><rect class="body" x="-24" y="-10" width="48" height="28" rx="3" /><path class="fin" d="M-24 2h48" />
            <path class="outline" d="M-18-10v-4h8v4M10-10v-4h8v4M-18 10h8M10 10h8M14 6v8" /><path class={if standing == Standing::Loosened { "apart" } else { "contact" }} d={lead} /></> }
        }
        Kind::Joint(standing, upright) => {
            let turn = if upright { "rotate(90)" } else { "" };
            let shape = match standing {
                Standing::Open => {
                    html! { <><rect class="gap" x="-8" y="-11" width="16" height="22" /><path class="apart" d="M-9-10V10M9-10V10" />
                    if blows { <path class="blow" d="M-4-13l-5-10M0-14v-12M4-13l5-10" /> }</> }
                }
                Standing::Capped => {
                    html! { <><rect class="gap" x="-8" y="-11" width="16" height="22" /><rect class="cap" x="-13" y="-9" width="9" height="18" rx="2" /><rect class="cap" x="4" y="-9" width="9" height="18" rx="2" /></> }
                }
                Standing::Made(_) => {
                    html! { <><rect class="nut" x="-7" y="-10" width="14" height="20" rx="2" /><path class="ring" d="M0-10V10" /></> }
                }
                _ => {
                    html! { <><rect class="nut" x="-7" y="-10" width="14" height="20" rx="2" /><path class="fin" d="M-7-3h14M-7 3h14" /></> }
                }
            };
            let leak = standing == Standing::Unopened { leak: Some(true) };
            html! { <><g transform={turn}>{ shape }</g>
            if leak { <><circle class="dot bad" cx="10" cy="-11" r="7" /><path class="cross" d="M10-15v5M10-7.6v.2" /></> }</> }
        }
    }
}
