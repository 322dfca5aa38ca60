// @ts-check
/** Check readings: what the tape says between two marks, and what that says of the lines. */
import { signal } from "@preact/signals";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { Keypad } from "../parts/keypad.js";
import { edit, fine, known, measured, plan, style } from "../store.js";
import { cornersOf } from "./targets.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {{between: string[], ends: [string, string], expected_mm: number, allow_mm: number, why: string,
 *   legs: {x_mm: number, y_mm: number}[]}} Check */
/** @typedef {{between: [string, string], reads_mm: number, expected_mm: number, out_mm: number, sd_out_mm: number, may_mm: number,
 *   turn_arcsec: number | null, probability_within: number, says: string, do: string}} Verdict */

const picked = signal("");
const INCH = 25.4;
/** What rounding in the last bit leaves, of a graduation. */
const LAST_BIT = 1e-6;

/** What a reading may be out by, up to the next graduation: never less than it is. @param {number} mm */
function allowed(mm) {
  const step = style.value.system === "metric" ? style.value.step : style.value.step * INCH;
  return lengthText(Math.ceil(mm / step - LAST_BIT) * step, style.value);
}

/** @param {readonly string[]} ends */
const keyOf = (ends) => [...ends].sort().join(" to ");
const spoken = (/** @type {readonly string[]} */ ends) => ends.join(" to ");

const checks = () => /** @type {Check[]} */ (known.value?.control?.checks ?? []);
const booked = () => /** @type {{between: [string, string], reads: number}[]} */ (measured.value?.job?.control?.readings ?? []);
const verdictOf = (/** @type {Check} */ check) =>
  /** @type {Verdict[]} */ (known.value?.control?.readings ?? []).find((one) => isOf(check, one.between));
const isOf = (/** @type {Check} */ check, /** @type {readonly string[]} */ ends) => keyOf(check.ends) === keyOf(ends);

/** The check that is asked for now: the one picked, else the first that has no reading. */
function current() {
  const all = checks();
  return all.find((one) => keyOf(one.ends) === picked.value) ?? all.find((one) => !verdictOf(one));
}

/** @param {Check} check @param {string} typed */
async function book(check, typed) {
  const number = Number(typed);
  const units = measured.value?.job?.units;
  const bare = units === "mm" && Number.isFinite(number);
  const value = bare ? number : style.value.system === "metric" && Number.isFinite(number) ? `${typed} mm` : typed;
  const there = booked().findIndex((one) => isOf(check, one.between));
  await edit(`${spoken(check.ends)} reads ${typed}`, [
    there < 0
      ? { do: "add", path: ["control", "readings"], value: { between: check.ends, reads: value } }
      : { path: ["control", "readings", there, "reads"], value },
  ]);
  picked.value = keyOf(check.ends);
}

export function Checks() {
  const all = checks();
  const now = current();
  const verdict = now && verdictOf(now);
  if (!all.length) return html`<p class="empty">No reading of this cross is within the tape.</p>`;
  return html`
    ${now
      ? html`<h2>${verdict ? "" : "Next: "}<span class="reading">${spoken(now.ends)}</span></h2>
          <p class="quiet">Should read <strong>${lengthText(now.expected_mm, style.value, { unit: true })}</strong>, give or take ${allowed(now.allow_mm)}.</p>
          ${verdict && html`<${Said} verdict=${verdict} />`}
          <${Keypad} key=${keyOf(now.ends)} label="The tape says" style=${style.value} button=${verdict ? "Book it anew" : "Book it"} enter=${(/** @type {string} */ typed) => book(now, typed)} />
          <p class="quiet">${now.why}</p>
          ${verdict && html`<button type="button" class="wide" onClick=${() => (picked.value = "")}>Next reading</button>`}`
      : html`<p class="proved">Every reading is in.</p>`}
    <table class="figures"><caption>Readings that prove the lines</caption>
      <thead><tr><th scope="col">Between</th><th scope="col">Should read</th><th scope="col">Says</th><td></td></tr></thead>
      <tbody>${all.map((check) => {
        const one = verdictOf(check);
        return html`<tr key=${keyOf(check.ends)} class=${one && one.says !== "good" ? "doubt" : ""}><th scope="row">${spoken(check.ends)}</th>
          <td class="number">${lengthText(check.expected_mm, style.value)} <small>± ${allowed(check.allow_mm)}</small></td>
          <td class="number">${one ? html`${lengthText(one.reads_mm, style.value)} <small>${WORDS[one.says] ?? one.says}</small>` : ""}</td>
          <td><button type="button" aria-label=${`${one ? "change" : "book"} the reading ${spoken(check.ends)}`} onClick=${() => (picked.value = keyOf(check.ends))}>${one ? "Change" : "Book"}</button></td></tr>`;
      })}</tbody></table>`;
}

const WORDS = /** @type {Record<string, string>} */ ({ good: "good", out: "out", doubtful: "doubtful", "cannot tell": "can't tell" });
const HEADS = /** @type {Record<string, string>} */ ({
  good: "Good",
  out: "Out",
  doubtful: "Doubtful",
  "cannot tell": "Can't tell from this reading",
});

/** @param {{verdict: Verdict}} props */
function Said({ verdict }) {
  const mm = (/** @type {number} */ one) => lengthText(Math.abs(one), fine.value, { unit: true });
  const across = verdict.turn_arcsec !== null;
  return html`<div class=${`verdict ${verdict.says === "good" ? "agrees" : verdict.says === "out" ? "broken" : "doubtful"}`} role="status">
    <p><strong>${HEADS[verdict.says] ?? verdict.says}.</strong> ${across
      ? `The square line is ${mm(verdict.out_mm)} out at its far mark, give or take ${mm(verdict.sd_out_mm)}; it may be ${mm(verdict.may_mm)}. It is within that with ${Math.round(100 * verdict.probability_within)} % probability.`
      : `It reads ${mm(verdict.out_mm)} ${verdict.out_mm < 0 ? "short" : "long"}; it may be ${mm(verdict.may_mm)} either way.`}</p>
    ${verdict.do && html`<p>${verdict.do.charAt(0).toUpperCase()}${verdict.do.slice(1)}.</p>`}</div>`;
}

/** The ends of the check that is asked for now, where the plan has them. @returns {Point[]} */
export function checkEnds() {
  const check = current();
  if (!check) return [];
  if (check.legs.length) return check.legs.map((leg) => [leg.x_mm, leg.y_mm]);
  const at = plan.value ? cornersOf(plan.value) : new Map();
  const control = known.value?.control;
  if (control) at.set("centre", [control.centre.x_mm, control.centre.y_mm]);
  for (const line of control?.lines ?? []) for (const mark of line.marks) at.set(mark.name, [mark.x_mm, mark.y_mm]);
  return check.ends.flatMap((end) => (at.has(end) ? [at.get(end)] : []));
}
