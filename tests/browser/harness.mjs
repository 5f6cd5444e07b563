// Tests of the page, and the assertions that several of them make.
import assert from "node:assert/strict";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { after, test } from "node:test";
import { packages, quit, withPage } from "./page.mjs";

export { desktop, phone } from "./page.mjs";

/** How long one test may take, in ms. */
const LIMIT = 90_000;

after(quit);

/**
 * A test of the page in one window, at most `limit` ms long; a failure leaves a picture in
 * target/browser/failures.
 */
export function pageTest(title, window, body, { limit = LIMIT, ...options } = {}) {
  test(`${title} (${window.name})`, { timeout: limit }, (t) =>
    withPage(window, async (page) => {
      try {
        await body(page);
      } catch (error) {
        const folder = join(packages, "failures");
        mkdirSync(folder, { recursive: true });
        const file = join(folder, `${title}-${window.name}.png`.replaceAll(/[^\w.-]+/g, "-"));
        await page.screenshot({ path: file }).catch(() => undefined);
        t.diagnostic(`picture: ${file}`);
        for (const complaint of page.complaints) t.diagnostic(complaint);
        throw error;
      }
    }, options));
}

/** Asserts that the browser had nothing to complain of. */
export function assertQuiet(page) {
  assert.deepEqual(page.complaints, []);
}

/** Asserts that axe finds no violation of WCAG 2.2 A or AA; `within` narrows it to a CSS selector. */
export async function assertAccessible(page, within = "html") {
  const found = await page.evaluate(
    async (selector) => {
      const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
      const { passes, violations } = await window.axe.run(selector, { runOnly: tags });
      const lines = violations.map(
        ({ id, impact, help, nodes }) => `${impact} ${id}: ${help}: ${nodes.map(({ html }) => html).join(" | ")}`,
      );
      return { passes: passes.length, lines };
    },
    within,
  );
  assert.ok(found.passes > 0, "axe checked nothing");
  assert.deepEqual(found.lines, []);
}

/** Asserts that nothing needs scrolling sideways (WCAG 1.4.10). */
export async function assertNoSidewaysScroll(page) {
  const [content, window, wide] = await page.evaluate(() => {
    const root = document.documentElement;
    const out = (e) => {
      const box = e.getBoundingClientRect();
      return box.width > 1 && (box.right > root.clientWidth + 1 || box.left < -1);
    };
    // What lies out of the window, to say which it is; what a scrolling or clipping box around it holds back is no matter.
    const wide = [...document.querySelectorAll("#app *")].filter(out).map((e) => `${e.tagName.toLowerCase()}.${e.className?.baseVal ?? e.className}`);
    return [root.scrollWidth, root.clientWidth, wide.slice(0, 12)];
  });
  assert.ok(content <= window, `the content is ${content} px wide in a window of ${window} px: ${wide.join(", ")}`);
}

/** Asserts that a dialog lies within the window and needs no scrolling sideways. */
export async function assertWhole(page, dialog) {
  const { width, height } = page.viewportSize();
  const box = await dialog.boundingBox();
  assert.ok(box.x >= 0 && box.y >= 0 && box.x + box.width <= width && box.y + box.height <= height, `${JSON.stringify(box)} in ${width} x ${height}`);
  assert.ok(await dialog.evaluate((e) => e.scrollWidth <= e.clientWidth), "it scrolls sideways");
}
