// @ts-check
/** The tools to hand and how the square line is raised with them; how far out it may be then, and what would be truer. */
import { html } from "../html.js";
import { FOOT_MM, lengthText } from "../lengths.js";
import { edit, findings, fine, known, measured, style, words } from "../store.js";
import { LengthField, ValueField } from "../parts/fields.js";
import { Why } from "../parts/why.js";
import { say } from "../words.js";
import { GridForm } from "./grid.js";

/** @typedef {{key: string, label: string, hint: string, unit?: string}} Tool */

/** @type {Tool[]} */
const TOOLS = [
  { key: "compass", label: "Compass reaches", hint: "0 for none" },
  { key: "tape", label: "Tape is long", hint: "" },
  { key: "mark", label: "A mark is true within", hint: "two times in three" },
  { key: "set", label: "A length is set within", hint: "two times in three" },
  { key: "laser", label: "Laser squares within", hint: "0 for none", unit: "mm per m" },
];
const out = (/** @type {number} */ mm) => lengthText(mm, fine.value, { unit: true });

export function Tools() {
  const control = known.value?.control;
  const verdict = findings.value.find((one) => one.code === "control-square-accuracy");
  const asked = measured.value?.job?.control?.square ?? "";
  const chosen = control?.considered[0];
  if (!control || !chosen) return null;
  return html`
    <dl class="far-out"><dt>The square line may be out, at the far wall, by</dt><dd>${chosen.far_mm === null ? "?" : html`<${Why} value=${out(chosen.far_mm)} says=${driftSum(chosen, control.far_at_mm)} />`}</dd></dl>
    <p class="quiet">One time in three it is more. By ${chosen.method}, ${lengthText(control.far_at_mm, style.value, { unit: true })} from ${say("the centre", words.value)}.</p>
    ${verdict && html`<p class=${verdict.severity === "note" ? "proved" : "found"}>${verdict.severity === "note" ? "Good enough" : "Use a bigger one"}: it is held against ${verdict.expected}.${verdict.remedy ? ` ${sentence(verdict.remedy)}` : ""}</p>`}
    <fieldset class="ways"><legend>How the square line is raised</legend>
      <${Way} name="" asked=${asked} said="whichever is truest" />
      ${[...control.considered].sort(byError).map((/** @type {any} */ way) => html`<${Way} key=${way.method} name=${way.method} asked=${asked} cannot=${way.far_mm === null}
        said=${way.far_mm === null ? way.why_not : `${out(way.far_mm)} out`} />`)}
    </fieldset>
    <h2>Tools to hand</h2>
    <div class="fields">${TOOLS.map((tool) => html`<${Field} key=${tool.key} tool=${tool} />`)}</div>
    <${GridForm} />
  `;
}

const ARCSEC = Math.PI / 648_000;
const METRE_MM = 1000;

/** How far out a line may be, added up: its angle over the distance, and the mark that it is met with. @param {any} way @param {number} away mm */
function driftSum(way, away) {
  const angle = way.sd_angle_arcsec * ARCSEC;
  const metric = style.value.system === "metric";
  const per = metric ? METRE_MM : FOOT_MM;
  const mark = measured.value?.job?.control?.mark ?? 0;
  const hundredths = (/** @type {number} */ mm) => (metric ? `${mm.toFixed(2)} mm` : `${(mm / 25.4).toFixed(3)} in`);
  return `By ${way.method} the line turns by ${hundredths(angle * per)} in each ${metric ? say("metre", words.value) : "foot"}, or less, two times in three. Over ${lengthText(away, style.value, { unit: true })} that is ${hundredths(angle * away)}. The mark that it is met with, good to ${hundredths(mark)}, adds to it as the sides of a right angle do: √(${hundredths(angle * away)}² + ${hundredths(mark)}²) = ${hundredths(way.far_mm)}.`;
}

/** @param {any} a @param {any} b */
const byError = (a, b) => (a.far_mm ?? Infinity) - (b.far_mm ?? Infinity);

/** @param {string} text */
const sentence = (text) => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

/** @param {{name: string, asked: string, said: string, cannot?: boolean}} props */
function Way({ name, asked, said, cannot = false }) {
  const choose = () =>
    edit(name ? `square line by ${name}` : "square line in the truest way", [
      name ? { path: ["control", "square"], value: name } : { do: "drop", path: ["control", "square"] },
    ]);
  return html`<label class="way-to-square"><input type="radio" name="square" checked=${asked === name} disabled=${cannot && asked !== name} onChange=${choose} />
    <span>${name || "The truest"}</span><span class="quiet">${said}</span></label>`;
}

/** @param {{tool: Tool}} props */
function Field({ tool }) {
  const path = ["control", tool.key];
  const value = measured.value?.job?.control?.[tool.key] ?? 0;
  return tool.unit
    ? html`<${ValueField} label=${tool.label} path=${path} value=${value} unit=${tool.unit} hint=${tool.hint} />`
    : html`<${LengthField} label=${tool.label} path=${path} mm=${value} hint=${tool.hint} />`;
}
