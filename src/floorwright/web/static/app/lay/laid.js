// @ts-check
/** What lies on the floor: the zones as they were worked out last, as long as the room is still the one they were for. */
import { computed, signal } from "@preact/signals";
import { pathOf } from "../plan/view.js";
import { file, measured, solved, solvedOf } from "../store.js";
import { job, written } from "../written.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {{full: string, cut: string, under: string}} Paths */

/** The whole layout, of before while a change is being worked out; null where the room has changed since. */
export const layout = computed(() => {
  const [now, then] = [measured.value?.plan, solved.value?.plan];
  if (!now || !then || JSON.stringify(now.floor_mm) !== JSON.stringify(then.floor_mm)) return null;
  return solved.value.layout ?? null;
});

/** Whether it is of the job as it stands. */
export const fresh = computed(() => solved.value !== null && solvedOf.value === file.value?.digest);

/** The part of the floor that was touched last, by its name. */
export const picked = signal("");

/** The zone that figures are shown of: the one touched, else the field. */
export const zone = computed(() => {
  const zones = layout.value?.zones ?? [];
  return zones.find((/** @type {any} */ one) => one.name === picked.value)
    ?? zones.find((/** @type {any} */ one) => one.kind === "field") ?? zones[0] ?? null;
});

/** Where a laid part's zone stands in the job file; -1 without one. @param {any} part */
export const placeOf = (part) => (written.value.zones ?? []).findIndex((/** @type {any} */ one) => (one.name ?? "floor") === part?.zone);

/** The zone that is shown as the job has it, what is left out filled in. */
export const table = computed(() => (job.value?.zones ?? []).find((/** @type {any} */ one) => one.name === zone.value?.zone) ?? null);

/** @param {any} zone @param {any} piece */
export const kindOf = (zone, piece) => (piece.full ? "full" : piece.narrowest_mm < zone.limit_mm - 0.01 ? "under" : "cut");

/** The pieces of each zone as three paths, made once for each solution: thousands of elements would be slow to move. */
export const zonePaths = computed(() =>
  (layout.value?.zones ?? []).map((/** @type {any} */ zone) => {
    /** @type {Paths} */
    const paths = { full: "", cut: "", under: "" };
    for (const piece of zone.pieces) paths[kindOf(zone, piece)] += pathOf(piece.outline_mm);
    return { name: zone.name, paths };
  }),
);

/** Whether a point lies in rings, holes left out. @param {Point[][]} rings @param {Point} point */
export function inside(rings, [x, y]) {
  let crossed = false;
  for (const ring of rings) {
    ring.forEach(([ax, ay], n) => {
      const [bx, by] = /** @type {Point} */ (ring[(n + 1) % ring.length]);
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) crossed = !crossed;
    });
  }
  return crossed;
}

/** @param {Point} point @returns {any} the part of the floor there, or null. */
export const zoneAt = (point) =>
  (layout.value?.zones ?? []).find((/** @type {any} */ one) => inside(one.region_mm, point)) ?? null;

/**
 * Returns the piece at a point, or the nearest one within reach of a finger that came down on a joint; null without one.
 *
 * @param {Point} point
 * @param {number} reach mm.
 * @returns {any}
 */
export function pieceAt([x, y], reach) {
  const near = [[0, 0], [reach, 0], [0, reach], [-reach, 0], [0, -reach]].map(([right = 0, up = 0]) => /** @type {Point} */ ([x + right, y + up]));
  for (const point of near) {
    const piece = zoneAt(point)?.pieces.find((/** @type {any} */ one) => inside(one.outline_mm, point));
    if (piece) return piece;
  }
  return null;
}
