//! The parts of the page that hold a canvas or a needle.
use lowside_lessons::Shown;
use lowside_present::{
    dial::{self, Face, Which},
    ledger::Ledger,
    parts::Part,
    readout::Readout,
};
use lowside_session::TICKS_PER_SECOND;
use yew::{Context, Html, MouseEvent, html};

use super::{App, BaysMsg, Msg, face::FaceMsg};
use crate::{
    chart::{Strip, StripView},
    dial::DialProps,
    later,
    ledger::ledger,
    settings::SettingsProps,
    sheet,
    timebar::{TimeBarProps, goals, time_bar},
    top::{TopProps, top},
    words,
};

impl App {
    pub(super) fn dial(&self, which: Which, shown: &Shown<'_>, r: &Readout) -> Html {
        let (title, reading, coupled, needle) = match which {
            Which::Low => (
                words::low_side(),
                &r.low,
                shown.hands.low_coupled,
                &self.needles[0],
            ),
            Which::High => (
                words::high_side(),
                &r.high,
                shown.hands.high_coupled,
                &self.needles[1],
            ),
        };
        let saturation = match which {
            Which::Low => r.low_saturation.as_ref().map(words::boils_at),
            Which::High => r.high_saturation.as_ref().map(words::condenses_at),
        };
        crate::dial::dial(&DialProps {
            face: Face::of(shown, which, self.units),
            needle: needle.clone(),
            title,
            number: reading.number.clone(),
            unit: reading.unit,
            spoken: words::spoken(reading),
            saturation,
            coupled,
            lit: self.face.lit.and_then(Part::gauge) == Some(which),
            memory: dial::memory(&self.stage.history, shown.tick, which, self.units),
        })
    }

    /// Where every gram is, or what was weighed.
    pub(super) fn grams(&self, shown: &Shown<'_>) -> Html {
        match later::here() {
            Some(later) if self.closed() => (later.weighed)(self, shown),
            _ => ledger(&Ledger::of(&self.stage.bay, self.units)),
        }
    }

    /// Is what goes on inside hidden?
    pub(super) fn closed(&self) -> bool {
        self.stage.sitting.now().closed()
    }

    pub(super) fn top(&self, ctx: &Context<Self>, readout: &Readout) -> Html {
        let (s, link) = (&self.stage, ctx.link());
        top(&TopProps {
            clock: readout.clock.number.clone(),
            spoken_clock: words::spoken(&readout.clock),
            paused: s.paused,
            speed: s.speed,
            reached: (s.overloaded && !s.paused).then(|| format!("{:.0}", s.reached)),
            scenario: self.scenario.clone(),
            picked: self.picked.clone(),
            own: self.own(),
            pick: link.callback(Msg::Pick),
            bays: later::here()
                .map(|later| (later.bays_view)(self, ctx))
                .unwrap_or_default(),
            list_bays: link.callback(|()| Msg::Bays(BaysMsg::List)),
            again: link.callback(|()| Msg::Again),
            pause: link.callback(|()| Msg::Pause),
            step: link.callback(|()| Msg::Step),
            set_speed: link.callback(Msg::Speed),
            more: self.more,
            toggle_more: link.callback(|()| Msg::More),
            help: self.help,
            toggle_help: link.callback(|()| Msg::Help),
            set_language: link.callback(Msg::Language),
            start: link.callback(Msg::Start),
            settings: SettingsProps {
                units: self.units,
                set_units: link.callback(Msg::Units),
                offline: self.offline,
                save_take: link.callback(|()| Msg::SaveTake),
                copy_link: link.callback(|()| Msg::Link),
                open: link.callback(Msg::Open),
            },
        })
    }

    pub(super) fn time_bar(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        let s = &self.stage;
        let second = |tick: u64| tick as f64 / TICKS_PER_SECOND as f64;
        let head = s.past.head(&s.bay);
        let mut acts: Vec<u32> = head
            .log()
            .iter()
            .filter_map(|(t, _)| u32::try_from(t / TICKS_PER_SECOND).ok())
            .collect();
        acts.dedup();
        let (can_undo, can_redo) = s.past.can(&s.bay);
        time_bar(&TimeBarProps {
            from: second(s.past.start()),
            now: s.bay.seconds(),
            end: second(s.past.end(&s.bay)),
            acts,
            units: self.units,
            rewinds: s.sitting.now().rewinds(),
            looks_back: s.past.looks_back(),
            can_undo,
            can_redo,
            lines: s.lines_kept(),
            goals: goals(&s.bay, self.closed()),
            waits_for: s.waits_for(),
            wait_ended: self.told.map(|e| (e.goal, e.met)),
            seek: link.callback(Msg::Seek),
            undo: link.callback(|()| Msg::Undo),
            redo: link.callback(|()| Msg::Redo),
            line: link.callback(Msg::Line),
            until: link.callback(Msg::Until),
            stop: link.callback(|()| Msg::Pause),
        })
    }

    pub(super) fn levels_view(&self, ctx: &Context<Self>) -> Html {
        let at = |make: fn(f64, f64) -> Msg| {
            ctx.link().callback(move |e: MouseEvent| {
                let (x, y) = sheet::pointed(&e);
                make(x, y)
            })
        };
        html! {
            <section key="levels" class="levels" aria-labelledby="levels-title">
                <h2 id="levels-title">{ words::levels() }<small>{ words::levels_idea() }</small>
                <span class="key" aria-hidden="true"><span class="scale"></span>{ words::key()[0] }<span class="wet"></span>{ words::key()[1] }<span class="dry"></span>{ words::key()[2] }
                    <span class="heat"></span>{ words::key()[3] }</span></h2>
                <canvas ref={self.sheet.clone()} role="img" aria-label={self.slow.0.clone()}
                    onclick={at(Msg::Press)} onmousemove={at(Msg::Hover)}
                    onmouseleave={ctx.link().callback(|_: MouseEvent| Msg::Face(FaceMsg::Light(None)))}></canvas>
                { self.notes_view() }
            </section>
        }
    }

    pub(super) fn chart_view(&self, ctx: &Context<Self>) -> Html {
        let send = ctx.link().callback(|s: Strip| Msg::Face(FaceMsg::Strip(s)));
        let save = ctx.link().callback(|k| Msg::Face(FaceMsg::Save(k)));
        html! {
            <StripView key="strip" look={self.chart.look()} read={self.chart.read(&self.stage.history, &self.stage.bay, self.units)}
                axes={self.axes.clone()} traces={self.traces.clone()} {send} {save} rows={self.rows.clone()} />
        }
    }
}
