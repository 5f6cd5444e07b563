//! The head of the page and what opens from it: doors, drawers, help, language, units, theme; and what is said of the page itself.
use std::{cell::Cell, rc::Rc};

use lowside_present::{UnitSystem, readout::Readout};
use lowside_words::Language;
use web_sys::HtmlDialogElement;
use yew::{Context, Html, NodeRef, html};

use super::{App, BaysMsg, Msg};
use crate::{doors::Door, host, later, speech, store, theme::Choice, top::Drawer, units, words};

/// What is asked of the head.
#[derive(Clone, Copy)]
pub(crate) enum HeadMsg {
    /// Goes through a door.
    Go(Door),
    /// Opens or shuts a drawer.
    Drawer(Drawer),
    /// Opens or closes the help.
    Help,
    /// Shuts whatever lies over the page.
    Shut,
    Units(UnitSystem),
    Theme(Choice),
    Language(Language),
    /// The page speaks another language now.
    Speaks,
    /// Single keys are shortcuts, or not.
    Shortcuts(bool),
    /// Says what the instruments read.
    ReadOut,
    /// Tells what has the focus or the pointer, by id.
    Hint(Option<&'static str>),
}

/// How the head stands.
pub(super) struct Head {
    /// The door one is in.
    pub(super) door: Door,
    /// What is open from the head.
    pub(super) drawer: Option<Drawer>,
    pub(super) help: bool,
    pub(super) sheet_of_help: NodeRef,
    pub(super) hint: Option<&'static str>,
    pub(super) shortcuts: Rc<Cell<bool>>,
}

impl Head {
    pub(super) fn new(door: Door) -> Self {
        let off = store::get(store::SHORTCUTS).as_deref() == Some("off");
        Self {
            door,
            drawer: None,
            help: false,
            sheet_of_help: NodeRef::default(),
            hint: None,
            shortcuts: Rc::new(Cell::new(!off)),
        }
    }
}

impl App {
    /// Does it; true if the page is to be shown anew.
    pub(super) fn head(&mut self, ctx: &Context<Self>, msg: HeadMsg) -> bool {
        let head = &mut self.head;
        match msg {
            HeadMsg::Go(door) => {
                head.door = door;
                head.drawer = None;
            }
            HeadMsg::Drawer(drawer) => {
                head.drawer = Some(drawer).filter(|_| head.drawer != Some(drawer));
                if head.drawer == Some(Drawer::Bays) {
                    ctx.link().send_message(Msg::Bays(BaysMsg::List));
                }
            }
            HeadMsg::Help => {
                head.help = !head.help;
                host::focus_soon(if head.help {
                    "help-title"
                } else {
                    "help-button"
                });
            }
            HeadMsg::Shut => {
                if let Some(drawer) = head.drawer.take() {
                    host::focus_soon(drawer.id());
                }
                if core::mem::take(&mut head.help) {
                    host::focus_soon("help-button");
                }
            }
            HeadMsg::Units(units) => {
                self.units = units;
                self.stage.ticks.clear();
                units::save(units);
            }
            HeadMsg::Theme(choice) => choice.choose(),
            HeadMsg::Language(language) => {
                let link = ctx.link().clone();
                wasm_bindgen_futures::spawn_local(async move {
                    speech::choose(language).await;
                    link.send_message(Msg::Head(HeadMsg::Speaks));
                });
                return false;
            }
            HeadMsg::Speaks => self.speaks(ctx),
            HeadMsg::Shortcuts(on) => {
                head.shortcuts.set(on);
                let _ = store::set(store::SHORTCUTS, if on { "on" } else { "off" });
            }
            HeadMsg::ReadOut => self.read_out(),
            HeadMsg::Hint(hint) if head.hint == hint => return false,
            HeadMsg::Hint(hint) => head.hint = hint,
        }
        true
    }

    /// The help lies over the page, as a dialog of the browser's, which takes the focus and gives it back.
    pub(super) fn show_help(&self) {
        let dialog = self.head.sheet_of_help.cast::<HtmlDialogElement>();
        if let Some(dialog) = dialog.filter(|dialog| self.head.help && !dialog.open()) {
            drop(dialog.show_modal());
        }
    }

    /// What was said and waits is in the other language.
    fn speaks(&mut self, ctx: &Context<Self>) {
        self.said.0.clear();
        self.waiting.clear();
        self.head.hint = None;
        if let Some(notice) = &mut self.notice {
            notice.told.renew();
            if let Some((label, _)) = &mut notice.back {
                label.renew();
            }
        }
        ctx.link().send_message(Msg::Bays(BaysMsg::List));
    }

    /// Asked for, so said at once; the same words twice would not be read.
    fn read_out(&mut self) {
        let r = Readout::of(&self.stage.shown(), self.units);
        let text = words::readout(
            words::spoken(&r.low),
            words::spoken(&r.high),
            words::spoken(&r.vent),
            words::in_out()[usize::from(r.clutch)],
            words::bay_time(words::spoken(&r.clock)),
        );
        self.said = (text, host::now());
    }

    /// In front of a class: the keys, and what was done last for some seconds, in large letters, so that everybody can follow.
    pub(super) fn ticker(&self) -> Html {
        if !host::projector() {
            return html! {};
        }
        let log = self.stage.bay.log();
        let last = log.iter().rfind(|(_, act)| !act.is_secret());
        let last = last.zip(later::hands());
        let last = last.map(|((_, act), hands)| (hands.act)(*act));
        html! { <aside class="strip-of-keys" aria-label={words::keys()}>
            <ul>{ for words::class_keys().into_iter().map(|(key, what)| html! { <li><kbd>{ key }</kbd>{ what }</li> }) }</ul>
            <p key={log.len()} class="ticker" aria-hidden="true">{ last }</p>
        </aside> }
    }
}
