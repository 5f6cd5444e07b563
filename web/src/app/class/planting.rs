//! Planting a fault while somebody works: which, how much, when, how fast, and whether it is told.
use lowside_present::{
    drill::Severity,
    planted::{self, planted},
};
use lowside_session::{Action, InstructorAct, action::FaultId};
use lowside_units::Duration;
use yew::{Context, Html, html};

use super::ClassMsg;
use crate::{
    app::{App, Msg, drill::fault_choice},
    kit::{button, choice, switch},
    words,
};

/// Times offered until a fault begins and in which it grows, min.
const TIMES: [f64; 4] = [0.0, 1.0, 5.0, 15.0];

/// What is to be planted.
#[derive(Debug, Default)]
pub(crate) struct Planting {
    fault: usize,
    much: usize,
    after: usize,
    over: usize,
    secret: bool,
}

/// What is asked of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum PlantMsg {
    Fault(usize),
    Much(usize),
    After(usize),
    Over(usize),
    Secret(bool),
    /// Plants what is chosen.
    Plant,
    /// Takes away what was planted.
    Clear(FaultId),
}

impl Planting {
    /// Notes a choice, or gives the act to do.
    pub(super) fn hear(&mut self, msg: PlantMsg) -> Option<Action> {
        let minutes = |n: usize| Duration::from_min(TIMES.get(n).copied().unwrap_or_default());
        let secret = self.secret;
        match msg {
            PlantMsg::Fault(n) => self.fault = n,
            PlantMsg::Much(n) => self.much = n,
            PlantMsg::After(n) => self.after = n,
            PlantMsg::Over(n) => self.over = n,
            PlantMsg::Secret(on) => self.secret = on,
            PlantMsg::Plant => {
                let fault = *planted::faults().get(self.fault)?;
                let grows = fault.fault()?.grows();
                let act = InstructorAct::PlantFault {
                    fault,
                    severity: *Severity::ALL.get(self.much)?,
                    after: minutes(self.after),
                    over: minutes(if grows { self.over } else { 0 }),
                    secret,
                };
                return Some(act.into());
            }
            PlantMsg::Clear(fault) => {
                return Some(InstructorAct::ClearFault { fault, secret }.into());
            }
        }
        None
    }
}

impl App {
    /// The form, and what is planted.
    pub(super) fn planting_view(&self, ctx: &Context<Self>) -> Html {
        let p = &self.class.planting;
        let all = planted::faults();
        let link = ctx.link().clone();
        let tell = move |msg| link.send_message(Msg::Class(ClassMsg::Plant(msg)));
        let hear = |make: fn(usize) -> PlantMsg| {
            let tell = tell.clone();
            move |n| tell(make(n))
        };
        let much = words::severities();
        let times = |none: &str| -> Vec<String> {
            let rest = TIMES[1..].iter().map(words::plant_minutes);
            core::iter::once(none.to_owned()).chain(rest).collect()
        };
        let grows = all.get(p.fault).and_then(|id| id.fault());
        let grows = grows.is_some_and(lowside_present::drill::Fault::grows);
        let (secret, plant) = (tell.clone(), tell.clone());
        let rows = planted(&self.stage.bay).into_iter().map(|planted| {
            let known = words::fault(planted.fault.key()).filter(|_| !planted.secret);
            let name = known.unwrap_or_else(words::plant_something);
            let tell = tell.clone();
            let clear = move || tell(PlantMsg::Clear(planted.fault));
            html! { <li key={planted.fault.key()}><span>{ name }</span>{ button(words::plant_clear(), true, clear) }</li> }
        });
        html! {
            <fieldset class="planting"><legend>{ words::plant() }</legend>
                <p>{ words::plant_idea() }</p>
                { fault_choice("plant-fault", &all, p.fault, hear(PlantMsg::Fault)) }
                { choice("plant-much", words::drill_much(), &much, p.much, hear(PlantMsg::Much)) }
                { choice("plant-after", words::plant_after(), &times(words::plant_now()), p.after, hear(PlantMsg::After)) }
                if grows { { choice("plant-over", words::plant_over(), &times(words::plant_at_once()), p.over, hear(PlantMsg::Over)) } }
                { switch("plant-secret", words::plant_secret(), words::secret_states(), p.secret, move |on| secret(PlantMsg::Secret(on))) }
                { button(words::plant_do(), true, move || plant(PlantMsg::Plant)) }
                <ul class="planted">{ for rows }</ul>
            </fieldset>
        }
    }
}
