// @ts-check
/** The first line and the centre as they are, as they are being moved, and the edits that move them. */
import { signal } from "@preact/signals";
import { lengthText } from "../lengths.js";
import { directionTo, foot, nextAhead, REACH, snapped, snappedAlong, snappedThrough, square } from "../plan/snap.js";
import { edit, fine, known, measured, plan, said, style } from "../store.js";
import { bearings, laidTargets, targetsOf } from "./targets.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../types.js").Edit} Edit */
/** @typedef {import("../plan/snap.js").Snapped} Snapped */
/** @typedef {import("../plan/plan.js").Handle} Handle */
/** @typedef {{centre: Point, ends: [Point, Point]}} Cross the centre, and where the first line meets the walls. */
/** @typedef {"centre" | "start" | "end" | "line"} Held what is moved. */

/** What is being moved, where it is and what it lines up with. */
export const moving = signal(/** @type {{held: Held, cross: Cross, at: Point, words: string[]} | null} */ (null));
/** mm a pixel, as the plan is drawn now. */
export const pixel = { mm: 1 };

const NUDGE = 1;
const NUDGE_FAR = 10;
/** Keys pressed one after another within this, ms, are one move. */
const PAUSE = 700;
/** An arrow that points less than this along a line, its cosine, points neither way. */
const LEVEL = 0.05;

/** @returns {Cross | null} as worked out. */
export function crossNow() {
  const control = known.value?.control;
  const [start, end] = control?.lines[0]?.marks ?? [];
  if (!start || !end) return null;
  return { centre: [control.centre.x_mm, control.centre.y_mm], ends: [[start.x_mm, start.y_mm], [end.x_mm, end.y_mm]] };
}

const chosen = () => measured.value?.job?.control ?? {};
/** A line parallel to a wall goes wherever its centre goes; any other has a place of its own. */
const isFree = () => chosen().first_line?.by === "parallel";

/** A length as it goes into the file: to a tenth of a mm, or to a 64th. @param {number} mm */
function written(mm) {
  const units = measured.value?.job?.units;
  const tenth = Number(mm.toFixed(1)) + 0;
  if (units === "mm") return tenth;
  return style.value.system === "metric" ? `${tenth} mm` : lengthText(mm, fine.value);
}

/** @param {Point} at @returns {Edit} */
const centreAt = (at) => ({ path: ["control", "centre"], value: { by: "point", x: written(at[0]), y: written(at[1]) } });

/** @param {Point} from @param {Point} to @returns {Edit} */
const lineThrough = (from, to) => ({
  path: ["control", "first_line"],
  value: { by: "points", from: from.map(written), to: to.map(written) },
});

/** @param {Cross} cross */
const railOf = (cross) => ({ words: "", through: cross.ends[0], direction: directionTo(...cross.ends) });

/** What a thing lines up with near a point. @param {Point} at */
function targetsAt(at) {
  const room = plan.value;
  if (!room) return { spots: [], lines: [] };
  const [fixed, laid] = [targetsOf(room, measured.value?.job), laidTargets(known.value?.layout, at)];
  return { spots: [...fixed.spots, ...laid.spots], lines: [...fixed.lines, ...laid.lines] };
}

/**
 * Where something that is dragged goes.
 *
 * @param {Held} held
 * @param {Cross} cross as it was before.
 * @param {Point} to
 * @returns {Snapped}
 */
function drawn(held, cross, to) {
  const reach = REACH * pixel.mm;
  const { spots, lines } = targetsAt(to);
  if (held === "centre") return isFree() ? snapped(spots, lines, to, reach) : snappedAlong(railOf(cross), spots, lines, to, reach);
  if (held === "line") return snappedThrough({ ...railOf(cross), through: to }, spots, reach);
  const room = plan.value;
  const other = cross.ends[held === "start" ? 1 : 0];
  return snapped(spots, [...lines, ...(room ? bearings(room, other) : [])], to, reach);
}

/** The cross with something moved. @param {Held} held @param {Cross} cross @param {Point} at @returns {Cross} */
function moved(held, cross, at) {
  if (held === "start" || held === "end") {
    const ends = /** @type {[Point, Point]} */ (held === "start" ? [at, cross.ends[1]] : [cross.ends[0], at]);
    return { centre: foot({ words: "", through: ends[0], direction: directionTo(...ends) }, cross.centre), ends };
  }
  const rail = railOf(cross);
  if (held === "centre" && !isFree()) return { ...cross, centre: foot(rail, at) };
  // The line goes sideways with it; what it is moved by along itself moves the centre alone.
  const near = foot(rail, at);
  const shift = (/** @type {Point} */ point) => /** @type {Point} */ ([point[0] + at[0] - near[0], point[1] + at[1] - near[1]]);
  return { centre: held === "centre" ? at : shift(cross.centre), ends: [shift(cross.ends[0]), shift(cross.ends[1])] };
}

/** @param {Held} held @param {Cross} cross @param {Snapped} to */
function show(held, cross, to) {
  moving.value = { held, cross: moved(held, cross, to.at), at: to.at, words: to.words };
}

const NAMES = /** @type {Record<Held, string>} */ ({
  centre: "centre",
  start: "first end of the first line",
  end: "second end of the first line",
  line: "first line",
});

/** Puts what was moved into the file. */
async function settle() {
  const done = moving.value;
  if (!done) return;
  const { held, cross, words } = done;
  const label = `${NAMES[held]} moved${words.length ? `: ${words.join(", ")}` : ""}`;
  /** @type {Edit[]} */
  let edits = [lineThrough(...cross.ends)];
  if (held === "centre" || (held === "line" && isFree())) edits = [centreAt(cross.centre)];
  else if (held === "line" && chosen().centre?.by === "point") edits.push(centreAt(cross.centre));
  try {
    await edit(label, edits);
  } finally {
    if (moving.value === done) moving.value = null;
  }
}

const ARROWS = /** @type {Record<string, Point>} */ ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] });
/** @type {ReturnType<typeof setTimeout> | undefined} */
let waiting;

/**
 * Moves something by keys: a nudge, or with Alt to the next thing that it lines up with.
 *
 * @param {Held} held
 * @param {KeyboardEvent} event
 */
function byKey(held, event) {
  const arrow = ARROWS[event.key];
  const cross = moving.value?.held === held ? moving.value.cross : crossNow();
  if (event.key === "Enter" && moving.value) {
    clearTimeout(waiting);
    void settle();
    return true;
  }
  if (!arrow || !cross) return false;
  const at = moving.value?.held === held ? moving.value.at : placeOf(held, cross);
  const ahead = aheadOf(held, cross, arrow);
  const { spots, lines } = targetsAt(at);
  const step = event.shiftKey ? NUDGE_FAR : NUDGE;
  const to = event.altKey
    ? nextAhead(spots, held === "line" ? [] : lines, at, ahead)
    : { at: /** @type {Point} */ ([at[0] + ahead[0] * step, at[1] + ahead[1] * step]), words: [] };
  if (!to) {
    said.value = "Nothing to line up with that way.";
    return true;
  }
  show(held, cross, to);
  said.value = to.words.join(", ") || `${NAMES[held]} moved ${step} mm`;
  clearTimeout(waiting);
  waiting = setTimeout(settle, PAUSE);
  return true;
}

/** The way that an arrow moves a thing: a line sideways, a centre that is held to its line along that. @param {Held} held @param {Cross} cross @param {Point} arrow @returns {Point} */
function aheadOf(held, cross, arrow) {
  if (held === "start" || held === "end" || (held === "centre" && isFree())) return arrow;
  const along = railOf(cross).direction;
  const [dx, dy] = held === "line" ? square(along) : along;
  const dot = dx * arrow[0] + dy * arrow[1];
  const side = dot < -LEVEL ? -1 : 1;
  return [dx * side, dy * side];
}

/** Where the grip of something is. @param {Held} held @param {Cross} cross @returns {Point} */
function placeOf(held, { centre, ends }) {
  if (held === "centre") return centre;
  if (held === "line") return [centre[0] + (ends[1][0] - centre[0]) / 2, centre[1] + (ends[1][1] - centre[1]) / 2];
  return ends[held === "start" ? 0 : 1];
}

/** @returns {Handle[]} what there is to drag. */
export function handles() {
  const was = crossNow();
  if (!was) return [];
  const shown = moving.value?.cross ?? was;
  return /** @type {Held[]} */ (["centre", "start", "end", "line"]).map((held) => ({
    id: held,
    at: moving.value?.held === held && held !== "line" ? moving.value.at : placeOf(held, shown),
    label: NAMES[held],
    keys: "arrow keys move it by 1 mm, with shift by 10, with Alt to the next thing that it lines up with",
    key: (event) => byKey(held, event),
    drag: (to) => show(held, was, drawn(held, was, to)),
    drop: (to) => {
      show(held, was, drawn(held, was, to));
      void settle();
    },
  }));
}

/** The ends of the square line of a cross that is being moved, as far as the room reaches. @param {Cross} cross */
export function squareLine({ centre, ends }) {
  const [dx, dy] = square(directionTo(...ends));
  const reach = Math.max(...(plan.value?.corners ?? []).map((one) => Math.hypot(one.x_mm - centre[0], one.y_mm - centre[1])), 0);
  return /** @type {[Point, Point]} */ ([[centre[0] - dx * reach, centre[1] - dy * reach], [centre[0] + dx * reach, centre[1] + dy * reach]]);
}
