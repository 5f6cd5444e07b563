//! The help: what the doors, a job and the keys are for, and what the words mean. Opened over the page by its button or the key "?"; Escape
//! closes it.
use yew::{Callback, Event, Html, MouseEvent, NodeRef, TargetCast, html};

use crate::words;

/// The sheet of help, a dialog of the browser's: whether shortcuts are on, what sets them, what closes it.
pub(crate) fn view(
    shortcuts: bool,
    set: Callback<bool>,
    close: &Callback<()>,
    dialog: NodeRef,
) -> Html {
    let change = Callback::from(move |e: Event| {
        if let Some(field) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            set.emit(field.checked());
        }
    });
    let by_escape = close.reform(|_: Event| ());
    let list = |all: Vec<(&'static str, &'static str)>| {
        html! { <dl>{ for all.into_iter().map(|(term, meaning)| html! { <div><dt>{ term }</dt><dd>{ meaning }</dd></div> }) }</dl> }
    };
    html! {
        <dialog class="help" ref={dialog} aria-labelledby="help-title" onclose={by_escape}>
            <div class="bar"><h2 id="help-title" tabindex="-1">{ words::help() }</h2>
                <button type="button" id="help-close" onclick={close.reform(|_: MouseEvent| ())}>{ words::help_close() }</button></div>
            <p>{ words::help_idea() }</p>
            <h3>{ words::doors() }</h3>
            { list(words::doors_told()) }
            <h3>{ words::job() }</h3>
            <p>{ words::help_job() }</p>
            <h3>{ words::keys() }</h3>
            <p><label><input type="checkbox" id="shortcuts" checked={shortcuts} onchange={change} />{ " " }{ words::keys_single() }</label></p>
            <div class="scroll" tabindex="0" role="region" aria-label={words::keys()}><table><tbody>
                { for words::shortcuts().iter().map(|(key, what)| html! { <tr><th scope="row"><kbd>{ *key }</kbd></th><td>{ *what }</td></tr> }) }
            </tbody></table></div>
            <h3>{ words::terms() }</h3>
            { list(words::glossary()) }
        </dialog>
    }
}
