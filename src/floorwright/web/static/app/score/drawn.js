// @ts-check
/** The lines to cut into a slab: dotted where the saw goes, double where a joint is there already. */
import { computed } from "@preact/signals";
import { html } from "../html.js";
import { pathOf } from "../plan/view.js";
import { roomy } from "./roomy.js";
import { letters, scored } from "./scored.js";

/** @typedef {import("../types.js").Point} Point */

/** A letter needs so much room both ways, pixels. */
const LETTER_PIXELS = 20;
/** The lines are named where cells are so wide, pixels. */
const NAMES_PIXELS = 30;
/** How far a name stands before its line, pixels, along and across: those of two lines meet at a corner. */
const [ALONG, ACROSS] = [20, 16];

/** What is written in the cells: the letter of its stain, where, and the room that there is, mm. */
const written = computed(() => {
  const of = letters();
  return (scored.value?.cells ?? []).filter((/** @type {any} */ cell) => cell.colour).map((/** @type {any} */ cell) => ({ letter: of.get(cell.colour), ...roomy(cell.rings_mm) }));
});

/** In floor mm. */
export function ScoredFloor() {
  const found = scored.value;
  if (!found) return null;
  const stains = [...letters().keys()];
  const part = (/** @type {string} */ key, /** @type {any} */ one) => html`<line key=${key} class="score" x1=${one.from_mm[0]} y1=${one.from_mm[1]} x2=${one.to_mm[0]} y2=${one.to_mm[1]} />`;
  return html`<g class="cells">${stains.map((stain, n) => html`<path key=${stain} class=${`kind-${n % 4}`} d=${pathOf(found.cells.filter((/** @type {any} */ cell) => cell.colour === stain).flatMap((/** @type {any} */ cell) => cell.rings_mm))} />`)}</g>
    ${found.joints.map((/** @type {any} */ one) => {
      const ends = { x1: one.from_mm[0], y1: one.from_mm[1], x2: one.to_mm[0], y2: one.to_mm[1] };
      return html`<g key=${one.name}><line class="joint-there" ...${ends} /><line class="joint-gap" ...${ends} /></g>`;
    })}
    ${found.lines.flatMap((/** @type {any} */ line) => line.parts.map((/** @type {any} */ one, /** @type {number} */ n) => one.there ? null : part(`${line.name} ${n}`, one)))}
    ${found.circles.flatMap((/** @type {any} */ one, /** @type {number} */ n) => one.radii_mm.map((/** @type {number} */ radius) => html`<circle key=${`${n} ${radius}`} class="score" cx=${one.centre_mm[0]} cy=${one.centre_mm[1]} r=${radius} />`))}
    ${found.spokes.flatMap((/** @type {any} */ ring) => ring.lines).map((/** @type {any} */ one, /** @type {number} */ n) => part(`spoke ${n}`, one))}
    ${found.arcs.length > 0 && html`<path class="score" d=${found.arcs.flatMap((/** @type {any} */ row) => row.arcs.map((/** @type {any} */ arc) => arcPath(arc, row.radius_mm))).join("")} />`}`;
}

/** An arc of the pattern, y up. @param {{pivot_mm: Point, start_deg: number, sweep_deg: number}} arc @param {number} radius mm */
function arcPath({ pivot_mm: [x, y], start_deg: start, sweep_deg: sweep }, radius) {
  const at = (/** @type {number} */ degrees) => `${x + radius * Math.cos((degrees * Math.PI) / 180)} ${y + radius * Math.sin((degrees * Math.PI) / 180)}`;
  const half = `A${radius} ${radius} 0 0 1 `;
  return `M${at(start)}${half}${at(start + sweep / 2)}${half}${at(start + sweep)}`;
}

/** What is written over it: the letter of each cell's stain, and the name of each line at its start. @param {{screen: (point: Point) => Point, scale: number}} props */
export function ScoredNames({ screen, scale }) {
  const found = scored.value;
  if (!found) return null;
  const wide = Math.min(...found.cell_mm) * scale;
  return html`${written.value.filter((/** @type {any} */ one) => one.room * scale >= LETTER_PIXELS).map((/** @type {any} */ one, /** @type {number} */ n) => {
      const [x, y] = screen(one.at);
      return html`<text key=${n} class="stain" x=${x} y=${y}>${one.letter}</text>`;
    })}
    ${wide >= NAMES_PIXELS && found.lines.filter((/** @type {any} */ line) => line.from_mm).map((/** @type {any} */ line) => {
      const [x, y] = screen(line.from_mm);
      const [fx, fy] = screen(line.to_mm);
      const far = Math.hypot(fx - x, fy - y) || 1;
      return html`<text key=${line.name} class="mark-name" x=${x - ((fx - x) / far) * ALONG} y=${y - ((fy - y) / far) * ACROSS}>${line.name}</text>`;
    })}`;
}
