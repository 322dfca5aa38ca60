// @ts-check
/** The pattern, picked by its picture, and what may be chosen of it. */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { get } from "../api.js";
import { html } from "../html.js";
import { edit, tell, words } from "../store.js";
import { capital, say } from "../words.js";
import { Choice, LengthField, ListField, ValueField } from "../parts/fields.js";
import { placeOf, table, zone } from "./laid.js";
import { Section } from "../parts/section.js";
import { job, without } from "../written.js";

/** @type {import("@preact/signals").Signal<any>} */
const catalogue = signal(null);
const picking = signal(false);

const STANDS = ["square to wall", "diagonal to wall"];
/** Keys of patterns that are lengths. */
const LENGTHS = new Set(["chip", "stagger", "end_least", "run_most"]);

async function fetchCatalogue() {
  if (catalogue.value) return;
  try {
    catalogue.value = await get("/api/patterns");
  } catch (error) {
    tell(error);
  }
}

/** @param {{name: string}} props */
function Picture({ name }) {
  const found = catalogue.value?.drawings[name];
  if (!found) return html`<span class="no-picture" aria-hidden="true"></span>`;
  return html`<svg class="pattern-picture" viewBox=${`0 0 ${found.size.join(" ")}`} aria-hidden="true">
    ${found.paths.map((/** @type {string} */ d, /** @type {number} */ n) => html`<path key=${n} class=${`kind-${n % 4}`} d=${d} />`)}</svg>`;
}

/** @param {{value: string, pick: (name: string) => unknown}} props every pattern by its picture. */
function Gallery({ value, pick }) {
  useEffect(() => void fetchCatalogue(), []);
  return html`<ul class="gallery" aria-label="Patterns">${(catalogue.value?.patterns ?? []).map((/** @type {any} */ one) => html`<li key=${one.name}>
    <button type="button" aria-pressed=${one.name === value} title=${one.says} onClick=${() => pick(one.name)}><${Picture} name=${one.name} /><span>${say(one.name, words.value)}</span></button></li>`)}</ul>`;
}

/** The pattern of the zone that is shown, with its own keys. */
export function PatternPart() {
  useEffect(() => void fetchCatalogue(), []);
  const own = table.value;
  const n = placeOf(zone.value);
  if (!own || n < 0) return null;
  const entry = catalogue.value?.patterns.find((/** @type {any} */ one) => one.name === own.pattern);
  return html`<${Section} title="Pattern" says=${say(own.pattern, words.value)}>
    <div class="pattern-now"><${Picture} name=${own.pattern} /><div><strong>${say(own.pattern, words.value)}</strong>${entry && html`<p class="quiet">${entry.says}</p>`}</div></div>
    <button type="button" aria-expanded=${picking.value} onClick=${() => (picking.value = !picking.value)}>${picking.value ? "Keep it" : "Another pattern"}</button>
    ${picking.value && html`<${Gallery} value=${own.pattern} pick=${(/** @type {string} */ name) => void change(name)} />`}
    ${entry && html`<div class="fields">
      ${entry.must_say_how_it_stands && html`<${Choice} label="How it stands" choices=${["", ...STANDS]} value=${own.stand ?? ""}
        choose=${(/** @type {string} */ value) => edit(value || "how it stands left open", value ? [{ path: ["zones", n, "stand"], value }] : without([["zones", n, "stand"]]))} />`}
      ${entry.goods.slice(1).map((/** @type {any} */ kind) => html`<${Choice} key=${kind.kind} label=${`Goods of the ${kind.kind}`}
        choices=${[...(own.sizes[kind.kind] ? [] : [""]), ...job.value.goods.map((/** @type {any} */ one) => one.name)]} value=${own.sizes[kind.kind] ?? ""}
        choose=${(/** @type {string} */ value) => value && edit(`${kind.kind}: ${value}`, [{ path: ["zones", n, "sizes", kind.kind], value }])} />`)}
      ${entry.keys.map((/** @type {any} */ key) => html`<${Parameter} key=${key.key} of=${key} n=${n} value=${own[key.key]} />`)}
    </div>
    ${entry.cautions.map((/** @type {string} */ one) => html`<p class="quiet" key=${one}>${one}</p>`)}`}</${Section}>`;
}

/** @param {{of: any, n: number, value: any}} props a key of a pattern. */
function Parameter({ of, n, value }) {
  const path = ["zones", n, of.key];
  const label = capital(of.meaning);
  if (of.choices.length) {
    return html`<${Choice} label=${label} choices=${of.choices} value=${value ?? of.default ?? ""} choose=${(/** @type {string} */ one) => edit(`${of.meaning}: ${one}`, [{ path, value: one }])} />`;
  }
  if (Array.isArray(value)) return html`<${ListField} label=${capital(of.key)} path=${path} value=${value} mm hint=${`${of.meaning}; set apart by commas`} />`;
  if (LENGTHS.has(of.key)) return html`<${LengthField} label=${label} path=${path} mm=${value ?? null} />`;
  return html`<${ValueField} label=${label} path=${path} value=${value ?? of.default ?? null} />`;
}

/** Lays another pattern: what was chosen of the one before goes with it. @param {string} name */
async function change(name) {
  const n = placeOf(zone.value);
  const keys = catalogue.value.patterns.find((/** @type {any} */ one) => one.name === name)?.keys ?? [];
  const kept = new Set(keys.map((/** @type {any} */ one) => one.key));
  const others = new Set(catalogue.value.patterns.flatMap((/** @type {any} */ one) => one.keys.map((/** @type {any} */ key) => key.key)));
  const gone = [...others].filter((key) => !kept.has(key));
  const dropped = without([...gone, "sizes", "stand", "option", "at"].map((key) => ["zones", n, key]));
  picking.value = false;
  await edit(`pattern: ${name}`, [{ path: ["zones", n, "pattern"], value: name }, ...dropped, ...without([["aims", "option"]])]);
}
