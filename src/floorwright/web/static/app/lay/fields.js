// @ts-check
/** Fields of the job: what is typed goes to the server as it is typed, when the person leaves the field or presses Enter. */
import { useEffect, useState } from "preact/hooks";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { edit, style } from "../store.js";
import { has } from "./laid.js";

/** @typedef {import("../types.js").Path} Path */

const FINEST_INCH = 1 / 64;

/** A length as a person would type it: as fine as it was given. @param {number} mm */
export const typedLength = (mm) =>
  style.value.system === "metric" ? String(Number(mm.toFixed(3))) : lengthText(mm, { ...style.value, step: FINEST_INCH }, { feet: false });

/** What a text means in a job file: a bare number is one. @param {string} text */
export const asTyped = (text) => (Number.isFinite(Number(text)) ? Number(text) : text);

/**
 * @param {object} props
 * @param {string} props.label
 * @param {string} props.text what it is now.
 * @param {(text: string) => unknown} props.enter
 * @param {string} [props.unit]
 */
export function Field({ label, text, enter, unit = "" }) {
  const [typed, setTyped] = useState(text);
  useEffect(() => setTyped(text), [text]);
  const leave = () => typed.trim() !== text && void enter(typed.trim());
  return html`<label class="field"><span>${label}</span><span class="with-unit">
    <input type="text" autocomplete="off" value=${typed} onInput=${(/** @type {any} */ event) => setTyped(event.target.value)} onBlur=${leave}
      onKeyDown=${(/** @type {KeyboardEvent} */ event) => event.key === "Enter" && leave()} />${unit && html`<span class="unit">${unit}</span>`}</span></label>`;
}

/** Puts a key of the job, or takes it out where nothing is typed. @param {string} label @param {Path} path @param {unknown} value */
export function put(label, path, value) {
  if (value !== "" && value !== null) return edit(label, [{ path, value }]);
  return has(path) ? edit(label, [{ do: "drop", path }]) : null;
}

/** @param {{label: string, path: Path, mm: number | null}} props a length of the job. */
export function LengthField({ label, path, mm }) {
  const text = mm === null ? "" : typedLength(mm);
  return html`<${Field} label=${label} text=${text} unit=${style.value.system === "metric" ? "mm" : "in"}
    enter=${(/** @type {string} */ typed) => put(`${label} ${typed || "left out"}`, path, typed && asTyped(typed))} />`;
}

/** @param {{label: string, path: Path, value: number | string | null}} props a number, or a text, of the job. */
export function ValueField({ label, path, value }) {
  return html`<${Field} label=${label} text=${value === null ? "" : String(value)}
    enter=${(/** @type {string} */ typed) => put(`${label} ${typed || "left out"}`, path, typed && asTyped(typed))} />`;
}

/** @param {{label: string, choices: string[], value: string, choose: (value: string) => unknown}} props */
export function Choice({ label, choices, value, choose }) {
  return html`<label class="field"><span>${label}</span>
    <select value=${value} onChange=${(/** @type {any} */ event) => void choose(event.target.value)}>
      ${choices.map((one) => html`<option key=${one} value=${one} selected=${one === value}>${one || "not said"}</option>`)}
    </select></label>`;
}
