//! The past of a bay: checkpoints to go back to, lines of events that part where somebody did otherwise, undo and redo.
//!
//! A bay is a plain value, so a checkpoint is a clone without its log and events, which the line keeps. Any tick is reached by
//! replaying from the checkpoint before it. Checkpoints stand [`EVERY`] ticks apart and are thinned evenly once there are
//! [`MOST_CHECKPOINTS`]: over the longest take, 24 h, they stand five minutes apart at most.
use std::rc::Rc;

use crate::{
    bay::{Bay, Entered, TICKS_PER_SECOND, Tick},
    take::{MOST_ACTS, MOST_LINES as MOST_UNDONE, Undone},
};

/// Ticks between checkpoints while there is room: twenty seconds.
pub const EVERY: Tick = 20 * TICKS_PER_SECOND;
/// Most checkpoints of a line. A checkpoint of the shipped vehicles takes some 20 kB, so that a line has 12 MB at most; lines share
/// those from before they parted.
pub const MOST_CHECKPOINTS: usize = 600;
/// Most lines kept; the one left longest ago goes first.
pub const MOST_LINES: usize = 6;

/// A bay without log and events, and how much of the line's log it stands on.
#[derive(Debug, Clone)]
struct Checkpoint {
    bay: Rc<Bay>,
    acts: usize,
}

/// One course of events.
#[derive(Debug, Clone)]
struct Line {
    id: u32,
    /// Where it parted from the line before it.
    from: Tick,
    checkpoints: Vec<Checkpoint>,
    /// The bay at the end of the line with its whole log, kept while somebody looks elsewhere.
    head: Option<Rc<Bay>>,
    /// When it was left last, in visits.
    left: u64,
}

/// A line as people choose among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LineInfo {
    /// Stays the same as long as the line is kept.
    pub id: u32,
    /// Tick at which it parted from the one it came of.
    pub from: Tick,
    /// Its last tick.
    pub end: Tick,
    /// Acts in it.
    pub acts: usize,
    /// The bay stands on this one.
    pub current: bool,
}

/// The past of a bay. It holds no bay of its own to run: the host does, and gives it at every call.
#[derive(Debug, Clone)]
pub struct Timeline {
    lines: Vec<Line>,
    current: usize,
    next_id: u32,
    visits: u64,
    undone: Vec<Undone>,
}

impl Timeline {
    /// Begins with a bay as it stands. What happened to it before cannot be gone back to.
    pub fn new(bay: &Bay) -> Self {
        let line = Line {
            id: 1,
            from: bay.tick(),
            checkpoints: vec![checkpoint(bay)],
            head: None,
            left: 0,
        };
        Self {
            lines: vec![line],
            current: 0,
            next_id: 2,
            visits: 0,
            undone: Vec::new(),
        }
    }

    /// Acts that were undone, in the order of the undoing: an act counts once the bay has gone on without it. The oldest are let go where a
    /// take has no room for more.
    pub fn undone(&self) -> &[Undone] {
        &self.undone
    }

    /// Adds what was undone before this past began, or beside it.
    pub fn remember(&mut self, undone: impl IntoIterator<Item = Undone>) {
        self.undone.extend(undone);
        let mut acts: usize = self.undone.iter().map(|u| u.acts.len()).sum();
        let mut gone = self.undone.len().saturating_sub(MOST_UNDONE);
        acts -= self.undone[..gone]
            .iter()
            .map(|u| u.acts.len())
            .sum::<usize>();
        while acts > MOST_ACTS {
            acts -= self.undone[gone].acts.len();
            gone += 1;
        }
        self.undone.drain(..gone);
    }

    /// Takes a checkpoint if one is due. Call after every step of the running bay.
    pub fn record(&mut self, bay: &Bay) {
        let line = &mut self.lines[self.current];
        let last = line.checkpoints.last().map_or(0, |c| c.bay.tick());
        if line.head.is_some() || bay.tick() < last + EVERY {
            return;
        }
        line.checkpoints.push(checkpoint(bay));
        if line.checkpoints.len() > MOST_CHECKPOINTS {
            line.thin();
        }
    }

    /// The bay stands before the end of its line.
    pub fn looks_back(&self) -> bool {
        self.lines[self.current].head.is_some()
    }

    /// First tick that can be gone to.
    pub fn start(&self) -> Tick {
        self.lines[self.current].checkpoints[0].bay.tick()
    }

    /// Last tick of the line the bay stands on.
    pub fn end(&self, bay: &Bay) -> Tick {
        self.lines[self.current]
            .head
            .as_ref()
            .map_or(bay.tick(), |head| head.tick())
    }

    /// The end of the line, with all acts and events, also while `bay` stands before it.
    pub fn head<'a>(&'a self, bay: &'a Bay) -> &'a Bay {
        self.lines[self.current].head.as_deref().unwrap_or(bay)
    }

    /// The bay as it was at a tick, all acts of that tick done. At the end of the line that is the end itself, and the bay can
    /// go on from there as if nobody had looked back.
    pub fn seek(&mut self, bay: &Bay, tick: Tick) -> Bay {
        let head = self.park(bay);
        let tick = tick.max(self.start());
        if tick >= head.tick() {
            self.lines[self.current].head = None;
            return (*head).clone();
        }
        let acts = head.log().partition_point(|(t, _)| *t <= tick);
        self.replay(&head, tick, acts)
    }

    /// The bay as it was when so many acts of its log had just been done.
    pub fn after(&self, bay: &Bay, acts: usize) -> Bay {
        let tick = bay.log()[..acts].last().map_or(0, |(tick, _)| *tick);
        if self.lines[self.current].checkpoints[0].acts > acts {
            return bay.after(acts);
        }
        self.replay(bay, tick, acts)
    }

    /// The place in the log of the last act that can be taken back. What was entered by whoever watches the bay goes with the act before.
    fn last_act(&self, bay: &Bay) -> Option<usize> {
        let first = self.lines[self.current].checkpoints[0].acts;
        let act = bay.log().iter().rposition(by_hand)?;
        (act >= first).then_some(act)
    }

    /// The bay as it was before its last act; none if there is none to take back.
    pub fn undo(&mut self, bay: &Bay) -> Option<Bay> {
        let act = self.last_act(bay)?;
        let tick = bay.log()[act].0;
        let head = self.park(bay);
        Some(self.replay(&head, tick, act))
    }

    /// The bay as it was before the act after the next, or at the end of the line if there is none; none if the bay stands at
    /// the end.
    pub fn redo(&mut self, bay: &Bay) -> Option<Bay> {
        let head = self.lines[self.current].head.clone()?;
        let to_come = head.log().iter().enumerate().skip(bay.log().len());
        match to_come.filter(|(_, entered)| by_hand(entered)).nth(1) {
            Some((act, &(tick, _))) => Some(self.replay(&head, tick, act)),
            None => Some(self.seek(bay, head.tick())),
        }
    }

    /// Can something be taken back, and something done again?
    pub fn can(&self, bay: &Bay) -> (bool, bool) {
        (self.last_act(bay).is_some(), self.looks_back())
    }

    /// The bay is about to go on from where it stands. If that is before the end of its line and acts would be lost, a new line
    /// begins here and the old one is kept; without such acts the same would come again, and the line is cut here instead.
    pub fn go_on(&mut self, bay: &Bay) {
        let (here, acts) = (bay.tick(), bay.log().len());
        let line = &self.lines[self.current];
        let Some(head) = &line.head else { return };
        let lost = head.log().get(acts..);
        let undone = lost.filter(|acts| acts.iter().any(by_hand));
        let undone = undone.map(|acts| Undone {
            tick: here,
            acts: acts.to_vec(),
        });
        let kept: Vec<Checkpoint> = line
            .checkpoints
            .iter()
            .filter(|c| c.bay.tick() <= here && c.acts <= acts)
            .cloned()
            .collect();
        if let Some(undone) = undone {
            self.remember([undone]);
            self.visits += 1;
            self.lines[self.current].left = self.visits;
            self.lines.push(Line {
                id: self.next_id,
                from: here,
                checkpoints: kept,
                head: None,
                left: 0,
            });
            self.next_id += 1;
            self.current = self.lines.len() - 1;
            self.forget();
        } else {
            let line = &mut self.lines[self.current];
            line.checkpoints = kept;
            line.head = None;
        }
    }

    /// The lines kept, oldest first.
    pub fn lines(&self, bay: &Bay) -> Vec<LineInfo> {
        self.lines
            .iter()
            .enumerate()
            .map(|(k, line)| {
                let end = line.head.as_deref().unwrap_or(bay);
                LineInfo {
                    id: line.id,
                    from: line.from,
                    end: end.tick(),
                    acts: end.log().len(),
                    current: k == self.current,
                }
            })
            .collect()
    }

    /// The ends of the lines put aside: id, where each parted, and the bay with its whole log.
    pub fn aside(&self) -> impl Iterator<Item = (u32, Tick, &Bay)> {
        let aside = self
            .lines
            .iter()
            .enumerate()
            .filter(|(k, _)| *k != self.current);
        aside.filter_map(|(_, line)| Some((line.id, line.from, line.head.as_deref()?)))
    }

    /// Where the line the bay stands on parted from the one it came of.
    pub fn from(&self) -> Tick {
        self.lines[self.current].from
    }

    /// The number that the next line gets.
    pub fn next_id(&self) -> u32 {
        self.next_id
    }

    /// Goes on with the numbers of an earlier visit, whose lines are kept elsewhere: the line the bay stands on is `id` and parted at
    /// `from`, and new lines are numbered from `next`. For a past that has no other lines yet.
    pub fn number(&mut self, id: u32, from: Tick, next: u32) {
        let line = &mut self.lines[self.current];
        (line.id, line.from) = (id, from);
        self.next_id = next.max(id.saturating_add(1));
    }

    /// Id of the line the bay stands on.
    pub fn line(&self) -> u32 {
        self.lines[self.current].id
    }

    /// Goes to the end of another line; none if it is not kept any more or the bay is on it.
    pub fn switch(&mut self, bay: &Bay, id: u32) -> Option<Bay> {
        let to = self.lines.iter().position(|l| l.id == id)?;
        if to == self.current {
            return None;
        }
        let left = self.park(bay);
        self.visits += 1;
        self.lines[self.current].left = self.visits;
        self.current = to;
        let head = self.lines[to].head.take()?;
        self.remember(Undone::between(left.log(), head.log()));
        Some((*head).clone())
    }

    /// Checkpoints kept in all lines, each counted once.
    pub fn checkpoints(&self) -> usize {
        let mut all: Vec<*const Bay> = self
            .lines
            .iter()
            .flat_map(|l| l.checkpoints.iter().map(|c| Rc::as_ptr(&c.bay)))
            .collect();
        all.sort_unstable();
        all.dedup();
        all.len()
    }

    /// Keeps the end of the current line, from which its log is read.
    fn park(&mut self, bay: &Bay) -> Rc<Bay> {
        let line = &mut self.lines[self.current];
        Rc::clone(line.head.get_or_insert_with(|| Rc::new(bay.clone())))
    }

    fn replay(&self, head: &Bay, tick: Tick, acts: usize) -> Bay {
        let from = self.lines[self.current]
            .checkpoints
            .iter()
            .rev()
            .find(|c| c.bay.tick() <= tick && c.acts <= acts)
            .unwrap_or(&self.lines[self.current].checkpoints[0]);
        let mut bay = from.bay.with_past(head, from.acts);
        bay.play(&head.log()[from.acts..acts]);
        while bay.tick() < tick && bay.step().is_ok() {}
        bay
    }

    fn forget(&mut self) {
        while self.lines.len() > MOST_LINES {
            let oldest = (0..self.lines.len())
                .filter(|&k| k != self.current)
                .min_by_key(|&k| self.lines[k].left);
            let Some(oldest) = oldest else { return };
            self.lines.remove(oldest);
            if oldest < self.current {
                self.current -= 1;
            }
        }
    }
}

impl Line {
    /// Takes out the checkpoint whose neighbours stand closest together, the oldest of such; never the first or the last.
    fn thin(&mut self) {
        let tick = |k: usize| self.checkpoints[k].bay.tick();
        let least = (1..self.checkpoints.len() - 1).min_by_key(|&k| tick(k + 1) - tick(k - 1));
        if let Some(k) = least {
            self.checkpoints.remove(k);
        }
    }
}

/// Whether a hand did it.
fn by_hand((_, action): &Entered) -> bool {
    !action.is_entry()
}

fn checkpoint(bay: &Bay) -> Checkpoint {
    Checkpoint {
        bay: Rc::new(bay.without_past()),
        acts: bay.log().len(),
    }
}
