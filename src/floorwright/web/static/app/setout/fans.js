// @ts-check
/** How far out each line may be, drawn so much larger than life that it can be seen. */
import { signal } from "@preact/signals";
import { html } from "../html.js";
import { pathOf } from "../plan/view.js";
import { known } from "../store.js";

/** @typedef {import("../types.js").Point} Point */

export const showFans = signal(false);
/** The widest fan is drawn about this share of its own length to either side. */
const SHARE = 0.12;

const lines = () => /** @type {any[]} */ (known.value?.control?.lines ?? []);
const far = (/** @type {any} */ line) => line.drift.map((/** @type {any} */ one) => one.sd_mm / Math.max(1, one.at_mm));

/** A round number of times that they are drawn larger. */
export function fanScale() {
  const widest = Math.max(...lines().flatMap(far), 0);
  if (!widest) return 1;
  const wanted = SHARE / widest;
  const ten = 10 ** Math.floor(Math.log10(wanted));
  return [5, 2, 1].map((one) => one * ten).find((one) => one <= wanted) ?? ten;
}

/** In floor mm: from the centre to the wall, one standard deviation either side. */
export function Fans() {
  const control = known.value?.control;
  if (!control) return null;
  const scale = fanScale();
  const centre = /** @type {Point} */ ([control.centre.x_mm, control.centre.y_mm]);
  return html`${lines().flatMap((line) => line.marks.map((/** @type {any} */ mark) => html`<path key=${`${line.name} ${mark.name}`} class="fan" d=${pathOf([fan(centre, [mark.x_mm, mark.y_mm], line, scale)])} />`))}`;
}

/** @param {Point} centre @param {Point} end @param {any} line @param {number} scale @returns {Point[]} */
function fan(centre, end, line, scale) {
  const [x, y] = [end[0] - centre[0], end[1] - centre[1]];
  const length = Math.hypot(x, y) || 1;
  const there = line.drift.reduce((/** @type {any} */ best, /** @type {any} */ one) => (Math.abs(one.at_mm - length) < Math.abs(best.at_mm - length) ? one : best), line.drift[0]);
  const half = ((there?.sd_mm ?? 0) * scale) / length;
  return [centre, [end[0] - y * half, end[1] + x * half], [end[0] + y * half, end[1] - x * half]];
}
