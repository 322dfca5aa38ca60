// @ts-check
/**
 * Where what is dragged snaps to: what lies within reach draws it there, a spot before a line, two lines to where they
 * cross; and what is turned, to what it may be true to. All in floor mm; the reach is so many pixels.
 */

/** @typedef {import("../types.js").Point} Point */
/** @typedef {{words: string, at: Point}} Spot a point that matters. */
/** @typedef {{words: string, through: Point, direction: Point}} Line a line that matters; the direction has length 1. */
/** @typedef {{words: string, direction: Point, at_mm: number, pitch_mm: number}} Catch lines side by side, the direction across them: see the server's `catches`. */
/** @typedef {{at: Point, words: string[]}} Snapped where it goes, and all that lies there. */

/** Pixels from which a thing draws. */
export const REACH = 10;
/** Pixels that no eye tells apart. */
const ALIKE = 1;
/** What is this near reads the same on a tape, mm. */
const THERE = 0.25;
/** The sine of the angle under which two lines cross nowhere in particular. */
const PARALLEL = 0.02;
/** Degrees from which a direction draws. */
const TURN_REACH = 1.5;

/** @param {Point} from @param {Point} to @returns {Point} the direction, of length 1. */
export function directionTo(from, to) {
  const [x, y] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(x, y) || 1;
  return [x / length, y / length];
}

/** @param {Point} direction @returns {Point} a quarter anticlockwise. */
export const square = ([x, y]) => [-y, x];

/** How far a point lies left of a line, mm. @param {Line} line @param {Point} point */
export const leftOf = ({ through, direction }, point) =>
  direction[0] * (point[1] - through[1]) - direction[1] * (point[0] - through[0]);

/** @param {Line} line @param {Point} point @returns {Point} the nearest point of the line. */
export function foot(line, point) {
  const off = leftOf(line, point);
  return [point[0] + off * line.direction[1], point[1] - off * line.direction[0]];
}

/** @param {Line} one @param {Line} other */
const sineOf = (one, other) => one.direction[0] * other.direction[1] - one.direction[1] * other.direction[0];

/** @param {Line} one @param {Line} other @returns {Point | null} */
export function crossing(one, other) {
  const sine = sineOf(one, other);
  if (Math.abs(sine) < PARALLEL) return null;
  const run = leftOf(other, one.through) / sine;
  return [one.through[0] + run * one.direction[0], one.through[1] + run * one.direction[1]];
}

/** @param {Point} a @param {Point} b */
export const apart = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/**
 * @param {Spot[]} spots
 * @param {Line[]} lines
 * @param {Point} point
 * @param {number} reach mm.
 * @param {number} [alike] mm: of lines that run no farther apart than this the first is met, not the nearest.
 * @returns {Snapped}
 */
export function snapped(spots, lines, point, reach, alike = 0) {
  const spot = nearest(spots, (one) => apart(one.at, point), reach)[0];
  if (spot) return { at: spot.at, words: wordsAt(spots, lines, spot.at) };
  const off = (/** @type {Line} */ one) => Math.abs(leftOf(one, point));
  const [line] = nearest(lines, off, reach);
  if (!line) return { at: point, words: [] };
  const first = lines.find((one) => off(one) <= off(line) + alike && Math.abs(sineOf(one, line)) < PARALLEL) ?? line;
  for (const other of nearest(lines, off, reach)) {
    const at = crossing(first, other);
    if (at && apart(at, point) <= 2 * reach) return { at, words: wordsAt(spots, lines, at) };
  }
  const at = foot(first, point);
  return { at, words: wordsAt(spots, lines, at) };
}

/** Of lines side by side the one nearest to a point. @param {Catch} one @param {Point} point @returns {Line} */
export function lineNear({ words, direction: [x, y], at_mm, pitch_mm }, point) {
  const off = at_mm - (point[0] * x + point[1] * y);
  const left = off - Math.round(off / pitch_mm) * pitch_mm;
  return { words, through: [point[0] + left * x, point[1] + left * y], direction: [-y, x] };
}

/**
 * Snaps a pattern by its origin, to lines that come again with each tile.
 *
 * @param {Catch[]} catches the ones that matter more first.
 * @param {Point} origin
 * @param {number} reach mm.
 * @returns {Snapped}
 */
export function snappedPattern(catches, origin, reach) {
  const lines = catches.map((one) => lineNear(one, origin));
  const { at, words } = snapped([], lines, origin, reach, (ALIKE * reach) / REACH);
  // Farther on it may be the next of those side by side that lies there.
  return { at, words: words.length ? linedUp(catches, at) : [] };
}

/** All that a pattern lines up with. @param {Catch[]} catches @param {Point} origin @returns {string[]} */
export const linedUp = (catches, origin) => wordsAt([], catches.map((one) => lineNear(one, origin)), origin);

/**
 * Snaps what is turned.
 *
 * @param {{words: string, angle: number}[]} lines what it may be true to, degrees.
 * @param {number} angle
 * @returns {{angle: number, words: string[]}}
 */
export function snappedTurn(lines, angle) {
  const turns = lines.flatMap(({ words, angle: line }) =>
    [0, 45, 90, 135].map((turn) => ({ angle: line + turn, words: `${turn % 90 ? "diagonal to" : "true to"} ${words}` })),
  );
  const off = (/** @type {number} */ to) => to - angle - Math.round((to - angle) / 180) * 180;
  const best = nearest(turns, (one) => Math.abs(off(one.angle)), TURN_REACH)[0];
  if (!best) return { angle: Math.round(angle * 10) / 10, words: [] };
  return { angle: angle + off(best.angle), words: [best.words] };
}

/**
 * Snaps a point that may only run along a line.
 *
 * @param {Line} rail
 * @param {Spot[]} spots
 * @param {Line[]} lines
 * @param {Point} point
 * @param {number} reach mm.
 * @returns {Snapped}
 */
export function snappedAlong(rail, spots, lines, point, reach) {
  const on = foot(rail, point);
  const crossings = lines.flatMap((line) => {
    const at = crossing(rail, line);
    return at ? [{ words: line.words, at }] : [];
  });
  const there = spots.filter((one) => Math.abs(leftOf(rail, one.at)) <= THERE);
  const found = nearest([...there, ...crossings], (one) => apart(one.at, on), reach)[0];
  const at = found ? found.at : on;
  return { at, words: found ? wordsAt(there, [], at, crossings) : [] };
}

/**
 * Snaps a line that is moved sideways.
 *
 * @param {Line} line where it is dragged to.
 * @param {Spot[]} spots
 * @param {number} reach mm.
 * @returns {Snapped} a point that it goes through.
 */
export function snappedThrough(line, spots, reach) {
  const found = nearest(spots, (one) => Math.abs(leftOf(line, one.at)), reach)[0];
  if (!found) return { at: line.through, words: [] };
  const off = leftOf(line, found.at);
  /** @type {Point} */
  const at = [line.through[0] - off * line.direction[1], line.through[1] + off * line.direction[0]];
  const moved = { ...line, through: at };
  return { at, words: unique(spots.filter((one) => Math.abs(leftOf(moved, one.at)) <= THERE)) };
}

/**
 * The next thing ahead, for those who snap by keys.
 *
 * @param {Spot[]} spots
 * @param {Line[]} lines
 * @param {Point} point
 * @param {Point} ahead a direction of length 1.
 * @returns {Snapped | null}
 */
export function nextAhead(spots, lines, point, ahead) {
  const run = (/** @type {Point} */ at) => (at[0] - point[0]) * ahead[0] + (at[1] - point[1]) * ahead[1];
  const course = { words: "", through: point, direction: ahead };
  const places = [...lines.map((line) => crossing(course, line)), ...spots.map((one) => foot(course, one.at))]
    .filter((at) => at !== null)
    .filter((at) => run(at) > THERE)
    .sort((a, b) => run(a) - run(b));
  const at = places[0];
  if (!at) return null;
  const there = wordsAt(spots, lines, at);
  const level = spots.filter((one) => apart(foot(course, one.at), at) <= THERE);
  return { at, words: there.length ? there : unique(level).map((words) => `level with ${words}`) };
}

/**
 * @template T
 * @param {T[]} things
 * @param {(one: T) => number} far
 * @param {number} reach
 * @returns {T[]} those within reach, the nearest first.
 */
function nearest(things, far, reach) {
  return things
    .map((one) => ({ one, off: far(one) }))
    .filter(({ off }) => off <= reach)
    .sort((a, b) => a.off - b.off)
    .map(({ one }) => one);
}

/** @param {{words: string}[]} things */
const unique = (things) => [...new Set(things.map((one) => one.words))];

/** @param {Spot[]} spots @param {Line[]} lines @param {Point} at @param {Spot[]} [more] */
const wordsAt = (spots, lines, at, more = []) =>
  unique([
    ...[...spots, ...more].filter((one) => apart(one.at, at) <= THERE),
    ...lines.filter((one) => Math.abs(leftOf(one, at)) <= THERE),
  ]);
