// A server of the built page for tests that need one of their own: to end it, to make its worker look newer, to serve several copies.
import assert from "node:assert/strict";
import { readFileSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { join } from "node:path";
import { packages } from "./page.mjs";

const SITE = join(packages, "..", "site");
const TYPES = { html: "text/html", js: "text/javascript", css: "text/css", wasm: "application/wasm", png: "image/png", svg: "image/svg+xml", webmanifest: "application/manifest+json" };

/**
 * Serves the page in each of the folders `at`, and in `foreign` (paths and texts) what belongs to somebody else.
 * `state` counts what was asked for, and makes the worker look newer if so wished.
 */
export async function serve({ at = ["/"], foreign = {} } = {}) {
  const state = { newer: false, asked: 0 };
  const server = createServer((request, response) => {
    state.asked += 1;
    const path = decodeURIComponent(new URL(request.url, "http://x").pathname);
    if (path in foreign) {
      response.writeHead(200, { "Content-Type": "text/html", "Cache-Control": "no-store" }).end(foreign[path]);
      return;
    }
    const folder = at.toSorted((a, b) => b.length - a.length).find((folder) => path.startsWith(folder));
    try {
      assert.ok(folder && !path.includes(".."));
      const name = path.slice(folder.length) || "index.html";
      const file = join(SITE, name);
      assert.ok(statSync(file).isFile());
      let bytes = readFileSync(file);
      if (name === "sw.js" && state.newer) bytes = Buffer.from(bytes.toString().replace(/VERSION = "/, 'VERSION = "newer-'));
      response.writeHead(200, { "Content-Type": TYPES[name.split(".").pop()] ?? "application/octet-stream", "Cache-Control": "no-store" });
      response.end(bytes);
    } catch {
      response.writeHead(404).end("not here");
    }
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  // Not waiting for ever: a worker may open a connection while the others are being closed.
  const kill = () => new Promise((done) => (server.close(done), server.closeAllConnections(), setTimeout(done, 2000)));
  return { state, kill, url: `http://127.0.0.1:${server.address().port}/` };
}

/** Waits until the page's worker has taken its files. */
export const kept = (page) => page.evaluate(() => navigator.serviceWorker.ready.then((r) => r.active.state));
