//! How a visit begins: with what a link asks for, with what was kept, or with the van that runs.
use lowside_present::statement::Said;
use lowside_session::Take;
use yew::{Component, Context};

use super::{App, Mode, Msg, Notice, outside::resume_in_background, peril::Peril};
use crate::{
    share::{self, Asked},
    shelf::Shelf,
    stage, store, words,
};

impl App {
    /// Takes up what the address asks for behind `#`, else what was kept, else the first bay.
    pub(crate) fn begin(&mut self, ctx: &Context<Self>, fragment: &str) {
        match share::read(fragment) {
            Ok(Some(Asked::Start(name))) => drop(self.update(ctx, Msg::Start(name))),
            Ok(Some(Asked::Take(take))) => {
                self.state_nothing();
                resume_in_background(ctx, *take);
            }
            Ok(None) => match store::get(store::TAKE) {
                Some(text) => self.take_up(ctx, text),
                None => self.first(None),
            },
            Err(e) => {
                self.first(None);
                self.tell(words::link_broken(words::take_why(&e)), None);
            }
        }
    }

    /// Keeps what was done, as the page is left.
    pub(super) fn leave(&self) {
        if let Mode::Running = self.mode {
            let _ = self.stage.keep();
        }
    }

    /// Takes up a kept take, unless the last try did not end well.
    fn take_up(&mut self, ctx: &Context<Self>, text: String) {
        let why = if store::get(store::REPLAYING).is_some() {
            store::remove(store::REPLAYING);
            words::resume_once().to_owned()
        } else {
            match Take::parse(&text) {
                Ok(take) if take.ticks > 0 || !take.log.is_empty() => {
                    self.shelf = Shelf::remembered();
                    let draft = store::get(store::DRAFT).and_then(|text| Said::parse(&text));
                    self.draft = draft.unwrap_or_default();
                    return resume_in_background(ctx, take);
                }
                Ok(_) => return self.first(None),
                Err(e) => words::resume_broken(words::take_why(&e)),
            }
        };
        self.first(Some(Notice {
            text: why,
            take: Some(text),
        }));
    }

    fn first(&mut self, notice: Option<Notice>) {
        self.mode = Mode::Running;
        self.stage = stage::first();
        self.peril = Peril::default();
        self.state_nothing();
        self.notice = notice;
    }
}
