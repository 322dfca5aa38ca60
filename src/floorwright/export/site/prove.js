// @ts-check
/** Check readings: type what the tape says, and read what it means. */
import { readLength } from "./lengths.js";
import { button, el, given } from "./parts.js";
import { judge } from "./verdict.js";

/** @typedef {import("./types.js").Job} Job */
/** @typedef {import("./types.js").Check} Check */
/** @typedef {import("./kept.js").Kept} Kept */

const KEYS = {
  metric: ["7", "8", "9", "⌫", "4", "5", "6", "Clear", "1", "2", "3", "Next", "0", "."],
  imperial: ["7", "8", "9", "'", "⌫", "4", "5", "6", "\"", "Clear", "1", "2", "3", "/", "Next", "0", ".", " "],
};
const SPOKEN = /** @type {Record<string, string>} */ ({ "'": "feet", "\"": "inches", "/": "over", " ": "space", ".": "point", "⌫": "Delete", "Next": "Next reading" });
const SHOWN = /** @type {Record<string, string>} */ ({ "'": "ft", "\"": "in", " ": "space" });
const ACTS = new Set(["⌫", "Clear", "Next"]);
const SAYS = { good: "✓ Good", out: "✗ Out", doubtful: "? Doubtful", "cannot tell": "? Can't tell" };
/** A figure this far off, of what it should be, is one that is still being typed. */
const STILL_TYPED = 0.2;

/**
 * @param {Job} job
 * @param {Kept} kept
 * @param {() => void} keep
 * @param {(check: Check) => void} show
 * @param {{says: string, go: () => void} | null} after
 */
export function makeProve(job, kept, keep, show, after) {
  const now = el("div", { class: "now" });
  const list = el("div", { class: "all" });
  const scrolled = el("div", { class: "scrolled" }, now, list);
  const place = () => Math.min(Math.max(kept.at.prove ?? 0, 0), job.checks.length - 1);
  /** @type {HTMLElement[]} */
  const rows = [];
  const verdict = el("div", { class: "verdict", role: "status" });
  const typed = /** @type {HTMLInputElement} */ (
    el("input", { class: "typed", inputmode: "none", autocomplete: "off", "aria-label": "You read", placeholder: "You read", enterkeyhint: "next", maxlength: 20, oninput: () => take(typed.value), onkeydown: (event) => event.key === "Enter" && go(place() + 1) })
  );

  /** @param {Check} check @param {string} text */
  function judged(check, text) {
    const reads = readLength(text, job.unit);
    return reads === null ? null : { ...judge(check, reads, job.system), reads };
  }

  /** @param {string} text */
  function take(text) {
    kept.read[String(place())] = text;
    keep();
    told();
  }

  /** @param {string} key */
  function press(key) {
    if (key === "Next") {
      go(place() + 1);
      return;
    }
    typed.value = key === "⌫" ? typed.value.slice(0, -1) : key === "Clear" ? "" : typed.value + key;
    take(typed.value);
  }

  /** @param {number} n */
  function go(n) {
    kept.at.prove = (n + job.checks.length) % job.checks.length;
    keep();
    draw();
    scrolled.scrollTop = 0;
  }

  function told() {
    const check = job.checks[place()];
    if (!check) return;
    const found = judged(check, typed.value);
    const isFar = found && Math.abs(found.reads - check.expected) > STILL_TYPED * check.expected;
    verdict.className = `verdict ${found && !isFar ? found.says.replace(" ", "-") : ""}`;
    if (!typed.value.trim()) verdict.replaceChildren(el("p", { class: "quiet" }, "Type what the tape says."));
    else if (!found) verdict.replaceChildren(el("p", { class: "quiet" }, "Not a length yet."));
    else if (isFar) verdict.replaceChildren(el("p", { class: "quiet" }, `Far from ${check.reads}. Is it all of the reading?`));
    else verdict.replaceChildren(el("p", { class: "says" }, SAYS[found.says]), el("p", { class: "todo" }, found.todo || found.told), found.todo ? el("p", { class: "quiet" }, found.told) : "");
    mark(place());
    verdict.scrollIntoView({ block: "nearest" });
  }

  /** @param {number} n */
  function mark(n) {
    const [check, row] = [job.checks[n], rows[n]];
    if (!check || !row) return;
    const found = judged(check, kept.read[String(n)] ?? "");
    const says = row.querySelector(".says");
    if (says) says.textContent = found ? SAYS[found.says] : "";
    row.classList.toggle("done", found?.says === "good");
    row.classList.toggle("wrong", found?.says === "out");
    if (n === place()) row.setAttribute("aria-current", "step");
    else row.removeAttribute("aria-current");
  }

  let heading = "";
  job.checks.forEach((check, n) => {
    if (check.heading !== heading) list.append(el("h2", { class: "head" }, check.heading));
    heading = check.heading;
    const row = el("button", { type: "button", class: "row", onclick: () => go(n) }, el("span", { class: "what" }, given(check.ends)), el("span", { class: "should" }, `${check.reads} ± ${check.within}`), el("span", { class: "says" }));
    rows[n] = row;
    list.append(row);
  });
  if (after) list.append(button(after.says, "primary wide", after.go));

  const keys = el(
    "div",
    { class: `keys ${job.system}` },
    ...KEYS[job.system].map((key) => button(SHOWN[key] ?? key, `key${ACTS.has(key) ? " act" : ""}${key === "Next" ? " next" : key === "0" ? " nought" : ""}`, () => press(key), { "aria-label": SPOKEN[key] ?? key })),
  );
  const element = el("div", { class: "prove" }, scrolled, keys);

  function draw() {
    const check = job.checks[place()];
    if (!check) return;
    typed.value = kept.read[String(place())] ?? "";
    now.replaceChildren(
      el("p", { class: "count" }, el("strong", {}, given(check.ends)), ` ${place() + 1} of ${job.checks.length}`),
      el("p", { class: "figure" }, el("span", { class: "words" }, "must read"), el("span", { class: "big" }, check.reads), el("span", { class: "give" }, `± ${check.within}`)),
      typed,
      verdict,
      el("p", { class: "quiet" }, check.why),
    );
    rows.forEach((_, n) => mark(n));
    told();
    show(check);
  }

  return { element, draw };
}
