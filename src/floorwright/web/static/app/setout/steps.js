// @ts-check
/** The steps one at a time, as on the sheet; what each makes is lit on the plan. */
import { computed, signal } from "@preact/signals";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { file, fine, known, plan, style } from "../store.js";
import { cornersOf } from "./targets.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {{from: string, to: string}} Ends */
/** @typedef {{centre_mm: Point, radius_mm: number, near_mm: Point}} Arc */
/** @typedef {{heading: string, text: string, figure: string, points: Record<string, {x_mm: number, y_mm: number}>,
 *   taped: Ends[], struck: Ends[], arcs: Arc[]}} Step */

/** How many are done, for the job on the desk. */
const done = signal({ job: "", count: 0 });

const steps = computed(() => /** @type {Step[]} */ (known.value?.control?.steps ?? []));
const stepAt = computed(() => (done.value.job === file.value?.name ? Math.min(done.value.count, steps.value.length) : 0));

/** Whether lines are sawn into the slab and nothing is laid. */
const cuts = computed(() => Boolean(known.value?.job?.scoring) && known.value?.job?.zones.length === 0);

/** @param {number} count */
function go(count) {
  done.value = { job: file.value?.name ?? "", count: Math.max(0, Math.min(count, steps.value.length)) };
}

/** @param {{prove: () => void}} props `prove`: goes to the check readings. */
export function Steps({ prove }) {
  const all = steps.value;
  const at = stepAt.value;
  const step = all[at];
  return html`
    ${step
      ? html`<p class="quiet">Step ${at + 1} of ${all.length}. ${step.heading}</p><p class="step-text" role="status">${step.text}</p>`
      : html`<p class="step-text" role="status">All lines are down.</p><p class="quiet">Before you ${cuts.value ? "cut" : "mix"}, prove the cross.</p>`}
    <div class="onward">
      <button type="button" disabled=${at === 0} onClick=${() => go(at - 1)}>Back</button>
      ${step ? html`<button type="button" class="primary next-step" onClick=${() => go(at + 1)}>Done: next</button>` : html`<button type="button" class="primary next-step" onClick=${prove}>Prove the cross</button>`}
    </div>
    ${!step && html`<button type="button" onClick=${() => go(0)}>From the first step again</button>`}
    <${Running} /><${Ties} /><${Grid} />`;
}

/** The lines to snap, each a running figure from one nail. */
function Running() {
  const { snap = [], zero = "" } = known.value?.control ?? {};
  if (!snap.length) return null;
  const mark = (/** @type {any} */ one) => (one ? `${one.on} ${lengthText(one.distance_mm, style.value)} from ${one.from}` : "");
  return html`<details class="opens"><summary>Every line, running from ${zero}</summary>
    <table class="figures"><thead><tr><th scope="col">Line</th><th scope="col">Running</th><th scope="col">From, to</th></tr></thead>
      <tbody>${snap.map((/** @type {any} */ line) => html`<tr key=${line.name}><th scope="row">${line.name}</th><td class="number">${lengthText(line.running_mm, style.value)}</td>
        <td class="number">${line.marks.map(mark).map((/** @type {string} */ text, /** @type {number} */ n) => html`<span class="at-mark" key=${n}>${text}</span>`)}</td></tr>`)}</tbody></table></details>`;
}

/** Nodes tied to two corners. */
function Ties() {
  const ties = known.value?.control?.ties ?? [];
  if (!ties.length) return null;
  return html`<details class="opens"><summary>Ties to the corners</summary>
    <table class="figures"><thead><tr><th scope="col">Point</th><th scope="col">Tapes</th><th scope="col">True within</th></tr></thead>
      <tbody>${ties.map((/** @type {any} */ tie) => html`<tr key=${`${tie.zone} ${tie.node}`} class=${tie.weak ? "doubt" : ""}><th scope="row">${tie.node}</th>
        <td class="number">${tie.legs.map((/** @type {any} */ leg) => html`<span class="at-mark">${lengthText(leg.reads_mm, style.value)} from ${leg.from}</span>`)}</td>
        <td class="number">${lengthText(tie.sd_mm, fine.value)}</td></tr>`)}</tbody></table></details>`;
}

/** The lines that box the floor in for working, if the job asks for them. */
function Grid() {
  const grid = known.value?.control?.grid;
  if (!grid) return null;
  return html`<details class="opens"><summary>Working grid, boxes of ${grid.every.join(" by ")}</summary>
    ${grid.way_out && html`<p>${grid.way_out}</p>`}
    <table class="figures"><thead><tr><th scope="col">Line</th><th scope="col">Running</th></tr></thead>
      <tbody>${grid.lines.map((/** @type {any} */ line) => html`<tr key=${line.name}><th scope="row">${line.name}</th><td class="number">${lengthText(line.running_mm, style.value)}</td></tr>`)}</tbody></table></details>`;
}

/** Degrees either side of the crossing that an arc is struck over. */
const STRUCK_DEGREES = 7;

/** An arc as it is struck, near the crossing alone. @param {Arc} arc */
function arcPath({ centre_mm: [x, y], radius_mm: radius, near_mm: near }) {
  const middle = Math.atan2(near[1] - y, near[0] - x);
  const half = (STRUCK_DEGREES * Math.PI) / 180;
  const at = (/** @type {number} */ turn) => `${x + radius * Math.cos(turn)} ${y + radius * Math.sin(turn)}`;
  return `M${at(middle - half)}A${radius} ${radius} 0 0 1 ${at(middle + half)}`;
}

/** Every point that has a name. @returns {Map<string, Point>} */
function named() {
  const found = plan.value ? cornersOf(plan.value) : new Map();
  for (const step of steps.value) {
    for (const [name, spot] of Object.entries(step.points)) found.set(name, [spot.x_mm, spot.y_mm]);
  }
  return found;
}

/** What the steps so far have made, the present one lit; in floor mm. */
export function StepsDrawn() {
  const at = named();
  return html`${steps.value.slice(0, stepAt.value + 1).map((step, n) => html`<g key=${n} class=${n === stepAt.value ? "step-now" : "step-made"}>
    ${step.arcs.map((arc, k) => html`<path key=${k} class="arc" d=${arcPath(arc)} />`)}
    ${n === stepAt.value && step.taped.map((ends) => html`<${Stretched} key=${`${ends.from} ${ends.to}`} ends=${ends} at=${at} kind="taped" />`)}
    ${step.struck.map((ends) => html`<${Stretched} key=${`${ends.from} ${ends.to}`} ends=${ends} at=${at} kind="struck" />`)}</g>`)}`;
}

/** @param {{ends: Ends, at: Map<string, Point>, kind: string}} props */
function Stretched({ ends, at, kind }) {
  const [from, to] = [at.get(ends.from), at.get(ends.to)];
  return from && to ? html`<line class=${kind} x1=${from[0]} y1=${from[1]} x2=${to[0]} y2=${to[1]} />` : null;
}

/** The marks that the steps so far have made, in pixels. @param {{screen: (point: Point) => Point}} props */
export function StepMarks({ screen }) {
  const seen = new Map();
  steps.value.slice(0, stepAt.value + 1).forEach((step, n) => {
    for (const [name, spot] of Object.entries(step.points)) seen.set(name, { spot, lit: n === stepAt.value });
  });
  return html`${[...seen].map(([name, { spot, lit }]) => {
    const [x, y] = screen([spot.x_mm, spot.y_mm]);
    return html`<g key=${name} class=${lit ? "step-now" : "step-made"}><path class="mark" d=${`M${x - 6} ${y}H${x + 6}M${x} ${y - 6}V${y + 6}`} /><text class="mark-name" x=${x + 12} y=${y - 12}>${name}</text></g>`;
  })}`;
}
