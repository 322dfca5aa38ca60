// @ts-check
/** Reads cases from stdin and prints what the site copy makes of them; the test beside holds that against Python. */
import { fine, readLength } from "../../src/floorwright/export/site/lengths.js";
import { judge } from "../../src/floorwright/export/site/verdict.js";

let text = "";
for await (const part of process.stdin) text += part;
const answers = JSON.parse(text).map((/** @type {any} */ one) => {
  if ("check" in one) return judge(one.check, one.reads, one.system);
  return "typed" in one ? readLength(one.typed, one.unit) : fine(one.mm, one.system);
});
console.log(JSON.stringify(answers));
