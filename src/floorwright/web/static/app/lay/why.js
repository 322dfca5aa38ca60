// @ts-check
/** Why the figures of a floor are what they are: sums that add up to the room, each behind the figure itself. */
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { html } from "../html.js";
import { words } from "../store.js";
import { capital, say } from "../words.js";
import { job } from "../written.js";
import { cutText } from "./text.js";
import { layout, table } from "./laid.js";
import { touched } from "./piece.js";

/** The figure that is open: a wall and its end, or what is counted. */
export const asked = signal("");

/** @param {{of: string, says: string, children?: any}} props a figure that opens to its sum; `says` what it is of. */
export function Asked({ of, says, children }) {
  const open = asked.value === of;
  return html`<button type="button" class="why" aria-expanded=${open} aria-label=${says} onClick=${() => (asked.value = open ? "" : of)}>${children}</button>`;
}

/** @typedef {{kind: string, figure: string, count: number}} Part */
/** @typedef {{name: string, between: [string, string], parts: Part[], total: string}} Course */

const KINDS = /** @type {Record<string, string>} */ ({ gap: "gap", cut: "cut", tile: "full tile", joint: "joint" });

/** @param {Part[]} parts `2 × 5 gap + 290.5 cut`. */
const sumText = (parts) =>
  parts.map(({ kind, figure, count }) => `${count > 1 ? `${count} × ` : ""}${figure} ${kind === "joint" ? "joint" : say(KINDS[kind] ?? kind, words.value)}`).join(" + ");

/** The sums of the first and the last course that end at a wall. @param {string} wall @returns {Course[]} */
const sumsAt = (wall) => layout.value?.sums.find((/** @type {any} */ one) => one.wall === wall)?.courses ?? [];

/** @param {{wall: string}} props */
export function WallSums({ wall }) {
  const courses = sumsAt(wall);
  const shown = useRef(/** @type {HTMLElement | null} */ (null));
  // Where it opens under the edge of the panel nobody would see that it has.
  useEffect(() => shown.current?.scrollIntoView({ block: "nearest" }), []);
  return html`<div ref=${shown}>${courses.length ? html`<${Sums} courses=${courses} />` : html`<p>Measured from the wall's line to the nearest joint, along the pattern, at the very corner. Courses of this pattern do not run straight from wall to wall, so that there is no sum to add up.</p>`}</div>`;
}

/** @param {{courses: Course[]}} props */
function Sums({ courses }) {
  return html`${courses.map((one) => html`<p key=${one.name}><strong>${capital(one.name)}</strong>, ${one.between[0]} to ${one.between[1]}: ${sumText(one.parts)} = <strong>${one.total}</strong></p>`)}
    <p class="quiet">Added up along the middle of each course; the figures of the wall are at its very ends.</p>`;
}

/** The sum of a figure of the whole floor. @param {{laid: any}} props */
export function FloorSum({ laid }) {
  const { full, cut } = laid.counts;
  const least = table.value?.least_piece ?? job.value?.aims.least_piece;
  const share = { half: "half", third: "a third", fifth: "a fifth" }[String(least)];
  if (asked.value === "worst") {
    return html`<p class="because">The narrowest of all ${full + cut} pieces of this part, measured square to its longest side. Set out as truly as your tools allow it may come to ${cutText(laid.shaken_mm, true)}.
      <button type="button" class="why" onClick=${() => (touched.value = laid.narrowest_piece)}>Show which</button></p>`;
  }
  if (asked.value === "under") return html`<p class="because">${share ? `Your limit is ${share} of a tile, ${cutText(laid.limit_mm, true)}.` : `Your limit is ${cutText(laid.limit_mm, true)}.`} ${laid.under_limit ? `So many pieces are narrower.` : "No piece is narrower."} It is set under Aims.</p>`;
  if (asked.value === "full") return html`<p class="because">${full} pieces that no wall or edge touches. With ${cut} to cut, one tile each, that is ${full + cut} to lay.</p>`;
  if (asked.value === "cut") return html`<p class="because">${cut} pieces that a wall or an edge crosses: each is cut from one tile. What can be cut from off-cuts is not counted here.</p>`;
  return null;
}
