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

// A file dropped anywhere is opened as if it had been chosen in the settings, which say what is wrong with it.
const carriesFile = (event) => event.dataTransfer?.types.includes("Files");
const over = (on) => (part("drop").hidden = !on);
addEventListener("dragover", (event) => {
  if (!carriesFile(event)) return;
  event.preventDefault();
  over(true);
});
addEventListener("dragleave", (event) => event.relatedTarget || over(false));
addEventListener("drop", (event) => {
  over(false);
  if (!carriesFile(event)) return;
  event.preventDefault();
  const field = part("open-take");
  if (!field) return;
  field.files = event.dataTransfer.files;
  field.dispatchEvent(new Event("change", { bubbles: true }));
});

// The program is fetched here, so that the bar can tell how much of it has come.
async function program() {
  const response = await fetch(new URL("./lowside_bg.wasm", import.meta.url));
  const [bar, share] = [part("opening-bar"), part("opening-share")];
  if (!response.ok || !response.body || !bar) return response;
  let come = 0;
  const count = new TransformStream({
    transform(piece, on) {
      come += piece.length;
      bar.value = come;
      share.textContent = `${Math.round((100 * come) / bar.max)} %`;
      on.enqueue(piece);
    },
  });
  return new Response(response.body.pipeThrough(count), { headers: { "Content-Type": "application/wasm" } });
}

try {
  await init({ module_or_path: program() });
  window.lowsideHash = lowsideHash;
  window.lowsideFail = lowsideFail;
} catch (error) {
  part("fail-what").textContent = String(error);
  part("fail").hidden = false;
  throw error;
}

// A page that comes back from the browser's memory may no longer have its bay to itself: it begins anew, with what it left.
addEventListener("pageshow", (event) => event.persisted && location.reload());

// Without a network: the worker keeps the page. It is asked for once the page runs, so that it takes nothing from the start.
const tell = (what) => dispatchEvent(new CustomEvent(`lowside-${what}`));
async function keep() {
  const worker = await navigator.serviceWorker.register("sw.js");
  const offer = () => worker.waiting && navigator.serviceWorker.controller && tell("update");
  const watch = (next) => next?.addEventListener("statechange", () => (next.state === "installed" ? offer() : undefined));
  worker.addEventListener("updatefound", () => watch(worker.installing));
  watch(worker.installing);
  offer();
  // The page calls this when the person agrees, after it has saved the bay.
  window.lowsideUpdate = () => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    worker.waiting?.postMessage("take over");
  };
  await navigator.serviceWorker.ready;
  tell("offline");
}
if ("serviceWorker" in navigator) {
  // Refused where the browser keeps nothing for this page; the page runs all the same.
  setTimeout(() => keep().catch(() => undefined), 1500);
}
