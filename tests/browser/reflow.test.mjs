// Text spaced out (WCAG 2.2, 1.4.12), a window of 320 px (1.4.10), and fingers (2.5.5): nothing overlaps, is cut off or too small.
import { assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { assertFits, assertTouchable } from "./fit.mjs";
import { everyView } from "./keys.mjs";

const wide = { name: "1280", viewport: { width: 1280, height: 800 } };
const narrow = { ...phone, name: "320", viewport: { width: 320, height: 640 } };

/** The spacing that the standard asks a page to bear. A sheet made by script, since the page's policy lets no other in. */
const spaced = (page) =>
  page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync("#app * { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } #app p { margin-bottom: 2em !important; }");
    document.adoptedStyleSheets = [sheet];
  });

for (const window of [wide, phone, narrow])
  for (const lang of ["en", "es"])
    pageTest(
      `every view fits, as it is and spaced out, ${lang}`,
      window,
      async (page) => {
        for await (const view of everyView(page)) {
          await assertFits(page, view);
          await assertNoSidewaysScroll(page);
          if (window.hasTouch) await assertTouchable(page, 44, view);
          await spaced(page);
          await assertFits(page, `${view}, spaced out`);
          await assertNoSidewaysScroll(page);
          await page.evaluate(() => (document.adoptedStyleSheets = []));
        }
        assertQuiet(page);
      },
      { path: `?lang=${lang}#s=healthy`, limit: 120_000 },
    );
