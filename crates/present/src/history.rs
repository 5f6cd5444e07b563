//! What the instruments showed over time, thinned for a chart of so many columns.

use core::ops::Range;
use std::collections::VecDeque;

use crate::plot::Scales;
use lowside_lessons::Shown as Known;
use lowside_session::{
    Action, Entered, Event, InstrumentAct, MachineAct, TICKS_PER_SECOND, Tick, VehicleAct,
    VesselAct,
};
pub use lowside_shop::vacuum::GaugePlace;
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Temperature,
    display::{self, Shown, UnitSystem},
};

/// Ticks between samples: half a second of bay time.
pub const EVERY: Tick = TICKS_PER_SECOND / 2;
/// Most samples kept: two hours.
const KEPT: usize = 2 * 3600 * 2;
/// After this the vacuum gauge shows its new place and no longer the one before: five times its lag of a second, in ticks.
const SETTLES: Tick = 5 * TICKS_PER_SECOND;

/// One moment, SI: Pa gauge and K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// When.
    pub tick: Tick,
    /// Compound gauge, Pa gauge.
    pub low: f32,
    /// High-pressure gauge, Pa gauge.
    pub high: f32,
    /// Centre vent, K.
    pub vent: f32,
    /// Cabin, K.
    pub cabin: f32,
    /// Electronic vacuum gauge, Pa absolute; none above its range.
    pub vacuum: Option<f32>,
    /// That gauge is at the loop, not at the pump.
    pub vacuum_at_loop: bool,
    /// Clutch engaged.
    pub clutch: bool,
}

/// Which trace.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trace {
    /// Compound gauge.
    Low,
    /// High-pressure gauge.
    High,
    /// Vent.
    Vent,
    /// Cabin.
    Cabin,
    /// Electronic vacuum gauge.
    Vacuum,
}

impl Sample {
    /// The value of a trace; none where the instrument shows none.
    pub fn get(&self, trace: Trace) -> Option<f64> {
        let value = match trace {
            Trace::Low => Some(self.low),
            Trace::High => Some(self.high),
            Trace::Vent => Some(self.vent),
            Trace::Cabin => Some(self.cabin),
            Trace::Vacuum => self.vacuum,
        };
        value.map(f64::from)
    }
}

/// The recorder.
#[derive(Debug, Clone, Default)]
pub struct History {
    samples: VecDeque<Sample>,
}

/// A mark on the time axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// A can was taken; its number.
    Can(u32),
    /// The can ran empty.
    CanEmpty,
    /// The engine was started.
    EngineOn,
    /// The engine was stopped.
    EngineOff,
    /// A can burst.
    Burst,
    /// The high-pressure cut-out opened.
    CutOut,
    /// The relief valve lifted.
    Relief,
    /// The discharge hose burst.
    HoseBurst,
    /// The vacuum pump was connected to the hose through its open valve.
    PumpOn,
    /// The vacuum pump was shut off from the hose: what rises from here on comes from inside the loop, or through a leak.
    PumpOff,
    /// The vacuum gauge was moved: what it shows from here on is the pressure of another place.
    Gauge(GaugePlace),
}

impl MarkKind {
    /// Something broke or shut itself off, or a trace goes on with another meaning: its name is never left out.
    pub fn weighty(self) -> bool {
        matches!(
            self,
            Self::Burst | Self::HoseBurst | Self::Relief | Self::CutOut | Self::Gauge(_)
        )
    }
}

impl History {
    /// Is a sample due at a tick? Ask after every step.
    pub fn due(&self, tick: Tick) -> bool {
        tick.is_multiple_of(EVERY) && self.samples.back().is_none_or(|s| s.tick < tick)
    }

    /// Takes a sample if one is due.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a chart needs no more than single precision"
    )]
    pub fn record(&mut self, shown: &Known<'_>) {
        if !self.due(shown.tick) {
            return;
        }
        if self.samples.len() >= KEPT {
            self.samples.pop_front();
        }
        let [low, high] = shown.pointers.map(|pa| pa as f32);
        let [vent, cabin] = shown.air_pointers.map(|k| k as f32);
        self.samples.push_back(Sample {
            tick: shown.tick,
            low,
            high,
            vent,
            cabin,
            vacuum: shown.vacuum_pointer.map(|pa| pa as f32),
            vacuum_at_loop: shown.hands.vacuum_gauge == GaugePlace::Loop,
            clutch: shown.clutch,
        });
    }

    /// Forgets what came after a tick.
    pub fn cut(&mut self, tick: Tick) {
        let keep = self.samples.partition_point(|s| s.tick <= tick);
        self.samples.truncate(keep);
    }

    /// All samples, oldest first.
    pub fn samples(&self) -> impl DoubleEndedIterator<Item = &Sample> + ExactSizeIterator {
        self.samples.iter()
    }

    fn window(&self, from: Tick, to: Tick) -> impl Iterator<Item = &Sample> {
        let start = self.samples.partition_point(|s| s.tick < from);
        self.samples
            .range(start..)
            .take_while(move |s| s.tick <= to)
    }

    /// A trace over `from..=to` in pieces, each of points (place 0 to 1 along the window, value). A piece ends where the instrument
    /// shows nothing, and where the vacuum gauge is moved, until it has settled at its other place.
    pub fn pieces(
        &self,
        trace: Trace,
        from: Tick,
        to: Tick,
        columns: usize,
    ) -> Vec<Vec<(f64, f64)>> {
        let mut out = Vec::new();
        let mut start = from;
        let mut last: Option<&Sample> = None;
        for s in self.window(from, to) {
            let moved = last.is_some_and(|l| l.vacuum_at_loop != s.vacuum_at_loop);
            if trace == Trace::Vacuum && moved {
                out.push(self.thin(trace, (from, to), start..s.tick, columns));
                start = s.tick + SETTLES;
            } else if s.get(trace).is_none() && last.is_some_and(|l| l.get(trace).is_some()) {
                out.push(self.thin(trace, (from, to), start..s.tick, columns));
                start = start.max(s.tick);
            }
            last = Some(s);
        }
        out.push(self.thin(trace, (from, to), start..to + 1, columns));
        out.retain(|piece| !piece.is_empty());
        out
    }

    /// The part `within` of a trace over `from..=to` as points, at most two a column: every column keeps its least and greatest value
    /// in the order they came, so that a short peak is never lost.
    fn thin(
        &self,
        trace: Trace,
        (from, to): (Tick, Tick),
        within: Range<Tick>,
        columns: usize,
    ) -> Vec<(f64, f64)> {
        let span = to.saturating_sub(from).max(1) as f64;
        let mut out: Vec<(f64, f64)> = Vec::new();
        let mut column = usize::MAX;
        let (mut lo, mut hi) = ((0.0, 0.0), (0.0, 0.0));
        let mut flush = |lo: (f64, f64), hi: (f64, f64)| {
            let (a, b) = if lo.0 <= hi.0 { (lo, hi) } else { (hi, lo) };
            out.push(a);
            if b != a {
                out.push(b);
            }
        };
        for s in self.window(within.start, within.end.saturating_sub(1)) {
            let x = (s.tick - from) as f64 / span;
            let Some(value) = s.get(trace) else { continue };
            let point = (x, value);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "x is 0 to 1"
            )]
            let c = (x * columns as f64) as usize;
            if c == column {
                if point.1 < lo.1 {
                    lo = point;
                }
                if point.1 > hi.1 {
                    hi = point;
                }
            } else {
                if column != usize::MAX {
                    flush(lo, hi);
                }
                (column, lo, hi) = (c, point, point);
            }
        }
        if column != usize::MAX {
            flush(lo, hi);
        }
        out
    }

    /// Times at which the clutch was in over `from..=to`, as pairs of places 0 to 1.
    pub fn clutch_in(&self, from: Tick, to: Tick) -> Vec<(f64, f64)> {
        let span = to.saturating_sub(from).max(1) as f64;
        let mut out: Vec<(f64, f64)> = Vec::new();
        let mut was = false;
        for s in self.window(from, to) {
            let x = (s.tick - from) as f64 / span;
            if s.clutch {
                let end = (x + EVERY as f64 / span).min(1.0);
                match out.last_mut() {
                    Some(last) if was => last.1 = end,
                    _ => out.push((x, end)),
                }
            }
            was = s.clutch;
        }
        out
    }
}

/// A line of the table behind the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Bay time.
    pub time: Shown,
    /// Low side.
    pub low: Shown,
    /// High side.
    pub high: Shown,
    /// Vent.
    pub vent: Shown,
    /// Cabin.
    pub cabin: Shown,
    /// Vacuum gauge; none above its range.
    pub vacuum: Option<Shown>,
    /// Clutch in.
    pub clutch: bool,
}

impl Sample {
    fn row(&self, units: UnitSystem) -> Row {
        let gauge = |pa: f32| display::gauge_pressure(GaugePressure::from_pa(f64::from(pa)), units);
        let warmth = |k: f32| display::temperature(Temperature::from_k(f64::from(k)), units);
        let vacuum = |pa: f32| display::vacuum(AbsolutePressure::from_pa(f64::from(pa)), units);
        Row {
            time: display::duration(Duration::from_s(self.tick as f64 / TICKS_PER_SECOND as f64)),
            low: gauge(self.low),
            high: gauge(self.high),
            vent: warmth(self.vent),
            cabin: warmth(self.cabin),
            vacuum: self.vacuum.map(vacuum),
            clutch: self.clutch,
        }
    }
}

impl History {
    /// The sample nearest to a moment, as a row.
    pub fn at(&self, tick: Tick, units: UnitSystem) -> Option<Row> {
        self.sample(tick).map(|s| s.row(units))
    }

    /// The sample nearest to a moment.
    pub fn sample(&self, tick: Tick) -> Option<&Sample> {
        let next = self.samples.partition_point(|s| s.tick < tick);
        let near = |k: usize| self.samples.get(k).map(|s| (s.tick.abs_diff(tick), s));
        [near(next), next.checked_sub(1).and_then(near)]
            .into_iter()
            .flatten()
            .min_by_key(|(far, _)| *far)
            .map(|(_, s)| s)
    }

    /// Least and greatest value of a trace over `from..=to`; none without samples.
    pub fn extent(&self, trace: Trace, from: Tick, to: Tick) -> Option<(f64, f64)> {
        self.window(from, to)
            .filter_map(|s| s.get(trace))
            .fold(None, |e: Option<(f64, f64)>, v| {
                Some(e.map_or((v, v), |(lo, hi)| (lo.min(v), hi.max(v))))
            })
    }

    /// Every sample over `from..=to` as comma-separated values under `heads`; the clutch is 1 while it is in, and a vacuum above the
    /// gauge's range is left empty.
    pub fn csv(&self, from: Tick, to: Tick, units: UnitSystem, heads: &[&str; 7]) -> String {
        use core::fmt::Write;
        let mut out = String::new();
        let scales = Scales(units);
        let (p, t) = (scales.gauge_unit(), scales.t_unit());
        let units_of = ["s", p, p, t, t, scales.vacuum_unit(), "1"];
        for (k, (head, unit)) in heads.iter().zip(units_of).enumerate() {
            let comma = if k > 0 { "," } else { "" };
            // Writing into a string cannot fail.
            let _ = write!(out, "{comma}\"{head} ({unit})\"");
        }
        out.push('\n');
        for s in self.window(from, to) {
            let _ = writeln!(
                out,
                "{:.1},{:.2},{:.2},{:.2},{:.2},{},{}",
                s.tick as f64 / TICKS_PER_SECOND as f64,
                scales.gauge(f64::from(s.low)),
                scales.gauge(f64::from(s.high)),
                scales.t(f64::from(s.vent)),
                scales.t(f64::from(s.cabin)),
                s.vacuum.map_or_else(String::new, |pa| format!(
                    "{:.3}",
                    scales.vacuum(f64::from(pa))
                )),
                u8::from(s.clutch)
            );
        }
        out
    }

    /// The chart over `from..=to` as a table of at most `rows` moments evenly spread, the latest last.
    pub fn table(&self, from: Tick, to: Tick, rows: usize, units: UnitSystem) -> Vec<Row> {
        let all: Vec<&Sample> = self.window(from, to).collect();
        let step = all.len().div_ceil(rows.max(1)).max(1);
        let mut out: Vec<Row> = all
            .iter()
            .rev()
            .step_by(step)
            .map(|s| s.row(units))
            .collect();
        out.reverse();
        out
    }
}

/// Marks on the time axis over `from..=to`, oldest first: (place 0 to 1, what); of what happened by itself those of `events`, be it all of a
/// bay's or what was noticed.
pub fn marks(
    log: &[Entered],
    events: impl IntoIterator<Item = (Tick, Event)>,
    (from, to): (Tick, Tick),
) -> Vec<(f64, MarkKind)> {
    let span = to.saturating_sub(from).max(1) as f64;
    let mut can = 0;
    let mut gauge = GaugePlace::default();
    let acts = log.iter().filter_map(|(t, a)| {
        let kind = match a {
            Action::Vehicle(VehicleAct::Engine { on: true }) => MarkKind::EngineOn,
            Action::Vehicle(VehicleAct::Engine { on: false }) => MarkKind::EngineOff,
            Action::Vessel(
                VesselAct::TakeCan | VesselAct::TakeCanOf { .. } | VesselAct::TakeSelfSealingCan,
            ) => {
                can += 1;
                MarkKind::Can(can)
            }
            Action::Machine(MachineAct::Isolation { on: true }) => MarkKind::PumpOn,
            Action::Machine(
                MachineAct::Isolation { on: false } | MachineAct::Pump { on: false },
            ) => MarkKind::PumpOff,
            &Action::Instrument(InstrumentAct::VacuumGauge { at })
                if at != core::mem::replace(&mut gauge, at) =>
            {
                MarkKind::Gauge(at)
            }
            // A mark stands for a few acts that shape the curves, and for no other.
            _ => return None,
        };
        Some((*t, kind))
    });
    let events = events.into_iter().filter_map(|(t, e)| {
        let kind = match e {
            Event::CanEmpty => MarkKind::CanEmpty,
            Event::CanBurst => MarkKind::Burst,
            Event::CutOutOpened => MarkKind::CutOut,
            Event::ReliefLifted => MarkKind::Relief,
            Event::HoseBurst => MarkKind::HoseBurst,
            _ => return None,
        };
        Some((t, kind))
    });
    let inside = |(t, _): &(Tick, MarkKind)| *t >= from && *t <= to;
    let mut all: Vec<(Tick, MarkKind)> = acts.filter(inside).collect();
    for event in events.filter(inside) {
        let at = all.partition_point(|(t, _)| *t <= event.0);
        all.insert(at, event);
    }
    all.into_iter()
        .map(|(t, k)| ((t - from) as f64 / span, k))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{Bay, HoseAct, acts};

    fn all_marks(bay: &Bay, window: (Tick, Tick)) -> Vec<(f64, MarkKind)> {
        marks(bay.log(), bay.events().iter().copied(), window)
    }

    fn made(n: u64, value: impl Fn(u64) -> f32) -> History {
        let samples = (0..n)
            .map(|k| Sample {
                tick: k * EVERY,
                low: value(k),
                high: 0.0,
                vent: 0.0,
                cabin: 0.0,
                vacuum: None,
                vacuum_at_loop: false,
                clutch: k % 20 < 5,
            })
            .collect();
        History { samples }
    }

    #[test]
    fn thinning_keeps_every_peak() {
        let h = made(10_000, |k| {
            if k == 4321 {
                900.0
            } else if k == 777 {
                -50.0
            } else {
                (k % 7) as f32
            }
        });
        let points = h.pieces(Trace::Low, 0, 10_000 * EVERY, 300).remove(0);
        assert!(points.len() <= 602, "{}", points.len());
        assert!(
            points.iter().any(|p| (p.1 - 900.0).abs() < 1e-9),
            "the peak stays"
        );
        assert!(
            points.iter().any(|p| (p.1 + 50.0).abs() < 1e-9),
            "the dip stays"
        );
        assert!(
            points.windows(2).all(|w| w[0].0 <= w[1].0),
            "time runs forward"
        );
    }

    #[test]
    fn few_samples_stay_as_they_are() {
        let h = made(10, |k| k as f32);
        let pieces = h.pieces(Trace::Low, 0, 9 * EVERY, 300);
        assert_eq!((pieces.len(), pieces[0].len()), (1, 10));
        assert!(h.pieces(Trace::Low, 1_000_000, 2_000_000, 300).is_empty());
    }

    #[test]
    fn the_table_ends_with_the_latest_moment() {
        let t = made(1000, |_| 2e5).table(0, 1000 * EVERY, 10, UnitSystem::SI);
        assert_eq!(t.len(), 10);
        assert_eq!(
            (t[9].time.number.as_str(), t[9].low.to_string().as_str()),
            ("8:19", "200 kPag")
        );
        assert!(made(0, |_| 0.0).table(0, 10, 10, UnitSystem::US).is_empty());
    }

    #[test]
    fn the_clutch_bar_has_one_piece_for_each_engagement() {
        let h = made(200, |_| 0.0);
        assert_eq!(h.clutch_in(0, 200 * EVERY).len(), 10);
    }

    #[test]
    fn marks_number_the_cans_even_outside_the_window() {
        let mut bay = bay("charge-from-cans");
        bay.apply(VesselAct::TakeCan).unwrap();
        for _ in 0..100 {
            bay.step().expect("the engine goes on");
        }
        bay.apply(VesselAct::TakeSelfSealingCan).unwrap();
        assert_eq!(all_marks(&bay, (50, 150)), [(0.5, MarkKind::Can(2))]);
        assert_eq!(bay.shop().hands.cans_taken, 2);
    }

    /// An evacuated loop's vacuum gauge for ten minutes after the pump was shut off, and the marks on the way.
    fn hold(set: &[&str]) -> (History, Vec<MarkKind>) {
        let set: Vec<String> = set.iter().map(|s| (*s).to_owned()).collect();
        let text = lowside_session::library::scenario("charge-from-cans").expect("shipped");
        let mut scenario = lowside_session::Scenario::parse(text, &set).expect("sound");
        scenario.act.clear();
        let mut bay = Bay::new(&scenario);
        let speed = lowside_units::VolumeFlow::from_cfm(4.0);
        let full = lowside_units::Ratio::from_fraction(1.0);
        let at = GaugePlace::Loop;
        let mut h = History::default();
        let mut acts = Vec::from(acts![
            MachineAct::TakePump { speed },
            InstrumentAct::VacuumGauge { at },
            MachineAct::Pump { on: true },
            MachineAct::Isolation { on: true },
            HoseAct::LowValve { open: full },
            HoseAct::HighValve { open: full },
        ]);
        for second in 0..1500 {
            if second == 900 {
                acts.push(MachineAct::Isolation { on: false }.into());
            }
            for act in acts.drain(..) {
                bay.apply(act).expect("possible");
            }
            for _ in 0..TICKS_PER_SECOND {
                bay.step().expect("the engine goes on");
                h.record(&Known::of(&bay));
            }
        }
        let kinds = all_marks(&bay, (0, bay.tick()))
            .into_iter()
            .map(|m| m.1)
            .collect();
        (h, kinds)
    }

    /// The pump pulls 20 micron with its valve shut while the loop stands elsewhere; the gauge goes from the one to the other and back.
    /// No piece holds both, and each move is marked, not what moves nothing.
    #[test]
    fn the_vacuum_trace_breaks_where_the_gauge_is_moved() {
        let mut bay = bay("charge-from-cans");
        let mut h = History::default();
        let speed = lowside_units::VolumeFlow::from_cfm(4.0);
        let to = |at| Action::from(InstrumentAct::VacuumGauge { at });
        let (pump, hose) = (to(GaugePlace::Pump), to(GaugePlace::Loop));
        let acts = [
            (0, MachineAct::TakePump { speed }.into()),
            (0, MachineAct::Pump { on: true }.into()),
            (0, pump),
            (60, hose),
            (90, hose),
            (120, pump),
        ];
        for second in 0..180 {
            for (_, act) in acts.iter().filter(|(at, _)| *at == second) {
                bay.apply(*act).expect("possible");
            }
            for _ in 0..TICKS_PER_SECOND {
                bay.step().expect("the engine goes on");
                h.record(&Known::of(&bay));
            }
        }
        let kinds: Vec<_> = all_marks(&bay, (0, bay.tick())).into_iter().collect();
        let moved = [GaugePlace::Loop, GaugePlace::Pump].map(MarkKind::Gauge);
        assert_eq!(kinds.iter().map(|m| m.1).collect::<Vec<_>>(), moved);
        let pieces = h.pieces(Trace::Vacuum, 0, bay.tick(), 700);
        assert_eq!(pieces.len(), 3);
        for (k, piece) in pieces.iter().enumerate().skip(1) {
            assert!(
                piece[0].0 > kinds[k - 1].0 && pieces[k - 1].iter().all(|p| p.0 <= kinds[k - 1].0)
            );
            let all = || piece.iter().map(|p| p.1);
            let (least, most) = (all().fold(f64::MAX, f64::min), all().fold(0.0, f64::max));
            assert!(
                most < 1.1 * least,
                "piece {k} runs from {least} to {most} Pa"
            );
        }
        let (loop_pa, pump_pa) = (pieces[1][0].1, pieces[2][0].1);
        assert!(loop_pa > 2.0 * pump_pa, "{loop_pa} {pump_pa}");
    }

    /// Common practice, no source: after the pump is shut off a leak makes the gauge rise straight on, moisture makes it flatten out.
    #[test]
    fn a_leak_rises_straight_and_moisture_flattens_out() {
        let shape = |set: &[&str]| {
            let (h, kinds) = hold(set);
            let at_loop = MarkKind::Gauge(GaugePlace::Loop);
            assert_eq!(kinds, [at_loop, MarkKind::PumpOn, MarkKind::PumpOff]);
            let at = |s: u64| {
                let sample = h.sample(s * TICKS_PER_SECOND).expect("recorded");
                f64::from(sample.vacuum.expect("within the gauge's range"))
            };
            let (first, last) = (at(1190) - at(905), at(1490) - at(1205));
            (first, last / first)
        };
        let (rise, straight) = shape(&[
            "start.charge=0 g",
            "condition.leak=[{at=\"accumulator\",hole=\"12 um\"}]",
        ]);
        assert!(
            rise > 10.0 && (straight - 1.0).abs() < 0.2,
            "leak: {rise} Pa, {straight}"
        );
        let (rise, flat) = shape(&[
            "start.charge=0 g",
            "start.water=3 g",
            "condition.desiccant_load=1",
        ]);
        assert!(rise > 10.0 && flat < 0.5, "moisture: {rise} Pa, {flat}");
        let (h, _) = hold(&["start.charge=0 g"]);
        let heads = ["t", "low", "high", "vent", "cabin", "vacuum", "clutch"];
        let csv = h.csv(0, 60_000, UnitSystem::US, &heads);
        assert!(csv.starts_with("\"t (s)\"") && csv.contains("\"vacuum (micron)\""));
        let last = csv
            .lines()
            .last()
            .and_then(|l| l.split(',').nth(5)?.parse::<f64>().ok());
        assert!(last.is_some_and(|micron| micron < 2000.0), "{last:?}");
    }
}
