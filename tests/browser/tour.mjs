// A tour of the page for a person to look at: every door and every view, at five widths, in both colour schemes and both languages.
import { speed, withPage } from "./page.mjs";

/** Widths that layouts are cut for, and the heights that come with them. */
const WINDOWS = [
  { name: "1920", viewport: { width: 1920, height: 1080 } },
  { name: "1440", viewport: { width: 1440, height: 900 } },
  { name: "1024", viewport: { width: 1024, height: 768 } },
  { name: "768", viewport: { width: 768, height: 1024 } },
  { name: "390", viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true },
];
const VIEWS = 8;

/** Opens and shuts the `n`th view around `look`; the first stands open by itself. */
async function viewed(page, n, look) {
  const press = () => page.locator(".picker button").nth(n).click();
  if (n > 0) await press();
  await page.waitForTimeout(500);
  await look();
  if (n > 0) await press();
}

/** Goes through every door and every view; `camera` makes what takes the pictures of a page, `asked` says of a name whether they are wanted. */
export async function tour(camera, asked) {
  for (const window of WINDOWS)
    for (const colorScheme of ["light", "dark"])
      for (const locale of ["en-US", "es-MX"]) {
        const name = `tour-${window.name}-${locale.slice(0, 2)}`;
        if (!asked(`${name}-${colorScheme}`)) continue;
        await withPage(
          window,
          async (page) => {
            const shot = camera(page, { name }, colorScheme);
            await page.locator(".levels, .behind").first().waitFor();
            await speed(page, 60);
            await page.waitForTimeout(3000);
            await speed(page, 1);
            for (let n = 0; n < VIEWS; n += 1) await viewed(page, n, () => shot(`view-${n + 1}`));
            for (const name of ["service", "diagnose", "class"]) {
              await page.locator(`#door-${name}`).click();
              await page.locator(".shelf, .bring-in, #compare").first().waitFor();
              await shot(`door-${name}`);
            }
            await page.locator("#compare").click();
            await page.locator(".abreast").waitFor();
            await shot("compare");
            await page.locator("#compare").click();
            for (const drawer of ["#bays", "#settings"]) {
              await page.locator(drawer).click();
              await page.waitForTimeout(300);
              await shot(drawer.slice(1));
              await page.locator(drawer).click();
            }
            await page.locator("#help-button").click();
            await page.waitForTimeout(300);
            await shot("help");
            await page.keyboard.press("Escape");
            await page.locator("#door-service").click();
            await page.locator(".paper").first().click();
            await page.waitForTimeout(600);
            await shot("card");
            await page.locator("#door-diagnose").click();
            await page.locator(".bring-in .plain").click();
            await page.locator(".to-read button").first().click();
            await page.waitForTimeout(300);
            await shot("unknown");
          },
          { colorScheme, locale, path: "#s=healthy" },
        );
      }
}
