// @ts-check
/** Setting out: which first line and centre, by which tools, step by step, and proved. */
import { useEffect } from "preact/hooks";
import { computed, signal } from "@preact/signals";
import { html } from "../html.js";
import { Findings } from "../parts/findings.js";
import { Unmeasured } from "../parts/unmeasured.js";
import { Plan, Walls } from "../plan/plan.js";
import { pathOf } from "../plan/view.js";
import { checkEnds, Checks } from "../setout/checks.js";
import { Candidates, compare } from "../setout/compared.js";
import { Fans, fanScale, showFans } from "../setout/fans.js";
import { crossNow, handles, moving, pixel, squareLine } from "../setout/lines.js";
import { StepMarks, Steps, StepsDrawn } from "../setout/steps.js";
import { Tools } from "../setout/tools.js";
import { file, findings, known, plan, solve, words } from "../store.js";
import { say } from "../words.js";
import { CornerNames } from "./measure.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {"lines" | "tools" | "steps" | "checks"} Part */

const part = signal(/** @type {Part} */ ("lines"));
const PARTS = /** @type {[Part, string][]} */ ([["lines", "Lines"], ["tools", "Tools"], ["steps", "Steps"], ["checks", "Check"]]);

export function SetoutStage() {
  const shown = part.value;
  useEffect(() => void (shown === "lines" ? compare() : solve()), [file.value?.digest, shown]);
  const control = known.value?.control;
  if (!control) return html`<${Unmeasured} says=${plan.value ? "No line can be set out yet: what the readings say has to be mended first." : "Measure the room first: no line can be set out yet."} onward />`;
  return html`
    <div class="parts" role="group" aria-label=${say("Parts of setting out", words.value)}>
      ${PARTS.map(([id, name]) => html`<button type="button" key=${id} aria-pressed=${shown === id} onClick=${() => (part.value = id)}>${name}</button>`)}
    </div>
    ${shown === "lines" && html`<${Lines} control=${control} />`}
    ${shown === "tools" && html`<${Tools} />`}
    ${shown === "steps" && html`<${Steps} prove=${() => (part.value = "checks")} />`}
    ${shown === "checks" && html`<${Checks} />`}
    ${(shown === "lines" || shown === "tools") && html`<label class="switch"><input type="checkbox" checked=${showFans.value} onChange=${() => (showFans.value = !showFans.value)} />
      Show how far out each line may be${showFans.value ? `: drawn ${fanScale()} times as far` : ""}</label>`}
    <${Findings} findings=${findings.value} only=${(/** @type {any} */ one) => one.severity !== "note" && /^control-(?!reading)/.test(one.code)} />
  `;
}

/** @param {{control: any}} props */
function Lines({ control }) {
  const line = control.first_line;
  return html`
    <p class="how"><strong>First line</strong> ${line}. <strong>${say("Centre", words.value)}</strong> ${control.centre.how}.</p>
    <p class="quiet">${say("Drag the centre, the line or its ends on the plan; they catch on doors, walls, corners and joints. Or take a line from here.", words.value)}</p>
    <${Candidates} />`;
}

/** The pieces as laid, quietly, while they are of this text: the lines are seen against them. */
const laid = computed(() => (known.value?.layout?.zones ?? []).map((/** @type {any} */ zone) => zone.pieces.map((/** @type {any} */ piece) => pathOf(piece.outline_mm)).join("")).join(""));

export function SetoutPlan() {
  const room = plan.value;
  if (!room) return html`<${Unmeasured} says="No room yet." />`;
  const shown = part.value;
  const drags = shown === "lines" || shown === "tools";
  return html`<${Plan} around=${room.outline_mm} label="Plan of the room with its control lines" handles=${drags ? handles() : []}
    floor=${html`${drags && html`<path class="laid" d=${laid.value} />`}
      ${drags && showFans.value && !moving.value && html`<${Fans} />`}<${Walls} plan=${room} />
      ${shown === "steps" ? html`<${StepsDrawn} />` : html`<${ControlLines} diagonals=${!drags || showFans.value} />`}
      ${shown === "checks" && html`<${CheckLine} />`}`}
    over=${(/** @type {(point: Point) => Point} */ screen, /** @type {{scale: number}} */ view) => {
      pixel.mm = 1 / view.scale;
      return html`<${CornerNames} screen=${screen} />
        ${shown === "steps" && html`<${StepMarks} screen=${screen} />`}
        ${shown === "checks" && html`<${Marks} screen=${screen} />`}`;
    }} />
    ${moving.value && html`<p class="snapped">${moving.value.words.join(", ") || "free"}</p>`}`;
}

/** The lines as they are, or as they are being moved. @param {{diagonals: boolean}} props */
function ControlLines({ diagonals }) {
  const moved = moving.value?.cross;
  if (moved) {
    return html`${[moved.ends, squareLine(moved)].map(([from, to], n) => html`<line key=${n} class="control-line moving" x1=${from[0]} y1=${from[1]} x2=${to[0]} y2=${to[1]} />`)}`;
  }
  const lines = known.value?.control?.lines ?? [];
  return html`${lines.slice(0, diagonals ? 4 : 2).map((/** @type {any} */ line) => {
    const [first, last] = [line.marks[0], line.marks.at(-1)];
    if (!first || first === last) return null;
    return html`<line key=${line.name} class="control-line" x1=${first.x_mm} y1=${first.y_mm} x2=${last.x_mm} y2=${last.y_mm} />`;
  })}`;
}

/** The tape of the check that is asked for. */
function CheckLine() {
  const [from, to] = checkEnds();
  return from && to ? html`<g class="step-now"><line class="taped" x1=${from[0]} y1=${from[1]} x2=${to[0]} y2=${to[1]} /></g>` : null;
}

/** The marks on the walls, the centre and the ends of the check that is asked for. @param {{screen: (point: Point) => Point}} props */
function Marks({ screen }) {
  const lines = known.value?.control?.lines ?? [];
  const cross = (/** @type {number} */ x, /** @type {number} */ y) => `M${x - 6} ${y}H${x + 6}M${x} ${y - 6}V${y + 6}`;
  const centre = crossNow()?.centre;
  return html`${lines.slice(0, 2).flatMap((/** @type {any} */ line) => line.marks.map((/** @type {any} */ mark) => {
      const [x, y] = screen([mark.x_mm, mark.y_mm]);
      return html`<g key=${mark.name}><path class="mark" d=${cross(x, y)} /><text class="mark-name" x=${x + 12} y=${y - 12}>${mark.name}</text></g>`;
    }))}
    ${centre && html`<path class="mark" d=${cross(...screen(centre))} />`}
    ${checkEnds().map((end, n) => {
      const [x, y] = screen(end);
      return html`<circle key=${n} class="check-end" cx=${x} cy=${y} r="9" />`;
    })}`;
}
