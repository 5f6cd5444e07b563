//! Hands on the drawing: the line of the outside air and the handles of valves and tap can be dragged. The act is done once, when the hand lets go;
//! till then a ghost shows what it will be.
use std::{cell::RefCell, rc::Rc};

use lowside_present::{
    controls::Control,
    levels::{self, Levels},
};
use lowside_session::{Action, Bay, HoseAct, VehicleAct, VesselAct};
use lowside_units::{
    Ratio,
    display::{self, UnitSystem},
};

use super::Brush;
use crate::words;

/// How far right of the lift the grip on the line of the outside air stands, and half its width, px.
pub(super) const GRIP_AT: f64 = 16.0;
pub(super) const GRIP_HALF: f64 = 9.0;
/// How far from its middle a thing can be gripped, px.
const REACH: f64 = 16.0;
/// How far a hand moves before it drags and does not press, px.
const PRESS: f64 = 5.0;
/// How far a hand turns a valve from shut to open, px.
const TURN: f64 = 70.0;

/// What can be gripped.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Grip {
    /// The line of the outside air.
    Outside,
    /// A valve, or the can's tap, that stood open by so much.
    Valve(Control, f64),
}

/// A hand that holds something.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Held {
    grip: Grip,
    from: f64,
    to: f64,
    moved: bool,
}

/// Where the hand is, what lies under it, and what it has let go.
#[derive(Debug, Default)]
pub(crate) struct Hand {
    /// The line of the outside air: left, right, height.
    line: (f64, f64, f64),
    /// Valves and the tap: which, where, how far open.
    valves: Vec<(Control, f64, f64, f64)>,
    held: Option<Held>,
    done: Option<Held>,
    /// The press that ends a drag is none.
    dragged: bool,
}

/// A hand as the page's events and the painter share it.
pub(crate) type Shared = Rc<RefCell<Hand>>;

impl Hand {
    /// Takes hold of what lies at a place; true if there is something.
    pub(crate) fn grip(&mut self, x: f64, y: f64) -> bool {
        self.dragged = false;
        let near = |&(_, vx, vy, _): &(Control, f64, f64, f64)| (vx - x).hypot(vy - y);
        let valve = self
            .valves
            .iter()
            .min_by(|a, b| near(a).total_cmp(&near(b)));
        let (left, right, line) = self.line;
        let grip = match valve {
            Some(valve) if near(valve) < REACH => Grip::Valve(valve.0, valve.3),
            _ if (left..=right).contains(&x) && (y - line).abs() < REACH * 0.6 => Grip::Outside,
            _ => return false,
        };
        self.held = Some(Held {
            grip,
            from: y,
            to: y,
            moved: false,
        });
        true
    }

    /// Moves what is held; true if something is.
    pub(crate) fn drag(&mut self, y: f64) -> bool {
        let Some(held) = &mut self.held else {
            return false;
        };
        held.to = y;
        held.moved |= (y - held.from).abs() > PRESS;
        true
    }

    /// Lets go.
    pub(crate) fn let_go(&mut self) {
        let held = self.held.take().filter(|held| held.moved);
        self.dragged = held.is_some();
        self.done = held;
    }

    /// Forgets what is held.
    pub(crate) fn drop_it(&mut self) {
        self.held = None;
    }

    /// Was the press that comes now the end of a drag? It counts as such once.
    pub(crate) fn swallows(&mut self) -> bool {
        core::mem::take(&mut self.dragged)
    }

    /// The act of what was let go, with heights read on the sheet by `height`.
    pub(super) fn act(&mut self, bay: &Bay, height: impl Fn(f64) -> f64) -> Option<Action> {
        let held = self.done.take()?;
        Some(match held.grip {
            Grip::Outside => VehicleAct::Ambient {
                temperature: levels::ambient_at(bay, height(held.to)),
            }
            .into(),
            Grip::Valve(control, was) => {
                let share = turned(was, held);
                let open = Ratio::from_fraction(share);
                match control {
                    Control::LowValve => HoseAct::LowValve { open }.into(),
                    Control::HighValve => HoseAct::HighValve { open }.into(),
                    _ if tapped(share) == tapped(was) => return None,
                    _ => VesselAct::Tap { on: tapped(share) }.into(),
                }
            }
        })
    }
}

/// How far a valve is open that stood at `was`: up opens it, in twentieths.
fn turned(was: f64, held: Held) -> f64 {
    let open = was + (held.from - held.to) / TURN;
    (open.clamp(0.0, 1.0) * 20.0).round() / 20.0
}

/// Is a tap open whose handle is turned so far? It knows no between.
fn tapped(share: f64) -> bool {
    share >= 0.5
}

impl Brush<'_> {
    /// Tells the hand what lies where.
    pub(super) fn offer(&self, l: &Levels, hand: &mut Hand, spots: &[(Control, f64, f64)]) {
        let s = self.sheet;
        hand.line = (s.shaft, s.end, s.y(l.outside.height));
        hand.valves.clear();
        for &(control, x, y) in spots {
            let open = match control {
                Control::LowValve => l.valves[0],
                Control::HighValve => l.valves[1],
                Control::Tap => f64::from(u8::from(l.can.as_ref().is_some_and(|can| can.open))),
                _ => continue,
            };
            hand.valves.push((control, x, y, open));
        }
    }

    /// The grip on the line of the outside air, and the ghost of what is held.
    pub(super) fn ghost(&self, l: &Levels, hand: &Hand, (bay, units): (&Bay, UnitSystem)) {
        let (pen, s, t) = (self.pen, self.sheet, self.theme);
        let y = s.y(l.outside.height);
        let x = s.shaft + GRIP_AT;
        pen.fill(t.sheet).stroke(t.heat_edge, 1.8).dashes(&[], 0.0);
        pen.rounded(x - GRIP_HALF, y - 12.0, 2.0 * GRIP_HALF, 24.0, GRIP_HALF);
        pen.c.fill();
        pen.c.stroke();
        pen.line(&[(x - 4.0, y - 3.0), (x, y - 8.0), (x + 4.0, y - 3.0)]);
        pen.line(&[(x - 4.0, y + 3.0), (x, y + 8.0), (x + 4.0, y + 3.0)]);
        let Some(held) = hand.held.filter(|held| held.moved) else {
            return;
        };
        match held.grip {
            Grip::Outside => {
                let to = levels::ambient_at(bay, s.height(held.to));
                let y = s.y(levels::outside(bay, to));
                let shown = display::temperature(to, units).to_string();
                pen.stroke(t.heat_edge, 2.4)
                    .dashes(&[4.0, 4.0], 0.0)
                    .line(&[(s.shaft, y), (s.end, y)]);
                pen.dashes(&[], 0.0);
                self.bold(&shown, x + 18.0, y - 11.0, "left", t.heat_edge);
            }
            Grip::Valve(control, was) => {
                let colour = match control {
                    Control::LowValve => t.low,
                    Control::HighValve => t.high,
                    _ => t.service,
                };
                let place = hand.valves.iter().find(|v| v.0 == control);
                if let Some(&(_, x, y, _)) = place {
                    let share = turned(was, held);
                    let shown = if control == Control::Tap {
                        words::tap_states()[usize::from(tapped(share))].to_owned()
                    } else {
                        format!("{:.0} %", 100.0 * share)
                    };
                    self.bold(&shown, x + s.radius() + 5.0, y - 14.0, "left", colour);
                }
            }
        }
    }
}
