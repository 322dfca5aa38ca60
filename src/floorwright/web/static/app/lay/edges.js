// @ts-check
/** Borders and insets by their edges: a grip on the inside line of a border, on the sides, corners and middle of an inset. */
import { signal } from "@preact/signals";
import { html } from "../html.js";
import { edit, plan } from "../store.js";
import { cutText } from "./text.js";
import { placeOf, table, zone } from "./laid.js";
import { circleRound, turned } from "./lattice.js";
import { stepOf } from "./moving.js";
import { inUnits, without } from "../written.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../plan/plan.js").Handle} Handle */

const LEAST = 10;

/** What an edge would come to where it is dragged, in words, and a line there. */
const offered = signal(/** @type {{words: string, ends: [Point, Point] | null} | null} */ (null));

/** A place to a whole millimetre or sixteenth. @param {number} mm */
const stepped = (mm) => Math.round(mm / stepOf(false)) * stepOf(false);

/** A length likewise, and never none. @param {number} mm */
const whole = (mm) => Math.max(LEAST, stepped(mm));

/** The grips of the zone that was touched. @returns {Handle[]} */
export function edgeGrips() {
  if (zone.value?.kind === "border") return borderGrip();
  if (zone.value?.rings && table.value?.along_wall === null) return [centreGrip(zone.value.rings.centre_mm)];
  if (zone.value?.kind !== "inset" || !table.value) return [];
  return table.value.outline.length ? cornerGrips() : sideGrips();
}

/** @param {string} label @param {import("../types.js").Edit[]} edits */
function write(label, edits) {
  offered.value = null;
  void edit(label, edits);
}

/** @returns {Handle[]} */
function borderGrip() {
  const n = placeOf(zone.value);
  const wall = plan.value?.walls.find((one) => zone.value.name === `${zone.value.zone} ${one.name}`);
  const corner = (/** @type {string | undefined} */ name) => plan.value?.corners.find((one) => one.name === name);
  const [start, end] = [corner(wall?.start), corner(wall?.end)];
  if (!wall || !start || !end || n < 0) return [];
  const length = Math.hypot(end.x_mm - start.x_mm, end.y_mm - start.y_mm);
  const along = /** @type {Point} */ ([(end.x_mm - start.x_mm) / length, (end.y_mm - start.y_mm) / length]);
  const ring = /** @type {Point[]} */ (zone.value.region_mm[0]);
  const across = (/** @type {Point} */ [x, y], /** @type {Point} */ inward) => (x - start.x_mm) * inward[0] + (y - start.y_mm) * inward[1];
  const left = /** @type {Point} */ ([-along[1], along[0]]);
  // The floor lies to one side of its wall: the border's own outline tells which.
  const inward = /** @type {Point} */ (across(circleRound(ring).middle, left) > 0 ? left : [along[1], -along[0]]);
  const edge = Math.max(...ring.map((point) => across(point, inward)));
  // Its width is counted from the gap.
  const gap = zone.value.gap_mm.least;
  const place = (/** @type {number} */ by, /** @type {number} */ out) => /** @type {Point} */ ([start.x_mm + along[0] * by + inward[0] * out, start.y_mm + along[1] * by + inward[1] * out]);
  const at = place(length / 2, edge);
  return [{
    id: "border width",
    at,
    label: `Width of the border at ${wall.name}`,
    drag: (point) => {
      const to = whole(across(point, inward) - gap);
      offered.value = { words: `border ${cutText(to, true)} wide`, ends: [place(0, to + gap), place(length, to + gap)] };
    },
    drop: (point) => {
      const to = whole(across(point, inward) - gap);
      write(`border ${cutText(to, true)} wide`, [{ path: ["zones", n, "width"], value: inUnits(to) },
        ...without([["zones", n, "width_least"], ["zones", n, "width_most"], ["zones", n, "rows"], ["zones", n, "option"]])]);
    },
  }];
}

/** @returns {Handle[]} of a rectangular inset. */
function sideGrips() {
  const [own, n, angle] = [table.value, placeOf(zone.value), zone.value.angle_deg];
  const { middle } = circleRound(zone.value.region_mm[0]);
  const out = (/** @type {Point} */ [x, y]) => turned(-angle, [x - middle[0], y - middle[1]]);
  const side = (/** @type {"length" | "width"} */ key, /** @type {0 | 1} */ axis) => {
    const half = own[key] / 2;
    const [right, up] = turned(angle, axis ? [0, half] : [half, 0]);
    const size = (/** @type {Point} */ point) => whole(2 * Math.abs(out(point)[axis]));
    return /** @type {Handle} */ ({
      id: key,
      at: [middle[0] + right, middle[1] + up],
      label: `${key === "length" ? "Length" : "Width"} of ${own.name}`,
      drag: (/** @type {Point} */ point) => (offered.value = { words: `${key} ${cutText(size(point), true)}`, ends: null }),
      drop: (/** @type {Point} */ point) => write(`${own.name}: ${key} ${cutText(size(point), true)}`, [{ path: ["zones", n, key], value: inUnits(size(point)) }]),
    });
  };
  return [...(own.length ? [side("length", 0)] : []), ...(own.width ? [side("width", 1)] : []), centreGrip(middle)];
}

/** The middle of an inset or of rings. @param {Point} middle @returns {Handle} */
function centreGrip(middle) {
  const [own, n] = [table.value, placeOf(zone.value)];
  return {
    id: "centre",
    at: middle,
    label: `Middle of ${own.name}`,
    drag: ([x, y]) => (offered.value = { words: `middle at ${cutText(x)}, ${cutText(y, true)}`, ends: null }),
    drop: ([x, y]) => write(`${own.name} moved`, [{ path: ["zones", n, "centre"], value: [inUnits(stepped(x)), inUnits(stepped(y))] }]),
  };
}

/** @returns {Handle[]} of an inset drawn corner by corner; those that are corners of the room stay there. */
function cornerGrips() {
  const [own, n] = [table.value, placeOf(zone.value)];
  return own.outline.flatMap((/** @type {any} */ corner, /** @type {number} */ k) => Array.isArray(corner) ? [/** @type {Handle} */ ({
    id: `corner ${k}`,
    at: /** @type {Point} */ (corner),
    label: `Corner ${k + 1} of ${own.name}`,
    drag: (/** @type {Point} */ [x, y]) => (offered.value = { words: `corner at ${cutText(x)}, ${cutText(y, true)}`, ends: null }),
    drop: (/** @type {Point} */ [x, y]) => write(`corner ${k + 1} of ${own.name} moved`, [{ path: ["zones", n, "outline", k], value: [inUnits(Math.round(x)), inUnits(Math.round(y))] }]),
  })] : []);
}

/** Where a dragged edge would lie. */
export function OfferedEdge() {
  const ends = offered.value?.ends;
  return ends ? html`<line class="offered-edge" x1=${ends[0][0]} y1=${ends[0][1]} x2=${ends[1][0]} y2=${ends[1][1]} />` : null;
}

/** What a dragged edge would come to, in words over the plan. */
export function OfferedWords() {
  return offered.value && html`<p class="snapped">${offered.value.words}</p>`;
}
