//! Which views stand in the middle, and the picker that opens and closes them.
//!
//! A view is a drawing or a chart. A later tool adds a variant here, a name in the words, and an arm where views are drawn.
use lowside_present::plot::Plot;
use yew::{Callback, Html, MouseEvent, classes, html};

use crate::{
    host, store,
    words::{self, charts},
};

/// Something to look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum View {
    /// The drawing of levels.
    Levels,
    /// The drawing of parts: the loop to look into, to open and to put together.
    Parts,
    /// Readings over time.
    Strip,
    /// The job card and its record.
    Job,
    /// A chart of properties.
    Plot(Plot),
}

impl View {
    /// All views in the order in which they stand.
    pub(crate) const ALL: [Self; 8] = [
        Self::Levels,
        Self::Parts,
        Self::Strip,
        Self::Job,
        Self::Plot(Plot::PressureEnthalpy),
        Self::Plot(Plot::MoistAir),
        Self::Plot(Plot::PressureTemperature),
        Self::Plot(Plot::WaterBoils),
    ];

    /// Does a closed bay have it?
    pub(crate) fn closed(self) -> bool {
        matches!(self, Self::Levels | Self::Parts | Self::Strip | Self::Job)
    }

    /// Its id in the page and in the store.
    pub(crate) fn id(self) -> &'static str {
        match self {
            Self::Levels => "levels",
            Self::Parts => "parts",
            Self::Strip => "strip",
            Self::Job => "job",
            Self::Plot(Plot::PressureEnthalpy) => "cycle",
            Self::Plot(Plot::MoistAir) => "air",
            Self::Plot(Plot::PressureTemperature) => "boiling",
            Self::Plot(Plot::WaterBoils) => "vacuum",
        }
    }
}

/// The views that are open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Open(Vec<View>);

impl Open {
    /// As the person left it, else the drawing of levels.
    pub(crate) fn remembered() -> Self {
        let kept = store::get(store::VIEWS).unwrap_or_default();
        let most = if host::projector() {
            2
        } else {
            View::ALL.len()
        };
        let open: Vec<View> = View::ALL
            .into_iter()
            .filter(|v| kept.split(' ').any(|id| id == v.id()))
            .take(most)
            .collect();
        Self(if open.is_empty() {
            vec![View::Levels]
        } else {
            open
        })
    }

    /// Is it open?
    pub(crate) fn has(&self, view: View) -> bool {
        self.0.contains(&view)
    }

    /// Opens or closes a view and remembers it.
    pub(crate) fn toggle(&mut self, view: View) {
        if let Some(at) = self.0.iter().position(|v| *v == view) {
            self.0.remove(at);
        } else {
            if host::projector() {
                // A class follows two views at most.
                self.0.truncate(1);
            }
            let at = self.0.partition_point(|v| *v < view);
            self.0.insert(at, view);
        }
        let ids: Vec<&str> = self.0.iter().map(|v| v.id()).collect();
        let _ = store::set(store::VIEWS, &ids.join(" "));
    }

    /// In the order in which they stand.
    pub(crate) fn iter(&self) -> impl Iterator<Item = View> + '_ {
        self.0.iter().copied()
    }
}

/// One button a view, pressed while it is open; a closed bay has not all of them, and the loop from outside for its levels.
pub(crate) fn picker(open: &Open, toggle: &Callback<View>, closed: bool) -> Html {
    html! {
        <div class="picker" role="group" aria-label={words::views()}>
            { for View::ALL.into_iter().filter(|v| !closed || v.closed()).map(|v| {
                let (on, toggle) = (open.has(v), toggle.clone());
                html! { <button type="button" aria-pressed={on.to_string()} class={classes!(on.then_some("chosen"))}
                    onclick={Callback::from(move |_: MouseEvent| toggle.emit(v))}>{ if closed && v == View::Levels { words::around_view() } else { charts::view(v) } }</button> }
            }) }
        </div>
    }
}
