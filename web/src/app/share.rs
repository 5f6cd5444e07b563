//! How the bay on stage leaves the page as a file or a link, and how a file comes in.
use lowside_session::{Take, TakeError};
use yew::Context;

use super::{App, bays::Source};
use crate::{host, later, share, words};

/// What is asked of files and links.
pub(crate) enum ShareMsg {
    /// Copies the take that the notice is about.
    Copy,
    /// Saves the take as a file.
    SaveTake,
    /// Saves the take that the notice is about as a file.
    SaveNotice,
    /// A file that was chosen.
    Open(Result<String, TakeError>),
    /// Copies a link to this bay.
    Link,
}

impl App {
    /// Does it; most of it the later part.
    pub(super) fn shares(&mut self, ctx: &Context<Self>, msg: ShareMsg) {
        match msg {
            ShareMsg::Copy => {
                if let Some(take) = self.notice.as_ref().and_then(|n| n.take.as_ref()) {
                    host::copy(take);
                }
            }
            msg => {
                if let Some(later) = later::here() {
                    (later.share)(self, ctx, msg);
                }
            }
        }
    }

    /// Files and links.
    pub(crate) fn share(&mut self, ctx: &Context<Self>, msg: ShareMsg) {
        let head = self.stage.past.head(&self.stage.bay);
        let sitting = self.stage.sitting_now();
        match msg {
            ShareMsg::SaveTake => share::save(&share::text(head, &sitting)),
            ShareMsg::SaveNotice => {
                if let Some(take) = self.notice.as_ref().and_then(|n| n.take.as_ref()) {
                    share::save(take);
                }
            }
            ShareMsg::Link => {
                if let Some(fragment) = share::fragment(head, &sitting, self.units) {
                    let link = host::address_with(&fragment);
                    host::copy(&link);
                    self.tell(move || words::link_copied(&link), None);
                } else {
                    share::save(&share::text(head, &sitting));
                    self.tell(|| words::link_too_long().to_owned(), None);
                }
            }
            ShareMsg::Open(text) => match text.and_then(|text| Take::parse(&text)) {
                Ok(take) => self.replay(ctx, take, Source::File),
                Err(e) => self.tell(move || words::file_broken(words::take_why(&e)), None),
            },
            ShareMsg::Copy => {}
        }
    }
}
