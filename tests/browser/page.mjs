// A browser for tests and pictures: started fresh, pointed at the page, always ended.
//
// `cargo xtask browser` serves the page, finds the browser, installs the packages and says where they are.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { join } from "node:path";

const required = (name) => {
  assert.ok(process.env[name], `${name} is not set: run this through cargo xtask browser`);
  return process.env[name];
};
export const address = required("LOWSIDE_URL");
export const packages = required("LOWSIDE_NODE");
const require = createRequire(join(packages, "package.json"));
const { chromium } = require("playwright-core");
const axeFile = require.resolve("axe-core/axe.min.js");

/** The two windows everything is looked at in: a desktop and a phone (touch, mobile viewport, three pixels a point). */
export const desktop = { name: "desktop", viewport: { width: 1440, height: 900 } };
export const phone = {
  name: "phone",
  viewport: { width: 390, height: 844 },
  deviceScaleFactor: 3,
  isMobile: true,
  hasTouch: true,
};

/** How long a locator or an expectation waits, in ms, before it fails. */
const PATIENCE = 15_000;

/** What a file wants of its browser besides; to be filled before the first page is opened. */
export const wishes = [];

let starting;
/** One browser a file, with a profile of its own that is thrown away. Each page gets its own context within it. */
function browser() {
  starting ??= chromium.launch({
    executablePath: required("LOWSIDE_BROWSER"),
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-component-update", ...wishes],
    timeout: 30_000,
  });
  return starting;
}
/** Ends the browser, if one was started. */
export async function quit() {
  const started = starting;
  starting = undefined;
  await (await started?.catch(() => undefined))?.close();
}

/**
 * Opens the page in `window`, lets the bay run unless said otherwise, gives it to `use`, and closes it whatever happens.
 * `page.complaints` collects what the browser complained of: console errors and warnings of the page's security policy,
 * uncaught exceptions, failed and refused requests, and requests to any other place than the page's own.
 */
export async function withPage(window, use, { path = "#s=charge-from-cans", running = true, ...options } = {}) {
  const { name, ...size } = window;
  const context = await (await browser()).newContext({ ...size, ...options });
  try {
    context.setDefaultTimeout(PATIENCE);
    // Before the page's own scripts, and so outside its security policy, which stays in force.
    await context.addInitScript({ path: axeFile });
    context.on("page", entering);
    const page = await context.newPage();
    page.complaints = [];
    page.on("console", (said) => said.type() === "error" && page.complaints.push(`console: ${said.text()}`));
    page.on("pageerror", (error) => page.complaints.push(`uncaught: ${error.message}`));
    // Aborted is what was under way when the test left the page.
    page.on("requestfailed", (request) => {
      const why = request.failure()?.errorText;
      if (why !== "net::ERR_ABORTED") page.complaints.push(`failed: ${request.url()} ${why}`);
    });
    page.on("response", (got) => got.status() >= 400 && page.complaints.push(`${got.status()}: ${got.url()}`));
    page.on("request", (request) => {
      const own = request.url().startsWith(address) || /^(data|blob):/.test(request.url());
      if (!own) page.complaints.push(`foreign request: ${request.url()}`);
    });
    await page.goto(new URL(path, address).href);
    if (running && options.reducedMotion !== "reduce") await run(page);
    return await use(page);
  } finally {
    await context.close();
  }
}

/**
 * Enters the shell as a visitor does: goes on with the bay that was left, else explores. A link that asks for a bay needs no door.
 */
export async function enter(page) {
  const ours = await page.evaluate(() => {
    if (document.documentElement.dataset.enter) return true;
    const [back, goOn, explore] = ["back", "go-on", "enter-explore"].map((id) => document.getElementById(id));
    if (!back) return false;
    (back.hidden ? explore : goOn).click();
    return true;
  });
  if (ours) await page.locator(".page, .resuming").first().waitFor();
}

/** Every page of a test comes in by the shell whenever it is loaded, unless it only waits for the address to be taken. */
function entering(page) {
  for (const name of ["goto", "reload"]) {
    const load = page[name].bind(page);
    page[name] = async (...all) => {
      const answer = await load(...all);
      if (all.at(-1)?.waitUntil !== "commit") await enter(page);
      return answer;
    };
  }
}

/** Opens what is behind a button of the head, unless it is open: "bays" or "settings". */
export async function drawer(page, name) {
  if ((await page.locator(`.${name}[open]`).count()) === 0) await page.locator(`#${name}`).press("Enter");
  await page.locator(`.${name}[open] .drawer`).waitFor();
}

/** Shuts what is open from the head. */
export const shut = async (page) => {
  for (const open of await page.locator(".drawn[open] > summary").all()) await open.press("Enter");
};

/** Sets the speed, and lets the bay run, as choosing a speed does. */
export async function speed(page, times) {
  await page.locator("#speed").selectOption(String(times));
  await run(page);
}

/** Starts over with what the bay began with. */
export async function startOver(page) {
  await drawer(page, "bays");
  await page.locator("#start-over").press("Enter");
}

/** Chooses the language. */
export async function chooseLanguage(page, tag) {
  await drawer(page, "settings");
  await page.locator("#language").selectOption(tag);
  await page.locator(`.page :lang(${tag})`).first().waitFor({ state: "attached" }).catch(() => undefined);
}

/** Goes through a door of the head. */
export const door = (page, name) => page.locator(`#door-${name}`).press("Enter");

/** Lets a bay run that came paused, as every bay does that was opened. */
export async function run(page) {
  const button = page.locator(".pause");
  if ((await button.getAttribute("aria-pressed")) === "true") await button.click();
}

/**
 * Lets so many seconds of bay time pass at once, by the button that adds one, and waits until the clock shows it. A bay that runs is
 * paused meanwhile. So bay time costs what the engine takes for it, on any machine.
 */
export const pass = (page, seconds) =>
  page.evaluate(async (seconds) => {
    const [pause, step] = [".pause", ".step"].map((selector) => document.querySelector(selector));
    const clock = () => document.querySelector(".clock > [aria-hidden]").textContent.split(":").reduce((all, part) => 60 * all + Number(part), 0);
    const drawn = async (done) => {
      for (let frames = 0; !done(); frames += 1) {
        if (frames === 600) throw new Error(`no time passes: the clock shows ${clock()} s`);
        await new Promise(requestAnimationFrame);
      }
    };
    const runs = pause.ariaPressed !== "true";
    if (runs) pause.click();
    await drawn(() => !step.classList.contains("away"));
    const end = clock() + seconds;
    for (let k = 1; k <= seconds; k += 1) {
      step.click();
      // The page stays alive meanwhile.
      if (k % 60 === 0) await new Promise(requestAnimationFrame);
    }
    await drawn(() => clock() >= end);
    if (runs) pause.click();
  }, seconds);

/** Opens one of the bays to start with, and lets it run unless said otherwise. */
export async function start(page, id, { running = true } = {}) {
  await drawer(page, "bays");
  await page.locator("#scenario").selectOption(id);
  // What the bay began with is started over with; anything else has a button once it is chosen.
  const label = (list) => list.selectedOptions[0].textContent;
  const [name, bay] = [await page.locator("#scenario").evaluate(label), await page.locator("#bays").textContent()];
  await page.locator(name === bay ? "#start-over" : "#open-start").press("Enter");
  if (running) await run(page);
}

/** The take of the bay on stage as the browser keeps it, as text; saved anew first. */
export const keptText = (page) =>
  page.evaluate(async () => {
    dispatchEvent(new Event("pagehide"));
    await new Promise((done) => setTimeout(done, 100));
    return localStorage.getItem(`lowside/bay.${localStorage.getItem("lowside/last")}.take`);
  });

/** Frames a second and main-thread work a frame (ms) over so many seconds, as the browser itself counts them. */
export async function frames(page, seconds) {
  const session = await page.context().newCDPSession(page);
  // Time of the thread itself, so that other work on the machine does not count.
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const busy = async () => {
    const { metrics } = await session.send("Performance.getMetrics");
    return metrics.find(({ name }) => name === "TaskDuration").value * 1000;
  };
  const before = await busy();
  const [count, time] = await page.evaluate(
    (ms) =>
      new Promise((done) => {
        let n = 0;
        const start = performance.now();
        const next = (now) => {
          if (now - start >= ms) return done([n, now - start]);
          n += 1;
          requestAnimationFrame(next);
        };
        requestAnimationFrame(next);
      }),
    seconds * 1000,
  );
  return { rate: (count * 1000) / time, work: ((await busy()) - before) / Math.max(count, 1) };
}
