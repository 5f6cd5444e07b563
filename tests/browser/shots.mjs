// Pictures of the page as it comes up, one a window, for a person to look at.
import { join } from "node:path";
import { desktop, phone, quit, withPage } from "./page.mjs";

try {
  for (const window of [desktop, phone]) {
    await withPage(window, async (page) => {
      await page.getByRole("heading", { level: 1 }).waitFor();
      const path = join(process.env.LOWSIDE_SHOTS, `${window.name}.png`);
      await page.screenshot({ path });
      console.log(path, page.complaints.length ? `complaints: ${page.complaints.join("; ")}` : "");
    });
  }
} finally {
  await quit();
}
