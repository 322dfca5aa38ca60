// @ts-check
/** Fields of the job: what is typed goes to the server as it is typed, when the person leaves the field or presses Enter. */
import { useEffect, useState } from "preact/hooks";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { edit, style } from "../store.js";
import { has, job } from "../written.js";

/** @typedef {import("../types.js").Path} Path */

const FINEST_INCH = 1 / 64;

/** A length as a person would type it: as fine as it was given. @param {number} mm */
export const typedLength = (mm) =>
  style.value.system === "metric" ? String(Number(mm.toFixed(3))) : lengthText(mm, { ...style.value, step: FINEST_INCH }, { feet: false });

/** What a text means in a job file: a bare number is one. @param {string} text */
export const asTyped = (text) => (Number.isFinite(Number(text)) ? Number(text) : text);

/** The unit of the figures on the screen. */
export const unitShown = () => (style.value.system === "metric" ? "mm" : "in");

/** What a length means in a job file: a bare number is one of the unit on the screen, whatever the file counts in. @param {string} text */
export function asLength(text) {
  const bare = asTyped(text);
  return typeof bare === "number" && job.value?.units !== unitShown() ? `${text}${unitShown()}` : bare;
}

/**
 * @param {object} props
 * @param {string} props.label
 * @param {string} props.text what it is now.
 * @param {(text: string) => unknown} props.enter
 * @param {string} [props.unit]
 * @param {string} [props.hint]
 */
export function Field({ label, text, enter, unit = "", hint = "" }) {
  const [typed, setTyped] = useState(text);
  useEffect(() => setTyped(text), [text]);
  const leave = () => typed.trim() !== text && void enter(typed.trim());
  return html`<label class="field"><span>${label}</span><span class="with-unit">
    <input type="text" autocomplete="off" value=${typed} onInput=${(/** @type {any} */ event) => setTyped(event.target.value)} onBlur=${leave}
      onKeyDown=${(/** @type {KeyboardEvent} */ event) => event.key === "Enter" && leave()} />${unit && html`<span class="unit">${unit}</span>`}</span>
    ${hint && html`<small class="quiet">${hint}</small>`}</label>`;
}

/** Puts a key of the job, or takes it out where nothing is typed. @param {string} label @param {Path} path @param {unknown} value */
export function put(label, path, value) {
  if (value !== "" && value !== null) return edit(label, [{ path, value }]);
  return has(path) ? edit(label, [{ do: "drop", path }]) : null;
}

/** @param {{label: string, path: Path, mm: number | null, hint?: string}} props a length of the job. */
export function LengthField({ label, path, mm, hint = "" }) {
  const text = mm === null ? "" : typedLength(mm);
  return html`<${Field} label=${label} text=${text} unit=${unitShown()} hint=${hint}
    enter=${(/** @type {string} */ typed) => put(`${label} ${typed || "left out"}`, path, typed && asLength(typed))} />`;
}

/** @param {{label: string, path: Path, value: number | string | null, unit?: string, hint?: string}} props a number, or a text, of the job. */
export function ValueField({ label, path, value, unit = "", hint = "" }) {
  return html`<${Field} label=${label} text=${value === null ? "" : String(value)} unit=${unit} hint=${hint}
    enter=${(/** @type {string} */ typed) => put(`${label} ${typed || "left out"}`, path, typed && asTyped(typed))} />`;
}

/** @param {{label: string, choices: string[], value: string, choose: (value: string) => unknown, says?: (value: string) => string, none?: string}} props `says`: what a choice is called, where that is not its value; `none`: what no choice is called. */
export function Choice({ label, choices, value, choose, says = String, none = "not said" }) {
  return html`<label class="field"><span>${label}</span>
    <select value=${value} onChange=${(/** @type {any} */ event) => void choose(event.target.value)}>
      ${choices.map((one) => html`<option key=${one} value=${one} selected=${one === value}>${one ? says(one) : none}</option>`)}
    </select></label>`;
}

/** @param {{label: string, path: Path, value: readonly (number | string)[], mm?: boolean, hint?: string}} props a list, its items set apart by commas; `mm`: of lengths. */
export function ListField({ label, path, value, mm = false, hint = "" }) {
  const text = value.map((one) => (mm && typeof one === "number" ? typedLength(one) : String(one))).join(", ");
  return html`<${Field} label=${label} text=${text} unit=${mm ? unitShown() : ""} hint=${hint}
    enter=${(/** @type {string} */ typed) => put(`${label} ${typed || "left out"}`, path, typed && typed.split(",").map((one) => (mm ? asLength : asTyped)(one.trim())).filter((one) => one !== ""))} />`;
}

/** @param {{label: string, on: boolean, change: (on: boolean) => unknown}} props */
export function Tick({ label, on, change }) {
  return html`<label class="switch"><input type="checkbox" checked=${on} onChange=${() => void change(!on)} /> ${label}</label>`;
}

/** @param {{label: string, names: string[], chosen: readonly string[], change: (chosen: string[]) => unknown}} props some of a few names; the order is that of `names`. */
export function Several({ label, names, chosen, change }) {
  const flip = (/** @type {string} */ name) => change(names.filter((one) => (one === name) !== chosen.includes(one)));
  return html`<fieldset class="several"><legend>${label}</legend><div class="chips">${names.map((name) => html`<button type="button" key=${name}
    aria-pressed=${chosen.includes(name)} onClick=${() => void flip(name)}>${name}</button>`)}</div></fieldset>`;
}

/** @param {{says: string, keys: string[]}} props what has no form here, and the keys of the job file that say it. */
export function InFile({ says, keys }) {
  return html`<p class="quiet">${says} in the job file: ${keys.map((key, n) => html`${n ? ", " : ""}<code>${key}</code>`)}.</p>`;
}
