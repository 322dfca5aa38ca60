// @ts-check
/** The keypad: big enough for a thumb in a glove, mm or feet, inches and fractions, and the keyboard does the same. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { html } from "../html.js";
import { isTypedIn } from "../typing.js";
import { fractionKeys, takenBack, withFraction, withKey } from "./typed.js";

/** @typedef {import("../lengths.js").Style} Style */

const BACK = "⌫";

/**
 * @param {object} props
 * @param {string} props.label what the length is of.
 * @param {Style} props.style
 * @param {string} [props.start]
 * @param {string} [props.button]
 * @param {string} [props.unit] of what is no length.
 * @param {boolean} [props.focus] whether the keyboard goes to it as it comes.
 * @param {(typed: string) => unknown} props.enter
 */
export function Keypad({ label, style, start = "", button = "Book it", unit, focus = false, enter }) {
  const [typed, setTyped] = useState(start);
  const imperial = style.system === "imperial" && !unit;
  const send = async () => {
    if (!typed.trim()) return;
    await enter(typed.trim());
    setTyped("");
  };
  const field = useRef(/** @type {HTMLInputElement | null} */ (null));
  // Before anything is painted: who types as soon as the keypad is asked for loses no figure.
  useLayoutEffect(() => {
    if (focus) field.current?.focus();
  }, []);
  const now = useRef({ send, imperial });
  now.current = { send, imperial };

  // Figures go to the keypad wherever the keyboard is, as long as nothing else is being typed in.
  useLayoutEffect(() => {
    const heard = (/** @type {KeyboardEvent} */ event) => {
      const target = /** @type {HTMLElement | null} */ (event.target);
      if (event.ctrlKey || event.metaKey || event.altKey || isTypedIn(target)) return;
      const pressing = Boolean(target?.closest("button, a, summary, input, [role=button]"));
      if (event.key === "Enter" && !pressing) {
        event.preventDefault();
        void now.current.send();
      } else if (!(pressing && event.key === " ") && withKey("", event.key, now.current.imperial) !== null) {
        event.preventDefault();
        event.stopImmediatePropagation();
        setTyped((typed) => withKey(typed, event.key, now.current.imperial) ?? typed);
      }
    };
    addEventListener("keydown", heard, true);
    return () => removeEventListener("keydown", heard, true);
  }, []);

  const key = (/** @type {string} */ text, /** @type {string} */ place, say = "", put = (/** @type {string} */ typed) => typed + text) =>
    html`<button type="button" key=${text} class=${`key ${place}`} aria-label=${say || null} onClick=${() => setTyped(put)}>${text}</button>`;
  const figures = [7, 8, 9, 4, 5, 6, 1, 2, 3].map((one, n) => key(String(one), `row-${Math.floor(n / 3) + 1} col-${(n % 3) + 1}`));
  return html`<form class="keypad" onSubmit=${(/** @type {Event} */ event) => (event.preventDefault(), void send())}>
    <label class="reads">
      <span>${label}</span>
      <input type="text" ref=${field} inputmode="none" autocomplete="off" spellcheck=${false} value=${typed}
        onInput=${(/** @type {InputEvent} */ event) => setTyped(/** @type {HTMLInputElement} */ (event.target).value)} />
      <span class="unit">${unit ?? (imperial ? "ft in" : "mm")}</span>
    </label>
    <div class=${`keys ${imperial ? "imperial" : "metric"}`}>
      ${figures}
      ${imperial ? key("'", "row-1 col-4", "feet", (typed) => `${typed}' `) : key(".", "row-4 col-1")}
      ${imperial && key('"', "row-2 col-4", "inches")}
      ${key("0", imperial ? "row-4 nought" : "row-4 col-2")}
      ${imperial && fractionKeys(style).map((one, n) => key(one, n < 4 ? `row-${n + 1} col-5` : "row-4 col-4", "", (typed) => withFraction(typed, one)))}
      ${key(BACK, imperial ? "row-3 col-4" : "row-4 col-3", "take the last figure back", takenBack)}
    </div>
    <button type="submit" class="primary wide" disabled=${!typed.trim()}>${button}</button>
  </form>`;
}
