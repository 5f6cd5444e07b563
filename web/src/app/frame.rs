//! What is done each frame, and what only every so often.
use lowside_lessons::{
    Shown,
    next::{Advice, advice},
};
use lowside_present::{
    dial::{self, Which},
    levels, notes,
    palette::Theme,
    readout::{Readout, weighed},
};
use lowside_session::Event as BayEvent;
use web_sys::{Element, HtmlCanvasElement, HtmlElement};

use super::{App, Mode};
use crate::{
    host, later,
    levels::{Scene, ties::tie},
    theme,
    views::View,
    words,
};

/// Time between renewals of text, ms.
const TEXT_EVERY: f64 = 110.0;
/// Time between renewals of the notes, ms: sentences that come and go with each pull of the clutch are read by nobody.
const NOTES_EVERY: f64 = 1_500.0;
/// Time between renewals of the strip chart, ms.
const CHART_EVERY: f64 = 180.0;
/// Time between renewals of the descriptions, ms.
const SLOW_EVERY: f64 = 4_000.0;
/// Least time between two spoken messages, ms.
const SPEAK_EVERY: f64 = 3_000.0;
/// How long a next step must stand before it is read out, ms.
const STEADY: f64 = 1_200.0;

impl App {
    /// One frame at wall time `now` (ms); true if the text is due.
    pub(super) fn frame(&mut self, now: f64) -> bool {
        if matches!(self.mode, Mode::Resuming(_)) {
            return false;
        }
        let dt = self.stage.frame(now);
        if let Some(ended) = self.stage.ended.take() {
            self.waiting
                .push(words::wait_ended(ended.goal, ended.met, self.units));
            self.told = Some(ended);
        }
        if core::mem::take(&mut self.stage.full) {
            self.tell(|| words::bay_full().to_owned(), None);
        }
        if self.stored != self.stage.stored {
            self.stored = self.stage.stored;
            self.waiting
                .extend(words::stored(self.stored).map(str::to_owned));
        }
        let dark = theme::dark();
        if dark != self.browser.dark {
            self.browser.dark = dark;
            theme::apply();
        }
        let theme = theme::current();
        let shown = self.stage.shown();
        let step = self.advised(&shown);
        self.needed = step.and_then(Advice::control);
        if step != self.step.0 {
            self.step = (step, now, false);
        } else if let Some(step) = step
            && !self.step.2
            && now - self.step.1 > STEADY
        {
            self.step.2 = true;
            let label = Readout::of(&shown, self.units).label.to_string();
            let weighed = weighed(&shown, self.units);
            let (what, _) = words::advice(step, self.stage.job.as_ref(), &weighed, &label);
            self.waiting.push(words::spoken_next(&what));
        }
        let still = self.stage.paused || host::reduced_motion();
        let (levels_due, parts_due) = self.face.due(dt);
        if let Some(moved) = levels_due {
            self.draw_levels(theme, now, if still { 0.0 } else { moved });
        }
        if let Some(moved) = parts_due {
            self.draw_flows(theme, if still { 0.0 } else { moved });
        }
        self.turn_needles((!still).then_some(now / 1e3));
        if now - self.beat.chart > CHART_EVERY {
            self.beat.chart = now;
            self.draw_film(&Readout::of(&self.stage.shown(), self.units));
            let sheets = self
                .chart
                .axes
                .cast::<Element>()
                .zip(self.chart.traces.cast());
            if let Some(((axes, traces), charts)) = sheets.zip(later::charts()) {
                (charts.draw)(self, (&axes, &traces));
            }
        }
        if let Some(diagnose) = later::diagnose() {
            (diagnose.frame)(self);
        }
        if let Some(class) = later::class() {
            (class.frame)(self, (!still).then_some(now / 1e3));
        }
        if self.face.sound {
            self.hear();
        }
        self.speak(now);
        if now - self.beat.slow.1 > SLOW_EVERY {
            self.slow_down(now);
        }
        if now - self.beat.text > TEXT_EVERY {
            self.beat.text = now;
            self.look_out();
            self.note_done();
            return true;
        }
        false
    }

    /// Draws the levels, if they are to be seen, at wall time `now` (ms), `moved` seconds after the last; does what a hand on them has let go.
    fn draw_levels(&mut self, theme: &Theme, now: f64, moved: f64) {
        let Some(canvas) = self.sheet.cast::<HtmlCanvasElement>() else {
            return;
        };
        if self.stage.ticks.is_empty() {
            self.stage.ticks = levels::ticks(&self.stage.bay, self.units);
        }
        let levels = self.stage.levels(self.units);
        if now - self.face.notes.0 > NOTES_EVERY {
            self.face.notes = (now, notes::of(&self.stage.bay, self.units));
        }
        if now - self.face.tied > TEXT_EVERY {
            self.face.tied = now;
            tie(&canvas, self.painter.flags);
        }
        let scene = Scene {
            levels: &levels,
            ticks: &self.stage.ticks,
            names: [
                self.units.pressure.gauge_symbol(),
                self.units.temperature.symbol(),
            ],
            needed: self.needed,
            lit: self.face.lit,
            notes: &self.face.notes.1,
            bay: (&self.stage.bay, self.units),
        };
        self.painter.draw(&canvas, theme, &scene, moved);
        if let Some(act) = self.painter.hand_act(&self.stage.bay) {
            self.act(act);
        }
    }

    /// What is advised: nothing in an exam or while a card or a vehicle is chosen, and by hand only what somebody there can see.
    pub(super) fn advised(&self, shown: &Shown<'_>) -> Option<Advice> {
        let s = &self.stage;
        let sight = s.sitting.now();
        let job = s.job.as_ref();
        let step = match later::hands() {
            _ if !sight.hints() => return None,
            Some(hands) if sight.closed() => (hands.advised)(shown, job),
            _ => advice(shown, job),
        };
        (step.emergency() || !self.chooses()).then_some(step)
    }

    /// Turns the needles of both gauges; they throb at a time `throb`, s, or not at all.
    fn turn_needles(&self, throb: Option<f64>) {
        let shown = self.stage.shown();
        for which in [Which::Low, Which::High] {
            if let Some(needle) = self.needles.of(which).cast::<HtmlElement>() {
                let at = dial::needle(&shown, which, self.units, throb);
                let turned = format!("rotate({:.2}deg)", crate::dial::angle(at));
                drop(needle.style().set_property("transform", &turned));
            }
        }
    }

    /// Renews what changes slowly.
    pub(super) fn slow_down(&mut self, now: f64) {
        let s = &self.stage;
        let levels = s.levels(self.units);
        self.beat.slow = (
            words::levels_text(&Readout::of(&s.shown(), self.units), &levels),
            now,
        );
        if let Some(charts) = later::charts().filter(|_| self.face.open.has(View::Strip)) {
            self.chart.rows = (charts.rows)(self);
        }
    }

    /// One message at a time, none sooner than three seconds after the last.
    pub(super) fn speak(&mut self, now: f64) {
        let news: Vec<BayEvent> = self.stage.news.drain(..).collect();
        for e in news {
            self.waiting.push(words::event(e));
        }
        if self.waiting.is_empty() || now - self.said.1 < SPEAK_EVERY {
            return;
        }
        // Under a flood the latest counts.
        let keep = self.waiting.len().saturating_sub(2);
        self.waiting.drain(..keep);
        self.said = (self.waiting.remove(0), now);
    }
}
