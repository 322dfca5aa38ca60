// @ts-check
/** Reads cases from stdin and prints what the client makes of them; the test beside holds that against `units.py`. */
import { lengthText } from "../../../src/floorwright/web/static/app/lengths.js";

let text = "";
for await (const part of process.stdin) text += part;
const cases = JSON.parse(text);
console.log(JSON.stringify(cases.map(({ mm, style, how }) => lengthText(mm, style, how))));
