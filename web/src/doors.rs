//! The four doors: what somebody came for. A door changes what comes forward on the page, and never the bay.
use lowside_words as say;
use yew::{Callback, Html, MouseEvent, classes, html};

/// A door.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Door {
    /// A bay to try things in.
    Explore,
    /// Job cards.
    Service,
    /// Vehicles with something wrong.
    Diagnose,
    /// In front of others.
    Class,
}

impl Door {
    /// All, in their order.
    pub(crate) const ALL: [Self; 4] = [Self::Explore, Self::Service, Self::Diagnose, Self::Class];

    /// Its id in the page and in the shell.
    pub(crate) fn id(self) -> &'static str {
        match self {
            Self::Explore => "explore",
            Self::Service => "service",
            Self::Diagnose => "diagnose",
            Self::Class => "class",
        }
    }

    /// The door of that id.
    pub(crate) fn of(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|door| door.id() == id)
    }

    fn name(self) -> &'static str {
        match self {
            Self::Explore => say::door_explore(),
            Self::Service => say::door_service(),
            Self::Diagnose => say::door_diagnose(),
            Self::Class => say::door_class(),
        }
    }
}

/// The doors in the head.
pub(crate) fn doors(now: Door, go: &Callback<Door>) -> Html {
    html! {
        <nav class="doors" aria-label={say::doors()}>
            { for Door::ALL.into_iter().map(|door| {
                let (go, here) = (go.clone(), door == now);
                html! { <button type="button" id={format!("door-{}", door.id())} aria-current={here.then_some("page")}
                    class={classes!(here.then_some("here"))} onclick={Callback::from(move |_: MouseEvent| go.emit(door))}>{ door.name() }</button> }
            }) }
        </nav>
    }
}
