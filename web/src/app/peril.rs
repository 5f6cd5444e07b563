//! What endangers people: the question before an act that can hurt, the cautions at their acts, and the harm that was done.
//!
//! Bay time stands still while a question stands, so that the gauges' figures in it are those of the act.
use lowside_lessons::{Caution, Shown, cautions::Cautions, confirm, next::harm};
use lowside_present::{
    ask::{Question, missing},
    tools::Protection,
};
use lowside_session::{Action, LearnerAct, Refused, Tick};
use web_sys::HtmlDialogElement;
use yew::{Callback, Context, Html, NodeRef, html};

use super::{App, Msg};
use crate::{caution, host, later, words};

/// What a person answers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum PerilMsg {
    /// Does what was asked about, or leaves it.
    Answer(bool),
    /// A caution is understood.
    Understood(Caution),
    /// The harm done at a tick has been read.
    Read(Tick),
    /// Puts goggles and gloves on.
    Protect,
}

/// An act that waits for its second press.
struct Asking {
    action: Action,
    question: Question,
    /// When it was asked, ms.
    since: f64,
    /// The question is to be seen.
    shown: bool,
}

/// How that stands in one bay.
#[derive(Default)]
pub(super) struct Peril {
    cautions: Cautions,
    asking: Option<Asking>,
    read: Option<Tick>,
    dialog: NodeRef,
}

/// The second half of a double press is no second thought: an answer sooner than this does nothing, ms.
const SECOND_THOUGHT: f64 = 400.0;

impl App {
    /// Does an act, or asks about it first.
    pub(super) fn act(&mut self, action: Action) {
        if confirm::caution(&self.stage.shown(), action).is_none() {
            return self.act_now(action);
        }
        let Some(hands) = later::hands() else {
            return self.coming.early.push(Msg::Act(action));
        };
        let asked = (hands.ask)(&self.stage.bay, self.closed(), action, self.units);
        let Some(question) = asked else {
            return self.act_now(action);
        };
        self.stage.held = true;
        self.peril.asking = Some(Asking {
            action,
            question,
            since: host::now(),
            shown: false,
        });
    }

    /// Something is asked, and nothing else is done until it is answered.
    pub(super) fn asks(&self) -> bool {
        self.peril.asking.is_some()
    }

    /// Does an act, with its caution.
    fn act_now(&mut self, action: Action) {
        match self.stage.act(action) {
            Ok(caution) => {
                let told = caution.and_then(|c| self.peril.cautions.raise(&self.stage.bay, c));
                if let Some(told) = told {
                    self.stage.cautioned.push(self.stage.bay.tick());
                    self.waiting
                        .extend(later::hands().map(|l| (l.spoken)(told)));
                }
            }
            Err(refused) => return self.refused(refused),
        }
        self.coming
            .early
            .retain(|msg| !matches!(msg, Msg::Refused(_)));
        if self.notice.as_ref().is_some_and(|n| n.take.is_none()) {
            self.notice = None;
        }
    }

    /// Tells why an act was refused; the reasons come with the later part.
    pub(super) fn refused(&mut self, refused: Refused) {
        let Some(hands) = later::hands() else {
            return self.coming.early.push(Msg::Refused(refused));
        };
        let text = move || words::refused((hands.refused)(&refused));
        if self.notice.as_ref().is_none_or(|n| n.take.is_none()) {
            self.tell(text, None);
        } else {
            self.waiting.push(text());
        }
    }

    /// Takes an answer.
    pub(super) fn peril(&mut self, msg: PerilMsg) {
        match msg {
            PerilMsg::Understood(caution) => self.peril.cautions.understand(caution),
            PerilMsg::Read(tick) => self.peril.read = Some(tick),
            PerilMsg::Protect => {
                let worn = self.stage.bay.shop().worn;
                for (what, has) in [
                    (Protection::Goggles, worn.goggles),
                    (Protection::Gloves, worn.gloves),
                ] {
                    if !has {
                        self.act_now(LearnerAct::Wear { what, on: true }.into());
                    }
                }
            }
            PerilMsg::Answer(yes) => {
                let hasty = |a: &mut Asking| yes && host::now() - a.since < SECOND_THOUGHT;
                if let Some(asked) = self.peril.asking.take_if(|a| !hasty(a)) {
                    self.stage.held = false;
                    if yes {
                        self.act_now(asked.action);
                    }
                }
            }
        }
    }

    /// Lets go of cautions whose cause is gone.
    pub(super) fn look_out(&mut self) {
        self.peril.cautions.look(&self.stage.shown());
    }

    /// The question is a dialog of the browser's, over everything, which takes the focus and gives it back; Escape closes it.
    pub(super) fn show_question(&mut self) {
        let Some(dialog) = self.peril.dialog.cast::<HtmlDialogElement>() else {
            return;
        };
        let closed = |a: &mut Asking| a.shown && !dialog.open();
        if self.peril.asking.take_if(closed).is_some() {
            self.stage.held = false;
        }
        match &mut self.peril.asking {
            Some(asking) if !asking.shown => {
                asking.shown = true;
                drop(dialog.show_modal());
            }
            None if dialog.open() => dialog.close(),
            _ => {}
        }
    }

    /// Harm that was done and not yet read, else the latest caution.
    pub(crate) fn said_view(&self, shown: &Shown<'_>, answer: &Callback<PerilMsg>) -> Html {
        let unread = harm(shown).filter(|(tick, _)| self.peril.read != Some(*tick));
        match (unread, self.peril.cautions.latest()) {
            (Some((tick, harm)), _) => caution::harm(tick, harm, answer.clone()),
            (None, Some(told)) => {
                let missing = missing(told.caution.wants(), shown.worn);
                caution::caution(told, missing, answer.clone())
            }
            (None, None) => html! {},
        }
    }

    /// That, and the question.
    pub(super) fn peril_view(&self, ctx: &Context<Self>, shown: &Shown<'_>) -> [Html; 2] {
        let answer = ctx.link().callback(Msg::Peril);
        let said = later::hands().map_or_else(Html::default, |l| (l.said)(self, shown, &answer));
        let asking = self.peril.asking.as_ref().zip(later::hands());
        let dialog = html! {
            <dialog ref={self.peril.dialog.clone()} class="ask" role="alertdialog" aria-labelledby="ask-title" aria-describedby="ask-text">
                if let Some((asking, hands)) = asking { { (hands.question)(&asking.question, missing(asking.question.caution.wants(), shown.worn), &answer) } }
            </dialog>
        };
        [said, dialog]
    }
}
