// Starts the page, and hands the browser tests the one function they need besides it.
import init, { lowsideHash } from "./lowside.js";

await init();
window.lowsideHash = lowsideHash;
