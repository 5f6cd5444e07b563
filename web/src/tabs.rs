//! One bay, one tab: whoever has a bay on stage holds a lock of its name, which the browser frees when the tab is closed.
//!
//! A page that did not come safely (plain HTTP from another machine) has no locks. There a tab takes up under the same id only what it left
//! itself; anything else becomes a bay of its own, so that two tabs never write the same one.
use std::{cell::RefCell, rc::Rc};

use gloo::timers::future::TimeoutFuture;
use js_sys::{Array, Function, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use wasm_bindgen_futures::JsFuture;

use crate::host;

/// Between two tries for a lock that another page of this tab may be giving up, ms; and how many.
const AGAIN: u32 = 100;
const TRIES: u32 = 15;

/// A bay held by this tab until this is dropped.
#[derive(Debug)]
pub(crate) struct Hold {
    /// Lets it go; none where there are no locks, and others may have the bay too.
    release: Option<Function>,
}

impl Hold {
    /// No other tab has the bay.
    pub(crate) fn sure(&self) -> bool {
        self.release.is_some()
    }
}

impl Drop for Hold {
    fn drop(&mut self) {
        if let Some(release) = &self.release {
            drop(release.call0(&JsValue::UNDEFINED));
        }
    }
}

fn name(id: &str) -> String {
    format!("lowside{}bay.{id}", host::folder())
}

fn method(of: &JsValue, name: &str) -> Option<Function> {
    Reflect::get(of, &name.into()).ok()?.dyn_into().ok()
}

fn locks() -> Option<JsValue> {
    let locks = Reflect::get(&host::window().navigator(), &"locks".into()).ok()?;
    locks.is_object().then_some(locks)
}

/// Asks for a bay; none if another tab has it. If `patient`, it may still be this tab's page before that has it, and is waited for.
pub(crate) async fn hold(id: &str, patient: bool) -> Option<Hold> {
    let Some(locks) = locks() else {
        return Some(Hold { release: None });
    };
    let tries = if patient { TRIES } else { 1 };
    for k in 0..tries {
        if k > 0 {
            TimeoutFuture::new(AGAIN).await;
        }
        match request(&locks, id).await {
            Ok(Some(hold)) => return Some(hold),
            Ok(None) => {}
            Err(_) => return Some(Hold { release: None }),
        }
    }
    None
}

/// One try. The lock is held for as long as the promise that its callback gives is open.
async fn request(locks: &JsValue, id: &str) -> Result<Option<Hold>, JsValue> {
    let request = method(locks, "request").ok_or(JsValue::UNDEFINED)?;
    let options = Object::new();
    Reflect::set(&options, &"ifAvailable".into(), &true.into())?;
    let release = Rc::new(RefCell::new(None));
    let mut answered = None;
    let answer = Promise::new(&mut |done, _| answered = Some(done));
    let got = release.clone();
    let callback = Closure::once_into_js(move |lock: JsValue| {
        let mut held = JsValue::UNDEFINED;
        if !lock.is_null() {
            held = Promise::new(&mut |done, _| drop(got.replace(Some(done)))).into();
        }
        if let Some(answered) = &answered {
            drop(answered.call0(&JsValue::UNDEFINED));
        }
        held
    });
    let asked = request.call3(locks, &name(id).into(), &options, &callback)?;
    // What was asked for ends only when the lock is let go, or refused.
    JsFuture::from(Promise::race(&Array::of2(&answer, &asked))).await?;
    let release: Option<Function> = release.take();
    Ok(release.map(|release| Hold {
        release: Some(release),
    }))
}

/// Ids of the bays that some tab has, as far as the browser tells.
pub(crate) async fn held() -> Vec<String> {
    let ask = async {
        let locks = locks()?;
        let asked: Promise = method(&locks, "query")?
            .call0(&locks)
            .ok()?
            .dyn_into()
            .ok()?;
        let told = JsFuture::from(asked).await.ok()?;
        let held = Array::from(&Reflect::get(&told, &"held".into()).ok()?);
        let prefix = name("");
        let id = |lock: JsValue| {
            let name = Reflect::get(&lock, &"name".into()).ok()?.as_string()?;
            name.strip_prefix(&prefix).map(str::to_owned)
        };
        Some(held.iter().filter_map(id).collect())
    };
    ask.await.unwrap_or_default()
}
