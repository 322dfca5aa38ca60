// @ts-check
/** The room to draw and to touch: as adjusted, or as a sketch while the readings do not fix it. */

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../types.js").Measured} Measured */
/** @typedef {{name: string, start: string, end: string, arc: boolean, middle_mm: Point | null}} Side a wall, from corner to corner. */
/**
 * @typedef {object} Room
 * @property {boolean} fixed whether the readings fix it.
 * @property {string[]} corners of all rooms, each once.
 * @property {Map<string, Point>} at every point, corners and others, floor mm.
 * @property {Side[]} walls
 */

/** @param {Measured | null} measured @returns {Room | null} null where the file holds no room. */
export function roomOf(measured) {
  const survey = measured?.job?.survey;
  if (!measured || !survey) return null;
  const plan = measured.plan;
  const outlines = [survey.outline, ...(measured.job.rooms ?? []).map((/** @type {any} */ room) => room.outline)];
  const named = new Map(Object.entries(survey.walls ?? {}).map(([name, pair]) => [sorted(String(pair)), name]));
  const drawn = outlines.flatMap((outline) => sidesOf(outline, named));
  const corners = [...new Set([...outlines.flat(), ...(plan?.corners ?? []).map((corner) => corner.name)])];
  /** @type {Map<string, Point>} */
  const at = new Map();
  if (plan) {
    for (const [name, spot] of Object.entries(measured.survey?.points ?? {})) at.set(name, [spot.x_mm, spot.y_mm]);
    for (const corner of plan.corners) at.set(corner.name, [corner.x_mm, corner.y_mm]);
  } else {
    for (const [name, spot] of Object.entries(measured.sketch ?? {})) at.set(name, spot);
  }
  if (!at.size) return null;
  return { fixed: Boolean(plan), corners, at, walls: plan ? plan.walls : drawn };
}

/** @param {string[]} outline @param {Map<string, string>} named @returns {Side[]} */
const sidesOf = (outline, named) =>
  outline.map((start, n) => {
    const end = outline[(n + 1) % outline.length] ?? start;
    const name = named.get(sorted(`${start}-${end}`)) ?? `${start}-${end}`;
    return { name, start, end, arc: false, middle_mm: null };
  });

/** @param {string} pair @returns {string} the same for both ways of saying it. */
export const sorted = (pair) => pair.split("-").sort().join("-");

/**
 * The key that a distance is booked under: as it stands in the file already, whichever way round, else from, to.
 *
 * @param {Record<string, unknown>} booked
 * @param {string} from
 * @param {string} to
 */
export function keyOf(booked, from, to) {
  const back = `${to}-${from}`;
  return back in booked ? back : `${from}-${to}`;
}

/**
 * What a finger touches: a corner or point near by, else a wall.
 *
 * @param {Room} room
 * @param {Point} place
 * @param {number} reach mm.
 * @returns {{point?: string, wall?: string}}
 */
export function touchedAt(room, place, reach) {
  let best = reach;
  /** @type {{point?: string, wall?: string}} */
  let found = {};
  for (const [name, point] of room.at) {
    const far = Math.hypot(point[0] - place[0], point[1] - place[1]);
    if (far < best) [best, found] = [far, { point: name }];
  }
  if (found.point) return found;
  for (const wall of room.walls) {
    const [start, end] = [room.at.get(wall.start), room.at.get(wall.end)];
    if (!start || !end) continue;
    const far = wall.arc && wall.middle_mm ? Math.hypot(wall.middle_mm[0] - place[0], wall.middle_mm[1] - place[1]) : offWall(place, start, end);
    if (far < best) [best, found] = [far, { wall: wall.name }];
  }
  return found;
}

/** @param {Point} place @param {Point} start @param {Point} end */
function offWall(place, start, end) {
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const along = ((place[0] - start[0]) * dx + (place[1] - start[1]) * dy) / (dx * dx + dy * dy || 1);
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(place[0] - start[0] - t * dx, place[1] - start[1] - t * dy);
}
