// @ts-check
/** What stands beside the walls of a plan: the names of corners, and how long each wall is. */
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { plan, style } from "../store.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../types.js").Corner} Corner */

const OUT_PIXELS = 18;

/** @param {{screen: (point: Point) => Point, at?: Corner[]}} props `at`: other corners than the plan's, as of a sketch. */
export function CornerNames({ screen, at = plan.value?.corners ?? [] }) {
  const places = at.map((corner) => screen([corner.x_mm, corner.y_mm]));
  return html`${at.map((corner, n) => {
    const [x, y] = outside(places, n);
    return html`<text key=${corner.name} class="corner" x=${x} y=${y}>${corner.name}</text>`;
  })}`;
}

/** Beside a corner, on the side away from the room: along the line that halves its outer angle. @param {Point[]} places @param {number} n @returns {Point} */
function outside(places, n) {
  const [here, before, after] = [places[n], places[(n + places.length - 1) % places.length], places[(n + 1) % places.length]];
  if (!here || !before || !after) return [0, 0];
  const [a, b] = [unit(here, before), unit(after, here)];
  // The room lies left of its walls; on the screen, where y is down, its outside is this way from them.
  const [nx, ny] = [-(a[1] + b[1]), a[0] + b[0]];
  const far = Math.hypot(nx, ny) || 1;
  return [here[0] + (nx / far) * OUT_PIXELS, here[1] + (ny / far) * OUT_PIXELS];
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
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length < 60) return null;
    // The room lies left of its walls, so the outside is to the right: on the screen, where y is down, likewise.
    const [nx, ny] = [-(y2 - y1) / length, (x2 - x1) / length];
    let turn = (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI;
    if (turn > 90 || turn <= -90) turn += 180;
    return html`<text key=${wall.name} class="wall-figure" transform=${`translate(${(x1 + x2) / 2 + nx * 16} ${(y1 + y2) / 2 + ny * 16}) rotate(${turn})`}>${lengthText(wall.length_mm, style.value)}</text>`;
  })}`;
}
