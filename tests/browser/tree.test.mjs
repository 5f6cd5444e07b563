// The main job as a screen reader has it: everything is found in the accessibility tree, by role and name, and read from there.
import assert from "node:assert/strict";
import { assertQuiet, desktop, pageTest } from "./harness.mjs";
import { address } from "./page.mjs";

/** What the polite region says, with the page's own time (ms). */
const listen = () => {
  window.said = [];
  new MutationObserver(() => {
    const region = document.querySelectorAll("#app [aria-live=polite]");
    window.regions = region.length;
    const text = region[0]?.textContent ?? "";
    if (text && window.said.at(-1)?.text !== text) window.said.push({ text, at: performance.now() });
  }).observe(document, { subtree: true, childList: true, characterData: true });
};

/** The page by its accessibility tree alone. */
async function tree(page) {
  const session = await page.context().newCDPSession(page);
  await session.send("Accessibility.enable");
  await session.send("DOM.enable");
  const all = async () => (await session.send("Accessibility.getFullAXTree")).nodes.filter((n) => !n.ignored);
  const property = (node, name) => node.properties?.find((p) => p.name === name)?.value.value;
  const find = async (role, name) => {
    const found = (await all()).filter((n) => n.role?.value === role && (typeof name === "string" ? n.name?.value === name : name.test(n.name?.value ?? "")));
    assert.equal(found.length, 1, `one ${role} "${name}", not ${found.length}`);
    return found[0];
  };
  const focus = async (node) => {
    await session.send("DOM.focus", { backendNodeId: node.backendDOMNodeId });
    return node;
  };
  return {
    all,
    find,
    property,
    /** The protocol gives a range's plain number; what is read out is this. */
    attribute: async (node, name) => {
      const { attributes } = (await session.send("DOM.describeNode", { backendNodeId: node.backendDOMNodeId })).node;
      const at = attributes.indexOf(name);
      return at < 0 ? undefined : attributes[at + 1];
    },
    press: async (role, name) => {
      await focus(await find(role, name));
      await page.keyboard.press(role === "switch" ? "Space" : "Enter");
    },
    key: async (role, name, key) => {
      await focus(await find(role, name));
      await page.keyboard.press(key);
    },
    /** Sets a switch, and sees in the tree that it is set. */
    set: async (name, on) => {
      for (let tries = 0; String(property(await find("switch", name), "checked")) !== String(on); tries += 1) {
        assert.ok(tries < 20, `${name} is set`);
        if (tries % 10 === 0) {
          await focus(await find("switch", name));
          await page.keyboard.press("Space");
        }
        await page.waitForTimeout(100);
      }
    },
    /** What follows a term in a list of readings. */
    reading: async (term) => {
      const nodes = await all();
      const text = (node) => (node.role?.value === "StaticText" ? node.name.value : (node.childIds ?? []).map((id) => text(nodes.find((n) => n.nodeId === id) ?? {})).join(" "));
      const at = nodes.findIndex((n) => n.role?.value === "term" && text(n).trim() === term);
      assert.ok(at >= 0, `a term "${term}"`);
      return text(nodes.slice(at).find((n) => n.role?.value === "definition"));
    },
  };
}

const number = (text) => Number.parseFloat(text.replace("\u2212", "-"));

pageTest(
  "the main job from the accessibility tree alone",
  desktop,
  async (page) => {
    await page.addInitScript(listen);
    await page.goto("about:blank");
    await page.goto(new URL("#s=charge-from-cans", address).href);
    await page.getByRole("slider", { name: "Blower" }).waitFor();
    const t = await tree(page);
    const until = async (what, seconds, check) => {
      const end = Date.now() + seconds * 1000;
      while (!(await check())) {
        assert.ok(Date.now() < end, `waited ${seconds} s: ${what}`);
        await page.waitForTimeout(200);
      }
    };
    // Every control has a name, and every one with a range says its value with a unit or in words.
    for (const node of await t.all()) {
      if (/^(button|switch|slider|combobox|link|checkbox)$/.test(node.role?.value ?? "")) assert.ok(node.name?.value.trim(), `a ${node.role.value} without a name`);
      if (node.role?.value === "slider" && node.name.value !== "Moment") {
        const value = (await t.attribute(node, "aria-valuetext")) ?? node.value?.value;
        assert.match(String(value), /[a-z%\u2014\u00b0]/i, `${node.name.value}: ${value}`);
      }
    }
    const gauge = async (side) => (await t.find("image", new RegExp(`^${side} side`))).name.value;
    assert.match(await gauge("Low"), /inches of mercury|vacuum/i);

    const speed = async (n) => {
      await t.press("combobox", "Speed");
      await page.keyboard.press("Escape");
      await page.keyboard.type(`${n}\u00d7`, { delay: 20 });
    };
    // What is rarely used is made when it is opened.
    await page.locator("#vehicle-more").press("Enter");
    await t.press("button", /Run/);
    await speed(4);
    await t.set("Engine", true);
    await t.set("A/C", true);
    await t.key("slider", "Blower", "End");
    await t.key("slider", "Fan in front of the grille", "End");
    for (let can = 0; can < 3; can += 1) {
      await t.press("button", /^(Take a can|Fresh can)$/);
      await t.set("Tap", true);
      await t.set("Purge (yellow)", true);
      await page.waitForTimeout(800);
      await t.set("Purge (yellow)", false);
      await t.set("Water bath", true);
      await t.press("button", "Low valve (blue): open");
      await speed(60);
      await until("the can gives what it holds", 60, async () => number(await t.reading("Scale")) < 3.9);
      await t.press("button", "Low valve (blue): shut");
      await speed(4);
      await t.set("Tap", false);
    }
    await speed(30);
    await until("the vent is cold", 40, async () => number(await t.reading("Centre vent")) < 50);
    assert.match(await t.reading("Centre vent"), /\u00b0F/);
    assert.match(await gauge("Low"), /pounds? per square inch gauge/);
    const given = number(await t.reading("Charged by weight"));
    assert.ok(given > 33 && given < 36, `given ${given} oz`);
    // The reading aloud, on demand.
    await page.evaluate(() => document.activeElement.blur());
    await page.keyboard.press("r");
    await page.waitForFunction(() => /square inch/.test(window.said.at(-1)?.text ?? ""));

    const [said, regions] = await page.evaluate(() => [window.said, window.regions]);
    assert.equal(regions, 1, "one polite region");
    assert.ok(said.length > 5, `${said.length} messages`);
    // What was asked for by key is said at once; all else keeps three seconds' distance.
    const news = said.slice(0, -1);
    for (let n = 1; n < news.length; n += 1) assert.ok(news[n].at - news[n - 1].at > 2900, `"${news[n - 1].text}" and "${news[n].text}" within ${news[n].at - news[n - 1].at} ms`);
    assertQuiet(page);
  },
  { limit: 180_000 },
);
