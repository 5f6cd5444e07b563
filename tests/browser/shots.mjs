// Pictures of the page for a person to look at: as it comes up, with the healthy van running, with every drawing and chart open
// one by one, charging from a can and with an opened part, on desktop and phone; on a tablet and in front of a class what is seen
// there; all in both colour schemes. Then the tour: every door and view at five widths in both languages. Names given in LOWSIDE_ONLY choose
// some; those that begin with "tour" leave the rest out.
import { join } from "node:path";
import { tour } from "./tour.mjs";
import { desktop, door, phone, quit, speed, start, withPage } from "./page.mjs";

const VIEWS = ["Levels", "Parts", "Strip chart", "Job", "Cycle", "Air", "Boiling point", "Vacuum"];

const wanted = process.env.LOWSIDE_ONLY?.split(",");
const asked = (name) => !wanted || wanted.some((part) => name.includes(part));
const tourAlone = wanted?.every((part) => part.startsWith("tour"));
/** Takes pictures of `page`, or of an element of it, unless others are wanted. */
const camera = (page, window, colorScheme) => async (moment, element) => {
  const name = `${window.name}-${colorScheme}-${moment}`;
  if (!asked(name)) return;
  const path = join(process.env.LOWSIDE_SHOTS, `${name}.png`);
  await (element ?? page).screenshot({ path });
  console.log(path, page.complaints.length ? `complaints: ${page.complaints.join("; ")}` : "");
};
const tablet = { name: "tablet", viewport: { width: 820, height: 1180 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
const projector = { name: "projector", viewport: { width: 1920, height: 1080 } };

try {
  await tour(camera, asked);
  const [besides, both] = tourAlone ? [[], []] : [[[tablet, ""], [projector, "?layout=projector"]], [desktop, phone]];
  for (const [window, layout] of besides)
    for (const colorScheme of ["light", "dark"])
      await withPage(
        window,
        async (page) => {
          const shoot = camera(page, window, colorScheme);
          await page.getByRole("heading", { level: 1 }).waitFor();
          await speed(page, 60);
          await page.waitForTimeout(6000);
          await speed(page, 1);
          await page.waitForTimeout(400);
          await shoot("running");
          for (const name of ["Strip chart", "Parts"]) await page.locator(".picker").getByRole("button", { name, exact: true }).click();
          await page.waitForTimeout(600);
          await shoot("both", { screenshot: ({ path }) => page.screenshot({ path, fullPage: true }) });
        },
        { colorScheme, path: `${layout}#s=healthy` },
      );
  for (const window of both) {
    for (const colorScheme of ["light", "dark"]) {
      await withPage(
        window,
        async (page) => {
          const button = (name) => page.getByRole("button", { name, exact: true });
          const shoot = camera(page, window, colorScheme);
          /** Begins anew. */
          const startWith = async (id) => {
            await start(page, id);
          };
          /** Leaves only the named views open. */
          const show = async (...names) => {
            for (const view of VIEWS) {
              const it = page.locator(".picker").getByRole("button", { name: view, exact: true });
              if ((await it.getAttribute("aria-pressed")) !== String(names.includes(view))) await it.click();
            }
            await page.waitForTimeout(500);
          };
          await page.getByRole("heading", { level: 1 }).waitFor();
          await page.waitForTimeout(300);
          await shoot("start");
          await button("Take a can").click();
          await page.getByRole("switch", { name: "Tap" }).click();
          await button("Low valve (blue): open").click();
          await speed(page, 4);
          await page.waitForTimeout(5000);
          await speed(page, 1);
          await page.waitForTimeout(300);
          await shoot("charging", page.locator(".levels"));
          await startWith("healthy");
          await speed(page, 60);
          await page.waitForTimeout(6000);
          await speed(page, 1);
          await page.waitForTimeout(400);
          await shoot("running");
          await show("Levels", "Parts");
          await shoot("parts", page.locator("section.parts"));
          await page.locator(".parts g[role=button]").nth(6).press("Enter");
          await page.waitForTimeout(400);
          await shoot("both");
          await shoot("inside", page.locator("section.parts"));
          for (const name of VIEWS.slice(4)) {
            await show(name);
            await shoot(name.toLowerCase().replace(" ", "-"), page.locator("section.plot"));
          }
          await page.getByLabel("Tool", { exact: true }).selectOption({ label: "Recovery machine" });
          await button("Connect").click();
          await show("Parts");
          await page.locator("section.parts").getByRole("button", { name: /^Joint condenser/ }).click();
          await shoot("tools");
          await button("Take it off").click();
          await startWith("charge-from-cans");
          for (const joint of [/^Joint evaporator/, /^Joint accumulator/]) {
            await page.locator("section.parts").getByRole("button", { name: joint }).press("Enter");
            await button("two wrenches").click();
            await button("Open").click();
          }
          await button("Cap both ends").click();
          await page.locator("section.parts").getByRole("button", { name: /^Low-pressure switch/ }).press("Enter");
          await page.locator("#plug").selectOption({ label: "pulled" });
          await page.locator("section.parts").getByRole("button", { name: /^Accumulator/ }).press("Enter");
          await page.getByRole("switch", { name: "Bolts" }).press("Space");
          await button("Take out").click();
          await page.waitForTimeout(300);
          await shoot("bench", page.locator("section.parts"));
          await show("Job");
          await button("Open the job").click();
          await page.waitForTimeout(300);
          await shoot("job", page.locator("section.job"));
          await page.emulateMedia({ media: "print" });
          await shoot("print");
          await page.emulateMedia({ media: "screen" });
          await page.getByLabel("Job card", { exact: true }).selectOption({ label: "From R-12 to R-134a" });
          await button("Open the job").click();
          await show("Parts", "Job");
          await page.locator("#instruments-title").click();
          await page.locator("section.parts").getByRole("button", { name: /^Low port/ }).click();
          const whole = { screenshot: ({ path }) => page.screenshot({ path, fullPage: true }) };
          await shoot("retrofit", whole);
          await page.locator("section.parts").getByRole("button", { name: /^Low-pressure switch/ }).press("Enter");
          await shoot("switches", page.locator("section.parts"));
          await page.locator("#instruments-title").click();
          await startWith("healthy");
          await show("Levels", "Strip chart");
          await door(page, "class");
          await button("Large gauges").click();
          await page.waitForTimeout(400);
          await shoot("large");
          await button("Large gauges").click();
          await door(page, "explore");
          await page.getByRole("switch", { name: "Engine" }).click();
          await speed(page, 60);
          await page.waitForTimeout(9000);
          await speed(page, 1);
          await page.waitForTimeout(300);
          await shoot("rest", page.locator(".levels"));
        },
        { colorScheme },
      );
    }
  }
} finally {
  await quit();
}
