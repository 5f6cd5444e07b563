// Copies of the page and other people's pages on one host: none touches what belongs to another.
import assert from "node:assert/strict";
import { desktop, pageTest } from "./harness.mjs";
import { until } from "./keys.mjs";
import { kept, serve } from "./serve.mjs";
import { drawer } from "./page.mjs";

const foreign = {
  "/other/": "<!doctype html><title>Other</title><h1>Somebody else's page</h1>",
  "/other/data": "somebody else's data",
};
const button = (page, name) => page.getByRole("button", { name, exact: true });
const blower = (page) => page.getByRole("slider", { name: "Blower" }).waitFor();
/** The worker is asked for a while after the page runs. */
const installed = async (page) => {
  await blower(page);
  await until(page, "the worker is at work", 20, async () => (await kept(page)) === "activated");
};
const caches = (page) => page.evaluate(() => caches.keys().then((names) => names.sort()));
const fetched = (page, path) => page.evaluate((path) => fetch(path).then((got) => got.text(), () => "gone"), path);

/** Uses a server of its own and forgets what was heard of it when it ends. */
const served = (what, use, options) =>
  pageTest(what, desktop, async (page) => {
    const server = await serve(options);
    try {
      await use(page, server);
    } finally {
      await server.kill().catch(() => undefined);
    }
  }, { limit: 150_000 });

served(
  "a copy at the root of its host leaves the pages below it alone",
  async (page, { url, kill }) => {
    await page.goto(url);
    await installed(page);
    await page.reload();
    await blower(page);
    assert.ok(await page.evaluate(() => Boolean(navigator.serviceWorker.controller)), "the worker has the page");
    for (const path of ["other/", "other/?lang=es"]) {
      await page.goto(url + path);
      assert.equal(await page.locator("h1").innerText(), "Somebody else's page", path);
    }
    assert.equal(await fetched(page, "data"), foreign["/other/data"]);
    // What is nobody's is not ours either.
    assert.equal((await page.goto(`${url}nobody/`)).status(), 404);
    await page.goto(`${url}index.html`);
    await blower(page);
    await kill();
    for (const path of ["", "index.html", "?lang=en"]) {
      await page.goto(url + path);
      await blower(page);
    }
    await assert.rejects(page.goto(`${url}other/`), /ERR_/, "without its server the other page is gone, and not ours");
  },
  { foreign },
);

served(
  "two copies on one host share nothing and take nothing from each other",
  async (page, { url, kill }) => {
    const [a, b] = [`${url}a/`, `${url}b/`];
    await page.goto(`${url}other/`);
    await page.evaluate(async () => {
      localStorage.setItem("units", "theirs");
      await (await caches.open("theirs")).put("/other/", new Response("kept"));
    });
    await page.goto(a);
    await installed(page);
    await button(page, "Take a can").click();
    await drawer(page, "settings");
    await button(page, "SI").click();
    await drawer(page, "settings");

    await page.goto(b);
    await installed(page);
    assert.equal(await button(page, "Fresh can").count(), 0, "no can here");
    assert.match(await page.locator(".readings").innerText(), /°F/, "no units from there");
    await page.getByRole("switch", { name: "Windows" }).click();
    const windows = await page.getByRole("switch", { name: "Windows" }).getAttribute("aria-checked");

    const both = await caches(page);
    assert.equal(both.length, 3, both.join());
    assert.deepEqual(both.map((name) => name.replace(/ \w+$/, "")), ["lowside /a/", "lowside /b/", "theirs"]);
    const named = await page.evaluate(() => Object.keys(localStorage).map((key) => key.replace(/[^/]*$/, "")));
    assert.deepEqual([...new Set(named)].sort(), ["", "lowside/a/", "lowside/b/"]);
    assert.equal(await page.evaluate(() => localStorage.getItem("units")), "theirs");

    await kill();
    await page.goto(a);
    await button(page, "Fresh can").waitFor();
    assert.match(await page.locator(".readings").innerText(), /°C/);
    await page.goto(b);
    await button(page, "Take a can").waitFor();
    assert.equal(await page.getByRole("switch", { name: "Windows" }).getAttribute("aria-checked"), windows);
    assert.deepEqual(await caches(page), both);
  },
  { at: ["/a/", "/b/"], foreign },
);

served(
  "what was kept without a path goes to the copy that finds it, and old files only to whose they were",
  async (page, { url }) => {
    await page.goto(`${url}b/`);
    await button(page, "Take a can").click();
    await page.getByRole("switch", { name: "Tap" }).click();
    const take = await page.evaluate(async () => {
      dispatchEvent(new Event("pagehide"));
      await new Promise((done) => setTimeout(done, 100));
      return localStorage.getItem(Object.keys(localStorage).find((key) => key.endsWith(".take")));
    });
    await page.goto(`${url}other/`);
    await page.evaluate(async (take) => {
      localStorage.clear();
      sessionStorage.clear();
      localStorage.setItem("lowside.take", take);
      localStorage.setItem("lowside.line.0", "2 0 3");
      localStorage.setItem("lowside.line.1", `1 0 0\n${take}`);
      localStorage.setItem("lowside.units", "kpa c g si");
      localStorage.setItem("lowside.replaying", "1");
      for (const folder of ["a", "b"]) await (await caches.open(`lowside-${folder}${folder}`)).put(`/${folder}/`, new Response("old"));
    }, take);
    await page.goto(`${url}a/`);
    await button(page, "Fresh can").waitFor();
    const got = JSON.parse(await page.evaluate(() => localStorage.getItem(Object.keys(localStorage).find((key) => key.endsWith(".take")))));
    const was = JSON.parse(take);
    assert.deepEqual([got.hash, got.ticks, got.log], [was.hash, was.ticks, was.log]);
    assert.equal(await page.getByLabel("Branch").locator("option").count(), 2, "with the line beside it");
    assert.match(await page.locator(".readings").innerText(), /°C/, "in the units chosen then");
    assert.deepEqual(await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("lowside."))), []);
    await installed(page);
    const names = await caches(page);
    assert.ok(names.includes("lowside-bb") && !names.includes("lowside-aa"), names.join());
    await page.goto(`${url}b/`);
    await button(page, "Take a can").waitFor();
  },
  { at: ["/a/", "/b/"], foreign },
);
