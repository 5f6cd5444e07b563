// Two languages, switched on the page and remembered; made-up ones show what is not translated or does not fit.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { chooseLanguage, drawer, startOver } from "./page.mjs";

const lang = (page) => page.evaluate(() => document.documentElement.lang);

pageTest("Spanish is chosen on the page and remembered", desktop, async (page) => {
  await page.getByRole("heading", { level: 1 }).waitFor();
  assert.equal(await lang(page), "en");
  await chooseLanguage(page, "es");
  await page.getByRole("button", { name: "Tomar una lata" }).waitFor();
  assert.equal(await lang(page), "es");
  assert.match(await page.title(), /taller/);
  const name = await page.getByRole("img", { name: /^Lado de baja/ }).getAttribute("aria-label");
  assert.match(name, /pulgadas de mercurio de vac\u00edo|libras? por pulgada cuadrada/);
  await page.getByRole("button", { name: "Tomar una lata" }).click();
  await page.getByRole("switch", { name: "Llave" }).click();
  await page.getByRole("main").getByText("El R-134a que escapa hierve", { exact: false }).waitFor();
  await assertAccessible(page);
  await page.reload();
  await page.getByRole("switch", { name: "Llave" }).waitFor();
  assert.equal(await lang(page), "es");
  await chooseLanguage(page, "en");
  await page.getByRole("switch", { name: "Tap" }).waitFor();
  assertQuiet(page);
});

pageTest("a notice changes its language with the page", desktop, async (page) => {
  const notice = page.locator(".notice");
  const choose = (tag) => chooseLanguage(page, tag);
  await page.getByRole("button", { name: "Take a can" }).click();
  await startOver(page);
  await notice.getByText("The bay before this one is kept.").waitFor();
  await choose("es");
  await notice.getByText("El trabajo anterior queda guardado.").waitFor();
  await notice.getByRole("button", { name: /^Volver a su trabajo: / }).waitFor();
  await drawer(page, "settings");
  await page.locator("input[type=file]").setInputFiles({ name: "take.json", mimeType: "application/json", buffer: Buffer.from("{") });
  await notice.getByText("le falta el final", { exact: false }).waitFor();
  await choose("en");
  await notice.getByText("its end is missing", { exact: false }).waitFor();
  assertQuiet(page);
});

pageTest(
  "a Spanish browser is spoken to in Spanish",
  phone,
  async (page) => {
    await page.getByRole("button", { name: "Tomar una lata" }).waitFor();
    assert.equal(await lang(page), "es");
    await assertNoSidewaysScroll(page);
    await assertAccessible(page);
  },
  { locale: "es-MX" },
);

/** Texts and accessible names on the page that have letters in them. */
const texts = (page) =>
  page.evaluate(() => {
    const found = [];
    const walk = document.createTreeWalker(document.getElementById("app"), NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) found.push(walk.currentNode.textContent.trim());
    for (const e of document.querySelectorAll("#app *"))
      for (const a of ["aria-label", "title", "aria-valuetext", "placeholder"])
        if (e.hasAttribute(a)) found.push(e.getAttribute(a));
    return found.filter((t) => /\p{L}{2}/u.test(t));
  });

/** What stays the same in every language: names, units, ids. */
const SAME = /^(Lowside|US|SI|English|Espa\u00f1ol|SVG|PNG|CSV|R-134a.*|R-12.*|R-1234yf.*|PAG \d+|[\d.\u2212 ]*(psig|inHg( vac)?|kPag|oz|mg|g|rpm|mph|ft\/min|km\/h|%|\u00b0[FC])|\+1 s|A\/C)$/;

pageTest(
  "nothing on the page is left untranslated",
  desktop,
  async (page) => {
    await page.getByRole("heading", { level: 1 }).waitFor();
    await page.locator("#control-takecan").click();
    await page.locator("#control-tap").click();
    await page.waitForTimeout(500);
    const all = await texts(page);
    assert.ok(all.length > 60, `the page has text: ${all.length}`);
    // Made-up long English writes every vowel with an accent.
    const left = all.filter((t) => !SAME.test(t) && !/[\u00e0-\u00ff]/.test(t));
    assert.deepEqual([...new Set(left)], []);
  },
  { path: "?lang=en-x-long" },
);

for (const [tag, what] of [
  ["en-x-long", "long"],
  ["en-x-doubled", "doubled"],
  ["en-x-mirrored", "right-to-left"],
])
  for (const window of [desktop, phone, { name: "320 px", viewport: { width: 320, height: 640 } }])
    pageTest(
      `${what} texts fit`,
      window,
      async (page) => {
        await page.locator("#control-takecan").waitFor();
        await page.locator("#control-takecan").click();
        await assertNoSidewaysScroll(page);
        if (tag === "en-x-mirrored") assert.equal(await page.evaluate(() => document.documentElement.dir), "rtl");
        assertQuiet(page);
      },
      { path: `?lang=${tag}` },
    );
