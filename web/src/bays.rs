//! A bay as it is kept: its take, its lines, its job and statement as texts, in a slot of the storage while it is on stage and in the archive
//! after that.
use lowside_lessons::{Job, card::Text};
use lowside_session::{Scenario, Take, TakeError, Tick};

use crate::{
    archive, host,
    later::{self, Part},
    stage, store,
    tabs::{self, Hold},
    words,
};

/// A bay that only ran by itself for less than this is not worth keeping: 4 min.
const WORTH: Tick = 4 * 60 * lowside_session::TICKS_PER_SECOND;
/// Without locks, a slot that was not written for this long belongs to no tab, ms.
const FORSAKEN: f64 = 600_000.0;

/// A kept bay.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct KeptBay {
    pub(crate) id: String,
    /// By the names in [`store`].
    pub(crate) texts: Vec<(String, String)>,
}

/// A kept bay as one chooses it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Seen {
    pub(crate) name: Named,
    pub(crate) ticks: Tick,
    pub(crate) acts: usize,
}

/// What a bay is called, to be said in the language of the moment.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Named {
    /// By its job card.
    Card(Text),
    /// By the scenario that is offered.
    Offered(&'static str),
    /// By a name of its own.
    Own(String),
    /// Its take cannot be read by this version.
    Unread,
}

impl Named {
    /// The name of a bay by its job and its scenario.
    pub(crate) fn of(job: Option<&Job>, scenario: &Scenario) -> Self {
        match (job, stage::offered(scenario)) {
            (Some(job), _) => Self::Card(job.card.title.clone()),
            (None, Some(id)) => Self::Offered(id),
            (None, None) => Self::Own(scenario.name.clone()),
        }
    }

    /// As it is told.
    pub(crate) fn told(&self) -> String {
        match self {
            Self::Card(title) => words::told(title),
            Self::Offered(id) => words::charts::start(id).to_owned(),
            Self::Own(name) => name.clone(),
            Self::Unread => words::bay_unreadable().to_owned(),
        }
    }
}

impl Seen {
    /// Was anything done in it, or did it run for long? What cannot be read may be worth much.
    fn worth(&self) -> bool {
        self.name == Named::Unread || self.acts > 0 || self.ticks > WORTH
    }
}

/// What there is to go on with when the page opens.
pub(crate) enum Found {
    /// Nothing.
    Nothing,
    /// A bay that this tab has now.
    Mine(KeptBay, Hold),
    /// A bay that made the program fail while it was taken up.
    Failed(KeptBay),
    /// Another tab has it.
    Taken(KeptBay),
}

/// An id that no other bay has.
pub(crate) fn new_id() -> String {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a time in ms and a share of 2^32"
    )]
    let (now, chance) = (
        host::today() as u64,
        (js_sys::Math::random() * 4_294_967_296.0) as u64,
    );
    format!("{now:x}-{chance:x}")
}

impl KeptBay {
    /// The bay in a slot; none if there is no take in it.
    fn in_slot(id: &str) -> Option<Self> {
        let slot = store::of(id, "");
        let text = |name: String| Some((name.strip_prefix(&slot)?.to_owned(), store::get(&name)?));
        let bay = Self {
            id: id.to_owned(),
            texts: store::names().into_iter().filter_map(text).collect(),
        };
        bay.text(store::TAKE).is_some().then_some(bay)
    }

    /// The bay as it was kept last, in its slot or in the archive.
    pub(crate) async fn newest(id: &str) -> Option<Self> {
        let (slot, archived) = (Self::in_slot(id), archive::find(id).await);
        match (slot, archived) {
            (Some(a), Some(b)) => Some(if a.at() < b.at() { b } else { a }),
            (a, b) => a.or(b),
        }
    }

    /// One of its texts.
    pub(crate) fn text(&self, name: &str) -> Option<&str> {
        let found = self.texts.iter().find(|(n, _)| n == name);
        found.map(|(_, text)| text.as_str())
    }

    /// When it was kept, ms since 1970.
    pub(crate) fn at(&self) -> f64 {
        self.text(store::AT)
            .and_then(|at| at.parse().ok())
            .unwrap_or(0.0)
    }

    /// Its take as text.
    pub(crate) fn take_text(&self) -> &str {
        self.text(store::TAKE).unwrap_or_default()
    }

    /// Its take.
    pub(crate) fn take(&self) -> Result<Take, TakeError> {
        Take::parse(self.take_text())
    }

    /// What one sees of it in a list.
    pub(crate) fn seen(&self) -> Seen {
        let Ok(take) = self.take() else {
            return Seen {
                name: Named::Unread,
                ticks: 0,
                acts: 0,
            };
        };
        let job = self.text(store::JOB).and_then(later::job);
        Seen {
            name: Named::of(job.as_ref(), &take.scenario),
            ticks: take.ticks,
            acts: take.log.len(),
        }
    }

    /// Puts it, `seen` like that, into the archive and empties its slot, unless it is on stage again by then; true if it is worth it.
    pub(crate) fn put_aside(self, hold: Option<Hold>, seen: &Seen) -> bool {
        let worth = seen.worth() || self.text(&format!("{}.1", store::LINES)).is_some();
        wasm_bindgen_futures::spawn_local(async move {
            let kept = !worth || archive::put(&self).await.is_ok();
            if kept && store::bay() != self.id {
                empty_slot(&self.id);
            }
            drop(hold);
        });
        worth
    }
}

fn empty_slot(id: &str) {
    let slot = store::of(id, "");
    for name in store::names() {
        if name.starts_with(&slot) {
            store::remove(&name);
        }
    }
}

/// Ids of the slots in use.
fn slots() -> Vec<String> {
    let id = |name: String| Some(name.strip_prefix("bay.")?.split_once('.')?.0.to_owned());
    let mut ids: Vec<String> = store::names().into_iter().filter_map(id).collect();
    ids.sort();
    ids.dedup();
    ids
}

/// Gives what was kept before bays had ids a slot.
fn adopt() {
    if store::get(store::TAKE).is_none() {
        return;
    }
    let id = new_id();
    let moved = [store::TAKE, store::JOB, store::DRAFT, store::LINES];
    for name in store::names() {
        let first = name.split('.').next().unwrap_or_default();
        if let Some(text) = moved.contains(&first).then(|| store::get(&name)).flatten() {
            store::remove(&name);
            let _ = store::set(&store::of(&id, &name), &text);
        }
    }
    let _ = store::set(&store::of(&id, store::AT), &host::today().to_string());
    let _ = store::set(store::LAST, &id);
    store::remove("replaying");
}

/// Finds the bay to go on with: the one that this tab left, else the one kept last.
pub(crate) async fn find() -> Found {
    adopt();
    let note = host::note();
    let Some(id) = note.clone().or_else(|| store::get(store::LAST)) else {
        return Found::Nothing;
    };
    let Some(hold) = tabs::hold(&id, note.is_some()).await else {
        let taken = KeptBay::newest(&id).await;
        return taken.map_or(Found::Nothing, Found::Taken);
    };
    let Some(mut bay) = KeptBay::newest(&id).await else {
        return Found::Nothing;
    };
    if store::get(store::FAILED).as_ref() == Some(&id) {
        store::remove(store::FAILED);
        return Found::Failed(bay);
    }
    if !hold.sure() && note.is_none() {
        bay.id = new_id();
    }
    Found::Mine(bay, hold)
}

/// Puts the bays of tabs that are no more into the archive.
pub(crate) async fn sweep() {
    for id in slots() {
        if id == store::bay() {
            continue;
        }
        let Some(hold) = tabs::hold(&id, false).await else {
            continue;
        };
        let Some(bay) = KeptBay::in_slot(&id) else {
            continue;
        };
        if hold.sure() || host::today() - bay.at() > FORSAKEN {
            later::fetch(Part::Reading).await;
            if let Some(reading) = later::reading() {
                let seen = (reading.seen)(&bay);
                bay.put_aside(Some(hold), &seen);
            }
        }
    }
}

/// All kept bays but the one on stage, newest first; and whether another tab has each.
pub(crate) async fn list() -> Vec<(KeptBay, bool)> {
    let mut all = archive::all().await;
    for bay in slots().iter().filter_map(|id| KeptBay::in_slot(id)) {
        all.retain(|other| other.id != bay.id);
        all.push(bay);
    }
    all.retain(|bay| bay.id != store::bay());
    all.sort_by(|a, b| b.at().total_cmp(&a.at()));
    let held = tabs::held().await;
    all.into_iter()
        .map(|bay| {
            let elsewhere = held.contains(&bay.id);
            (bay, elsewhere)
        })
        .collect()
}

/// Removes a kept bay for good.
pub(crate) async fn remove(id: &str) {
    empty_slot(id);
    // Where there is no archive, nothing is in it.
    drop(archive::remove(id).await);
}
