// @ts-check
/** Setting out: the control lines, how each is struck, and how far out it may be at the far wall. */
import { useEffect } from "preact/hooks";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { Findings } from "../parts/findings.js";
import { Plan, Walls } from "../plan/plan.js";
import { findings, known, plan, solve, style } from "../store.js";
import { CornerNames } from "./measure.js";

/** @typedef {import("../types.js").Point} Point */

export function SetoutStage() {
  useEffect(() => void solve(), []);
  const control = known.value?.control;
  if (!control) return html`<p class="empty">${plan.value ? "Working out the lines." : "Measure the room first: no line can be set out yet."}</p>`;
  return html`
    <h2>Lines</h2>
    ${control.lines.map(
      (/** @type {any} */ line) => html`<article class="line" key=${line.name}>
        <h3>${line.name}</h3>
        <ul class="marks">${line.marks.map((/** @type {any} */ mark) => html`<li key=${mark.name}><strong>${mark.name}</strong>: ${lengthText(mark.distance_mm, style.value, { unit: true })} from ${mark.from}${mark.on ? ` on ${mark.on}` : ""}</li>`)}</ul>
        ${line.drift?.length > 0 && html`<p>May be out by <strong>${lengthText(Math.max(...line.drift.map((/** @type {any} */ one) => one.sd_mm)), { ...style.value, step: style.value.system === "metric" ? 0.1 : 1 / 32 }, { unit: true })}</strong> at the far wall (one in three is more).</p>`}
      </article>`,
    )}
    ${control.checks?.length > 0 && html`<h2>Check readings</h2>
      <table class="figures"><thead><tr><th scope="col">Between</th><th scope="col">Should read</th><th scope="col">Give or take</th></tr></thead>
        <tbody>${control.checks.map((/** @type {any} */ check) => html`<tr key=${check.between}><th scope="row">${[check.between].flat().join(" and ")}</th>
          <td class="number">${lengthText(check.expected_mm, style.value)}</td><td class="number">${lengthText(check.allow_mm, style.value)}</td></tr>`)}</tbody></table>`}
    <${Findings} findings=${findings.value} only=${(/** @type {any} */ one) => /^control-/.test(one.code)} />
  `;
}

export function SetoutPlan() {
  const room = plan.value;
  if (!room) return html`<p class="empty">No room yet.</p>`;
  const control = known.value?.control;
  const points = room.corners.map((corner) => /** @type {Point} */ ([corner.x_mm, corner.y_mm]));
  return html`<${Plan} around=${points} label="Plan of the room with its control lines"
    floor=${html`<${Walls} plan=${room} />${control?.lines.map((/** @type {any} */ line) => {
      const ends = line.marks.map((/** @type {any} */ mark) => [mark.x_mm, mark.y_mm]);
      if (ends.length < 2) return null;
      const first = ends[0];
      const last = ends[ends.length - 1];
      return html`<line key=${line.name} class="control-line" x1=${first[0]} y1=${first[1]} x2=${last[0]} y2=${last[1]} />`;
    })}`}
    over=${(/** @type {(point: Point) => Point} */ screen) => html`<${CornerNames} screen=${screen} />
      ${control?.lines.flatMap((/** @type {any} */ line) => line.marks.map((/** @type {any} */ mark) => {
        const [x, y] = screen([mark.x_mm, mark.y_mm]);
        return html`<g key=${`${line.name} ${mark.name}`}><path class="mark" d=${`M${x - 5} ${y}H${x + 5}M${x} ${y - 5}V${y + 5}`} /><text class="mark-name" x=${x + 8} y=${y - 8}>${mark.name}</text></g>`;
      }))}`} />`;
}
