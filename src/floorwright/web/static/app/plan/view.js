// @ts-check
/** Where the floor is on the screen: floor mm, y up, to screen pixels, y down, and back. */

/** @typedef {import("../types.js").Point} Point */
/** @typedef {{x: number, y: number, scale: number}} View the floor point in the middle, and pixels per mm. */
/** @typedef {{width: number, height: number}} Size pixels */
/** @typedef {{left: number, bottom: number, right: number, top: number}} Bounds mm */

const SMALLEST = 0.002;
const LARGEST = 4;

/** @param {Point[]} points @returns {Bounds | null} */
export function boundsOf(points) {
  if (!points.length) return null;
  const bounds = { left: Infinity, bottom: Infinity, right: -Infinity, top: -Infinity };
  for (const [x, y] of points) {
    bounds.left = Math.min(bounds.left, x);
    bounds.right = Math.max(bounds.right, x);
    bounds.bottom = Math.min(bounds.bottom, y);
    bounds.top = Math.max(bounds.top, y);
  }
  return bounds;
}

/**
 * @param {Bounds} bounds
 * @param {Size} size
 * @param {number} edge pixels kept free all round, for what is written there.
 * @returns {View}
 */
export function fitted(bounds, size, edge) {
  const wide = Math.max(1, bounds.right - bounds.left);
  const high = Math.max(1, bounds.top - bounds.bottom);
  const scale = Math.min((size.width - 2 * edge) / wide, (size.height - 2 * edge) / high);
  return {
    x: (bounds.left + bounds.right) / 2,
    y: (bounds.bottom + bounds.top) / 2,
    scale: Math.min(LARGEST, Math.max(SMALLEST, scale)),
  };
}

/** @param {View} view @param {Size} size @param {Point} point @returns {Point} */
export const toScreen = (view, size, [x, y]) => [
  size.width / 2 + (x - view.x) * view.scale,
  size.height / 2 - (y - view.y) * view.scale,
];

/** @param {View} view @param {Size} size @param {Point} place @returns {Point} */
export const toFloor = (view, size, [left, top]) => [
  view.x + (left - size.width / 2) / view.scale,
  view.y - (top - size.height / 2) / view.scale,
];

/**
 * Zooms so that what lies under a place of the screen stays there.
 *
 * @param {View} view
 * @param {Size} size
 * @param {Point} place
 * @param {number} factor
 * @returns {View}
 */
export function zoomed(view, size, place, factor) {
  const scale = Math.min(LARGEST, Math.max(SMALLEST, view.scale * factor));
  const [x, y] = toFloor(view, size, place);
  return {
    x: x - (place[0] - size.width / 2) / scale,
    y: y + (place[1] - size.height / 2) / scale,
    scale,
  };
}

/** @param {View} view @param {number} right pixels @param {number} down pixels @returns {View} */
export const moved = (view, right, down) => ({ ...view, x: view.x - right / view.scale, y: view.y + down / view.scale });

/** @param {View} view @param {Size} size of the group that draws in floor mm. */
export const transformOf = (view, size) =>
  `translate(${size.width / 2 - view.x * view.scale}px, ${size.height / 2 + view.y * view.scale}px) scale(${view.scale}, ${-view.scale})`;

/** @param {Point[][]} rings @returns {string} the path of rings, in floor mm. */
export const pathOf = (rings) =>
  rings.map((ring) => ring.map(([x, y], n) => `${n ? "L" : "M"}${x} ${y}`).join("") + "Z").join("");
