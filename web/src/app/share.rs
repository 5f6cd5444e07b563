//! How the bay on stage leaves the page as a file or a link, and how a file comes in.
use lowside_lessons::link::LONGEST;
use lowside_session::{Take, TakeError};
use yew::Context;

use super::{App, Msg, bays::Source};
use crate::{
    host, later,
    link::{self, NoLink},
    share, words,
};

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
    /// Here it is, or why there is none; and the take it is of, as text.
    Linked(Result<String, NoLink>, String),
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
            ShareMsg::SaveNotice => {
                let take = self.notice.as_ref().and_then(|n| n.take.as_ref());
                if let (Some(take), Some(reading)) = (take, later::reading()) {
                    (reading.save)(take);
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
                    (keeping.share)(self, ctx, msg);
                }
            }
        }
    }

    /// Files and links of the bay on stage.
    pub(crate) fn share(&mut self, ctx: &Context<Self>, msg: ShareMsg) {
        let head = self.stage.past.head(&self.stage.bay);
        let sitting = self.stage.sitting_now();
        match msg {
            ShareMsg::SaveTake => {
                share::save_as(&sitting.file_name(), &share::text(head, &sitting));
            }
            ShareMsg::Link => {
                let (to, units) = (ctx.link().clone(), self.units);
                let links = later::links();
                let begun = links.and_then(|l| (l.begun)(head, &sitting, units));
                let take = Take::in_sitting(head, sitting);
                wasm_bindgen_futures::spawn_local(async move {
                    let text = take.to_text();
                    let fragment = match begun {
                        Some(fragment) => Ok(fragment),
                        None => link::of(take, units).await,
                    };
                    let linked = ShareMsg::Linked(fragment, text);
                    to.send_message(Msg::Share(linked));
                });
            }
            ShareMsg::Linked(Ok(fragment), _) => {
                let link = host::address_with(&fragment);
                host::copy(&link);
                self.class.link = Some(link.clone());
                self.tell(move || words::link_copied(&link), None);
            }
            ShareMsg::Linked(Err(why), take) => {
                let told = move || match why {
                    NoLink::TooLong(length) => words::link_too_long(length, LONGEST),
                    NoLink::NoPacker => words::link_no_packer().to_owned(),
                };
                self.tell(told, Some(take));
            }
            ShareMsg::Copy | ShareMsg::SaveNotice | ShareMsg::File(_) | ShareMsg::Open(_) => {}
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
