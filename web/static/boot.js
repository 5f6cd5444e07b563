// The shell: its doors fetch the program and start it, and so does a link that asks for a bay. Works the failure message's buttons too, and
// hands the browser tests the functions they need besides the page.
const part = (id) => document.getElementById(id);

/** Loads the page anew and goes on with the bay, without asking at the door. */
const GOES_ON = "lowside goes on";
const again = () => {
  try {
    sessionStorage.setItem(GOES_ON, "");
  } catch {
    // Storage may be denied: the shell asks.
  }
  location.reload();
};
part("fail-reload").addEventListener("click", again);
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

// A file dropped anywhere is opened as if it had been chosen in the settings; the program says what is wrong with it.
const carriesFile = (event) => event.dataTransfer?.types.includes("Files");
const over = (on) => (part("drop").hidden = !on);
addEventListener("dragover", (event) => {
  if (!carriesFile(event)) return;
  event.preventDefault();
  over(true);
});
addEventListener("dragleave", (event) => event.relatedTarget || over(false));
addEventListener("drop", async (event) => {
  over(false);
  if (!carriesFile(event)) return;
  event.preventDefault();
  const [detail] = event.dataTransfer.files;
  await enter(kept ? "go-on" : "explore");
  dispatchEvent(new CustomEvent("lowside-file", { detail }));
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

// A page that comes back from the browser's memory may no longer have its bay to itself: it begins anew, with what it left.
addEventListener("pageshow", (event) => event.persisted && again());

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
    navigator.serviceWorker.addEventListener("controllerchange", again, { once: true });
    worker.waiting?.postMessage("take over");
  };
  await navigator.serviceWorker.ready;
  tell("offline");
}

// What was pressed stands on the root, where the program finds it.
let entered;
async function begin(what) {
  document.documentElement.dataset.enter = what;
  part("shell").classList.add("opens");
  try {
    const wasm = program();
    const [{ default: init, lowsideFail, lowsideHash }] = await Promise.all([import("./lowside.js"), import("./sound.js")]);
    await init({ module_or_path: wasm });
    Object.assign(window, { lowsideHash, lowsideFail });
    const href = new URL("./later.css", import.meta.url).href;
    document.head.append(Object.assign(document.createElement("link"), { rel: "stylesheet", href }));
    // Without a network: the worker keeps the page. It is asked for once the page runs, so that it takes nothing from the start.
    // Refused where the browser keeps nothing for this page; the page runs all the same.
    if ("serviceWorker" in navigator) setTimeout(() => keep().catch(() => undefined), 1500);
  } catch (error) {
    part("fail-what").textContent = String(error);
    part("fail").hidden = false;
    throw error;
  }
}
const enter = (what) => (entered ??= begin(what));

// A visitor who comes back is offered the bay that was left. The keys are those of the program's store.
const folder = location.pathname.replace(/[^/]*$/, "");
const [kept, goesOn] = (() => {
  try {
    const goesOn = sessionStorage.getItem(GOES_ON) !== null;
    sessionStorage.removeItem(GOES_ON);
    const kept = ["last", "take"].some((name) => (localStorage.getItem(`lowside${folder}${name}`) ?? localStorage.getItem(`lowside.${name}`)) !== null);
    return [kept, goesOn];
  } catch {
    return [false, false]; // Storage may be denied.
  }
})();
part("back").hidden = !kept;
for (const button of document.querySelectorAll("[data-enter]")) button.addEventListener("click", () => enter(button.dataset.enter));
const asks = () => /[#&][cs]=/.test(location.hash);
addEventListener("hashchange", () => asks() && enter("link"));
if (asks()) enter("link");
else if (goesOn || (kept && location.search.includes("layout="))) enter("go-on");
