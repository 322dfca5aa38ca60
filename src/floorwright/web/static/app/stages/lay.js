// @ts-check
/** Laying: the pattern on the floor, the ranked options beside it, and the cut at both ends of every wall. */
import { useEffect } from "preact/hooks";
import { computed } from "@preact/signals";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { ActionButton } from "../parts/buttons.js";
import { Findings } from "../parts/findings.js";
import { Plan, Walls } from "../plan/plan.js";
import { pathOf } from "../plan/view.js";
import { edit, findings, known, plan, solve, style } from "../store.js";
import { CornerNames } from "./measure.js";

/** @typedef {import("../types.js").Point} Point */

/** The pieces as three paths, made once for each solution: thousands of elements would be slow to move. */
export const piecePaths = computed(() => {
  const paths = { full: "", cut: "", under: "" };
  for (const zone of known.value?.layout?.zones ?? []) {
    for (const piece of zone.pieces) {
      const kind = piece.full ? "full" : piece.narrowest_mm < zone.limit_mm - 0.01 ? "under" : "cut";
      paths[kind] += pathOf(piece.outline_mm);
    }
  }
  return paths;
});

export function LayStage() {
  useEffect(() => void solve(), [plan.value]);
  const layout = known.value?.layout;
  if (!layout) return html`<p class="empty">${plan.value ? "Laying the pattern." : "Measure the room first: there is no floor to lay yet."}</p>`;
  const zone = layout.zones[0];
  return html`
    <p class="counts"><strong>${zone.counts.full}</strong> full, <strong>${zone.counts.cut}</strong> cut; narrowest <strong>${lengthText(zone.narrowest_mm, style.value, { unit: true, feet: false })}</strong></p>
    ${zone.proof && html`<p class=${zone.proof.status === "proved" ? "proved" : "found"}>${zone.proof.status === "proved" ? "Proved: no position leaves a wider narrowest piece." : `Best found: ${zone.proof.why}`}</p>`}
    <${ActionButton} id="prove" primary=${true} />
    <h2>Cut at each wall</h2>
    <table class="figures"><thead><tr><th scope="col">Wall</th><th scope="col">Start</th><th scope="col">End</th></tr></thead>
      <tbody>${layout.walls.map((/** @type {any} */ wall) => html`<tr key=${`${wall.zone} ${wall.name}`} class=${wall.fits ? "" : "doubt"}><th scope="row">${wall.name}</th>
        <td class="number">${lengthText(wall.start_mm, style.value, { feet: false })}</td><td class="number">${lengthText(wall.end_mm, style.value, { feet: false })}</td></tr>`)}</tbody></table>
    <h2>Positions</h2>
    <ol class="options">${layout.options.map((/** @type {any} */ option, /** @type {number} */ n) => html`<li key=${`${option.zone} ${option.name}`} class=${option.chosen ? "chosen" : ""}>
      <button type="button" aria-pressed=${option.chosen} disabled=${Boolean(option.refused)}
        onClick=${() => edit(option.name, [{ path: ["aims", "option"], value: n === 0 ? "" : option.name }])}>
        <span>${option.name}</span>
        <span class="quiet">${option.refused || html`${lengthText(option.narrowest_mm, style.value, { unit: true, feet: false })} narrowest, ${option.counts.cut} cut`}</span>
      </button></li>`)}</ol>
    <${Findings} findings=${findings.value} only=${(/** @type {any} */ one) => one.severity !== "note" && /^layout-/.test(one.code)} />
  `;
}

/** @param {{control?: boolean}} props */
export function LayPlan({ control = true }) {
  const room = plan.value;
  if (!room) return html`<p class="empty">No room yet.</p>`;
  const points = room.corners.map((corner) => /** @type {Point} */ ([corner.x_mm, corner.y_mm]));
  const paths = piecePaths.value;
  const lines = known.value?.control?.lines ?? [];
  return html`<${Plan} around=${points} label="Plan of the floor with its tiles"
    floor=${html`<g class="pieces"><path class="full" d=${paths.full} /><path class="cut" d=${paths.cut} /><path class="under" d=${paths.under} /></g>
      <${Walls} plan=${room} />
      ${control && lines.map((/** @type {any} */ line) => line.marks.length > 1 && html`<line key=${line.name} class="control-line" x1=${line.marks[0].x_mm} y1=${line.marks[0].y_mm} x2=${line.marks.at(-1).x_mm} y2=${line.marks.at(-1).y_mm} />`)}`}
    over=${(/** @type {(point: Point) => Point} */ screen) => html`<${CornerNames} screen=${screen} />`} />`;
}
