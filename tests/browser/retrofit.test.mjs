// The job card "From R-12 to R-134a" through the page by keyboard alone, from the complaint to the signed and printed record.
// What is asserted is what the page shows.
import assert from "node:assert/strict";
import { assertAccessible, assertNoSidewaysScroll, assertQuiet, desktop, pageTest, phone } from "./harness.mjs";
import { keys, number, passUntil } from "./keys.mjs";
import * as bay from "./page.mjs";
import { chooseLanguage, pass, speed, start } from "./page.mjs";

pageTest(
  "a van is converted from R-12 to R-134a by keyboard alone",
  desktop,
  async (page) => {
    const k = keys(page);
    const step = (n) => page.locator(".steps > li").nth(n - 1);
    const done = (n) => step(n).locator(".standing").getByText(/^done/).waitFor({ timeout: 60_000 });
    const pass = (seconds) => bay.pass(page, seconds);
    const valves = async (to) => {
      for (const valve of ["Low valve (blue)", "High valve (red)"]) await k.push(`${valve}: ${to}`);
    };
    const machineRuns = async () => (await page.getByRole("switch", { name: "Machine", exact: true }).getAttribute("aria-checked")) === "true";
    const item = (name) => page.locator("section.parts").getByRole("button", { name }).press("Enter");

    await page.evaluate(() => {
      window.printed = 0;
      window.print = () => (window.printed += 1);
    });
    await k.view("Job");
    await k.pick("Job card", "From R-12");
    await k.push("Open the job");
    await page.getByText("The owner wants it on R-134a.").first().waitFor();
    await k.speed(4);

    // Know the gas, note the readings, find the leak.
    await page.locator("#instruments-title").press("Enter");
    await k.view("Parts");
    await k.put("Identifier", "Low port");
    await pass(90);
    await page.getByText(/one gas, R-12/).waitFor();
    await k.push("Note readings before");
    await k.put("Detector", "Joint evaporator / accumulator");
    await page.locator("#instruments").getByText(/leak found/).waitFor();
    await k.view("Job");
    await done(1);
    await done(2);

    // Recover, and again what the oil gives back.
    await k.pick("Tool", "Recovery");
    await k.push("Connect");
    await valves("open");
    for (let round = 0; round < 3; round += 1) {
      await k.turn(true, "Machine");
      await passUntil(page, "the machine stops itself", 3600, async () => !(await machineRuns()));
      if (round < 2) await pass(300);
    }
    await valves("shut");
    await k.push("Take it off");
    await done(3);

    // A coupler of the other set does not go on, and the page says why.
    await k.turn(false, "Low coupler");
    await k.turn(false, "High coupler");
    await k.turn(true, "Gauge set for");
    await k.tap("Low coupler");
    await page.getByText("a coupler for R-134a does not go onto a port for R-12").first().waitFor();

    // Fittings; old oil out, new oil and accumulator in; every O-ring; the switches.
    await k.view("Parts");
    for (const port of [/^Low port/, /^High port/]) {
      await item(port);
      await k.push("Screw on a fitting for R-134a");
      await page.locator(".worktop h3").getByText(/R-134a/).waitFor();
    }
    for (const joint of [/^Joint suction hose/, /^Joint compressor/, /^Joint evaporator/, /^Joint accumulator/]) {
      await item(joint);
      await k.push("two wrenches");
      await k.push("Open");
    }
    // Battery, plugs, belt and bolts before the parts.
    await item(/^Battery/);
    await k.turn(false, "Battery lead");
    await item(/^Clutch plug and belt/);
    await k.pickAt("#plug", "pulled");
    await k.turn(false, "Drive belt");
    await item(/^Low-pressure switch/);
    await k.pickAt("#plug", "pulled");
    for (const part of [/^Compressor/, /^Accumulator/]) {
      await item(part);
      await k.turn(false, "Bolts");
      await k.push("Take out");
      await k.turn(false, "Caps on its ends");
      await k.push("Drain the oil");
    }
    await k.push("Get a new one");
    await k.turn(false, "Caps on its ends");
    // 60 mL are set; 150 for the compressor.
    for (const [part, more] of [[/^Accumulator/, 0], [/^Compressor/, 18]]) {
      await item(part);
      const amount = page.locator(".worktop #pour");
      await amount.focus();
      for (let n = 0; n < more; n += 1) await page.keyboard.press("ArrowRight");
      await k.pickAt(".worktop #oil-kind", "ester");
      await k.push("Pour oil in");
      await k.push("Put back");
      await k.turn(true, "Bolts");
    }
    await item(/^Clutch plug and belt/);
    await k.turn(true, "Drive belt");
    await k.pickAt("#plug", "on");
    await item(/^Battery/);
    await k.turn(true, "Battery lead");
    await item(/^Joint evaporator/);
    await k.push("New O-rings at every joint");
    await pass(70);
    await item(/^High-pressure cut-out/);
    await k.push("Fit a cut-out, 420 psig");
    await item(/^Low-pressure switch/);
    await k.pickAt("#plug", "on");
    for (let n = 0; n < 3; n += 1) await k.push("Screw a quarter turn lower");
    assert.equal(await page.locator(".worktop .line", { hasText: "Cycling switch opens at" }).locator("b").innerText(), "22 psig");
    await assertAccessible(page);
    await assertNoSidewaysScroll(page);
    await k.view("Job");
    for (const n of [4, 5, 6]) await done(n);

    // Evacuate and hold.
    await k.turn(true, "Low coupler");
    await k.turn(true, "High coupler");
    await k.pick("Tool", "Vacuum pump");
    await k.push("Connect");
    await k.turn(true, "Pump");
    await k.turn(true, "Isolation valve");
    await k.turn(true, "Vacuum gauge at");
    await valves("open");
    await pass(3600);
    await k.turn(false, "Isolation valve");
    await k.turn(false, "Pump");
    await pass(600);
    await done(7);
    await valves("shut");
    await k.push("Take it off");

    // Charge what the calculator says.
    await page.getByText("Conversion: 33.0 oz to 37.4 oz of R-134a").waitFor();
    await k.pick("Tool", "Charging");
    await k.push("Connect");
    await k.turn(true, "Gives");
    await k.push("High valve (red): open");
    await k.push("Give the dose");
    await passUntil(page, "the dose leaves the cylinder", 1800, async () => (await k.line("Still to come")) === "\u2014");
    // What lies liquid behind the compressor gets time to spread.
    await pass(150);
    await k.push("High valve (red): shut");
    await k.turn(false, "Gives");
    await k.turn(true, "Engine");
    await k.turn(true, "A/C");
    await k.slide("Blower", "End");
    await k.push("Low valve (blue): open");
    await pass(60);
    await k.push("Low valve (blue): shut");
    await k.push("Take it off");
    await done(8);

    // Test, note, label, leave it closed.
    await pass(420);
    await k.push("Note readings after");
    await done(9);
    const amount = page.locator("#label-charge");
    assert.ok(number(await amount.getAttribute("aria-valuetext")) > 34, "the label begins with the calculator's amount");
    await k.pickAt("#label-oil", "ester");
    // A label that names nobody is not what the law asks.
    await k.push(/^Label: R-134a, .*, ester$/);
    const lacking = page.locator(".line", { hasText: "Conversion still needs" });
    assert.match(await lacking.textContent(), /technician.*date.*old label covered/);
    const unfinished = page.getByRole("button", { name: /^Label: R-134a, .*, ester$/ });
    assert.equal(await unfinished.count(), 1, "an unfinished label takes no tick");
    const volume = page.locator("#label-oil-volume");
    await volume.focus();
    for (let n = 0; n < 42; n += 1) await page.keyboard.press("ArrowRight");
    assert.match(await volume.getAttribute("aria-valuetext"), /^7\.\d fl oz$/);
    for (const [name, text] of [["Oil\u2019s maker", "Maker of the bottle"], ["Technician", "A. Technician"], ["Shop and its address", "Training bay, 1 Workshop Road"]]) {
      await page.getByLabel(name, { exact: true }).focus();
      await page.keyboard.type(text);
    }
    await page.getByLabel("Date", { exact: true }).fill("2026-05-04");
    await k.turn(true, "Old label covered");
    await k.push(/^Label: R-134a, .*, ester/);
    await page.getByRole("button", { name: /^Label: R-134a, .*, ester \u2713$/ }).waitFor();
    await k.turn(false, "A/C");
    await k.turn(false, "Engine");
    await pass(200);
    await k.turn(false, "High coupler");
    await k.turn(false, "Low coupler");
    await k.view("Parts");
    for (const port of [/^Low port/, /^High port/]) {
      await item(port);
      await k.turn(true, "Cap");
    }
    await k.view("Job");
    for (const n of [10, 11]) await done(n);
    await k.push("Sign off");
    await page.getByText(/^Passed/).waitFor();

    // The record says what was done, in both languages, and is printed.
    const record = async () => (await page.locator(".record .lines").innerText()).replaceAll(/\s+/g, " ");
    // Signed, the bay's own record opens.
    await k.pick("Refrigerant", "R-134a");
    await k.pick("The conversion is in order: gas, fittings, label, cut-out", "yes");
    await k.push("Sign the record");
    await page.locator("details.record[open]").waitFor();
    const said = await record();
    assert.match(said, /Refrigerant R-134a/);
    assert.match(said, /Label charge R-12, 44\.0 oz/);
    assert.match(said, /Low port R-134a High port R-134a/);
    assert.match(said, /New label R-134a, .* oz; ester, 7\.1 fl oz, Maker of the bottle; A\. Technician; Training bay, 1 Workshop Road; 2026-05-04; Old label covered/);
    assert.match(said, /High-pressure cut-out 420 psig/);
    assert.match(said, /Conversion still needs none/);
    // What was stated of gas and conversion is so.
    assert.doesNotMatch(await page.locator(".statement .verdict").last().innerText(), /Refrigerant|Conversion/);
    await k.push("Print");
    assert.equal(await page.evaluate(() => window.printed), 1);
    await assertAccessible(page);
    assertQuiet(page);
    await chooseLanguage(page, "es");
    await page.getByRole("heading", { name: "De R-12 a R-134a" }).waitFor();
    assert.match(await record(), /Etiqueta nueva R-134a, .* oz; \u00e9ster, /);
  },
  { limit: 600_000 },
);

pageTest("fittings and switches reflow on a phone", phone, async (page) => {
  const k = keys(page);
  await bay.start(page, "before-retrofit");
  await k.view("Parts");
  for (const name of [/^Low port/, /^Low-pressure switch/]) {
    await page.locator("section.parts").getByRole("button", { name }).press("Enter");
    await assertNoSidewaysScroll(page);
    await assertAccessible(page);
  }
  assertQuiet(page);
});
