//! The help in place: what keys do, and what the words mean. Opened by its button or the key "?".
use yew::{Callback, Event, Html, MouseEvent, TargetCast, html};

use crate::words;

/// The sheet of help: whether shortcuts are on, what sets them, what closes it.
pub(crate) fn view(shortcuts: bool, set: Callback<bool>, close: Callback<()>) -> Html {
    let change = Callback::from(move |e: Event| {
        if let Some(field) = e.target_dyn_into::<web_sys::HtmlInputElement>() {
            set.emit(field.checked());
        }
    });
    html! {
        <section class="help" aria-labelledby="help-title">
            <div class="bar"><h2 id="help-title" tabindex="-1">{ words::help() }</h2>
                <button type="button" id="help-close" onclick={Callback::from(move |_: MouseEvent| close.emit(()))}>{ words::help_close() }</button></div>
            <p>{ words::help_idea() }</p>
            <h3>{ words::keys() }</h3>
            <p><label><input type="checkbox" id="shortcuts" checked={shortcuts} onchange={change} />{ " " }{ words::keys_single() }</label></p>
            <div class="scroll" tabindex="0" role="region" aria-label={words::keys()}><table><tbody>
                { for words::shortcuts().iter().map(|(key, what)| html! { <tr><th scope="row"><kbd>{ *key }</kbd></th><td>{ *what }</td></tr> }) }
            </tbody></table></div>
            <h3>{ words::terms() }</h3>
            <dl>{ for words::glossary().iter().map(|(term, meaning)| html! { <div><dt>{ *term }</dt><dd>{ *meaning }</dd></div> }) }</dl>
        </section>
    }
}
