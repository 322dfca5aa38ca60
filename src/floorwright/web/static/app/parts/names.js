// @ts-check
/** What stands beside the walls of a plan: the names of corners, and how long each wall is. */
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { plan, style } from "../store.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../types.js").Corner} Corner */
/** @typedef {{start: string, end: string}} Ends of a wall. */

const OUT_PIXELS = 18;
/** Where a name goes that has another's in its way, as turns from where it belongs. */
const TURNS = [0, 50, -50, 100, -100, 180].map((degrees) => (degrees * Math.PI) / 180);
/** A letter's width and height, with some air. */
const LETTER = /** @type {Point} */ ([10, 17]);
const FIGURE_OUT = 16;
/** A figure takes so much of its wall for each letter, and the names at both ends take some too. */
const FIGURE_LETTER = 9;
const BESIDE_NAMES = 20;

/** @param {{screen: (point: Point) => Point, at?: Corner[], walls?: Ends[]}} props `at`, `walls`: others than the plan's, as of a sketch. */
export function CornerNames({ screen, at = plan.value?.corners ?? [], walls = plan.value?.walls ?? [] }) {
  const places = new Map(at.map((corner) => [corner.name, screen([corner.x_mm, corner.y_mm])]));
  /** @type {Point[]} */
  const taken = [];
  return html`${at.map((corner) => {
    const here = /** @type {Point} */ (places.get(corner.name));
    const out = outward(here, places, corner.name, walls);
    const spots = TURNS.map((turn) => /** @type {Point} */ ([here[0] + OUT_PIXELS * Math.cos(out + turn), here[1] + OUT_PIXELS * Math.sin(out + turn)]));
    const wide = LETTER[0] * Math.max(2, corner.name.length);
    const [x, y] = spots.find((spot) => !taken.some((one) => Math.abs(one[0] - spot[0]) < wide && Math.abs(one[1] - spot[1]) < LETTER[1])) ?? spots[0] ?? here;
    taken.push([x, y]);
    return html`<text key=${corner.name} class="corner" x=${x} y=${y}>${corner.name}</text>`;
  })}`;
}

/**
 * The way out of the room at a corner, along the line that halves its outer angle, as an angle on the screen.
 *
 * @param {Point} here
 * @param {Map<string, Point>} places
 * @param {string} name
 * @param {Ends[]} walls
 */
function outward(here, places, name, walls) {
  const before = places.get(walls.find((wall) => wall.end === name)?.start ?? "");
  const after = places.get(walls.find((wall) => wall.start === name)?.end ?? "");
  if (!before || !after) return -Math.PI / 2;
  const [a, b] = [unit(here, before), unit(after, here)];
  // The room lies left of its walls; on the screen, where y is down, its outside is this way from them.
  return Math.atan2(a[0] + b[0], -(a[1] + b[1]));
}

/** @param {Point} to @param {Point} from @returns {Point} */
function unit(to, from) {
  const [x, y] = [to[0] - from[0], to[1] - from[1]];
  const far = Math.hypot(x, y) || 1;
  return [x / far, y / far];
}

/** @param {{screen: (point: Point) => Point}} props */
export function WallFigures({ screen }) {
  const room = plan.value;
  if (!room) return null;
  const at = new Map(room.corners.map((corner) => [corner.name, /** @type {Point} */ ([corner.x_mm, corner.y_mm])]));
  return html`${room.walls.map((wall) => {
    const [start, end] = [at.get(wall.start), at.get(wall.end)];
    if (!start || !end) return null;
    const [x1, y1] = screen(start);
    const [x2, y2] = screen(end);
    const [x, y] = screen(wall.middle_mm);
    const length = Math.hypot(x2 - x1, y2 - y1);
    const text = lengthText(wall.length_mm, style.value);
    if (length < FIGURE_LETTER * text.length + BESIDE_NAMES) return null;
    // The room lies left of its walls, so the outside is to the right: on the screen, where y is down, likewise.
    const [nx, ny] = [-(y2 - y1) / length, (x2 - x1) / length];
    let turn = (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI;
    if (turn > 90 || turn <= -90) turn += 180;
    return html`<text key=${wall.name} class="wall-figure" transform=${`translate(${x + nx * FIGURE_OUT} ${y + ny * FIGURE_OUT}) rotate(${turn})`}>${text}</text>`;
  })}`;
}
