//! A round gauge: an unchanging face and a needle above it that is turned directly each frame, which paints nothing anew.
use crate::words;
use js_sys::Math;
use lowside_present::dial::{Face, Mark, Which};
use std::cell::RefCell;
use yew::{Html, NodeRef, classes, html};

/// Degrees from the lower left pin to the lower right pin.
const SWEEP: f64 = 270.0;
/// Least distance of two figures of the inner ring, as a share of the sweep.
const APART: f64 = 0.125;

/// Angle of a place on the sweep, degrees clockwise from the top.
pub(crate) fn angle(at: f64) -> f64 {
    (at - 0.5) * SWEEP
}

fn point(at: f64, r: f64) -> (f64, f64) {
    let a = angle(at).to_radians();
    (100.0 + r * Math::sin(a), 100.0 - r * Math::cos(a))
}

fn arc(from: f64, to: f64, r: f64) -> String {
    let ((x0, y0), (x1, y1)) = (point(from, r), point(to, r));
    let large = u8::from((to - from) * SWEEP > 180.0);
    format!("M{x0:.1} {y0:.1}A{r} {r} 0 {large} 1 {x1:.1} {y1:.1}")
}

fn mark(m: &Mark, outer: f64, long: f64, short: f64, text: f64, class: &'static str) -> Html {
    let inner = outer - if m.label.is_some() { long } else { short };
    let ((x0, y0), (x1, y1)) = (point(m.at, outer), point(m.at, inner));
    // Long numbers beside the hub move in, so that they stay off their marks.
    let length = m
        .label
        .as_ref()
        .map_or(0.0, |l| l.chars().count().saturating_sub(2) as f64);
    let (tx, ty) = point(
        m.at,
        text - 3.4 * length * Math::sin(angle(m.at).to_radians()).abs(),
    );
    html! {
        <g class={class}>
            <path d={format!("M{x0:.1} {y0:.1}L{x1:.1} {y1:.1}")} />
            if let Some(label) = &m.label {
                <text x={format!("{tx:.1}")} y={format!("{ty:.1}")} text-anchor="middle" dominant-baseline="central">{ label }</text>
            }
        </g>
    }
}

/// Marks of the inner ring, lettered only where the figures keep off each other.
fn thinned(marks: &[Mark]) -> Vec<Mark> {
    let mut last = f64::NEG_INFINITY;
    let keep = |m: &Mark| {
        let mut m = m.clone();
        if m.label.is_some() && m.at - last < APART {
            m.label = None;
        } else if m.label.is_some() {
            last = m.at;
        }
        m
    };
    marks.iter().map(keep).collect()
}

/// Where the needles of both gauges are on the page, and the faces they stand over.
#[derive(Default)]
pub(crate) struct Needles {
    low: NodeRef,
    high: NodeRef,
    plates: RefCell<[Option<(Face, Html)>; 2]>,
}

impl Needles {
    /// The needle of a gauge.
    pub(crate) fn of(&self, which: Which) -> &NodeRef {
        match which {
            Which::Low => &self.low,
            Which::High => &self.high,
        }
    }

    /// A gauge's face; made anew only when its units change.
    pub(crate) fn plate(&self, face: &Face) -> Html {
        let mut plates = self.plates.borrow_mut();
        let kept = &mut plates[usize::from(face.which == Which::High)];
        match kept {
            Some((of, html)) if of == face => html.clone(),
            _ => kept.insert((face.clone(), plate(face))).1.clone(),
        }
    }
}

/// A face.
fn plate(f: &Face) -> Html {
    let hose = if f.which == Which::Low { "low" } else { "high" };
    html! {
        <svg viewBox="4 6 192 172" aria-hidden="true" class={hose}>
            <path class="rim" d="M51.3 178A92 92 0 1 1 148.7 178Z" />
            <path class="band" d={arc(f.zero_at, 1.0, 86.0)} />
            if f.zero_at > 0.0 { <path class="vacuum" d={arc(0.0, f.zero_at, 86.0)} /> }
            { for f.pressure.iter().map(|m| mark(m, 82.0, 10.0, 5.0, 61.5, "press")) }
            <path class="ring" d={arc(f.zero_at, 1.0, 43.0)} />
            { for thinned(&f.saturation).iter().map(|m| mark(m, 43.0, 5.0, 3.0, 31.0, "sat")) }
            <text class="unit" x="100" y="134" text-anchor="middle">{ f.unit }</text>
            <text class="gas" x="100" y="160" text-anchor="middle">{ format!("{} {}", f.refrigerant, f.temperature_unit) }</text>
        </svg>
    }
}

/// What a gauge shows.
pub(crate) struct DialProps {
    pub(crate) which: Which,
    pub(crate) plate: Html,
    pub(crate) needle: NodeRef,
    pub(crate) title: &'static str,
    pub(crate) number: String,
    pub(crate) unit: &'static str,
    pub(crate) spoken: String,
    pub(crate) saturation: Option<String>,
    pub(crate) coupled: bool,
    /// Something on its side of the loop is pointed at.
    pub(crate) lit: bool,
    /// Where the pointer was within the last minute, 0 to 1.
    pub(crate) memory: Option<(f64, f64)>,
}

/// A gauge with its reading.
pub(crate) fn dial(p: &DialProps) -> Html {
    let where_ = if p.coupled {
        words::coupler_states()[1]
    } else {
        words::hose_only()
    };
    html! {
        <div class={classes!("dial", p.lit.then_some("lit"))} role="img" aria-label={format!("{}: {}, {where_}", p.title, p.spoken)}>
            <span class="plate">
                { p.plate.clone() }
                if let Some((lo, hi)) = p.memory {
                    <svg viewBox="4 6 192 172" aria-hidden="true" class={if p.which == Which::Low { "trail low" } else { "trail high" }}>
                        <path class="memory" d={arc((lo - 0.002).max(0.0), (hi + 0.002).min(1.0), 71.0)} />
                    </svg>
                }
                <span ref={p.needle.clone()} class={if p.which == Which::Low { "hand low" } else { "hand high" }}>
                    <svg viewBox="4 6 192 172" aria-hidden="true">
                        <path class="needle" d="M97.6 112 L99.3 26 L100.7 26 L102.4 112 Z" />
                        <circle class="hub" cx="100" cy="100" r="6" />
                    </svg>
                </span>
            </span>
            <div class="tag" aria-hidden="true">
                <span class={if p.which == Which::Low { "name low" } else { "name high" }}>{ p.title }</span>
                <strong>{ &p.number }{ " " }<span>{ p.unit }</span></strong>
                if let Some(t) = &p.saturation { <span class="off">{ t }</span> }
                if !p.coupled { <span class="off">{ where_ }</span> }
            </div>
        </div>
    }
}
