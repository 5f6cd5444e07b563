// Without a network, with a newer version at hand, and with storage that is full or denied.
import assert from "node:assert/strict";
import { assertAccessible, assertQuiet, desktop, pageTest } from "./harness.mjs";
import { until } from "./keys.mjs";
import { kept, serve } from "./serve.mjs";
import { drawer } from "./page.mjs";

pageTest(
  "the page works with the server gone",
  desktop,
  async (page) => {
    const server = await serve();
    try {
      await page.goto(server.url);
      await page.getByRole("button", { name: "Take a can" }).click();
      await kept(page);
      await drawer(page, "settings");
      await page.getByText("Stored on this device").waitFor({ timeout: 10_000 });
      await server.kill();
      await page.reload();
      await page.getByRole("button", { name: "Fresh can" }).waitFor({ timeout: 10_000 });
      // A link with settings in it opens too.
      await page.goto(`${server.url}?lang=es`);
      await page.getByRole("button", { name: "Lata nueva" }).waitFor({ timeout: 10_000 });
    } finally {
      await server.kill().catch(() => undefined);
    }
  },
  { limit: 120_000 },
);

pageTest(
  "a newer version is offered and the bay goes on in it",
  desktop,
  async (page) => {
    const server = await serve();
    try {
      await page.goto(server.url);
      await page.getByRole("button", { name: "Take a can" }).click();
      await page.getByRole("switch", { name: "Tap" }).click();
      await kept(page);
      await page.waitForTimeout(500);
      server.state.newer = true;
      await page.evaluate(() => navigator.serviceWorker.getRegistration().then((r) => r.update()));
      await page.getByText("A newer version is ready").waitFor({ timeout: 15_000 });
      assert.equal(await page.getByRole("switch", { name: "Tap" }).getAttribute("aria-checked"), "true", "it still runs");
      await Promise.all([page.waitForEvent("load"), page.getByRole("button", { name: "Update now" }).click()]);
      await page.getByRole("switch", { name: "Tap" }).waitFor({ timeout: 15_000 });
      assert.equal(await page.getByRole("switch", { name: "Tap" }).getAttribute("aria-checked"), "true", "the bay is kept");
      const caches = await page.evaluate(() => caches.keys());
      assert.equal(caches.length, 1, `the old files are gone: ${caches}`);
      assert.match(caches[0], /newer/);
    } finally {
      await server.kill();
    }
  },
  // Chromium may take a minute to look for the newer worker.
  { limit: 150_000 },
);

pageTest("what an installed page needs is there", desktop, async (page) => {
  const found = await page.evaluate(async () => {
    const link = document.querySelector("link[rel=manifest]").href;
    const manifest = await (await fetch(link)).json();
    const sizes = [];
    for (const icon of manifest.icons) {
      const image = await createImageBitmap(await (await fetch(new URL(icon.src, link))).blob());
      sizes.push([`${image.width}x${image.height}`, icon.sizes]);
    }
    return { manifest, sizes };
  });
  for (const [got, said] of found.sizes) assert.equal(got, said);
  assert.ok(found.manifest.name && found.manifest.start_url && found.manifest.display === "standalone");
  assertQuiet(page);
});

const blocked = () => Object.defineProperty(window, "localStorage", { get: () => { throw new DOMException("no", "SecurityError"); } });
const full = () => {
  const set = Storage.prototype.setItem;
  set.call(localStorage, "other", "x");
  Storage.prototype.setItem = function (key, value) {
    if (key.endsWith(".take")) throw new DOMException("full", "QuotaExceededError");
    return set.call(this, key, value);
  };
};
for (const [what, script, says] of [
  ["denied", blocked, /keeps nothing/],
  ["full", full, /storage is full/],
])
  pageTest(`storage that is ${what} is told and stops nothing`, desktop, async (page) => {
    await page.addInitScript(script);
    await page.reload();
    await page.getByRole("button", { name: "Take a can" }).click();
    // The reload broke off what was under way.
    page.complaints.length = 0;
    await page.getByText(says).waitFor();
    await page.getByRole("switch", { name: "Tap" }).click();
    assert.equal(await page.getByRole("switch", { name: "Tap" }).getAttribute("aria-checked"), "true");
    await assertAccessible(page);
    assertQuiet(page);
  });

pageTest("what was done is kept within five seconds", desktop, async (page) => {
  await page.getByRole("button", { name: /Pause/ }).click();
  await page.getByRole("button", { name: /Run/ }).click();
  const ticks = () =>
    page.evaluate(() => JSON.parse(localStorage.getItem(`lowside/bay.${localStorage.getItem("lowside/last")}.take`) ?? '{"ticks":-1}').ticks);
  const before = await ticks();
  await until(page, "a running bay is saved without an act", 5, async () => (await ticks()) > before);
});
