//! What makes the page easy to use from keys, by ear, in front of a class, and with others.
use lowside_present::{controls::Controls, readout::Readout};
use lowside_session::Take;
use yew::{Context, Html, html};

use super::{App, Msg, bays::Source};
use crate::{host, later, share, stage::SPEEDS, store, words};

impl App {
    /// Help, shortcuts, reading aloud, speeds by key.
    pub(super) fn accessibility(&mut self, msg: &Msg) {
        match msg {
            Msg::Help => {
                self.help = !self.help;
                if self.help {
                    host::focus_soon("help-title");
                } else {
                    host::focus_soon("help-button");
                }
            }
            Msg::Shut => {
                if let Some(drawer) = self.drawer.take() {
                    host::focus_soon(drawer.id());
                }
                if self.help {
                    self.help = false;
                    host::focus_soon("help-button");
                }
            }
            &Msg::Shortcuts(on) => {
                self.shortcuts.set(on);
                let _ = store::set(store::SHORTCUTS, if on { "on" } else { "off" });
            }
            Msg::ReadOut => {
                let r = Readout::of(&self.stage.shown(), self.units);
                let clutch = words::in_out()[usize::from(r.clutch)];
                // Asked for, so said at once; the same words twice would not be read.
                let text = words::readout(
                    words::spoken(&r.low),
                    words::spoken(&r.high),
                    words::spoken(&r.vent),
                    clutch,
                    words::bay_time(words::spoken(&r.clock)),
                );
                self.said = (text, host::now());
            }
            &Msg::Faster(faster) => {
                let now = SPEEDS
                    .iter()
                    .position(|s| *s >= self.stage.speed)
                    .unwrap_or(0);
                let to = if faster {
                    now + 1
                } else {
                    now.saturating_sub(1)
                };
                self.stage.speed = SPEEDS[to.min(SPEEDS.len() - 1)];
            }
            _ => {}
        }
    }

    /// Files and links.
    pub(crate) fn share(&mut self, ctx: &Context<Self>, msg: &Msg) {
        let head = self.stage.past.head(&self.stage.bay);
        let sitting = self.stage.sitting_now();
        match msg {
            Msg::SaveTake => share::save(&share::text(head, &sitting)),
            Msg::SaveNotice => {
                if let Some(take) = self.notice.as_ref().and_then(|n| n.take.as_ref()) {
                    share::save(take);
                }
            }
            Msg::Link => {
                if let Some(fragment) = share::fragment(head, &sitting, self.units) {
                    let link = host::address_with(&fragment);
                    host::copy(&link);
                    self.tell(move || words::link_copied(&link), None);
                } else {
                    share::save(&share::text(head, &sitting));
                    self.tell(|| words::link_too_long().to_owned(), None);
                }
            }
            Msg::Open(text) => match text.clone().and_then(|text| Take::parse(&text)) {
                Ok(take) => self.replay(ctx, take, Source::File),
                Err(e) => self.tell(move || words::file_broken(words::take_why(&e)), None),
            },
            _ => {}
        }
    }

    /// In front of a class: what was done last, in large letters, so that everybody can follow.
    pub(super) fn ticker(&self) -> Html {
        if !host::projector() {
            return html! {};
        }
        let last = self.stage.bay.log().last().zip(later::here());
        let last = last.map(|((_, act), later)| (later.act)(*act));
        let c = Controls::of(&self.stage.shown(), self.units);
        let engine = words::named(
            words::engine(),
            words::engine_states()[usize::from(c.engine)],
        );
        html! { <p class="ticker" aria-hidden="true">{ last.unwrap_or(engine) }</p> }
    }
}
