//! The browser around the page: window, document, clock, preferences.
pub(crate) use gloo::utils::{document, window};
use gloo::{
    file::{Blob, ObjectUrl},
    timers::callback::Timeout,
    utils::body,
};
use wasm_bindgen::{JsCast, JsValue};

/// Where the page is put: the element `app` of the shell, whose text it replaces.
pub(crate) fn mount_point() -> web_sys::Element {
    let place = document().get_element_by_id("app");
    let place = place.unwrap_or_else(|| body().into());
    place.set_text_content(None);
    place
}

/// Milliseconds since the page was opened.
pub(crate) fn now() -> f64 {
    window()
        .performance()
        .map_or_else(js_sys::Date::now, |p| p.now())
}

/// What the page's address says behind the question mark for `name`.
pub(crate) fn query(name: &str) -> Option<String> {
    let search = window().location().search().ok()?;
    web_sys::UrlSearchParams::new_with_str(&search)
        .ok()?
        .get(name)
}

/// The folder of this copy of the page on its host, from `/` to `/`.
pub(crate) fn folder() -> String {
    let mut path = window().location().pathname().unwrap_or_default();
    path.truncate(path.rfind('/').map_or(0, |at| at + 1));
    path
}

/// Milliseconds since 1970.
pub(crate) fn today() -> f64 {
    js_sys::Date::now()
}

/// Today as people of this language write it.
pub(crate) fn date(language: &str) -> String {
    let options = js_sys::Object::new();
    js_sys::Date::new_0()
        .to_locale_date_string(language, &options)
        .into()
}

/// A time in ms since 1970 as people of this language write it.
pub(crate) fn date_and_time(at: f64, language: &str) -> String {
    let options = js_sys::Object::new();
    for (part, style) in [("dateStyle", "medium"), ("timeStyle", "short")] {
        drop(js_sys::Reflect::set(&options, &part.into(), &style.into()));
    }
    js_sys::Date::new(&at.into())
        .to_locale_string(language, &options)
        .into()
}

fn notes() -> Option<(web_sys::Storage, String)> {
    let storage = window().session_storage().ok().flatten()?;
    Some((storage, format!("lowside{}bay", folder())))
}

/// What this tab noted for its next page.
pub(crate) fn note() -> Option<String> {
    let (storage, key) = notes()?;
    storage.get_item(&key).ok().flatten()
}

/// Notes something for this tab's next page, or nothing any more.
pub(crate) fn set_note(note: Option<&str>) {
    let Some((storage, key)) = notes() else {
        return;
    };
    drop(match note {
        Some(note) => storage.set_item(&key, note),
        None => storage.remove_item(&key),
    });
}

fn prefers(query: &str) -> bool {
    window()
        .match_media(query)
        .ok()
        .flatten()
        .is_some_and(|m| m.matches())
}

/// Does the person want little motion?
pub(crate) fn reduced_motion() -> bool {
    prefers("(prefers-reduced-motion: reduce)")
}

/// Is the page shown to a class? Asked for by the address: `?layout=projector`.
pub(crate) fn projector() -> bool {
    query("layout").as_deref() == Some("projector")
}

/// How much larger drawings are than on a desk: a class sits further away.
pub(crate) fn enlarged() -> f64 {
    if projector() { 1.5 } else { 1.0 }
}

/// Does the system want a dark page?
pub(crate) fn prefers_dark() -> bool {
    prefers("(prefers-color-scheme: dark)")
}

/// Device pixels in a CSS pixel.
pub(crate) fn pixel_ratio() -> f64 {
    window().device_pixel_ratio().clamp(1.0, 4.0)
}

/// What the shell was asked for, by the id of its door or `go-on`; none if a link asks for a bay.
pub(crate) fn entered() -> Option<String> {
    let root = document().document_element()?;
    root.get_attribute("data-enter")
}

/// Brings an element to the top of what scrolls around it, once the page has been renewed, and gives it the focus.
pub(crate) fn show_soon(id: String) {
    show_where(id, |_| true);
}

/// The same again for one that was shown before, unless somebody has gone on to something else meanwhile.
pub(crate) fn show_again(id: String) {
    show_where(id, |id| {
        let active = document().active_element();
        active.is_none_or(|active| active.id() == id || active.tag_name() == "BODY")
    });
}

fn show_where(id: String, may: impl Fn(&str) -> bool + 'static) {
    let show = move || {
        let element = document().get_element_by_id(&id).filter(|_| may(&id));
        if let Some(e) = element.and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok()) {
            e.scroll_into_view();
            drop(e.focus());
        }
    };
    Timeout::new(0, show).forget();
}

/// Brings an element into view and gives it the focus.
pub(crate) fn show(id: &str) {
    let Some(element) = document().get_element_by_id(id) else {
        return;
    };
    let options = web_sys::ScrollIntoViewOptions::new();
    options.set_block(web_sys::ScrollLogicalPosition::Center);
    if reduced_motion() {
        options.set_behavior(web_sys::ScrollBehavior::Instant);
    } else {
        options.set_behavior(web_sys::ScrollBehavior::Smooth);
    }
    element.scroll_into_view_with_scroll_into_view_options(&options);
    if let Some(element) = element.dyn_ref::<web_sys::HtmlElement>() {
        drop(element.focus());
    }
}

/// What stands behind `#` in the page's address.
pub(crate) fn fragment() -> String {
    window().location().hash().unwrap_or_default()
}

/// Takes what stands behind `#` out of the page's address.
pub(crate) fn take_fragment() -> String {
    let location = window().location();
    let fragment = fragment();
    if let (Ok(history), Ok(path), Ok(search)) =
        (window().history(), location.pathname(), location.search())
        && fragment.len() > 1
    {
        let rest = format!("{path}{search}");
        drop(history.replace_state_with_url(&JsValue::NULL, "", Some(&rest)));
    }
    fragment
}

/// The page's address with something behind `#`.
pub(crate) fn address_with(fragment: &str) -> String {
    let location = window().location();
    let (origin, path) = (location.origin(), location.pathname());
    format!(
        "{}{}#{fragment}",
        origin.unwrap_or_default(),
        path.unwrap_or_default()
    )
}

/// Gives an element the focus once the page has been renewed.
pub(crate) fn focus_soon(id: &'static str) {
    let focus = move || {
        let element = document().get_element_by_id(id);
        if let Some(e) = element.and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok()) {
            drop(e.focus());
        }
    };
    Timeout::new(0, focus).forget();
}

/// The focus is in a field that is typed into: its keys are no shortcuts.
pub(crate) fn in_text_field() -> bool {
    document()
        .active_element()
        .and_then(|a| a.dyn_into::<web_sys::HtmlInputElement>().ok())
        .is_some_and(|f| !matches!(f.type_().as_str(), "range" | "checkbox" | "file"))
}

/// Shift and an arrow move a slider by a fifth of its step; an arrow alone by its step. True if it was done here.
pub(crate) fn fine_step(e: &web_sys::KeyboardEvent) -> bool {
    let sign = match e.key().as_str() {
        "ArrowRight" | "ArrowUp" => 1.0,
        "ArrowLeft" | "ArrowDown" => -1.0,
        _ => return false,
    };
    let field = document()
        .active_element()
        .and_then(|a| a.dyn_into::<web_sys::HtmlInputElement>().ok());
    let Some(field) = field.filter(|f| f.type_() == "range") else {
        return false;
    };
    let coarse = field.dataset().get("step").unwrap_or_else(|| field.step());
    drop(field.dataset().set("step", &coarse));
    // Read by the browser: a reader of our own has a table of 10 kB.
    let number = |text: &str| Some(js_sys::parse_float(text)).filter(|x| x.is_finite());
    let Some(step) = number(&coarse) else {
        return false;
    };
    let by = if e.shift_key() { step / 5.0 } else { step };
    let to = field.value_as_number() + sign * by;
    let (Some(least), Some(most)) = (number(&field.min()), number(&field.max())) else {
        return false;
    };
    field.set_step("any");
    field.set_value_as_number(to.clamp(least, most));
    e.prevent_default();
    let init = web_sys::EventInit::new();
    init.set_bubbles(true);
    if let Ok(event) = web_sys::Event::new_with_event_init_dict("input", &init) {
        drop(field.dispatch_event(&event));
    }
    true
}

/// In small letters. The browser knows them for every script; tables of our own would weigh more than the drawing of levels.
pub(crate) fn lower(text: &str) -> String {
    js_sys::JsString::from(text).to_lower_case().into()
}

/// Calls a function of the page's script, if it is there.
pub(crate) fn call(name: &str) {
    let function = js_sys::Reflect::get(&window(), &name.into())
        .ok()
        .and_then(|f| f.dyn_into::<js_sys::Function>().ok());
    if let Some(function) = function {
        drop(function.call0(&JsValue::UNDEFINED));
    }
}

/// Puts text on the clipboard, where the browser allows it.
pub(crate) fn copy(text: &str) {
    let navigator = window().navigator();
    // An insecure page has no clipboard.
    let there = js_sys::Reflect::get(&navigator, &"clipboard".into()).is_ok_and(|c| c.is_object());
    if there {
        // Nothing hangs on whether it was allowed.
        drop(navigator.clipboard().write_text(text));
    }
}

/// Saves text as a file of the person's.
pub(crate) fn save_text(name: &str, kind: &str, text: &str) {
    let address = ObjectUrl::from(Blob::new_with_options(text, Some(kind)));
    save_address(name, &address);
}

/// Saves what an address holds as a file of the person's.
pub(crate) fn save_address(name: &str, address: &str) {
    let link = document()
        .create_element("a")
        .ok()
        .and_then(|a| a.dyn_into::<web_sys::HtmlAnchorElement>().ok());
    if let Some(link) = link {
        link.set_href(address);
        link.set_download(name);
        link.click();
    }
}

/// Lets the page sound, or falls silent. `static/sound.js` makes the sounds; a browser without them stays silent.
pub(crate) fn sound(heard: Option<lowside_lessons::Sound>) {
    let function = js_sys::Reflect::get(&window(), &"lowsideSound".into())
        .ok()
        .and_then(|f| f.dyn_into::<js_sys::Function>().ok());
    let Some(function) = function else { return };
    let arguments = heard.map_or_else(
        || js_sys::Array::of1(&false.into()),
        |s| {
            js_sys::Array::of5(
                &true.into(),
                &s.turns.into(),
                &s.engine.into(),
                &s.hiss.into(),
                &s.clutch.into(),
            )
        },
    );
    // A sound that fails is no reason to stop.
    drop(function.apply(&JsValue::UNDEFINED, &arguments));
}
