//! How the bay on stage leaves the page as a file or a link, and how a file comes in.
use lowside_session::{Take, TakeError};
use yew::Context;

use super::{App, Msg, bays::Source};
use crate::{host, later, share, words};

/// What is asked of files and links.
pub(crate) enum ShareMsg {
    /// Copies the take that the notice is about.
    Copy,
    /// Saves the take as a file.
    SaveTake,
    /// Saves the take that the notice is about as a file.
    SaveNotice,
    /// A file that was chosen or dropped.
    File(web_sys::File),
    /// Its text.
    Open(Result<String, TakeError>),
    /// Copies a link to this bay.
    Link,
}

impl App {
    /// Does it; most of it later parts.
    pub(super) fn shares(&mut self, ctx: &Context<Self>, msg: ShareMsg) {
        match msg {
            ShareMsg::Copy => {
                if let Some(take) = self.notice.as_ref().and_then(|n| n.take.as_ref()) {
                    host::copy(take);
                }
            }
            ShareMsg::File(file) => {
                let open = ctx.link().callback(|x| Msg::Share(ShareMsg::Open(x)));
                if let Some(reading) = later::reading() {
                    (reading.file)(file, open);
                }
            }
            ShareMsg::Open(text) => {
                if let Some(reading) = later::reading() {
                    (reading.open)(self, ctx, text);
                }
            }
            msg => {
                if let Some(keeping) = later::keeping() {
                    (keeping.share)(self, &msg);
                }
            }
        }
    }

    /// Files and links of the bay on stage.
    pub(crate) fn share(&mut self, msg: &ShareMsg) {
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
            ShareMsg::Copy | ShareMsg::File(_) | ShareMsg::Open(_) => {}
        }
    }

    /// Replays the take in a file.
    pub(crate) fn open_file(&mut self, ctx: &Context<Self>, text: Result<String, TakeError>) {
        match text.and_then(|text| Take::parse(&text)) {
            Ok(take) => self.replay(ctx, take, Source::File),
            Err(e) => self.tell(move || words::file_broken(words::take_why(&e)), None),
        }
    }
}
