//! The ghost on the strip chart: the visit played again with one act left out, and what that came to.
use lowside_present::{
    compare::Recorded,
    history::History,
    whatif::{self, Otherwise},
};
use lowside_session::{Bay, TICKS_PER_SECOND, Tick};
use lowside_units::{
    Duration,
    display::{self, UnitSystem},
};
use lowside_words::Language;
use std::rc::Rc;
use yew::{Callback, Event, Html, MouseEvent, html};

use super::Strip;
use crate::{host, kit::chosen, words};

/// Acts offered, the latest first.
const OFFERED: usize = 60;
/// Time that one drawing of the chart gives it to catch up, ms, and ticks between looks at the clock (own figures: short of the 50 ms of a long task).
const SHARE: f64 = 40.0;
const AT_ONCE: u64 = 10 * TICKS_PER_SECOND;

/// What can be left out: its places among the acts of the log, and its name. A control that was turned in steps is one.
type Offered = Rc<Vec<(Vec<usize>, String)>>;
/// Ticks within which the next step of a control belongs to the one before: half a minute.
const STEPS: Tick = 30 * TICKS_PER_SECOND;

/// What is left out, and the bay without it.
pub(crate) struct Ghost {
    act: usize,
    bay: Recorded,
    there: bool,
}

/// The ghost and what can be asked of it.
#[derive(Default)]
pub(super) struct Ghosts {
    ghost: Option<Box<Ghost>>,
    offered: Offered,
    /// What the offer was made of: the log's length and last moment, and the language.
    of: Option<(usize, Tick, Language)>,
}

/// What stands under the chart.
#[derive(Clone, PartialEq)]
pub(crate) struct GhostProps {
    offered: Offered,
    act: Option<usize>,
    said: Option<String>,
}

impl Ghosts {
    /// Leaves out what begins with an act, or nothing.
    pub(super) fn leave_out(&mut self, act: Option<usize>, bay: &Bay) {
        self.ghost = act.and_then(|act| {
            let (all, _) = self
                .offered
                .iter()
                .find(|(all, _)| all.first() == Some(&act))?;
            let bay = whatif::without(bay, all)?;
            Some(Box::new(Ghost {
                act,
                bay,
                there: false,
            }))
        });
    }

    /// Goes on beside the bay for as long as a drawing has time; a closed bay has none.
    pub(super) fn follow(&mut self, first: &Bay, closed: bool) {
        let now = (
            first.log().len(),
            first.log().last().map_or(0, |(t, _)| *t),
            words::current(),
        );
        if closed {
            *self = Self::default();
        } else if self.of != Some(now) {
            // Who goes back has another log: what was left out may stand no longer in it.
            self.ghost
                .take_if(|_| self.of.is_some_and(|(long, ..)| now.0 < long));
            self.offered = Rc::new(offered(first));
            self.of = Some(now);
        }
        let begun = host::now();
        let gone = |ghost: &mut Box<Ghost>| !ghost.bay.is_beside(first);
        self.ghost.take_if(gone);
        if let Some(ghost) = &mut self.ghost {
            ghost.there = false;
            while !ghost.there && host::now() - begun < SHARE {
                ghost.there = ghost.bay.follow(first, AT_ONCE);
            }
        }
    }

    /// What its instruments showed.
    pub(super) fn history(&self) -> Option<&History> {
        self.ghost.as_ref().map(|ghost| ghost.bay.history())
    }

    /// What stands under the chart.
    pub(super) fn props(&self, first: &Bay, units: UnitSystem) -> GhostProps {
        let said = |ghost: &Ghost| {
            if !ghost.there {
                let share = 100 * ghost.bay.bay().tick() / first.tick().max(1);
                return words::whatif_working(share.to_string());
            }
            match whatif::otherwise(first, ghost.bay.bay(), units) {
                Some(Otherwise {
                    reading,
                    stands,
                    by,
                    more,
                }) => words::whatif_said(
                    words::charts::whatif_reading(reading),
                    stands.to_string(),
                    by.to_string(),
                    if more {
                        words::whatif_more()
                    } else {
                        words::whatif_less()
                    },
                ),
                None => words::whatif_nothing().to_owned(),
            }
        };
        GhostProps {
            offered: self.offered.clone(),
            act: self.ghost.as_ref().map(|ghost| ghost.act),
            said: self.ghost.as_deref().map(said),
        }
    }
}

/// What a bay's log offers, the latest first.
fn offered(bay: &Bay) -> Vec<(Vec<usize>, String)> {
    let mut all: Vec<(Vec<usize>, Tick, String)> = Vec::new();
    for (n, tick, act) in whatif::acts(bay) {
        let (name, full) = (words::act(act), all.len() == OFFERED);
        match all.last_mut() {
            Some((steps, later, same)) if *same == name && *later - tick <= STEPS => {
                steps.insert(0, n);
                *later = tick;
            }
            _ if full => break,
            _ => all.push((vec![n], tick, name)),
        }
    }
    let named = |(steps, tick, name): (_, Tick, String)| {
        let at = Duration::from_s(tick as f64 / TICKS_PER_SECOND as f64);
        (steps, format!("{} {name}", display::duration(at).number))
    };
    all.into_iter().map(named).collect()
}

/// The choice of an act to leave out, and what it came to.
pub(super) fn ghost_view(p: &GhostProps, send: &Callback<Strip>) -> Html {
    if p.offered.is_empty() {
        return html! {};
    }
    let choose = {
        let send = send.clone();
        Callback::from(move |e: Event| {
            let act = chosen(&e).and_then(|v| v.parse().ok());
            send.emit(Strip::LeaveOut(act));
        })
    };
    let away = {
        let send = send.clone();
        Callback::from(move |_: MouseEvent| send.emit(Strip::LeaveOut(None)))
    };
    html! {
        <div class="ghost">
            <label class="pick"><span>{ words::whatif() }</span>
                <select id="leave-out" onchange={choose}>
                    <option value="" selected={p.act.is_none()}>{ words::whatif_none() }</option>
                    { for p.offered.iter().map(|(steps, name)| html! { <option value={steps[0].to_string()} selected={p.act == Some(steps[0])}>{ name }</option> }) }
                </select></label>
            if let Some(said) = &p.said {
                <p role="status">{ said }</p>
                <button type="button" onclick={away}>{ words::whatif_away() }</button>
            }
        </div>
    }
}
