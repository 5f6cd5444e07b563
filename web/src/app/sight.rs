//! How the bay on stage is worked in, and what ends that.
use lowside_session::Sight;
use yew::{Context, Html};

use super::{App, Msg};
use crate::{
    host,
    sight::{bar, choice},
};

/// What is asked of the sight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum SightMsg {
    /// Chooses how the next bay is worked in.
    Choose(Sight),
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
            SightMsg::Choose(sight) => self.sight = sight,
            SightMsg::Open => self.stage.sitting.open(tick),
            SightMsg::HandIn => self.stage.sitting.hand_in(tick),
        }
        self.stage.save(host::now());
    }

    /// The choice for the next bay, and the line about this one.
    pub(crate) fn sight_view(&self, ctx: &Context<Self>) -> [Html; 2] {
        let link = ctx.link();
        let set = link.callback(|sight| Msg::Sight(SightMsg::Choose(sight)));
        let open = link.callback(|()| Msg::Sight(SightMsg::Open));
        let hand_in = link.callback(|()| Msg::Sight(SightMsg::HandIn));
        [
            choice("sight", self.sight, set),
            bar(self.stage.sitting, open, hand_in),
        ]
    }
}
