//! How the bay on stage is worked in, and what ends that.
use lowside_session::Sight;
use yew::{Context, Html, html};

use super::{App, Msg};
use crate::{
    host,
    kit::button,
    later,
    sight::{bar, choice},
    words,
};

/// What is asked of the sight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum SightMsg {
    /// Chooses how the next bay is worked in.
    Choose(Sight),
    /// Opens what is chosen to start with, or what the bay began with, in that way.
    Begin,
    /// Opens the inside of this one.
    Open,
    /// Hands the exam in.
    HandIn,
}

impl App {
    /// Does it.
    pub(crate) fn see(&mut self, msg: SightMsg) {
        let tick = self.stage.past.end(&self.stage.bay);
        match msg {
            SightMsg::Choose(sight) => self.begin.sight = sight,
            SightMsg::Begin => self.begin_with(self.begin.picked.clone()),
            SightMsg::Open => {
                self.stage.sitting.open(tick);
                // What nobody noticed is told now.
                self.stage.retell();
            }
            SightMsg::HandIn => self.stage.sitting.hand_in(tick),
        }
        self.stage.save(host::now());
    }

    /// The line about the bay on stage.
    pub(crate) fn sight_view(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        let open = link.callback(|()| Msg::Sight(SightMsg::Open));
        let hand_in = link.callback(|()| Msg::Sight(SightMsg::HandIn));
        bar(&self.stage.sitting, &open, &hand_in)
    }

    /// The choice of how the next bay is worked in; `id` is that of its list.
    pub(crate) fn sight_choice(&self, ctx: &Context<Self>, id: &'static str) -> Html {
        let set = ctx
            .link()
            .callback(|sight| Msg::Sight(SightMsg::Choose(sight)));
        choice(id, self.begin.sight, set)
    }

    /// The same from other parts of the program.
    pub(super) fn choice_of_sight(&self, ctx: &Context<Self>, id: &'static str) -> Html {
        later::hands().map_or_else(Html::default, |hands| (hands.sight_choice)(self, ctx, id))
    }

    /// That choice with a button that begins a bay so.
    pub(super) fn begin_view(&self, ctx: &Context<Self>) -> Html {
        let name = match &self.begin.picked {
            Some(id) => words::charts::start(id).to_owned(),
            None => self
                .own()
                .unwrap_or_else(|| words::charts::start(&self.begin.scenario).to_owned()),
        };
        let begin = ctx.link().callback(|()| Msg::Sight(SightMsg::Begin));
        html! {
            <div class="begin">
                { self.sight_choice(ctx, "sight") }
                { button(words::sight_begin(&name), true, move || begin.emit(())) }
            </div>
        }
    }
}
