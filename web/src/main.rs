//! The page.
use wasm_bindgen::prelude::wasm_bindgen;
use yew::{Html, component, html};

mod toy;

#[component]
fn Page() -> Html {
    html! {
        <main>
            <h1>{ "Lowside" }</h1>
            <p>{ "The bay is being built." }</p>
        </main>
    }
}

/// The hash of the bay's state after the take `text`, for the check that browser and native agree bit for bit.
#[wasm_bindgen(js_name = lowsideHash)]
pub fn lowside_hash(text: &str) -> String {
    toy::hash_after(text)
}

fn main() {
    yew::Renderer::<Page>::new().render();
}
