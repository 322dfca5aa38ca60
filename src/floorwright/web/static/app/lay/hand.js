// @ts-check
/** Moving the pattern: taking it in hand, steps for those who do not drag, and laying it or putting it back. */
import { useEffect } from "preact/hooks";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { style } from "../store.js";
import { fresh, zone } from "./laid.js";
import { away, canMove, canTurn, held, laidAt, layHere, letGo, moving, nudge, putBack, snaps, stepOf, take, turnTo } from "./moving.js";

/** @typedef {import("../types.js").Point} Point */

export const TURN_STEP = 0.1;

/** @type {{way: Point, sign: string, says: string}[]} */
const STEPS = [
  { way: [-1, 0], sign: "←", says: "left" },
  { way: [1, 0], sign: "→", says: "right" },
  { way: [0, 1], sign: "↑", says: "up" },
  { way: [0, -1], sign: "↓", says: "down" },
];

export function Hand() {
  useEffect(() => letGo, [zone.value?.name]);
  if (!canMove.value) return null;
  if (!moving.value) {
    return html`<button type="button" class="primary wide" disabled=${!fresh.value} onClick=${take} data-hand="take">Move the pattern</button>`;
  }
  const step = lengthText(stepOf(false), { ...style.value, step: style.value.system === "metric" ? 0.5 : 1 / 16 }, { unit: true });
  return html`<section class="hand" aria-label="Move the pattern">
    <p class="quiet">Drag the floor to move the pattern; two fingers or the wheel move the plan. Arrow keys: ${step}, with shift ten.</p>
    <div class="steps">
      ${STEPS.map(({ way, sign, says }) => html`<button type="button" key=${says} aria-label=${`${step} ${says}`} onClick=${() => nudge(way, false)}>${sign}</button>`)}
      ${canTurn.value && html`<button type="button" aria-label="turn anticlockwise by a tenth of a degree" onClick=${() => turnBy(TURN_STEP)}>↺</button>
        <button type="button" aria-label="turn clockwise by a tenth of a degree" onClick=${() => turnBy(-TURN_STEP)}>↻</button>`}
    </div>
    <${Way} />
    <div class="hand-ends">
      <button type="button" class="primary" disabled=${!away.value} onClick=${layHere} data-hand="lay">Lay it here</button>
      ${away.value ? html`<button type="button" onClick=${putBack} data-hand="back">Put it back</button>` : html`<button type="button" onClick=${letGo}>Done</button>`}
    </div>
  </section>`;
}

/** @param {number} degrees */
export const turnBy = (degrees) => turnTo((held.value ?? laidAt()).angle + degrees, false);

/** All that is written anew as the pattern moves, many times a second. */
function Way() {
  return html`<p class="way" data-hand="way">${wayText()}</p>`;
}

/** How far the pattern is from where it is laid, and what it lines up with. */
function wayText() {
  if (!held.value) return "As it is laid.";
  const from = laidAt();
  const [right, up] = [held.value.x - from.x, held.value.y - from.y];
  const turned = held.value.angle - from.angle;
  const text = (/** @type {number} */ mm) => lengthText(Math.abs(mm), style.value, { unit: true });
  const parts = turned
    ? [`turned by ${Math.abs(turned).toFixed(1)}° ${turned > 0 ? "anticlockwise" : "clockwise"}`]
    : [right && `${text(right)} ${right > 0 ? "right" : "left"}`, up && `${text(up)} ${up > 0 ? "up" : "down"}`].filter(Boolean);
  return `${parts.join(", ") || "As it is laid"}${snaps.value.length ? `: ${snaps.value.join("; ")}` : ""}.`;
}

/** A key on the plan while the pattern is in hand. @param {KeyboardEvent} event @returns {boolean} */
export function handKey(event) {
  if (!moving.value) return false;
  const step = STEPS.find(({ says }) => event.key === `Arrow${says.charAt(0).toUpperCase()}${says.slice(1)}`);
  if (step) nudge(step.way, event.shiftKey);
  else if (event.key === "Enter") void layHere();
  else if (event.key === "Escape") held.value ? putBack() : letGo();
  else if (canTurn.value && (event.key === "[" || event.key === "{")) turnBy(event.key === "{" ? 1 : TURN_STEP);
  else if (canTurn.value && (event.key === "]" || event.key === "}")) turnBy(event.key === "}" ? -1 : -TURN_STEP);
  else return false;
  return true;
}
