// Starts the page, works the failure message's buttons, and hands the browser tests the functions they need besides it.
import "./sound.js";
import init, { lowsideFail, lowsideHash } from "./lowside.js";

const part = (id) => document.getElementById(id);
part("fail-reload").addEventListener("click", () => location.reload());
part("fail-copy").addEventListener("click", async () => {
  const take = part("fail-take");
  try {
    await navigator.clipboard.writeText(take.value);
    part("fail-copied").hidden = false;
  } catch {
    take.focus();
    take.select();
    part("fail-selected").hidden = false;
  }
});

try {
  await init();
  window.lowsideHash = lowsideHash;
  window.lowsideFail = lowsideFail;
} catch (error) {
  part("fail-what").textContent = String(error);
  part("fail").hidden = false;
  throw error;
}
