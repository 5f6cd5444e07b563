// What comes from outside and what goes out: files in both languages, dropped files, paper, the colours of the system, a program that does
// not come.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { assertAccessible, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { keys, until } from "./keys.mjs";
import { chooseLanguage, drawer, speed, startOver } from "./page.mjs";

const button = (page, name) => page.getByRole("button", { name, exact: true });
const notice = (page) => page.locator(".notice").filter({ hasText: /./ });

/** The bay on stage as the page saves it. */
async function saved(page) {
  await drawer(page, "settings");
  const [file] = await Promise.all([page.waitForEvent("download"), page.locator("#save-take").evaluate((b) => b.click())]);
  return readFileSync(await file.path(), "utf8");
}

const choose = async (page, text, name = "take.json") => {
  await drawer(page, "settings");
  await page.locator("#open-take").setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
};

pageTest(
  "why a file is refused is told in the language of the page, and goes when a good one opens",
  desktop,
  async (page) => {
    await button(page, "+1 s").click();
    const whole = await saved(page);
    const take = JSON.parse(whole);
    const changed = (change) => {
      const other = structuredClone(take);
      change(other);
      return JSON.stringify(other);
    };
    const cases = [
      ["", "it is empty", "no contiene nada"],
      [whole.slice(0, 300), "its end is missing", "le falta el final"],
      ["[1, 2]", "it is not a saved bay", "no es un taller guardado"],
      [changed((t) => (t.scenario.day.ambient = "90 degC")), "its scenario: ", "su situaci\u00f3n inicial: "],
      [changed((t) => (t.scenario.vehicle = 3)), "its scenario cannot be read", "su situaci\u00f3n inicial no se puede leer"],
      [changed((t) => t.log.push([1, { do: "jump" }])), "its act 1 cannot be read", "su acci\u00f3n 1 no se puede leer"],
      [changed((t) => (t.ticks = 1e9)), "it lasts longer than 24 hours", "dura m\u00e1s de 24 horas"],
      [changed((t) => t.log.push([1e6, { do: "tap", on: true }])), "its act 1 comes before", "su acci\u00f3n 1 va antes"],
      [`[${'{"":0},'.repeat(1.3e6)}0]`, "it is larger than 8.4 MB", "pasa de 8.4 MB"],
    ];
    for (const [language, column, said] of [
      ["en", 1, "This file could not be opened: "],
      ["es", 2, "No se pudo abrir este archivo: "],
    ]) {
      await chooseLanguage(page, language);
      await page.getByText(language === "en" ? "Nothing is connected." : "No hay nada conectado.").waitFor();
      for (const test of cases) {
        await choose(page, test[0]);
        await notice(page).filter({ hasText: said + test[column] }).waitFor();
        // The reader of the text speaks English, and of lines and columns.
        assert.doesNotMatch(await notice(page).first().innerText(), /line \d|column|expected|unknown|EOF|invalid/);
      }
      // A good one opens, and nothing stands there any more.
      await choose(page, whole);
      await until(page, "the complaint is gone", 15, async () => (await page.locator(".notice", { hasText: said.slice(0, 20) }).count()) === 0);
      // An edited one says what is known: not that it is newer.
      await choose(page, changed((t) => Object.assign(t, { hash: "0".repeat(16), seal: undefined })));
      const edited = { en: "It does not end where it says: it was edited, or another version", es: "No termina donde dice: se edit\u00f3" }[language];
      await notice(page).filter({ hasText: edited }).waitFor();
    }
    assertQuiet(page);
  },
  { path: "#s=healthy", reducedMotion: "reduce" },
);

pageTest(
  "a file dropped anywhere opens, with the page saying so while it is held; what is none is refused",
  desktop,
  async (page) => {
    await button(page, "+1 s").click();
    await button(page, "+1 s").click();
    const whole = await saved(page);
    await button(page, "+1 s").click();
    const hold = async (what, text, name) => {
      const data = await page.evaluateHandle(
        ([content, file]) => {
          const carried = new DataTransfer();
          carried.items.add(new File([content], file));
          return carried;
        },
        [text, name],
      );
      await page.dispatchEvent(what, "dragover", { dataTransfer: data });
      assert.ok(await page.getByText("Let go to open the saved bay in this file.").isVisible());
      await page.dispatchEvent(what, "drop", { dataTransfer: data });
      assert.ok(!(await page.getByText("Let go to open").isVisible()));
    };
    await hold(".levels canvas", whole, "bay.json");
    await until(page, "the bay of the file", 15, async () => (await page.locator(".clock [aria-hidden]").innerText()) === "0:02");
    await hold("footer", "\u0000\u0001 no bay", "picture.png");
    await notice(page).filter({ hasText: "This file could not be opened: it is not a saved bay" }).waitFor();
    // A text that is dragged is no file.
    const text = await page.evaluateHandle(() => {
      const carried = new DataTransfer();
      carried.setData("text/plain", "abc");
      return carried;
    });
    await page.dispatchEvent("main", "dragover", { dataTransfer: text });
    assert.ok(!(await page.getByText("Let go to open").isVisible()));
    assertQuiet(page);
  },
  { path: "#s=healthy", reducedMotion: "reduce" },
);

for (const colorScheme of ["light", "dark"])
  pageTest(
    `readings and chart stand on paper, and the job with its record alone, ${colorScheme}`,
    desktop,
    async (page) => {
      const k = keys(page);
      await k.view("Strip chart");
      await k.speed(30);
      await page.waitForTimeout(1500);
      await page.locator(".pause").click();
      const visible = (selector) => page.locator(selector).first().isVisible();
      await page.emulateMedia({ media: "print", colorScheme });
      for (const [selector, seen] of [[".gauges .dial", true], [".readings dl", true], [".film svg", true], [".chart .strip", true], [".levels", false], [".panel", false]])
        assert.equal(await visible(selector), seen, selector);
      // Ink on white, whatever the page is on: the ground is white, and something on it has the contrast of a line (3, WCAG 1.4.11) or of
      // text (4.5, WCAG 1.4.3).
      for (const [selector, contrast] of [[".chart .strip", 3], [".readings", 4.5], [".gauges .dial", 4.5]]) {
        const image = (await page.locator(selector).first().screenshot()).toString("base64");
        const [white, ink] = await page.evaluate(
          async ([data, least]) => {
            const image = new Image();
            image.src = `data:image/png;base64,${data}`;
            await image.decode();
            const canvas = Object.assign(document.createElement("canvas"), { width: image.width, height: image.height }).getContext("2d");
            canvas.drawImage(image, 0, 0);
            const { data: all } = canvas.getImageData(0, 0, image.width, image.height);
            const linear = (c) => ((c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
            let [white, ink] = [0, 0];
            for (let i = 0; i < all.length; i += 4) {
              const light = 0.2126 * linear(all[i]) + 0.7152 * linear(all[i + 1]) + 0.0722 * linear(all[i + 2]);
              white += light > 0.9;
              ink += 1.05 / (light + 0.05) >= least;
            }
            return [white, ink].map((n) => (4 * n) / all.length);
          },
          [image, contrast],
        );
        assert.ok(white > 0.7, `${selector}: ${white} is white`);
        assert.ok(ink > 5e-4 && ink < 0.3, `${selector}: ${ink} is ink`);
      }
      const paper = await page.pdf({ format: "A4" });
      assert.ok(paper.length > 20_000, `${paper.length} bytes of PDF`);
      await page.emulateMedia({ media: "screen" });
      await k.view("Job");
      await button(page, "Open the job").click();
      await page.locator(".steps").waitFor();
      // The page's own print stands in for the browser's, which waits for a person.
      const seen = await page.evaluate(async () => {
        let marked;
        window.print = () => (marked = document.body.className);
        [...document.querySelectorAll(".record button")].find((b) => b.textContent === "Print")?.click();
        const after = (dispatchEvent(new Event("afterprint")), document.body.className);
        return [marked, after];
      });
      assert.deepEqual(seen, ["prints-job", ""]);
      await page.evaluate(() => document.body.classList.add("prints-job"));
      await page.emulateMedia({ media: "print", colorScheme });
      for (const [selector, there] of [[".printed", true], [".job .steps", false], [".gauges .dial", false], [".chart .strip", false]]) assert.equal(await visible(selector), there, selector);
      assertQuiet(page);
    },
    { path: "#s=healthy", colorScheme },
  );

pageTest(
  "in the system's own colours what is pressed is seen and lines are told apart",
  desktop,
  async (page) => {
    const k = keys(page);
    await k.view("Strip chart");
    await k.speed(30);
    await until(page, "lines are drawn", 15, async () => (await page.locator(".chart .strip svg path, .chart .strip svg polyline").count()) > 2);
    const ground = (locator) => locator.first().evaluate((e) => getComputedStyle(e).backgroundColor);
    const pairs = [
      [page.locator(".doors .here"), page.locator(".doors button:not(.here)")],
      [page.locator(".picker .chosen"), page.locator(".picker button:not(.chosen)")],
    ];
    for (const [on, off] of pairs) assert.notEqual(await ground(on), await ground(off));
    await page.locator("#control-windows").click();
    await page.locator(".switch[aria-checked=false]").first().waitFor();
    // What explains the control goes with the pointer and the focus.
    await page.mouse.move(720, 2);
    await page.evaluate(() => document.activeElement.blur());
    await page.locator(".hint").waitFor({ state: "detached" });
    const pill = (checked) => page.locator(`.switch[aria-checked=${checked}]`).first().evaluate((e) => getComputedStyle(e, "::after").backgroundColor);
    assert.notEqual(await pill(true), await pill(false));
    const swatches = await page.locator(".chart h2 .name").evaluateAll((all) => all.map((e) => getComputedStyle(e, "::before").backgroundImage + getComputedStyle(e, "::before").backgroundColor));
    assert.equal(new Set(swatches).size, swatches.length, swatches.join(" | "));
    await assertAccessible(page);
    assertQuiet(page);
  },
  { path: "#s=healthy", forcedColors: "active" },
);

for (const [window, language, said] of [
  [desktop, "en-US", "The bay has not come yet."],
  [phone, "es-MX", "El taller todav\u00eda no llega."],
])
  pageTest(
    `a shell whose program does not come says so after ten seconds, ${language}`,
    window,
    async (page) => {
      await page.route(/lowside(_bg)?\.(js|wasm)/, () => undefined);
      const address = process.env.LOWSIDE_URL;
      await page.goto(address, { waitUntil: "commit" });
      await page.locator("#enter-explore").click();
      const late = page.getByText(said);
      // The shell's own clock is put forward.
      await until(page, "the shell stands", 15, () => page.evaluate(() => document.getAnimations().some((a) => a.animationName === "late")));
      const after = (seconds) =>
        page.evaluate((ms) => document.getAnimations().find((a) => a.animationName === "late").currentTime = ms, 1000 * seconds);
      await after(9.5);
      assert.ok(!(await late.isVisible()), "not before ten seconds");
      await after(9.9);
      await until(page, "after ten", 5, () => late.isVisible());
    },
    { path: "about:blank", running: false, locale: language, serviceWorkers: "block" },
  );

pageTest("the page is nobody's frame for forms or other bases", desktop, async (page) => {
  const policy = await page.locator("meta[http-equiv=Content-Security-Policy]").getAttribute("content");
  for (const part of ["base-uri 'none'", "form-action 'none'"]) assert.ok(policy.includes(part), policy);
  const came = await page.evaluate(() => {
    const base = document.createElement("base");
    base.href = "https://elsewhere.invalid/";
    document.head.append(base);
    const href = new URL("x", document.baseURI).href;
    base.remove();
    return href;
  });
  assert.ok(came.startsWith(process.env.LOWSIDE_URL), came);
});

pageTest(
  "only what can come is waited for; the vacuum gauge says where it hangs; acts name their part",
  desktop,
  async (page) => {
    const options = () => page.locator("#until option").allInnerTexts();
    assert.ok(!(await options()).includes("the can is empty"), "no can");
    assert.ok(!(await options()).some((text) => text.includes("clutch")), "the engine is off");
    const k = keys(page);
    assert.equal(await page.locator("#reading-vacuum").count(), 0, "it hangs nowhere");
    await page.getByLabel("Tool", { exact: true }).selectOption("4");
    await button(page, "Connect").click();
    await page.locator("#reading-vacuum").waitFor();
    assert.match(await page.locator("#reading-vacuum").innerText(), /at the pump/);
    await button(page, "Undo").click();
    await button(page, "Take a can").click();
    await button(page, "+1 s").click();
    await until(page, "a can to wait for", 10, async () => (await options()).includes("the can is empty"));
    await k.view("Parts");
    const bench = page.locator("section.parts");
    for (const joint of [/^Joint evaporator \/ accumulator/, /^Joint accumulator \/ suction/]) {
      // The work that is open may lie over the next place.
      await bench.getByRole("button", { name: joint }).press("Enter");
      await button(bench, "two wrenches").click();
      await button(bench, "Open").click();
    }
    await bench.getByRole("button", { name: /^Low-pressure switch/ }).press("Enter");
    await page.locator("#plug").selectOption({ label: "pulled" });
    await bench.getByRole("button", { name: /^Accumulator/ }).press("Enter");
    await k.turn(false, "Bolts");
    await button(bench, "Take out").click();
    await k.turn(false, "Caps on its ends");
    await button(bench, "Drain the oil").click();
    await button(page, "Undo").click();
    await page.locator("[role=status]", { hasText: "Oil drained: accumulator" }).waitFor({ state: "attached" });
    await button(page, "Redo").click();
    await k.view("Job");
    await button(page, "Sign the record").click();
    await page.locator(".record .lines", { hasText: /accumulator [\d.]+ fl oz/ }).waitFor();
    assertQuiet(page);
  },
  { path: "#s=charge-from-cans", reducedMotion: "reduce" },
);

pageTest(
  "a step of several goals ticks each, and nothing of one card stays on the next",
  desktop,
  async (page) => {
    const k = keys(page);
    await k.view("Job");
    await button(page, "Open the job").click();
    const goals = page.locator(".steps > li").nth(4).locator(".goals li");
    const told = (await goals.allInnerTexts()).map((text) => text.replaceAll(/\s+/g, " ").replace(" : ", ": "));
    assert.deepEqual(told, [
      "\u2713Low valve (blue): shut: yes",
      "\u2713High valve (red): shut: yes",
      "\u25cbLow coupler: off: no",
      "\u25cbHigh coupler: off: no",
      "\u2713Engine: off: yes",
    ]);
    const clue = page.locator(".steps > li").first().locator("details").first();
    await clue.locator("> summary").click();
    await button(page, "Sign off").click();
    await page.getByText(/^Not yet\. Missing:/).waitFor();
    await page.locator("#job-card").selectOption({ index: 2 });
    await button(page, "Open the job").click();
    await until(page, "the next card", 10, async () => !(await page.locator("section.job h3").first().innerText()).includes("First charge"));
    assert.equal(await page.getByText(/^Not yet\. Missing:/).count(), 0);
    assert.equal(await page.locator(".steps details[open]").count(), 0, "no hint of the last card is open");
    assert.equal(await page.locator(".steps > li.done").count(), 0);
    // Nor after going back before signing off, nor after starting over from the head.
    await button(page, "+1 s").click();
    await button(page, "Sign off").click();
    await page.getByText(/^Not yet\. Missing:/).waitFor();
    await startOver(page);
    await until(page, "no verdict", 10, async () => (await page.getByText(/^Not yet\. Missing:/).count()) === 0);
    assertQuiet(page);
  },
  { path: "#s=charge-from-cans", reducedMotion: "reduce" },
);
