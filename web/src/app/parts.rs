//! The parts of the page that hold a canvas or a needle.
use lowside_lessons::Shown;
use lowside_present::{
    dial::{self, Face, Which},
    ledger::Ledger,
    parts::Part,
    readout::Readout,
};
use lowside_session::{TICKS_PER_SECOND, Tick};
use web_sys::Element;
use yew::{Callback, Context, Html, MouseEvent, PointerEvent, TargetCast, html};

use super::{App, FaceMsg, HeadMsg, Msg, TimeMsg};
use crate::{
    chart::{Strip, StripView},
    dial::DialProps,
    later,
    ledger::ledger,
    levels::{drag, ties::ties},
    sheet,
    timebar::{Film, TimeBarProps, goals, time_bar},
    top::{TopProps, top},
    words,
};

impl App {
    pub(super) fn dial(&self, which: Which, shown: &Shown<'_>, r: &Readout) -> Html {
        let (title, reading, coupled) = match which {
            Which::Low => (words::low_side(), &r.low, shown.hands.low_coupled),
            Which::High => (words::high_side(), &r.high, shown.hands.high_coupled),
        };
        let saturation = match which {
            Which::Low => r.low_saturation.as_ref().map(words::boils_at),
            Which::High => r.high_saturation.as_ref().map(words::condenses_at),
        };
        crate::dial::dial(&DialProps {
            which,
            plate: self.needles.plate(&Face::of(shown, which, self.units)),
            needle: self.needles.of(which).clone(),
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
        match later::hands() {
            Some(hands) if self.closed() => (hands.weighed)(self, shown),
            _ => ledger(&Ledger::of(&self.stage.bay, self.units)),
        }
    }

    /// Is what goes on inside hidden?
    pub(super) fn closed(&self) -> bool {
        self.stage.sitting.now().closed()
    }

    pub(super) fn top(&self, ctx: &Context<Self>, readout: &Readout) -> Html {
        let (s, link) = (&self.stage, ctx.link());
        let (can_undo, can_redo) = s.past.can(&s.bay);
        top(&TopProps {
            door: self.head.door,
            go: link.callback(|x| Msg::Head(HeadMsg::Go(x))),
            clock: readout.clock.number.clone(),
            spoken_clock: words::spoken(&readout.clock),
            paused: s.paused,
            speed: s.speed,
            reached: (s.overloaded && !s.paused).then(|| format!("{:.0}", s.reached)),
            bay: self.bay_name(),
            pause: link.callback(|()| Msg::Time(TimeMsg::Pause)),
            step: link.callback(|()| Msg::Time(TimeMsg::Step)),
            set_speed: link.callback(|x| Msg::Time(TimeMsg::Speed(x))),
            rewinds: s.sitting.now().rewinds(),
            can_undo,
            can_redo,
            undo: link.callback(|()| Msg::Time(TimeMsg::Undo)),
            redo: link.callback(|()| Msg::Time(TimeMsg::Redo)),
            drawer: self.head.drawer,
            open: link.callback(|x| Msg::Head(HeadMsg::Drawer(x))),
            content: self.drawer(ctx),
            help: self.head.help,
            toggle_help: link.callback(|()| Msg::Head(HeadMsg::Help)),
        })
    }

    /// What the bay on stage is called.
    pub(super) fn bay_name(&self) -> String {
        self.own()
            .unwrap_or_else(|| words::charts::start(&self.begin.scenario).to_owned())
    }

    pub(super) fn time_bar(&self, ctx: &Context<Self>) -> Html {
        let link = ctx.link();
        let s = &self.stage;
        let second = |tick: Tick| tick as f64 / TICKS_PER_SECOND as f64;
        time_bar(&TimeBarProps {
            film: self.line.clone(),
            from: second(s.past.start()),
            now: s.bay.seconds(),
            end: second(s.past.end(&s.bay)),
            units: self.units,
            rewinds: s.sitting.now().rewinds(),
            looks_back: s.past.looks_back(),
            lines: s.lines_kept(),
            goals: goals(&s.bay, self.closed()),
            waits_for: s.waits_for(),
            wait_ended: self.told.map(|e| (e.goal, e.met)),
            seek: link.callback(|x| Msg::Time(TimeMsg::Seek(x))),
            line: link.callback(|x| Msg::Time(TimeMsg::Line(x))),
            until: link.callback(|x| Msg::Time(TimeMsg::Until(x))),
            stop: link.callback(|()| Msg::Time(TimeMsg::Pause)),
        })
    }

    /// Draws the line of time.
    pub(super) fn draw_film(&self, readout: &Readout) {
        let Some(svg) = self.line.cast::<Element>() else {
            return;
        };
        let s = &self.stage;
        let branches = s.lines_kept().into_iter().filter(|l| !l.current);
        Film {
            head: s.past.head(&s.bay),
            history: &s.history,
            span: (s.past.start(), s.past.end(&s.bay)),
            cautions: &s.cautioned,
            branches: branches.map(|l| l.from).collect(),
            reads: [
                format!("{} {}", words::chart_high(), readout.high.number),
                {
                    let low = &readout.low;
                    // A vacuum is read in another unit than pressure.
                    let unit = low.unit.split(' ').next();
                    let unit = unit.filter(|_| low.unit != readout.high.unit);
                    let unit = unit.unwrap_or_default();
                    format!("{} {} {unit}", words::chart_low(), low.number)
                },
                format!("{} {}\u{b0}", words::strip_vent(), readout.vent.number),
            ],
            closed: self.closed(),
        }
        .draw(&svg);
    }

    pub(super) fn levels_view(&self, ctx: &Context<Self>) -> Html {
        let at = |make: fn(f64, f64) -> FaceMsg| {
            ctx.link().callback(move |e: MouseEvent| {
                let (x, y) = sheet::pointed(&e);
                Msg::Face(make(x, y))
            })
        };
        // The press with which a drag ends is none.
        let hand = self.painter.hand.clone();
        let press = ctx.link().batch_callback(move |e: MouseEvent| {
            let (x, y) = sheet::pointed(&e);
            (!hand.borrow_mut().swallows()).then_some(Msg::Face(FaceMsg::Press(x, y)))
        });
        let [grip, drag, let_go, lose] = hand_events(&self.painter.hand);
        html! {
            <section key="levels" class="levels" aria-labelledby="levels-title">
                <h2 id="levels-title">{ words::levels() }<small>{ words::levels_idea() }</small>
                <span class="key" aria-hidden="true"><span class="scale"></span>{ words::key()[0] }<span class="wet"></span>{ words::key()[1] }<span class="dry"></span>{ words::key()[2] }
                    <span class="heat"></span>{ words::key()[3] }</span></h2>
                <canvas ref={self.sheet.clone()} role="img" aria-label={self.beat.slow.0.clone()}
                    onclick={press} onmousemove={at(FaceMsg::Hover)}
                    onpointerdown={grip} onpointermove={drag} onpointerup={let_go} onpointercancel={lose}
                    onmouseleave={ctx.link().callback(|_: MouseEvent| Msg::Face(FaceMsg::Light(None)))}></canvas>
                { ties() }
                <div class="under">
                    { self.notes_view() }
                    { for later::hands().map(|hands| (hands.guess_view)(self, ctx)) }
                </div>
            </section>
        }
    }

    pub(crate) fn chart_view(&self, ctx: &Context<Self>) -> Html {
        let send = ctx.link().callback(|s: Strip| Msg::Face(FaceMsg::Strip(s)));
        let save = ctx.link().callback(|k| Msg::Face(FaceMsg::Save(k)));
        html! {
            <StripView key="strip" look={self.chart.look()} read={self.chart.read(&self.stage.history, &self.stage.bay, self.units)}
                axes={self.chart.axes.clone()} traces={self.chart.traces.clone()} {send} {save} rows={self.chart.rows.clone()}
                ghost={self.chart.ghost(&self.stage.bay, self.units)} />
        }
    }
}

/// What a pointer does to the hand on the drawing: takes hold, moves, lets go, is lost.
fn hand_events(hand: &drag::Shared) -> [Callback<PointerEvent>; 4] {
    let on = |act: fn(&mut drag::Hand, &PointerEvent)| {
        let hand = hand.clone();
        Callback::from(move |e: PointerEvent| act(&mut hand.borrow_mut(), &e))
    };
    [
        on(|hand, e| {
            let (x, y) = sheet::pointed(e);
            if hand.grip(x, y)
                && let Some(canvas) = e.target_dyn_into::<Element>()
            {
                // Without it a drag ends at the drawing's edge, no worse.
                drop(canvas.set_pointer_capture(e.pointer_id()));
            }
        }),
        on(|hand, e| {
            hand.drag(sheet::pointed(e).1);
        }),
        on(|hand, _| hand.let_go()),
        on(|hand, _| hand.drop_it()),
    ]
}
