// @ts-check
/** What needs an answer: the worst first, each with how to mend it and where it lies. */
import { html } from "../html.js";
import { lit } from "../lit.js";
import { namesIn, stageOf, worstFirst } from "../places.js";
import { known, measured, stage } from "../store.js";
import { capital } from "../words.js";

/** @typedef {import("../types.js").Finding} Finding */

const SAID = { error: "Must be mended", warning: "Look at this", note: "Decided" };

/** Everything on the plan that a finding can name. @returns {string[]} */
function names() {
  const survey = measured.value?.job?.survey;
  const plan = known.value?.plan ?? measured.value?.plan;
  const walls = (plan?.walls ?? []).map((/** @type {{name: string}} */ wall) => wall.name);
  return [...Object.keys(survey?.distances ?? {}), ...walls, ...Object.keys(measured.value?.survey?.points ?? {}), ...(survey?.outline ?? [])];
}

/** @param {Finding} one @param {string[]} places */
function show(one, places) {
  lit.value = new Set(places);
  stage.value = stageOf(one);
  document.querySelector("svg.plan")?.scrollIntoView({ block: "nearest" });
}

/** @param {{findings: Finding[], only?: (finding: Finding) => boolean}} props */
export function Findings({ findings, only = () => true }) {
  const shown = worstFirst(findings.filter(only));
  if (!shown.length) return null;
  const all = names();
  const asks = shown.filter((one) => one.severity !== "note");
  const notes = shown.filter((one) => one.severity === "note");
  const list = (/** @type {Finding[]} */ some) => html`<ul class="findings">${some.map((one, n) => html`<${One} key=${`${one.code} ${one.place} ${n}`} one=${one} places=${namesIn(one.place, all)} />`)}</ul>`;
  return html`<section class="answers" id="answers" tabindex="-1" aria-label="Findings">
    ${asks.length > 0 && html`<h2>To answer</h2>${list(asks)}`}
    ${notes.length > 0 && html`<details class="opens notes"><summary>${notes.length} decided and assumed</summary>${list(notes)}</details>`}
  </section>`;
}

/** @param {{one: Finding, places: string[]}} props */
function One({ one, places }) {
  return html`<li class=${one.severity}>
    <p class="what"><strong>${SAID[one.severity]}.</strong> ${one.place}: ${one.found}</p>
    ${one.remedy && html`<p class="mend">${capital(one.remedy)}</p>`}
    ${places.length > 0 && html`<button type="button" onClick=${() => show(one, places)} aria-label=${`show ${one.place} on the plan`}>Show it</button>`}
  </li>`;
}
