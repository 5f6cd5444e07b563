// Pictures of the page for a person to look at: as it comes up, and with the healthy van running, in both windows and both
// colour schemes.
import { join } from "node:path";
import { desktop, phone, quit, withPage } from "./page.mjs";

try {
  for (const window of [desktop, phone]) {
    for (const colorScheme of ["light", "dark"]) {
      await withPage(
        window,
        async (page) => {
          const shoot = async (moment) => {
            const path = join(process.env.LOWSIDE_SHOTS, `${window.name}-${colorScheme}-${moment}.png`);
            await page.screenshot({ path });
            console.log(path, page.complaints.length ? `complaints: ${page.complaints.join("; ")}` : "");
          };
          await page.getByRole("heading", { level: 1 }).waitFor();
          await page.waitForTimeout(300);
          await shoot("start");
          await page.getByLabel("Start with").selectOption("healthy");
          await page.getByRole("button", { name: "60\u00d7", exact: true }).click();
          await page.waitForTimeout(6000);
          await page.getByRole("button", { name: "1\u00d7", exact: true }).click();
          await page.waitForTimeout(400);
          await shoot("running");
        },
        { colorScheme },
      );
    }
  }
} finally {
  await quit();
}
