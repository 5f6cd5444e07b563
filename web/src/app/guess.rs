//! Guess, then see: a challenge, the guess, and what came.
use lowside_present::challenge::{self, ALL, Challenge, Guess, Outcome, Watched};
use yew::{Context, Event, Html, MouseEvent, TargetCast, html};

use super::{App, Msg, face::FaceMsg};
use crate::words;

/// What a person does with challenges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum GuessMsg {
    /// Opens or shuts them.
    Open,
    /// Chooses one.
    Choose(usize),
    /// Guesses.
    Say(Guess),
    /// Does it in the bay on stage.
    Do,
}

/// Which challenge stands open, what was guessed and what came.
#[derive(Debug, Clone, Default)]
pub(crate) struct Guessing {
    open: bool,
    at: usize,
    said: Option<(Guess, Option<Outcome>)>,
}

impl App {
    /// Does it.
    pub(crate) fn guess(&mut self, msg: GuessMsg) {
        let bay = &self.stage.bay;
        let guessing = &mut self.face.guess;
        match msg {
            GuessMsg::Open => guessing.open = !guessing.open,
            GuessMsg::Choose(at) => {
                guessing.at = at.min(ALL.len() - 1);
                guessing.said = None;
            }
            GuessMsg::Say(guess) => guessing.said = Some((guess, ALL[guessing.at].see(bay))),
            GuessMsg::Do => {
                for act in ALL[guessing.at].acts(bay) {
                    self.act(act);
                }
            }
        }
        if let Some(told) = self
            .told_guess()
            .filter(|_| matches!(msg, GuessMsg::Say(_)))
        {
            self.waiting.push(told);
        }
    }

    /// What came, in a sentence.
    fn told_guess(&self) -> Option<String> {
        let Guessing { at, said, .. } = &self.face.guess;
        let (guess, outcome) = said.as_ref()?;
        let Some(outcome) = outcome else {
            return Some(words::guess_cannot().to_owned());
        };
        Some(came(&ALL[*at], *guess, outcome, self.units))
    }

    /// The challenges under the drawing.
    pub(crate) fn guess_view(&self, ctx: &Context<Self>) -> Html {
        let send = |msg: GuessMsg| {
            ctx.link()
                .callback(move |_: MouseEvent| Msg::Face(FaceMsg::Guess(msg)))
        };
        let Guessing { open, at, said } = &self.face.guess;
        let toggle = html! {
            <button type="button" aria-expanded={open.to_string()} onclick={send(GuessMsg::Open)}>{ words::guess_open() }</button>
        };
        if !open {
            return html! { <div class="guess">{ toggle }</div> };
        }
        let challenge = &ALL[*at];
        let here = challenge.fits(&self.stage.bay);
        let choose = ctx.link().callback(|e: Event| {
            let at = e.target_dyn_into::<web_sys::HtmlSelectElement>();
            let at = at.map_or(0, |list| list.selected_index().max(0));
            Msg::Face(FaceMsg::Guess(GuessMsg::Choose(
                usize::try_from(at).unwrap_or(0),
            )))
        });
        let next = (at + 1) % ALL.len();
        let acts = said.is_some() && here && !challenge.acts(&self.stage.bay).is_empty();
        html! {
            <div class="guess open">
                { toggle }
                <select aria-label={words::guess_which()} onchange={choose}>
                    { for ALL.iter().enumerate().map(|(k, c)| html! { <option selected={k == *at}>{ format!("{}. {}", k + 1, question(c)) }</option> }) }
                </select>
                <p><strong>{ question(challenge) }</strong>{ " " }<small>{ if here { words::guess_here() } else { words::guess_own() } }</small></p>
                <div class="speeds" role="group" aria-label={words::guess_open()}>
                    { for [Guess::Climbs, Guess::Stays, Guess::Falls].into_iter().map(|guess| {
                        let chosen = said.as_ref().is_some_and(|(said, _)| *said == guess);
                        html! { <button type="button" aria-pressed={chosen.to_string()} disabled={said.is_some()} onclick={send(GuessMsg::Say(guess))}>{ name(guess) }</button> }
                    }) }
                </div>
                if let Some(told) = self.told_guess() {
                    <p class="came">{ told }</p>
                    if acts { <button type="button" onclick={send(GuessMsg::Do)}>{ words::guess_do() }</button> }
                    <button type="button" onclick={send(GuessMsg::Choose(next))}>{ words::guess_again() }</button>
                }
            </div>
        }
    }
}

fn question(challenge: &Challenge) -> &'static str {
    words::challenge(challenge.id).unwrap_or_default()
}

fn name(guess: Guess) -> &'static str {
    match guess {
        Guess::Climbs => words::guess_climbs(),
        Guess::Stays => words::guess_stays(),
        Guess::Falls => words::guess_falls(),
    }
}

/// What came and why, in a sentence with the figures of the bay.
fn came(
    challenge: &Challenge,
    guess: Guess,
    outcome: &Outcome,
    units: lowside_units::display::UnitSystem,
) -> String {
    let right = if guess == outcome.came { "yes" } else { "no" };
    let what = words::guess_watched(match challenge.watched {
        Watched::Low => "low",
        Watched::High => "high",
        Watched::Scale => "scale",
        Watched::Pulls => "pulls",
    });
    let how = match outcome.came {
        Guess::Climbs => "climbs",
        Guess::Stays => "stays",
        Guess::Falls => "falls",
    };
    let why = if outcome.came == challenge.truth {
        words::challenge(&format!("{}.why", challenge.id)).unwrap_or_default()
    } else {
        words::guess_unlike()
    };
    let [before, after] = [outcome.before, outcome.after]
        .map(|value| challenge::shown(challenge.watched, value, units).to_string());
    if outcome.beside {
        words::guess_beside(right, what, how, after, before, why)
    } else {
        words::guess_came(right, what, how, before, after, why)
    }
}
