// The program comes in parts: a part with its door or its view, and one that fails can be asked for again.
import assert from "node:assert/strict";
import { assertAccessible, assertQuiet, desktop, pageTest } from "./harness.mjs";
import { until } from "./keys.mjs";
import { address, door } from "./page.mjs";

/** The parts that the page asks for, in order. */
const asking = (page) => {
  const asked = [];
  page.on("request", (request) => asked.push(...(/part_(\w+)\.bin$/.exec(request.url())?.slice(1) ?? [])));
  return asked;
};
// Without the worker, which fetches everything to keep it.
const options = { path: "about:blank", running: false, serviceWorkers: "block" };

pageTest("a part comes with its door or its view, and not before", desktop, async (page) => {
  const asked = asking(page);
  const come = async (what, parts) => {
    await until(page, what, 15, async () => parts.every((part) => asked.includes(part)));
    assert.deepEqual([...asked].sort(), [...parts].sort(), what);
  };
  const always = ["hands", "keeping", "state"];
  await page.goto(address);
  await page.locator("#hose-tool").waitFor();
  await come("who explores", always);
  await door(page, "class");
  await page.getByRole("heading", { name: "Class" }).waitFor();
  const classes = [...always, "class", "figures", "links", "reading", "scenarios", "desk"];
  await come("in front of a class", classes);
  await door(page, "diagnose");
  await page.getByRole("heading", { name: "The unknown vehicle" }).waitFor();
  const doors = [...classes, "diagnose"];
  await come("who diagnoses", doors);
  await page.locator(".picker").getByRole("button", { name: "Strip chart" }).click();
  await page.locator("section.chart").waitFor();
  // Its part came after it was opened: it is seen all the same.
  const seen = () => page.locator("#view-strip").evaluate((e) => {
    const { top, bottom, height } = e.getBoundingClientRect();
    return height > 150 && top >= 0 && bottom <= innerHeight && e === document.activeElement;
  });
  await until(page, "an opened view is seen once its part is here", 5, seen);
  await come("charts", [...doors, "charts"]);
  await door(page, "service");
  await page.locator(".paper").first().waitFor();
  await come("who services", [...doors, "charts", "jobs"]);
  assertQuiet(page);
}, options);

pageTest("a part that fails says so and can be asked for again", desktop, async (page) => {
  const asked = asking(page);
  let broken = true;
  await page.route("**/part_jobs.bin", (route) => (broken ? route.abort() : route.continue()));
  await page.goto(address);
  await page.locator("#hose-tool").waitFor();
  await door(page, "service");
  await page.locator(".coming").getByText("This part has not come.").waitFor();
  await assertAccessible(page);
  // The rest of the page goes on.
  await page.keyboard.press(".");
  const tries = asked.filter((part) => part === "jobs").length;
  await until(page, "it is asked for by itself", 10, async () => asked.filter((part) => part === "jobs").length > tries);
  broken = false;
  await page.getByRole("button", { name: "Try again" }).press("Enter");
  await page.locator(".paper").first().waitFor();
  assert.equal(await page.locator(".coming").count(), 0);
}, options);
