// The main job by ear: everything is found in the browser's accessibility tree alone, by role and name, as a screen reader finds it;
// what is said comes through one polite region and never floods.
import assert from "node:assert/strict";
import { desktop, pageTest } from "./harness.mjs";
import { until } from "./keys.mjs";

/** The page as assistive technology gets it. */
async function ear(page) {
  const session = await page.context().newCDPSession(page);
  const value = (node, name) => node.properties?.find((p) => p.name === name)?.value.value;
  const tree = async () => (await session.send("Accessibility.getFullAXTree")).nodes.filter((n) => !n.ignored);
  /** Every node of a role whose name fits. */
  const all = async (role, name) =>
    (await tree()).filter((n) => n.role?.value === role && (name instanceof RegExp ? name.test(n.name?.value ?? "") : (n.name?.value ?? "") === name));
  const one = async (role, name) => {
    const found = await all(role, name);
    assert.equal(found.length, 1, `${role} "${name}": ${found.length} in the tree`);
    return found[0];
  };
  /** Gives a node the focus and presses a key there. */
  const key = async (role, name, ...keys) => {
    const node = await one(role, name);
    assert.ok(value(node, "focusable"), `${role} "${name}" takes the focus`);
    assert.ok(!value(node, "disabled"), `${role} "${name}" works`);
    await session.send("DOM.focus", { backendNodeId: node.backendDOMNodeId });
    for (const k of keys) await page.keyboard.press(k);
  };
  const state = async (name) => value(await one("switch", name), "checked");
  return {
    tree,
    all,
    one,
    value,
    key,
    /** What a slider's value is read as. The protocol's tree gives a range's bare number; assistive technology gets this instead. */
    text: async (node) => {
      const { node: dom } = await session.send("DOM.describeNode", { backendNodeId: node.backendDOMNodeId });
      const at = dom.attributes.indexOf("aria-valuetext");
      return at < 0 ? node.value?.value : dom.attributes[at + 1];
    },
    set: async (on, name) => {
      if ((await state(name)) !== String(on)) await key("switch", name, "Space");
      await until(page, `${name} is ${on}`, 10, async () => (await state(name)) === String(on));
    },
    /** What a gauge says. */
    gauge: async (title) => {
      const { name } = await one("image", new RegExp(`^${title}`));
      assert.match(name.value, /(pounds? per square inch gauge|inch(es)? of mercury)/, "a gauge says its unit");
      const number = Number(name.value.match(/: (?:minus )?([\d.]+)/)[1]);
      return /vacuum|minus/.test(name.value) ? -number : number;
    },
    /** All static text, in order. */
    said: async () => (await tree()).filter((n) => n.role?.value === "StaticText").map((n) => n.name.value),
  };
}

/** A reading's text: what follows its title. */
async function reading(e, title) {
  const all = await e.said();
  const at = all.indexOf(title);
  assert.ok(at >= 0, `${title} is read`);
  return all[at + 1];
}

async function giveACan(page, e) {
  await e.key("button", "1\u00d7", "Enter");
  await e.key("button", /^(Take a can|Fresh can)$/, "Enter");
  await e.set(true, "Tap");
  await e.set(true, "Purge (yellow)");
  await page.waitForTimeout(2500);
  await e.set(false, "Purge (yellow)");
  await e.set(true, "Water bath");
  await e.key("slider", "Low valve (blue)", "End");
  await e.key("button", "60\u00d7", "Enter");
  await until(page, "the can gives what it holds", 60, async () => Number.parseFloat(await reading(e, "Scale")) < 3.9);
  await e.key("slider", "Low valve (blue)", "Home");
}

pageTest(
  "the main job by the accessibility tree alone",
  desktop,
  async (page) => {
    const e = await ear(page);
    await page.getByRole("heading", { level: 1 }).waitFor();
    // What the region says, with the wall time.
    await page.evaluate(() => {
      window.said = [];
      const region = document.querySelector("[aria-live=polite]");
      new MutationObserver(() => region.textContent && window.said.push([performance.now(), region.textContent])).observe(region, { childList: true, characterData: true, subtree: true });
    });
    assert.ok((await e.gauge("Low side")) < -25, "an evacuated loop stands near full vacuum");
    await e.set(true, "Engine");
    await e.set(true, "A/C");
    for (let k = 0; k < 4; k += 1) await e.key("slider", "Blower", "ArrowRight");
    for (let k = 0; k < 3; k += 1) await giveACan(page, e);
    const given = await reading(e, "Given by the cans");
    assert.match(given, /^3[3-6]\.\d oz$/, "three cans give 33-36 oz (three of 12 oz, less what stays behind)");
    await until(page, "the vent is below 50 degF", 40, async () => Number.parseFloat(await reading(e, "Centre vent")) < 50);
    assert.match(await reading(e, "Centre vent"), /\u00b0F$/);
    const [low, high] = [await e.gauge("Low side"), await e.gauge("High side")];
    assert.ok(low > 15 && low < 50 && high > 120 && high < 300, `${low} and ${high} psig`);

    // Every control has a name, every value its unit or word.
    const nodes = await e.tree();
    const controls = nodes.filter((n) => ["button", "switch", "slider", "combobox", "checkbox", "link", "textbox"].includes(n.role?.value));
    assert.ok(controls.length > 60, `${controls.length} controls`);
    assert.deepEqual(controls.filter((n) => !n.name?.value?.trim()).map((n) => n.role.value), []);
    const values = [];
    for (const n of nodes.filter((n) => n.role?.value === "slider" && !e.value(n, "disabled"))) {
      const text = await e.text(n);
      values.push([n.name.value, String(text)]);
    }
    const bare = values.filter(([, text]) => !/[a-z%\u00b0]/i.test(text));
    assert.deepEqual(bare, [], "a value without unit or word");

    // One polite region and nothing beside it; asked for, it reads at once; else a message in three seconds at most.
    const live = await page.evaluate(() =>
      [...document.querySelectorAll("#app [aria-live]:not([aria-live=off]), #app [role=status], #app [role=alert], #app [role=log]")].map((x) => x.outerHTML.slice(0, 80)),
    );
    assert.equal(live.length, 1, live.join("\n"));
    const said = await page.evaluate(() => window.said);
    assert.ok(said.length > 5, `messages: ${said.length}`);
    const gaps = said.slice(1).map(([at], k) => at - said[k][0]);
    assert.ok(Math.min(...gaps) > 2900, `gaps between messages, ms: ${gaps.map(Math.round)}`);
    assert.ok(said.some(([, text]) => /^Caution/i.test(text)), `a caution was said: ${said.map(([, t]) => t.slice(0, 30)).join(" | ")}`);
    await page.locator("body").press("r");
    await until(page, "the readings are read", 5, async () => (await e.said()).some((t) => /^Low side .*gauge, high side .*gauge, vent .*, clutch (in|out)\./.test(t)));
  },
  { limit: 200_000 },
);
