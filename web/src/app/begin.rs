//! How a visit begins: with what a link asks for, with what was kept, or with the van that runs.
use lowside_lessons::link::LinkError;
use lowside_present::UnitSystem;
use lowside_session::{Sight, TakeError};
use yew::Context;

use super::{App, BaysMsg, Mode, Msg, WorkMsg, bays::Source, peril::Peril};
use crate::{
    bays::{self, Found},
    doors::Door,
    host, later,
    link::{self, Asked},
    resume::Resumed,
    share, stage, words,
};

/// What is begun.
pub(crate) enum StartMsg {
    /// An offered scenario.
    Start(String),
    /// Chooses what to start with; nothing happens yet.
    Pick(String),
    /// Starts over with what the bay began with.
    Again,
    Progress(f64),
    /// The end of a replay; it counts if that turn is not over.
    Resumed(u32, Box<Result<Resumed, TakeError>>),
    /// The replay under way is no longer wanted.
    Cancel,
}

/// With what the bay on stage began, and the next is to.
pub(super) struct Begin {
    /// What the address asks for, until it or what was kept is taken up.
    pub(super) asked: Option<String>,
    /// Id of the offered scenario the bay began with; empty if it is none of them.
    pub(super) scenario: String,
    /// What is chosen to start with, if it is not what the bay began with.
    pub(super) picked: Option<String>,
    /// How the next bay is to be worked in.
    pub(super) sight: Sight,
}

impl Begin {
    pub(super) fn new(asked: Option<String>) -> Self {
        Self {
            asked,
            scenario: stage::FIRST.into(),
            picked: None,
            sight: Sight::Open,
        }
    }
}

impl App {
    /// Does it; true if the page is to be shown anew.
    pub(super) fn starts(&mut self, ctx: &Context<Self>, msg: StartMsg) -> bool {
        match msg {
            StartMsg::Start(name) => self.begin_with(Some(name)),
            StartMsg::Pick(name) => {
                let begun = self.own().is_none() && name == self.begin.scenario;
                self.begin.picked = Some(name).filter(|name| !begun && !name.is_empty());
            }
            StartMsg::Again => self.again(),
            StartMsg::Progress(_) if matches!(self.mode, Mode::Running) => return false,
            StartMsg::Progress(share) => self.mode = Mode::Resuming(share),
            StartMsg::Resumed(turn, _) if self.bays.is_over(turn) => return false,
            StartMsg::Resumed(_, outcome) => {
                if let Some(reading) = later::reading() {
                    (reading.resumed)(self, ctx, *outcome);
                }
            }
            StartMsg::Cancel => {
                if let Some(reading) = later::reading() {
                    (reading.cancel)(self);
                }
            }
        }
        true
    }

    /// Takes up what is `asked` behind the `#` of the address, else what was kept.
    pub(crate) fn begin(&mut self, ctx: &Context<Self>, asked: String) {
        let turn = self.bays.turn();
        let to = ctx.link().clone();
        wasm_bindgen_futures::spawn_local(async move {
            let found = bays::find().await;
            let asked = link::read(asked).await;
            to.send_message(Msg::Bays(BaysMsg::Found(turn, asked, Box::new(found))));
        });
    }

    /// Goes on with what was found, unless a link asks for something else.
    pub(super) fn found(
        &mut self,
        ctx: &Context<Self>,
        asked: Result<Option<Asked>, LinkError>,
        found: Found,
    ) {
        match asked {
            Ok(Some(asked)) => {
                if let Found::Mine(bay, hold) = found {
                    self.bays.own = Some((bay, hold));
                }
                self.ask(ctx, asked);
            }
            Ok(None) => self.take_up(ctx, found),
            Err(e) => {
                self.tell(move || words::link_broken(words::link_why(&e)), None);
                self.take_up(ctx, found);
            }
        }
    }

    /// Takes up a link that was put into the address of the open page; anything else there is a place on the page.
    pub(super) fn linked(&mut self, ctx: &Context<Self>) {
        if !link::asks(&host::fragment()) {
            return;
        }
        let fragment = host::take_fragment();
        let (turn, to) = (self.bays.turn(), ctx.link().clone());
        let units = share::units(&fragment);
        wasm_bindgen_futures::spawn_local(async move {
            let asked = link::read(fragment).await;
            to.send_message(Msg::Bays(BaysMsg::Asked(turn, asked, units)));
        });
    }

    /// Takes up what the link asks for.
    pub(super) fn asked(
        &mut self,
        ctx: &Context<Self>,
        asked: Result<Option<Asked>, LinkError>,
        units: Option<UnitSystem>,
    ) {
        match asked {
            Ok(None) => {}
            Ok(Some(asked)) => {
                self.units = units.unwrap_or(self.units);
                self.stage.ticks.clear();
                self.ask(ctx, asked);
            }
            Err(e) => self.tell(move || words::link_broken(words::link_why(&e)), None),
        }
    }

    fn ask(&mut self, ctx: &Context<Self>, asked: Asked) {
        match asked {
            Asked::Start(name, sight) => {
                self.begin.sight = sight;
                self.begin_with(Some(name));
            }
            Asked::Job(name, sight) => {
                self.mode = Mode::Running;
                self.begin.asked = None;
                self.begin.sight = sight;
                self.head.door = Door::Service;
                if let Some(jobs) = later::jobs() {
                    (jobs.work)(self, WorkMsg::Job(Some(name)));
                }
            }
            Asked::Take(take) => self.replay(ctx, *take, Source::Link),
        }
    }

    /// Takes up what was found.
    pub(super) fn take_up(&mut self, ctx: &Context<Self>, found: Found) {
        match found {
            Found::Nothing => self.first(false),
            Found::Mine(bay, hold) => match bay.take() {
                Ok(take) if take.ticks > 0 || !take.log.is_empty() => {
                    self.replay(ctx, take, Source::Own(bay, hold));
                }
                Ok(_) => self.first(false),
                Err(e) => {
                    self.first(true);
                    self.tell_of(move || words::resume_broken(words::take_why(&e)), bay);
                }
            },
            Found::Failed(bay) => {
                self.first(true);
                self.tell_of(|| words::resume_once().to_owned(), bay);
            }
            Found::Taken(bay) => {
                self.first(true);
                let seen = bay.seen();
                self.tell(move || words::bay_elsewhere(seen.name.told()), None);
            }
        }
    }

    /// The van that runs, on stage as a bay of its own.
    pub(super) fn first(&mut self, paused: bool) {
        self.mode = Mode::Running;
        self.stage = stage::first();
        self.peril = Peril::default();
        self.stage.paused |= paused;
        self.begin.scenario = stage::FIRST.into();
        self.settle(bays::new_id(), None);
        self.state_nothing();
    }
}
