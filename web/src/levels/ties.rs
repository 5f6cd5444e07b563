//! The hair lines from the flags to the dials, where those stand beside the drawing.
use web_sys::{DomRect, Element, HtmlCanvasElement};
use yew::{Html, html};

use crate::host;

/// The dials' faces, low and high.
const DIALS: [&str; 2] = [".dial svg.low", ".dial svg.high"];

/// The lines, over the gap beside the drawing; what they tie says it in words.
pub(crate) fn ties() -> Html {
    html! {
        <svg class="ties" aria-hidden="true"><path class="low" /><path class="high" /></svg>
    }
}

/// Leads each line from its flag, `flags` px down the canvas, to its dial; to none where that stands elsewhere.
pub(crate) fn tie(canvas: &HtmlCanvasElement, flags: [Option<f64>; 2]) {
    let Some(svg) = canvas.next_element_sibling() else {
        return;
    };
    let paths = svg.children();
    let (sheet, origin) = (
        canvas.get_bounding_client_rect(),
        svg.get_bounding_client_rect(),
    );
    let (zero_x, zero_y) = (origin.left(), origin.top());
    // A flag that is scrolled out of sight is tied to nothing.
    let column = canvas.closest(".middle").ok().flatten();
    let column = column.map(|column| column.get_bounding_client_rect());
    let in_sight = |y: f64| {
        let seen = |c: &DomRect| (c.top()..c.bottom()).contains(&y);
        column.as_ref().is_none_or(seen)
    };
    for ((k, flag), dial) in (0..).zip(flags).zip(DIALS) {
        let Some(path) = paths.item(k) else { continue };
        let flag = flag.map(|y| sheet.top() + y * host::enlarged());
        let flag = flag.filter(|y| in_sight(*y));
        let way = flag.zip(face(dial)).and_then(|(y, dial)| {
            let face = dial.get_bounding_client_rect();
            let middle = face.top() + face.height() / 2.0;
            let beside = face.left() >= sheet.right()
                && face.bottom() > sheet.top()
                && face.top() < sheet.bottom();
            beside.then(|| {
                let (x0, x1) = (
                    sheet.right() - zero_x,
                    face.left() + face.width() * 0.05 - zero_x,
                );
                let (y0, y1) = (y - zero_y, middle - zero_y);
                let bend = f64::midpoint(x0, x1);
                format!("M{x0:.0} {y0:.0}C{bend:.0} {y0:.0} {bend:.0} {y1:.0} {x1:.0} {y1:.0}")
            })
        });
        let way = way.unwrap_or_default();
        if path.get_attribute("d").unwrap_or_default() != way {
            drop(path.set_attribute("d", &way));
        }
    }
}

fn face(selector: &str) -> Option<Element> {
    host::document().query_selector(selector).ok().flatten()
}
