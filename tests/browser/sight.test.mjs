// How much of a bay is seen: a bay that is worked in by hand gives nothing of what is hidden to the page, its files or the browser's store,
// and nothing but its own button opens it.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { keys, until } from "./keys.mjs";
import { drawer, keptText, run, shut, startOver, withPage } from "./page.mjs";

const { acts, pairs } = JSON.parse(readFileSync(new URL("../data/sight_pairs.json", import.meta.url), "utf8"));
const VIEWS = ["Outside", "Parts", "Strip chart", "Job"];
const INSIDE = ["Levels", "Cycle", "Air", "Boiling point", "Vacuum"];

const picker = (page) => page.locator(".picker button");
const undo = (page) => page.locator("#undo, #redo, #scrub, #line");
const windows = (page) => page.locator("#control-windows");
const checked = async (page) => windows(page).getAttribute("aria-checked");

/** Writes the fields of `from` over those of `into`. */
const merge = (into, from) => {
  for (const [key, value] of Object.entries(from)) {
    if (value && typeof value === "object" && !Array.isArray(value)) merge((into[key] ??= {}), value);
    else into[key] = value;
  }
};

/** The take of a van with something `hidden` in it, as a file that is worked in by hand, ending where a replay ends. */
async function takeOf(page, pair, hidden) {
  const { format, scenario } = JSON.parse(await keptText(page));
  merge(scenario, hidden);
  const take = { format, scenario, log: acts[pair.acts], ticks: pair.seconds * 50, hash: "" };
  const hash = await page.evaluate((text) => window.lowsideHash(text), JSON.stringify(take));
  assert.match(hash, /^[0-9a-f]{16}$/, pair.name);
  return JSON.stringify({ ...take, sight: "hands", hash });
}

/** What the page saved as a file, pressed for by `press`. */
async function file(page, press) {
  const [download] = await Promise.all([page.waitForEvent("download"), press()]);
  return readFileSync(await download.path());
}

/** A saved bay without what is scrambled in it, and without the marks that are taken over it. */
function open(text) {
  const { hidden, hash, seal, ...rest } = JSON.parse(text);
  assert.match(hidden, /^[0-9a-f]{40,}$/, "what is hidden is scrambled");
  return rest;
}

/** Everything that a page gives away of a bay. */
async function given(pair, hidden) {
  return withPage(
    desktop,
    async (page) => {
      await page.locator("#hose-tool").waitFor();
      const take = await takeOf(page, pair, hidden);
      await drawer(page, "settings");
      await page.getByLabel("Open a saved file").setInputFiles({ name: "take.json", mimeType: "application/json", buffer: Buffer.from(take) });
      await page.locator(".sight").waitFor();
      assert.deepEqual(await picker(page).allInnerTexts(), VIEWS);
      for (const view of VIEWS) await keys(page).view(view);
      // Taking the file up has shut the drawer.
      await drawer(page, "settings");
      const saved = await file(page, () => page.locator("#save-take").click());
      await shut(page);
      const strip = [];
      for (const kind of ["SVG", "PNG", "CSV"]) strip.push(await file(page, () => page.locator(".saver").getByRole("button", { name: kind }).click()));
      const kept = await keptText(page);
      await page.evaluate(() => {
        for (const details of document.querySelectorAll("main details")) details.open = true;
        document.activeElement?.blur();
        // The columns that scroll in themselves are laid out whole, so that the picture has all of them.
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(".page { height: auto !important; overflow: visible !important; } .bay > *, .middle { overflow: visible !important; } .chart { content-visibility: visible !important; }");
        document.adoptedStyleSheets = [sheet];
        // Where views that were opened came to stand says when their parts came, not what the van is.
        for (const e of document.querySelectorAll("#app *")) e.scrollTo(0, 0);
        scrollTo(0, 0);
      });
      // The slow text, and what was said, have come to rest.
      await until(page, "the page stands", 20, () =>
        page.evaluate(async () => {
          const text = () => document.documentElement.outerHTML;
          const before = text();
          await new Promise((done) => setTimeout(done, 4_500));
          return before === text();
        }),
      );
      const dom = await page.evaluate(() => {
        const canvases = [...document.querySelectorAll("canvas")].map((c) => c.toDataURL());
        const fields = [...document.querySelectorAll("input, select")].map((f) => `${f.id}=${f.value}`);
        const hooks = Object.keys(window).filter((name) => /lowside/i.test(name) && typeof window[name] !== "function");
        const store = Object.entries(localStorage).filter(([name]) => !/\.(take|at)$|\/last$/.test(name)).map(([name, text]) => `${name.replace(/bay\.[^.]+/, "bay")}: ${text}`).sort();
        return { html: document.documentElement.outerHTML, title: document.title, canvases, fields, hooks, store };
      });
      const picture = await page.screenshot({ fullPage: true, animations: "disabled" });
      assert.deepEqual(dom.hooks, [], "nothing but functions on the window");
      const clear = JSON.stringify({ dom, kept, saved: saved.toString() });
      assert.ok(!/compressor_wear|orifice_open|clutch_hold|desiccant_load|relief_opens\\?":\\?"25/.test(clear), "nothing hidden in clear");
      assertQuiet(page);
      return { ...dom, saved: open(saved.toString()), kept: open(kept), strip: strip.map((b) => b.toString("base64")), picture: picture.toString("base64") };
    },
    { path: "#s=healthy", reducedMotion: "reduce" },
  );
}

/** Asserts that two are the same, and says where they first part: the whole of a page is too long to be read. */
function assertSame(a, b, part) {
  const [one, two] = [a, b].map((value) => JSON.stringify(value));
  if (one === two) return;
  let at = 0;
  while (one[at] === two[at]) at += 1;
  const around = (text) => text.slice(Math.max(0, at - 200), at + 200);
  assert.fail(`${part} differs at ${at}:\n${around(one)}\n${around(two)}`);
}

/** What the sound van gives after each list of acts: looked at once. */
const sounds = {};

for (const pair of pairs)
  pageTest(
    `two vans that differ in what is hidden alone are one to the page: ${pair.name}`,
    desktop,
    async () => {
      const [sound, other] = await Promise.all([(sounds[pair.acts] ??= given(pair, {})), given(pair, pair.hidden)]);
      for (const part of Object.keys(sound)) assertSame(other[part], sound[part], part);
    },
    { path: "#s=healthy", running: false },
  );

/** Begins the van anew as it is chosen in the drawer of bays, by keys alone. */
async function begin(page, sight) {
  await page.locator("#bays").focus();
  await page.keyboard.press("Enter");
  await page.locator("#sight").focus();
  await page.keyboard.press("Home");
  for (let n = 0; n < sight; n += 1) await page.keyboard.press("ArrowDown");
  await page.locator(".begin button").press("Enter");
  await page.locator(".sight").waitFor();
}

/** Asserts that nothing of the inside is on the page. */
async function assertClosed(page) {
  assert.equal(await picker(page).count(), VIEWS.length);
  assert.equal(await page.locator(".levels, .inside, .ledger svg, .ledger table").count(), 0);
  assert.equal(await page.locator("section.around").count(), 1);
}

for (const window of [desktop, phone])
  for (const locale of ["en", "es"]) {
    pageTest(
      `an exam has no way back and no hints, and nothing opens it but handing it in, in ${locale}`,
      window,
      async (page) => {
        await begin(page, 2);
        await assertClosed(page);
        assert.equal(await undo(page).count(), 0, "no control goes back");
        assert.equal(await page.locator(".next, .needed, .clue").count(), 0, "no hints");
        const was = await checked(page);
        await windows(page).click();
        await until(page, "the windows have moved", 5, async () => (await checked(page)) !== was);
        for (const key of ["Control+z", "Control+y", "Control+Shift+z"]) await page.keyboard.press(key);
        await page.waitForTimeout(300);
        assert.notEqual(await checked(page), was, "no key takes it back");
        for (const key of ["?", "?", "r", "[", "]"]) await page.keyboard.press(key);
        await assertClosed(page);
        await assertAccessible(page);
        await assertNoSidewaysScroll(page);
        assert.equal(JSON.parse(await keptText(page)).sight, "exam");
        await page.reload();
        await page.locator(".sight").waitFor();
        await assertClosed(page);
        assert.equal(await undo(page).count(), 0);
        assert.equal(await page.locator(".sight details").count(), 1, "handing in is all that is offered");
        await page.locator(".sight summary").press("Enter");
        await page.locator(".sight details button").press("Enter");
        // Handed in; now, and not before, the inside can be opened.
        await until(page, "it says when it was handed in", 5, async () => /\d:\d\d/.test(await page.locator(".sight").innerText()));
        await assertClosed(page);
        if (!(await page.locator(".sight details button").isVisible())) await page.locator(".sight summary").press("Enter");
        await page.locator(".sight details button").press("Enter");
        await page.locator(".levels").waitFor();
        const take = JSON.parse(await keptText(page));
        assert.ok(take.handed_in >= 0 && take.opened >= take.handed_in && take.sight === "exam", JSON.stringify({ ...take, scenario: 0, log: 0 }));
        await page.reload();
        await page.locator(".levels").waitFor();
        assert.match(await page.locator(".sight").innerText(), /\d:\d\d/, "it still says so");
        assertQuiet(page);
      },
      { path: "#s=healthy", locale, reducedMotion: "reduce" },
    );
  }

pageTest(
  "by hand one may go back; a link, a file and another tab leave it closed; the button that opens it says so in the take",
  desktop,
  async (page) => {
    await begin(page, 1);
    await assertClosed(page);
    assert.equal(await page.locator("#undo").count(), 1);
    const was = await checked(page);
    await windows(page).click();
    await until(page, "the windows have moved", 5, async () => (await checked(page)) !== was);
    await page.keyboard.press("Control+z");
    await until(page, "it is taken back", 5, async () => (await checked(page)) === was);
    assert.equal(await page.locator(".next").count(), 1, "advice by what is shown");
    // Another course is begun; the one that was left is kept too, and as closed.
    await page.locator("#control-recirculation").click();
    await page.locator("#line").waitFor();
    const { lines } = JSON.parse(await keptText(page));
    assert.equal(lines.length, 1, "what was undone is counted");
    const store = await page.evaluate(() => JSON.stringify(localStorage));
    assert.match(store, /\.line\.1/);
    assert.ok(!/condition/.test(store), "nothing hidden is kept in clear");
    // Old links to views that are not there, and unknown words behind the #, open nothing.
    await page.evaluate(() => (location.hash = "#levels"));
    await page.waitForTimeout(300);
    await assertClosed(page);
    const other = await page.context().newPage();
    await other.goto(page.url());
    await other.locator("#hose-tool").waitFor();
    await other.close();
    await assertClosed(page);
    await page.locator(".sight summary").press("Enter");
    await page.locator(".sight details button").press("Enter");
    await page.locator(".levels").waitFor();
    assert.deepEqual((await picker(page).allInnerTexts()).filter((name) => INSIDE.includes(name)), INSIDE);
    const take = JSON.parse(await keptText(page));
    assert.equal(take.sight, "hands");
    assert.ok(take.opened >= 0, "the take says when it was opened");
    await page.keyboard.press("Control+z");
    assert.equal(await page.locator(".levels").count(), 1, "open for good");
    assertQuiet(page);
  },
  { path: "#s=healthy", reducedMotion: "reduce" },
);

pageTest(
  "a job card that is opened as an exam shows its complaint and no step, hint or mark",
  phone,
  async (page) => {
    await keys(page).view("Job");
    await page.locator("#job-sight").selectOption("2");
    await page.getByRole("button", { name: "Open the job" }).click();
    await page.locator(".sight").waitFor();
    await page.locator(".complaint").waitFor();
    assert.equal(await page.locator(".steps, .clue, .goals").count(), 0);
    assert.ok(await page.getByRole("button", { name: "Sign off" }).isDisabled());
    await startOver(page);
    await page.locator(".sight").waitFor();
    assert.equal(await page.locator(".steps").count(), 0, "started over, it is an exam again");
    await run(page);
    await assertClosed(page);
    assertQuiet(page);
  },
  { path: "#s=healthy", reducedMotion: "reduce" },
);
