// @ts-check
/** Where in a cell there is room to write. */

/** @typedef {import("../types.js").Point} Point */

/** Where a cell is looked at, from its foot to its head: not half way up, where lines of the slab cross. */
const HEIGHTS = [0.42, 0.58, 0.3, 0.7, 0.15, 0.85, 0.04, 0.96];
/** So much more room than anywhere else is worth standing half way up for. */
const MUCH = 1.5;
const WHOLE = 4;

/**
 * The spot with the most room, of a few, and how much is clear round it, both ways.
 *
 * @param {Point[][]} rings outer ring, then holes; a square stands on four points.
 * @returns {{at: Point, room: number}}
 */
export function roomy(rings) {
  const outer = rings[0] ?? [];
  const heights = outer.map((one) => one[1]);
  const [foot, head] = [Math.min(...heights), Math.max(...heights)];
  const shares = rings.length === 1 && outer.length === WHOLE ? [0.5] : HEIGHTS;
  /** @type {{at: Point, room: number}} */
  let best = { at: outer[0] ?? [0, 0], room: 0 };
  for (const y of shares.map((share) => foot + share * (head - foot))) {
    for (const [left, right] of clear(rings, 1, y)) {
      const x = (left + right) / 2;
      const [low, high] = around(clear(rings, 0, x), y);
      // Near the top or the foot of what is clear it is better half way up that.
      const squeezed = Math.min(y - low, high - y) < (right - left) / 4;
      const at = squeezed ? (low + high) / 2 : y;
      const [from, to] = squeezed ? around(clear(rings, 1, at), x) : [left, right];
      const room = 2 * Math.min(x - from, to - x, at - low, high - at);
      if (room > best.room * (squeezed ? MUCH : 1)) best = { at: [x, at], room };
    }
  }
  return best;
}

/** The stretch that a value lies in, that value alone where it lies in none. @param {[number, number][]} stretches @param {number} value @returns {[number, number]} */
const around = (stretches, value) => stretches.find(([from, to]) => from <= value && value <= to) ?? [value, value];

/**
 * The stretches of a straight line that lie within, in their order.
 *
 * @param {Point[][]} rings
 * @param {0 | 1} axis of which the line has one value: 1 for a level line.
 * @param {number} value
 * @returns {[number, number][]}
 */
function clear(rings, axis, value) {
  const other = 1 - axis;
  const met = rings.flatMap((ring) =>
    ring.flatMap((from, n) => {
      const to = /** @type {Point} */ (ring[(n + 1) % ring.length]);
      if (from[axis] > value === to[axis] > value) return [];
      const share = (value - from[axis]) / (to[axis] - from[axis]);
      return [/** @type {number} */ (from[other]) + share * (/** @type {number} */ (to[other]) - /** @type {number} */ (from[other]))];
    }),
  );
  met.sort((a, b) => a - b);
  return met.flatMap((one, n) => (n % 2 ? [/** @type {[number, number]} */ ([met[n - 1], one])] : []));
}
