// @ts-check
/** What there is on a floor to line up with: doors, walls, corners, slab joints, and the joints and tiles as laid. */
import { apart, directionTo, square } from "../plan/snap.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../types.js").Plan} Plan */
/** @typedef {import("../plan/snap.js").Spot} Spot */
/** @typedef {import("../plan/snap.js").Line} Line */
/** @typedef {{spots: Spot[], lines: Line[]}} Targets */

/** @param {Plan} plan @returns {Map<string, Point>} corner -> where it is. */
export const cornersOf = (plan) => new Map(plan.corners.map((one) => [one.name, [one.x_mm, one.y_mm]]));

/** @param {Plan} plan @returns {{name: string, start: Point, end: Point}[]} */
function wallsOf(plan) {
  const corners = cornersOf(plan);
  return plan.walls.flatMap(({ name, start, end }) => {
    const [from, to] = [corners.get(start), corners.get(end)];
    return from && to ? [{ name, start: from, end: to }] : [];
  });
}

/** @param {Point} a @param {Point} b @returns {Point} */
const between = (a, b) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

/**
 * @param {Plan} plan
 * @param {any} job as the server reads it, for the joints in its slab.
 * @returns {Targets}
 */
export function targetsOf(plan, job) {
  const walls = wallsOf(plan);
  const spots = plan.corners.map((one) => ({ words: `corner ${one.name}`, at: /** @type {Point} */ ([one.x_mm, one.y_mm]) }));
  /** @type {Line[]} */
  const lines = [];
  for (const { name, start, end } of walls) {
    const middle = between(start, end);
    spots.push({ words: `middle of ${name}`, at: middle });
    lines.push({ words: `square from the middle of ${name}`, through: middle, direction: square(directionTo(start, end)) });
  }
  for (const { name, start_mm, end_mm } of plan.openings) {
    const middle = between(start_mm, end_mm);
    spots.push({ words: `middle of ${name}`, at: middle });
    lines.push({ words: `in line with ${name}`, through: middle, direction: square(directionTo(start_mm, end_mm)) });
  }
  for (const joint of job?.slab_joints ?? []) {
    const [from, to] = [placeOf(plan, joint.from), placeOf(plan, joint.to)];
    if (from && to) lines.push({ words: `on the slab joint ${joint.name}`, through: from, direction: directionTo(from, to) });
  }
  return { spots, lines };
}

/** @param {Plan} plan @param {string | Point | undefined} place @returns {Point | undefined} */
const placeOf = (plan, place) => (typeof place === "string" ? cornersOf(plan).get(place) : place);

/** @typedef {{outline: Point[], middle: Point, joint: number}} Tile */

/** Layout -> its full tiles: a finger asks for the nearest of thousands many times a second. @type {WeakMap<object, Tile[]>} */
const TILES = new WeakMap();

/** @param {any} layout as the server gives it. @returns {Tile[]} */
function tilesOf(layout) {
  let tiles = TILES.get(layout);
  if (!tiles) {
    tiles = layout.zones.flatMap((/** @type {any} */ zone) =>
      zone.pieces.filter((/** @type {any} */ one) => one.full).map((/** @type {any} */ one) => (
        { outline: one.outline_mm[0], middle: middleOf(one.outline_mm[0]), joint: zone.joint_mm })));
    TILES.set(layout, /** @type {Tile[]} */ (tiles));
  }
  return /** @type {Tile[]} */ (tiles);
}

/**
 * The tile under a point, or next to it, with the joints round it.
 *
 * @param {any} layout as the server gives it; null without one.
 * @param {Point} point
 * @returns {Targets}
 */
export function laidTargets(layout, point) {
  const none = { spots: [], lines: [] };
  /** @type {Tile | null} */
  let best = null;
  for (const tile of layout ? tilesOf(layout) : []) {
    if (!best || apart(tile.middle, point) < apart(best.middle, point)) best = tile;
  }
  if (!best) return none;
  const { outline, middle, joint } = best;
  const lines = outline.map((from, n) => {
    const direction = directionTo(from, /** @type {Point} */ (outline[(n + 1) % outline.length]));
    // Pieces run anticlockwise: the joint is to the right.
    const through = /** @type {Point} */ ([from[0] + (direction[1] * joint) / 2, from[1] - (direction[0] * joint) / 2]);
    return { words: "on a joint", through, direction };
  });
  return { spots: [{ words: "middle of a tile", at: middle }], lines };
}

/** @param {Point[]} ring @returns {Point} */
const middleOf = (ring) => [
  ring.reduce((sum, one) => sum + one[0], 0) / ring.length,
  ring.reduce((sum, one) => sum + one[1], 0) / ring.length,
];

/**
 * What a line from a point may be true to: along each wall, and through all that matters.
 *
 * @param {Plan} plan
 * @param {Point} from its other end.
 * @returns {Line[]}
 */
export function bearings(plan, from) {
  return wallsOf(plan).flatMap(({ name, start, end }) => {
    const along = directionTo(start, end);
    return [
      { words: `parallel to ${name}`, through: from, direction: along },
      { words: `square to ${name}`, through: from, direction: square(along) },
    ];
  });
}
