// @ts-check
/** The lines to cut into a slab, in their order, to tick; what must be known before the saw is started stands first. */
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { style } from "../store.js";
import { done, tick } from "../stages/done.js";
import { runText, scored } from "./scored.js";

export function SawCuts() {
  const found = scored.value;
  if (!found) return null;
  const lines = new Map(found.lines.map((/** @type {any} */ line) => [line.name, line]));
  const room = (/** @type {number} */ mm) => lengthText(mm, style.value, { unit: true });
  const cut = found.order.filter((/** @type {string} */ name) => done.value.has(name)).length;
  return html`<section class="panel-part" aria-labelledby="saw-title"><h2 id="saw-title">Lines to cut</h2>
    ${found.cautions.map((/** @type {string} */ says) => html`<p class="doubtful" key=${says}>${says}</p>`)}
    ${found.circles.map((/** @type {any} */ one, /** @type {number} */ n) => html`<p key=${n}>The circle first, since lines stop at it: <strong>${one.radii_mm.map(room).join(", then ")}</strong> from its pivot to the middle of the blade, ${runText(one.length_mm)} round.</p>`)}
    ${found.spokes.map((/** @type {any} */ ring) => html`<p key=${`${ring.circle} ${ring.ring}`}>Ring ${ring.ring}: ${ring.lines.length} spokes, <strong>${room(ring.chord_mm)}</strong> from one to the next on its outer circle.</p>`)}
    <p class="counts" role="status"><strong>${cut}</strong> of <strong>${found.order.length}</strong> lines cut</p>
    <ul class="cuts">${found.order.map((/** @type {string} */ name) => {
      const line = lines.get(name);
      return html`<li key=${name} class=${done.value.has(name) ? "done" : ""}><label class="tick"><input type="checkbox" checked=${done.value.has(name)} onChange=${(/** @type {Event} */ event) => tick(name, /** @type {HTMLInputElement} */ (event.target).checked)} /><strong>${name}</strong></label>
        <div class="grow"><span class="size">${room(line.running_mm)}</span> <span class="quiet">from corner ${found.nail}${line.what === "border" ? ", border" : ""}</span>
          <span class="quiet marks">${runText(line.length_mm)} to cut${line.stops.length ? `; stops at ${[...new Set(line.stops.map((/** @type {any} */ stop) => stop.on))].join(", ")}` : ""}</span></div></li>`;
    })}</ul>
    ${found.arcs.length > 0 && html`<h3>Arcs, row by row</h3><ul class="cuts">${found.arcs.map((/** @type {any} */ row) => {
      const name = `arcs ${row.row}`;
      return html`<li key=${name} class=${done.value.has(name) ? "done" : ""}><label class="tick"><input type="checkbox" checked=${done.value.has(name)} onChange=${(/** @type {Event} */ event) => tick(name, /** @type {HTMLInputElement} */ (event.target).checked)} /><strong>Row ${row.row}</strong></label>
        <div class="grow"><span class="size">${room(row.running_mm)}</span> <span class="quiet">from corner ${found.nail}, first pivot at ${room(row.along_mm[0])}</span>
          <span class="quiet marks">${row.along_mm.length} ${row.along_mm.length === 1 ? "pivot" : "pivots"}, arm ${room(row.radius_mm)}</span></div></li>`;
    })}</ul>`}</section>`;
}
