// @ts-check
/** The job's details, and how the screen looks: what is set once and printed on every sheet. */
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { html } from "./html.js";
import { edit, file, measured } from "./store.js";
import { LOOKS, THEMES, setTheme, theme } from "./theme.js";

/** Whether the details are open, in the panel's place. */
export const detailing = signal(false);

/** @type {[string, string, string][]} key, label, what kind of field. */
const TEXTS = [
  ["title", "Title", "text"],
  ["client", "Client", "text"],
  ["by", "By", "text"],
  ["date", "Date", "date"],
  ["revision", "Revision", "text"],
];
export function Details() {
  const heading = useRef(/** @type {HTMLElement | null} */ (null));
  useEffect(() => heading.current?.focus(), []);
  const job = measured.value?.job;
  const written = measured.value?.file ?? {};
  const imperial = job?.units === "in" || job?.units === "ft";
  const put = (/** @type {string} */ key, /** @type {unknown} */ value, /** @type {string} */ says) => {
    if (value === (written[key] ?? "")) return;
    void edit(says, [value === "" ? { do: "drop", path: [key] } : { path: [key], value }]);
  };
  const roundings = imperial ? [["1/16in", "1/16 in"], ["1/32in", "1/32 in"]] : [[1, "1 mm"], [0.5, "0.5 mm"]];
  const rounded = imperial ? (Math.abs(job?.rounding - 25.4 / 16) < 1e-6 ? "1/16in" : "1/32in") : job?.rounding;
  return html`<section class="details" aria-labelledby="details-title"
    onKeyDown=${(/** @type {KeyboardEvent} */ event) => event.key === "Escape" && (detailing.value = false)}>
    <h2 id="details-title" tabindex="-1" ref=${heading}>The job</h2>
    <p class="quiet">File ${file.value?.name}.toml</p>
    ${TEXTS.map(([key, label, type]) => html`<label class="field" key=${key}><span>${label}</span>
      <input type=${type} maxlength="200" autocomplete="off" value=${written[key] ?? ""}
        onChange=${(/** @type {Event} */ event) => put(key, /** @type {HTMLInputElement} */ (event.target).value.trim(), `${label.toLowerCase()} changed`)} /></label>`)}
    <${Choice} name="words" legend="Words" chosen=${job?.words} choices=${[["UK", "UK"], ["US", "US"]]} put=${(/** @type {string} */ value) => put("words", value, `${value} words`)} />
    <${Choice} name="paper" legend="Paper" chosen=${job?.paper} choices=${[["A4", "A4"], ["Letter", "Letter"]]} put=${(/** @type {string} */ value) => put("paper", value, `${value} paper`)} />
    <${Choice} name="rounding" legend="Lengths are rounded to" chosen=${rounded} choices=${roundings} put=${(/** @type {unknown} */ value) => put("rounding", value, "rounding changed")} />
    <${Units} units=${job?.units} written=${written} />
    <h2>This screen</h2>
    <${Choice} name="theme" legend="Looks" chosen=${theme.value} choices=${THEMES.map((one) => [one, LOOKS[one]])} put=${setTheme} />
    <button type="button" class="primary wide" onClick=${() => (detailing.value = false)}>Back to the job</button>
  </section>`;
}

/** @param {{name: string, legend: string, chosen: unknown, choices: [any, string][], put: (value: any) => unknown}} props */
function Choice({ name, legend, chosen, choices, put }) {
  return html`<fieldset class="choice"><legend>${legend}</legend>
    ${choices.map(([value, says]) => html`<label key=${says}><input type="radio" name=${name} checked=${chosen === value} onChange=${() => put(value)} /> ${says}</label>`)}
  </fieldset>`;
}

/** @type {[string, string][]} */
const UNITS = [["mm", "mm"], ["in", "feet and inches"]];

/** The unit of bare figures; once there are some, another unit would make other lengths of them. @param {{units: string, written: any}} props */
function Units({ units, written }) {
  const figures = Object.keys(written.survey?.distances ?? {}).length > 0 || (written.goods ?? []).length > 0;
  if (figures) return html`<p class="quiet">Lengths are in ${units === "in" || units === "ft" ? "feet and inches" : "mm"}. The figures in the file are too, so that this stays; a new job can be in the other.</p>`;
  return html`<${Choice} name="units" legend="Lengths" chosen=${units} choices=${UNITS} put=${(/** @type {string} */ value) => edit(`lengths in ${value}`, [{ path: ["units"], value }])} />`;
}
