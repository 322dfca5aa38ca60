// @ts-check
/** The working grid: whether there is to be one, and how big a box of it may be. */
import { html } from "../html.js";
import { FOOT_MM } from "../lengths.js";
import { Choice, LengthField, put, ValueField } from "../parts/fields.js";
import { Section } from "../parts/section.js";
import { job } from "../written.js";

const MM2_PER_M2 = 1e6;

const GRID = ["setout", "grid"];
const WANTED = /** @type {Record<string, boolean>} */ ({ yes: true, no: false });
const SAYS = /** @type {Record<string, string>} */ ({ yes: "always", no: "none" });

export function GridForm() {
  const grid = job.value?.setout?.grid;
  if (!grid || !job.value.zones.length) return null;
  const imperial = ["in", "ft"].includes(job.value?.units ?? "");
  const skins = grid.skins === null ? null : Number((grid.skins / (imperial ? FOOT_MM ** 2 : MM2_PER_M2)).toFixed(3));
  const asked = Object.keys(WANTED).find((one) => WANTED[one] === grid.wanted) ?? "";
  return html`<${Section} title="Working grid" says=${asked ? SAYS[asked] : "from three boxes"}>
    <p class="quiet">Boxes that you set one at a time, each within reach and before the mortar skins. Its lines stand under Steps.</p>
    <div class="fields">
      <${Choice} label="A grid" choices=${["", ...Object.keys(WANTED)]} value=${asked} says=${(/** @type {string} */ one) => SAYS[one] ?? one} none="from three boxes"
        choose=${(/** @type {string} */ one) => put(one ? `working grid: ${SAYS[one]}` : "working grid from three boxes", [...GRID, "wanted"], WANTED[one] ?? null)} />
      <${LengthField} label="A box is no wider than" path=${[...GRID, "reach"]} mm=${grid.reach} hint="what you reach from one place" />
      <${ValueField} label="Set before the mortar skins" path=${[...GRID, "skins"]} value=${skins} unit=${imperial ? "sq ft" : "m²"} hint="your own figure" />
      <${LengthField} label="First pass along a wall" path=${[...GRID, "first_pass"]} mm=${grid.first_pass} hint="no line of the grid under it" />
    </div></${Section}>`;
}
