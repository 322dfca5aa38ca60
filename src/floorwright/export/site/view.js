// @ts-check
/** Where the floor is on the screen. */

/** @typedef {import("./types.js").Point} Point */
/** @typedef {{x: number, y: number, scale: number}} View the screen place of the floor's upper left corner, and pixels per tenth of a mm. */
/** @typedef {{width: number, height: number}} Size pixels */

const LARGEST = 0.5;
const FARTHEST_OUT = 0.5;

/** @param {Point} floor @param {Size} size @param {number} edge pixels all round, for names. @returns {View} */
export function fitted([wide, high], size, edge) {
  const scale = Math.max(1e-6, Math.min((size.width - 2 * edge) / wide, (size.height - 2 * edge) / high));
  return { x: (size.width - wide * scale) / 2, y: (size.height - high * scale) / 2, scale };
}

/** @param {View} view @param {Point} place @param {number} factor @param {number} whole scale at which all of the floor is seen. @returns {View} */
export function zoomed(view, place, factor, whole) {
  const scale = Math.min(LARGEST, Math.max(whole * FARTHEST_OUT, view.scale * factor));
  const by = scale / view.scale;
  return { x: place[0] - (place[0] - view.x) * by, y: place[1] - (place[1] - view.y) * by, scale };
}

/** @param {View} view @param {number} right @param {number} down @returns {View} */
export const moved = (view, right, down) => ({ ...view, x: view.x + right, y: view.y + down });

/** @param {View} view @param {Point} point @returns {Point} */
export const toScreen = (view, [x, y]) => [view.x + x * view.scale, view.y + y * view.scale];

/** @param {View} view @param {Point} place @returns {Point} */
export const toFloor = (view, [left, top]) => [(left - view.x) / view.scale, (top - view.y) / view.scale];
