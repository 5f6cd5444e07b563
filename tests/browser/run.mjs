// Runs the test files named, two at a time; those that measure frames or answers come last, one at a time, with the machine to themselves.
import { statSync } from "node:fs";
import { basename } from "node:path";
import { run } from "node:test";
import { spec } from "node:test/reporters";

const MEASURING = /^(answer|frames|load)\.test\.mjs$/;
const measures = (file) => MEASURING.test(basename(file));

const files = process.argv.slice(2);
const took = [];

async function play(files, concurrency) {
  if (files.length === 0) return;
  // An hour a file, in case it hangs outside its tests, which have limits of their own.
  const events = run({ files, concurrency, timeout: 3_600_000 });
  events.on("test:fail", () => (process.exitCode = 1));
  for (const end of ["test:pass", "test:fail"]) events.on(end, ({ name, details }) => took.push([details.duration_ms / 1000, name]));
  for await (const text of events.compose(new spec())) process.stdout.write(text);
}

// The larger first, so that none is left to run alone at the end.
const size = (file) => statSync(file).size;
await play(files.filter((file) => !measures(file)).sort((a, b) => size(b) - size(a)), 2);
await play(files.filter(measures), 1);
console.log("\nThe slowest:");
for (const [seconds, name] of took.sort(([a], [b]) => b - a).slice(0, 10)) console.log(`${seconds.toFixed(1).padStart(7)} s  ${name}`);
