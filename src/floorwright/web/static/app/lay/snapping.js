// @ts-check
/** Where a pattern that is dragged snaps to: so many pixels from where it lines up with something, it goes there. */

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("./lattice.js").Position} Position */
/** @typedef {{words: string, direction: Point, at_mm: number, pitch_mm: number}} Catch see the server's `catches`. */

const PIXELS = 9;
/** Two directions as near to each other as this, the sine of their angle, tell nothing apart. */
const PARALLEL = 0.02;
/** What is this near reads the same on a tape, mm. */
const THERE = 0.25;
const TURN_DEGREES = 1.5;

/** How far it is to where it catches next, mm. @param {Catch} one @param {Position} at */
export function offBy(one, at) {
  const off = one.at_mm - (at.x * one.direction[0] + at.y * one.direction[1]);
  return off - Math.round(off / one.pitch_mm) * one.pitch_mm;
}

/**
 * @param {Catch[]} catches
 * @param {Position} at
 * @param {number} pixel mm.
 * @returns {{at: Position, words: string[]}} where it goes, and all that lines up there.
 */
export function snapped(catches, at, pixel) {
  const near = catches.map((one) => ({ one, off: offBy(one, at) })).filter(({ off }) => Math.abs(off) <= PIXELS * pixel);
  const first = nearestOf(near, pixel);
  if (!first) return { at, words: [] };
  const [nx, ny] = first.one.direction;
  const second = nearestOf(near.filter(({ one }) => !parallel(one, first.one)), pixel);
  let [right, up] = [first.off * nx, first.off * ny];
  if (second) {
    const [mx, my] = second.one.direction;
    const area = nx * my - ny * mx;
    [right, up] = [(first.off * my - second.off * ny) / area, (second.off * nx - first.off * mx) / area];
  }
  const there = { x: at.x + right, y: at.y + up, angle: at.angle };
  return { at: there, words: linedUp(catches, there) };
}

/** @param {Catch} one @param {Catch} other */
const parallel = (one, other) =>
  Math.abs(one.direction[0] * other.direction[1] - one.direction[1] * other.direction[0]) <= PARALLEL;

/**
 * The nearest; of those that no eye tells from it on the screen, the first in the server's order: control lines go first.
 *
 * @param {{one: Catch, off: number}[]} near
 * @param {number} pixel mm.
 */
function nearestOf(near, pixel) {
  const nearest = [...near].sort((a, b) => Math.abs(a.off) - Math.abs(b.off))[0];
  return nearest && near.find(({ one, off }) => parallel(one, nearest.one) && Math.abs(off) <= Math.abs(nearest.off) + pixel);
}

/** @param {Catch[]} catches @param {Position} at @returns {string[]} */
export const linedUp = (catches, at) => [
  ...new Set(catches.filter((one) => Math.abs(offBy(one, at)) <= THERE).map((one) => one.words)),
];

/**
 * @param {{words: string, angle: number}[]} lines what a pattern may be true to, degrees.
 * @param {number} angle
 * @returns {{angle: number, words: string[]}}
 */
export function snappedTurn(lines, angle) {
  const turns = lines.flatMap(({ words, angle: line }) =>
    [0, 45, 90, 135].map((turn) => ({ angle: line + turn, words: `${turn % 90 ? "diagonal to" : "true to"} ${words}` })),
  );
  const off = (/** @type {number} */ to) => to - angle - Math.round((to - angle) / 180) * 180;
  const best = turns.sort((a, b) => Math.abs(off(a.angle)) - Math.abs(off(b.angle)))[0];
  if (!best || Math.abs(off(best.angle)) > TURN_DEGREES) return { angle: Math.round(angle * 10) / 10, words: [] };
  return { angle: angle + off(best.angle), words: [best.words] };
}
