//! Lettering that gives way: to lettering that stands already, to flags and numbers, and to the lines across.
use std::cell::RefCell;

use lowside_present::{levels::Levels, palette::Rgb};

use super::Brush;

/// How near a name's middle may come to a line across, px.
pub(super) const CLEAR: f64 = 9.0;
/// Steps by which a name moves up and down in search of room, px.
const STEPS: [f64; 13] = [
    0.0, 7.0, -7.0, 14.0, -14.0, 21.0, -21.0, 28.0, -28.0, 38.0, -38.0, 50.0, -50.0,
];

/// What room is taken.
#[derive(Default)]
pub(super) struct Taken {
    /// Left, right, top, bottom.
    boxes: Vec<[f64; 4]>,
    /// Where the lines across are.
    lines: [f64; 3],
}

/// A name's place.
#[derive(Clone, Copy)]
pub(super) struct At {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) align: &'static str,
}

impl Brush<'_> {
    /// Begins a sheet: nothing is taken but the lines across.
    pub(super) fn clear(&self, l: &Levels) {
        let mut taken = self.taken.borrow_mut();
        taken.boxes.clear();
        taken.lines = [l.atmosphere, l.outside.height, l.cabin.height].map(|h| self.sheet.y(h));
    }

    /// Takes room around a place.
    pub(super) fn take(&self, x: f64, y: f64, (half_w, half_h): (f64, f64)) {
        let room = [x - half_w, x + half_w, y - half_h, y + half_h];
        self.taken.borrow_mut().boxes.push(room);
    }

    /// Takes the room of a text in the font that was set last.
    pub(super) fn take_text(&self, text: &str, x: f64, y: f64, align: &str) {
        let half = self.pen.width(text) / 2.0;
        let middle = match align {
            "left" => x + half,
            "right" => x - half,
            _ => x,
        };
        self.take(middle, y, (half + 2.0, self.size * 0.5 + 0.5));
    }

    /// Writes a name at its place or, where that is taken, next to it above or below; nowhere if all is taken. Returns where.
    pub(super) fn put(&self, text: &str, at: At, bold: bool, colour: Rgb) -> Option<f64> {
        self.pen.font(self.size, bold);
        let width = self.pen.width(text);
        let left = match at.align {
            "left" => at.x,
            "right" => at.x - width,
            _ => at.x - width / 2.0,
        };
        let half = self.size * 0.5 + 0.5;
        let y = {
            let taken = self.taken.borrow();
            let free = |y: f64| {
                let inside = y > half + 1.0 && y < self.sheet.h - half - 1.0;
                let off = |line: &f64| (y - line).abs() >= CLEAR;
                let apart = |b: &[f64; 4]| {
                    left + width + 2.0 < b[0]
                        || left - 2.0 > b[1]
                        || y + half < b[2]
                        || y - half > b[3]
                };
                inside && taken.lines.iter().all(off) && taken.boxes.iter().all(apart)
            };
            STEPS.into_iter().map(|step| at.y + step).find(|y| free(*y))
        }?;
        self.letters(text, at.x, y, at.align, colour);
        Some(y)
    }
}

/// The room taken on a sheet, kept from frame to frame.
pub(super) type Room = RefCell<Taken>;
