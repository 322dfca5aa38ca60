// @ts-check
/**
 * A pattern that repeats, to be moved as one drawing: drawn once over the floor and one repeat more, any position of it
 * is that drawing moved by less than a repeat.
 */
import { pathOf } from "../plan/view.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {{x: number, y: number, angle: number}} Position mm, and degrees: where the pattern's origin lies. */
/** @typedef {{repeat: [Point, Point], pieces: Point[][]}} Cell mm, in the pattern's own frame. */
/** @typedef {{path: string, middle: Point}} Drawing in the pattern's own frame, and the place in it that is over the floor's middle. */

/** @param {number} degrees @param {Point} point @returns {Point} */
export function turned(degrees, [x, y]) {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [x * cos - y * sin, x * sin + y * cos];
}

/** How many repeats lead to a point. @param {[Point, Point]} repeat @param {Point} point @returns {Point} */
export function inRepeats([a, b], [x, y]) {
  const area = a[0] * b[1] - a[1] * b[0];
  return [(x * b[1] - y * b[0]) / area, (a[0] * y - a[1] * x) / area];
}

/** @param {Point[]} points @returns {{middle: Point, radius: number}} a circle round all of them. */
export function circleRound(points) {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  /** @type {Point} */
  const middle = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
  return { middle, radius: Math.max(...points.map(([x, y]) => Math.hypot(x - middle[0], y - middle[1]))) };
}

/**
 * Draws a pattern over a floor and so much round it that it still covers the floor moved by half a repeat any way.
 *
 * @param {Cell} cell
 * @param {Position} at
 * @param {Point[]} floor mm.
 * @param {boolean} anyAngle whether it must cover the floor turned too.
 * @returns {Drawing}
 */
export function drawing(cell, at, floor, anyAngle) {
  const { middle, radius } = circleRound(floor);
  const own = (/** @type {Point} */ [x, y]) => turned(-at.angle, [x - at.x, y - at.y]);
  const [centre, points] = [own(middle), floor.map(own)];
  const [a, b] = cell.repeat;
  const reach = (Math.hypot(...a) + Math.hypot(...b)) / 2;
  const box = anyAngle
    ? around([centre], radius + reach)
    : around(points, reach);
  const corners = [[box[0], box[1]], [box[2], box[1]], [box[2], box[3]], [box[0], box[3]]].map((corner) =>
    inRepeats(cell.repeat, /** @type {Point} */ (corner)),
  );
  const size = cell.pieces.map((piece) => around(piece, 0));
  let path = "";
  const [firstI, lastI] = range(corners.map(([i]) => i));
  const [firstJ, lastJ] = range(corners.map(([, j]) => j));
  for (let i = firstI; i <= lastI; i++) {
    for (let j = firstJ; j <= lastJ; j++) {
      const [x, y] = [i * a[0] + j * b[0], i * a[1] + j * b[1]];
      cell.pieces.forEach((piece, n) => {
        const [left, low, right, high] = /** @type {number[]} */ (size[n]);
        const there = [x + (left ?? 0), y + (low ?? 0), x + (right ?? 0), y + (high ?? 0)];
        if (anyAngle ? outside(there, centre, radius + reach) : apart(there, box)) return;
        path += pathOf([piece.map(([px, py]) => [tenth(px + x), tenth(py + y)])]);
      });
    }
  }
  return { path, middle: centre };
}

/** @param {number} mm */
const tenth = (mm) => Math.round(mm * 10) / 10;

/** The repeats that the pieces of may reach a stretch: one more to either side. @param {number[]} at @returns {[number, number]} */
const range = (at) => [Math.floor(Math.min(...at)) - 1, Math.ceil(Math.max(...at)) + 1];

/** @param {Point[]} points @param {number} by @returns {[number, number, number, number]} */
function around(points, by) {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return [Math.min(...xs) - by, Math.min(...ys) - by, Math.max(...xs) + by, Math.max(...ys) + by];
}

/** @param {number[]} one @param {number[]} other */
const apart = ([l = 0, b = 0, r = 0, t = 0], [left = 0, bottom = 0, right = 0, top = 0]) =>
  r < left || l > right || t < bottom || b > top;

/** @param {number[]} box @param {Point} centre @param {number} radius */
const outside = ([l = 0, b = 0, r = 0, t = 0], [x, y], radius) =>
  Math.hypot(Math.max(l - x, x - r, 0), Math.max(b - y, y - t, 0)) > radius;

/**
 * Returns the position that looks the same and lies nearest to one whose drawing covers the floor.
 *
 * @param {[Point, Point]} repeat
 * @param {Position} at
 * @param {Point} own the drawing's `middle`.
 * @param {Point} middle of the floor.
 * @returns {Position}
 */
export function nearest(repeat, at, own, middle) {
  const [x, y] = turned(at.angle, own);
  const off = inRepeats(repeat, turned(-at.angle, [middle[0] - at.x - x, middle[1] - at.y - y]));
  const [i, j] = [Math.round(off[0]), Math.round(off[1])];
  const [a, b] = repeat;
  const [right, up] = turned(at.angle, [i * a[0] + j * b[0], i * a[1] + j * b[1]]);
  return { x: at.x + right, y: at.y + up, angle: at.angle };
}

/** @param {Position} at @returns {string} the transform of what is drawn in the pattern's own frame. */
export const transformAt = (at) => `translate(${at.x}px, ${at.y}px) rotate(${at.angle}deg)`;
