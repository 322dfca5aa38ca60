// @ts-check
/** The keypad: big enough for a thumb in a glove, mm or feet, inches and fractions, and the keyboard does the same. */
import { useState } from "preact/hooks";
import { html } from "../html.js";

/** @typedef {import("../lengths.js").Style} Style */

const FIGURES = ["7", "8", "9", "4", "5", "6", "1", "2", "3"];
const METRIC_MORE = [".", "0"];
const IMPERIAL_MORE = ["0"];

/** @param {Style} style @returns {string[]} the fractions of an inch that the job rounds to, reduced. */
export function fractionKeys(style) {
  return style.step < 1 / 16 ? ["1/32", "1/16", "1/8", "1/4", "1/2"] : ["1/16", "1/8", "1/4", "1/2"];
}

/**
 * Adds a fraction to what is typed: a half and an eighth are five eighths.
 *
 * @param {string} typed
 * @param {string} fraction
 */
export function withFraction(typed, fraction) {
  const found = /^(.*?)(?:(\d+)\/(\d+))?$/.exec(typed);
  const before = (found?.[1] ?? "").replace(/\s+$/, "");
  const [top, bottom] = fraction.split("/").map(Number);
  const [oldTop, oldBottom] = found?.[2] ? [Number(found[2]), Number(found[3])] : [0, 1];
  const [sum, whole] = [oldTop * (bottom ?? 1) + (top ?? 0) * oldBottom, oldBottom * (bottom ?? 1)];
  if (sum >= whole) return typed;
  let [a, b] = [sum, whole];
  while (b) [a, b] = [b, a % b];
  const apart = before && !/['\s]$/.test(before) ? " " : before ? " " : "";
  return `${before}${apart}${sum / a}/${whole / a}`;
}

/**
 * @param {object} props
 * @param {string} props.label what the length is of.
 * @param {Style} props.style
 * @param {string} [props.start]
 * @param {string} [props.button]
 * @param {(typed: string) => unknown} props.enter
 */
export function Keypad({ label, style, start = "", button = "Book it", enter }) {
  const [typed, setTyped] = useState(start);
  const imperial = style.system === "imperial";
  const press = (/** @type {string} */ key) => setTyped((typed) => typed + key);
  const send = async () => {
    if (!typed.trim()) return;
    await enter(typed.trim());
    setTyped("");
  };
  return html`<form class="keypad" onSubmit=${(/** @type {Event} */ event) => (event.preventDefault(), void send())}>
    <label class="reads">
      <span>${label}</span>
      <input type="text" inputmode="none" autocomplete="off" value=${typed}
        onInput=${(/** @type {InputEvent} */ event) => setTyped(/** @type {HTMLInputElement} */ (event.target).value)} />
      <span class="unit">${imperial ? "ft in" : "mm"}</span>
    </label>
    <div class="keys">
      ${FIGURES.map((key) => html`<${Key} key=${key} text=${key} press=${press} />`)}
      ${(imperial ? IMPERIAL_MORE : METRIC_MORE).map((key) => html`<${Key} key=${key} text=${key} press=${press} />`)}
      ${imperial && html`<${Key} text="'" say="feet" press=${() => press("' ")} /><${Key} text='"' say="inches" press=${() => press('"')} />`}
      ${imperial && fractionKeys(style).map((one) => html`<${Key} key=${one} text=${one} press=${() => setTyped((typed) => withFraction(typed, one))} />`)}
      <button type="button" class="key" aria-label="take the last figure back" onClick=${() => setTyped((typed) => typed.trimEnd().slice(0, -1))}>⌫</button>
    </div>
    <button type="submit" class="primary wide" disabled=${!typed.trim()}>${button}</button>
  </form>`;
}

/** @param {{text: string, say?: string, press: (text: string) => void}} props */
function Key({ text, say, press }) {
  return html`<button type="button" class="key" aria-label=${say ?? null} onClick=${() => press(text)}>${text}</button>`;
}
