// @ts-check
/** A cut piece as it lies on its tile: factory edges thin, sawn ones thick. */
import { html } from "../html.js";
import { pathOf } from "../plan/view.js";

/** @typedef {import("../types.js").Point} Point */

const SIDE = 56;
const EDGE = 4;

/** @param {{tile: any}} props one of the cut list's `stock`. */
export function CutFigure({ tile }) {
  const rings = /** @type {Point[][]} */ (tile.pieces[0].outline_mm);
  const ends = tile.saw.flatMap((/** @type {any} */ saw) => [saw.start_mm, saw.end_mm]);
  const points = [...rings.flat(), ...ends];
  const [left, right] = [Math.min(...points.map((one) => one[0])), Math.max(...points.map((one) => one[0]))];
  const [bottom, top] = [Math.min(...points.map((one) => one[1])), Math.max(...points.map((one) => one[1]))];
  const scale = (SIDE - 2 * EDGE) / Math.max(right - left, top - bottom, 1);
  const shown = (/** @type {Point} */ [x, y]) => /** @type {Point} */ ([round(EDGE + (x - left) * scale), round(SIDE - EDGE - (y - bottom) * scale)]);
  const line = (/** @type {any} */ saw, /** @type {number} */ n) => {
    const [[x1, y1], [x2, y2]] = [shown(saw.start_mm), shown(saw.end_mm)];
    return html`<line key=${n} class="sawn" x1=${x1} y1=${y1} x2=${x2} y2=${y2} />`;
  };
  return html`<svg class="cut-figure" viewBox=${`0 0 ${SIDE} ${SIDE}`} width=${SIDE} height=${SIDE} aria-hidden="true">
    <path class="kept" d=${pathOf(rings.map((ring) => ring.map(shown)))} />${tile.saw.map(line)}
    ${tile.arcs.map((/** @type {any} */ arc, /** @type {number} */ n) => line(arc, n + 100))}
  </svg>`;
}

/** @param {number} value */
const round = (value) => Math.round(value * 10) / 10;
