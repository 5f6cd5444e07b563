// Text of other sizes and spacings (WCAG 1.4.4, 1.4.10, 1.4.12): all of it stays there, and every control can be reached.
import assert from "node:assert/strict";
import { assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";

/** What is cut off within its own box, and controls that something else lies over, as a list to be empty. */
const trouble = (page) =>
  page.evaluate(() => {
    const name = (e) => `${e.tagName.toLowerCase()}#${e.id}.${e.className?.baseVal ?? e.className} "${(e.textContent ?? "").trim().slice(0, 40)}"`;
    const seen = (e) => e.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true }) && !e.closest(".unseen, [aria-hidden=true] svg, .skip");
    const cut = [...document.querySelectorAll("#app *")].filter((e) => {
      const style = getComputedStyle(e);
      const hides = /hidden|clip/.test(style.overflowX + style.overflowY);
      // A list that is shut shows what fits of the choice, and all of it when it is opened.
      return hides && e.tagName !== "SELECT" && seen(e) && e.textContent.trim() && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1);
    });
    const controls = [...document.querySelectorAll("#app :is(button, select, input, summary, a[href])")].filter((e) => seen(e) && !e.disabled);
    const covered = controls.filter((e) => {
      e.scrollIntoView({ block: "center", behavior: "instant" });
      const box = e.getBoundingClientRect();
      const hit = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
      return !hit || !(e.contains(hit) || hit.contains(e) || hit.closest("label")?.contains(e));
    });
    return [...cut.map((e) => `cut off: ${name(e)}`), ...covered.map((e) => `covered: ${name(e)}`)];
  });

const SPACING = "#app * { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } #app p { margin-bottom: 2em !important; }";
const LARGE = "html { font-size: 200% !important; }";
/** A window of 1280 x 1024 in which everything is shown at twice its size. */
const zoomed = { name: "zoomed", viewport: { width: 640, height: 512 }, deviceScaleFactor: 2 };

for (const [what, window, style] of [
  ["text twice as large", desktop, LARGE],
  ["text twice as large", phone, LARGE],
  ["text spaced out", desktop, SPACING],
  ["text spaced out", phone, SPACING],
  ["everything twice as large", zoomed, ""],
]) {
  pageTest(
    what,
    window,
    async (page) => {
      await page.getByRole("slider", { name: "Blower" }).waitFor();
      await page.getByRole("button", { name: /Pause/ }).click();
      const views = page.locator(".picker button");
      for (const n of [3, 4]) await views.nth(n).click();
      await page.locator("section.job").waitFor();
      // The page's own policy lets no style in from outside; the browser's tools may.
      if (style) {
        await page.evaluate((text) => {
          const sheet = new CSSStyleSheet();
          sheet.replaceSync(text);
          document.adoptedStyleSheets = [sheet];
        }, style);
      }
      await page.waitForTimeout(300);
      await assertNoSidewaysScroll(page);
      assert.deepEqual(await trouble(page), []);
      assertQuiet(page);
    },
    { path: "#s=healthy" },
  );
}
