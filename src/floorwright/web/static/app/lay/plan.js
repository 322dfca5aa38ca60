// @ts-check
/** The floor with what lies on it, and the pattern in hand. */
import { computed } from "@preact/signals";
import { html } from "../html.js";
import { Unmeasured } from "../parts/unmeasured.js";
import { Plan, Walls } from "../plan/plan.js";
import { known, plan, stage } from "../store.js";
import { CornerNames } from "../parts/names.js";
import { ScoredFloor, ScoredNames } from "../score/drawn.js";
import { OfferedEdge, OfferedWords, edgeGrips } from "./edges.js";
import { FrozenPieces, mark } from "./frozen.js";
import { Ghost } from "./ghost.js";
import { TURN_STEP, handKey, turnBy } from "./hand.js";
import { picked, zone, zoneAt, zonePaths } from "./laid.js";
import { circleRound } from "./lattice.js";
import { away, canMove, canTurn, drag, drop, held, laidAt, middle, moving, snaps, take, turnTo } from "./moving.js";
import { TouchedOutline, touch } from "./piece.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../plan/plan.js").Handle} Handle */

/** The first line and the one square to it: the others would only cross the pattern. */
const CROSS = 2;
const TAP_PIXELS = 6;
/** The turning grip stands so far out from the middle of the floor, as a part of the way to its farthest corner. */
const GRIP_OUT = 0.45;

/** So that the plan is drawn anew only when the pattern turns, and not as it moves. */
const angleHeld = computed(() => held.value?.angle ?? zone.value?.angle_deg ?? 0);

/** @param {{control?: boolean}} props */
export function LayPlan({ control = true }) {
  const room = plan.value;
  if (!room) return html`<${Unmeasured} says="No room yet." />`;
  const lines = (known.value?.control?.lines ?? []).slice(0, CROSS);
  const laying = stage.value === "lay";
  return html`<${Plan} around=${room.outline_mm} label=${moving.value ? "Plan of the floor; the pattern is in hand: arrow keys move it, Enter lays it, Escape puts it back" : "Plan of the floor with its tiles"}
    hold=${laying && moving.value ? hold : null} keys=${laying ? handKey : null} tap=${laying ? tap : null} handles=${laying ? grips() : []}
    floor=${html`<${Pieces} /><${ScoredFloor} />
      <${Walls} plan=${room} />
      <${FrozenPieces} />
      ${laying && html`<${TouchedOutline} /><${OfferedEdge} />`}
      ${control && lines.map((/** @type {any} */ line) => line.marks.length > 1 && html`<line key=${line.name} class="control-line" x1=${line.marks[0].x_mm} y1=${line.marks[0].y_mm} x2=${line.marks.at(-1).x_mm} y2=${line.marks.at(-1).y_mm} />`)}`}
    over=${(/** @type {(point: Point) => Point} */ screen, /** @type {{scale: number}} */ view) => html`<${CornerNames} screen=${screen} /><${ScoredNames} screen=${screen} scale=${view.scale} />`} />
    ${laying && html`<${Snapped} /><${OfferedWords} />`}`;
}

/** @returns {Handle[]} */
function grips() {
  if (moving.value) return canTurn.value ? [turningGrip()] : [];
  return edgeGrips();
}

/** What a finger covers, pixels to each side. */
const FINGER = 8;

/** @param {Point} point @param {number} pixel mm. */
function tap(point, pixel) {
  if (!mark(point, FINGER * pixel)) touch(point, FINGER * pixel);
}

/** What the pattern snapped to, in words over the plan while it is in hand. */
function Snapped() {
  if (!moving.value || !snaps.value.length) return null;
  return html`<p class="snapped" data-snapped>${snaps.value.slice(0, 3).join("; ")}</p>`;
}

/** Every zone's pieces; those of the one in hand only while it lies as it is laid. */
function Pieces() {
  const inHand = moving.value ? zone.value?.name : "";
  return html`${inHand && html`<${Ghost} />`}
    ${zonePaths.value.map((/** @type {any} */ one) => (one.name === inHand && away.value) ? null : html`<${ZonePieces} key=${one.name} paths=${one.paths} />`)}`;
}

/** @param {{paths: import("./laid.js").Paths}} props */
function ZonePieces({ paths }) {
  return html`<g class="pieces"><path class="full" d=${paths.full} /><path class="cut" d=${paths.cut} /><path class="under" d=${paths.under} /></g>`;
}

/**
 * What a finger on the floor drags while the pattern is in hand; one on another zone takes that one in hand.
 *
 * @param {Point} start
 * @param {number} pixel mm.
 */
function hold(start, pixel) {
  const there = zoneAt(start);
  if (there && there.name !== zone.value?.name && !held.value) {
    picked.value = there.name;
    take();
  }
  if (!canMove.value) return null;
  const from = held.value ?? laidAt();
  let went = 0;
  return {
    drag: (/** @type {Point} */ [x, y]) => {
      const way = /** @type {Point} */ ([x - start[0], y - start[1]]);
      went = Math.max(went, Math.hypot(...way));
      if (went > TAP_PIXELS * pixel) drag(from, way, pixel);
    },
    drop: () => (went > TAP_PIXELS * pixel ? drop() : touch(start, FINGER * pixel)),
  };
}

/** @returns {Handle} */
function turningGrip() {
  const about = middle.value;
  const out = circleRound(zone.value.region_mm[0]).radius * GRIP_OUT;
  const angle = (angleHeld.value * Math.PI) / 180;
  const way = (/** @type {Point} */ [x, y]) => (Math.atan2(y - about[1], x - about[0]) * 180) / Math.PI;
  return {
    id: "turn",
    at: [about[0] + out * Math.cos(angle), about[1] + out * Math.sin(angle)],
    label: "Turn the pattern",
    keys: "arrow keys turn it by a tenth of a degree, with shift by one",
    drag: (point) => turnTo(way(point), true),
    drop,
    key: (event) => {
      const by = /** @type {Record<string, number>} */ ({ ArrowLeft: 1, ArrowUp: 1, ArrowRight: -1, ArrowDown: -1 })[event.key];
      if (by) turnBy(by * (event.shiftKey ? 1 : TURN_STEP));
      return Boolean(by);
    },
  };
}
