// @ts-check
/** Pieces as the server cut them: a full tile's outline once with the places where it lies, and each cut one. */
import { html } from "../html.js";
import { pathOf } from "./view.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {{outline_mm: Point[], at_mm: Point[]}} Shape a full tile, and where it lies. */
/** @typedef {{full: Shape[], cut: {outline_mm: Point[], under: boolean}[]}} Drawn */

/** @param {{drawn: Drawn}} props */
export function Pieces({ drawn }) {
  const full = drawn.full.flatMap(({ outline_mm, at_mm }) => at_mm.map(([right, up]) => outline_mm.map(([x, y]) => /** @type {Point} */ ([x + right, y + up]))));
  const cut = (/** @type {boolean} */ under) => pathOf(drawn.cut.filter((one) => one.under === under).map((one) => one.outline_mm));
  return html`<g class="pieces" data-pieces="exact"><path class="full" d=${pathOf(full)} /><path class="cut" d=${cut(false)} /><path class="under" d=${cut(true)} /></g>`;
}
