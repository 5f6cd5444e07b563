// Does everything fit? What lies over something else, is cut off, or is too small to be touched.
import assert from "node:assert/strict";

/**
 * Asserts that no control lies over another, no text runs out of its control, none is cut off, and no line of text lies over another.
 * What sticks to the window's edge over the page, drawings and what is for the ear alone are left out.
 */
export async function assertFits(page, when) {
  await page.evaluate(() => window.scrollTo(0, 0));
  const wrong = await page.evaluate(() => {
    const CONTROLS = "button, select, input, summary, a, textarea";
    const sticks = (e) => {
      for (let x = e; x && x.id !== "app"; x = x.parentElement) {
        const { position, clipPath } = getComputedStyle(x);
        // Clipped to nothing is for the ear alone.
        if (["sticky", "fixed"].includes(position) || clipPath === "inset(50%)") return true;
      }
      return false;
    };
    const hidden = (e) => e.closest(".unseen, .skip, [hidden], svg") || !e.checkVisibility({ visibilityProperty: true }) || sticks(e);
    const say = (e) => `${e.tagName.toLowerCase()}${e.id ? `#${e.id}` : ""}.${e.className} "${(e.getAttribute("aria-label") ?? e.textContent).trim().slice(0, 30)}"`;
    const over = (a, b, by) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > by && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > by;
    /** Where the visible lines of text within an element lie. */
    const pieces = (e) => {
      const walk = document.createTreeWalker(e, NodeFilter.SHOW_TEXT);
      const all = [];
      while (walk.nextNode()) {
        if (!walk.currentNode.textContent.trim() || hidden(walk.currentNode.parentElement)) continue;
        const text = document.createRange();
        text.selectNodeContents(walk.currentNode);
        all.push(...[...text.getClientRects()].filter((t) => t.width > 1));
      }
      return all;
    };
    /** What is to be seen of a box: columns that scroll in themselves hold the rest back. */
    const seen = (e, { left, right, top, bottom }) => {
      for (let x = e.parentElement; x && x.id !== "app"; x = x.parentElement) {
        if (!/auto|scroll/.test(getComputedStyle(x).overflowY)) continue;
        const box = x.getBoundingClientRect();
        [left, right, top, bottom] = [Math.max(left, box.left), Math.min(right, box.right), Math.max(top, box.top), Math.min(bottom, box.bottom)];
      }
      return { left, right, top, bottom, width: right - left, height: bottom - top };
    };
    const there = ([, { width, height }]) => width > 0 && height > 0;
    const found = [];
    const controls = [...document.querySelectorAll(`#app :is(${CONTROLS})`)].filter((e) => !hidden(e)).map((e) => [e, seen(e, e.getBoundingClientRect())]).filter(there);
    for (const [k, [a, at]] of controls.entries()) {
      if (at.left < -1 || at.right > document.documentElement.clientWidth + 1) found.push(`out of the window: ${say(a)}`);
      for (const [b, bt] of controls.slice(k + 1)) if (!a.contains(b) && !b.contains(a) && over(at, bt, 1.5)) found.push(`over each other: ${say(a)} and ${say(b)}`);
      if (["SELECT", "INPUT", "TEXTAREA"].includes(a.tagName)) continue;
      if (a.getBoundingClientRect().height > at.height + 1) continue;
      if (pieces(a).some((t) => t.left < at.left - 2 || t.right > at.right + 2 || t.top < at.top - 2 || t.bottom > at.bottom + 2)) found.push(`runs out: ${say(a)}`);
    }
    // Lines of text, with what a scrolling or clipping box holds back cut off.
    const lines = [];
    const walk = document.createTreeWalker(document.getElementById("app"), NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const [node, e] = [walk.currentNode, walk.currentNode.parentElement];
      if (!node.textContent.trim() || hidden(e) || e.closest("select, .strip")) continue;
      const text = document.createRange();
      text.selectNodeContents(node);
      for (const t of text.getClientRects()) if (t.width > 2) lines.push([e, seen(e, t)]);
      for (let x = e; x.id !== "app"; x = x.parentElement) {
        const style = getComputedStyle(x);
        const cuts = /hidden|clip/.test(style.overflowX + style.overflowY);
        if (cuts && (x.scrollWidth > x.clientWidth + 2 || x.scrollHeight > x.clientHeight + 2) && !x.matches(".scroll, details")) found.push(`cut off: ${say(x)}`);
      }
    }
    const shown = lines.filter(there);
    for (const [k, [a, at]] of shown.entries())
      for (const [b, bt] of shown.slice(k + 1))
        // Line boxes may touch; letters lie over each other from about a third of their height.
        if (over(at, bt, 1) && Math.min(at.bottom, bt.bottom) - Math.max(at.top, bt.top) > 0.34 * Math.min(at.height, bt.height)) found.push(`text over text: ${say(a)} and ${say(b)}`);
    return [...new Set(found)];
  });
  assert.deepEqual(wrong.slice(0, 20), [], `${when}: ${wrong.length} in all`);
}

/** Asserts that everything to be touched is at least `side` px wide and high (WCAG 2.5.5; in running text a link may be smaller). */
export async function assertTouchable(page, side, when) {
  const [seen, small] = await page.evaluate((least) => {
    const all = [...document.querySelectorAll("#app :is(button, select, input, summary, a, textarea, [role=switch], [tabindex='0'])")];
    const shown = all.filter((e) => e.checkVisibility({ visibilityProperty: true }) && !e.closest(".unseen, .skip, svg, .scroll"));
    const box = (e) => {
      // A label around a box is pressed as well as the box.
      const label = /^(checkbox|radio)$/.test(e.type) ? e.closest("label") : null;
      return (label ?? e).getBoundingClientRect();
    };
    const bad = shown.filter((e) => {
      const { width, height } = box(e);
      return width > 0 && (width < least - 0.5 || height < least - 0.5);
    });
    const say = (e) => `${e.tagName.toLowerCase()}#${e.id}.${e.className} "${e.textContent.trim().slice(0, 24)}" ${Math.round(box(e).width)}x${Math.round(box(e).height)}`;
    return [shown.length, bad.map(say)];
  }, side);
  assert.ok(seen > 30, `${when}: ${seen} looked at`);
  assert.deepEqual(small.slice(0, 20), [], `${when}: ${small.length} in all`);
}
