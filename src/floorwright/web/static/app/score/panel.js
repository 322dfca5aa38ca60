// @ts-check
/** A scored slab in figures: how much is cut, what lands on its joints, and the form of its pattern, saw and circles. */
import { html } from "../html.js";
import { areaText } from "../lengths.js";
import { Choice, InFile, LengthField, ListField, Tick, ValueField, typedLength } from "../parts/fields.js";
import { Section } from "../parts/section.js";
import { edit, style, words } from "../store.js";
import { say } from "../words.js";
import { inUnits, job } from "../written.js";
import { cutText } from "../lay/text.js";
import { letters, runText, scored } from "./scored.js";

const SAWS = ["grinder", "hand-held saw", "walk-behind saw"];
/** @type {Record<string, string>} */
const WITH = { straight: "line", spoke: "spoke", circle: "circle", arc: "arc", stop: "stop" };

export function ScoredPanel() {
  const found = scored.value;
  if (!found) return null;
  const of = letters();
  return html`<dl class="big-figures">
      <div><dt>To cut</dt><dd>${runText(found.total_mm)}</dd></div>
      <div><dt>Straight lines</dt><dd>${found.order.length}</dd></div>
      <div><dt>There already</dt><dd>${runText(found.there_mm)}</dd></div>
      <div><dt>Saved at circles</dt><dd>${runText(found.off_by_circles_mm)}</dd></div></dl>
    <p class="quiet">Dotted: cut here. Double: a joint that is there, never cut again. The lines are decoration: only the joints control cracks.</p>
    <table class="figures"><caption>By each saw</caption><tbody>${found.saws.map((/** @type {any} */ one) => html`<tr key=${one.cuts}><th scope="row">${one.saw}</th><td class="number">${one.count} ${WITH[one.cuts] ?? one.cuts}${one.count === 1 ? "" : "s"}</td><td class="number">${runText(one.length_mm)}</td></tr>`)}</tbody></table>
    ${found.colours.length > 0 && html`<table class="figures"><caption>Stains</caption><tbody>${found.colours.map((/** @type {any} */ one) => html`<tr key=${one.name}><th scope="row">${of.get(one.name)} ${one.name}</th><td class="number">${areaText(one.area_m2, style.value)}</td></tr>`)}</tbody></table>`}
    <${Landings} search=${found.search} />
    <${ScoringPart} />`;
}

/** The squares and borders that land on every joint, to be taken. @param {{search: any}} props */
function Landings({ search }) {
  if (!search?.landings.length) return null;
  const list = (/** @type {number[]} */ lengths) => lengths.map((one) => cutText(one)).join(", ");
  const taken = (/** @type {any} */ one) => job.value.scoring.length === one.size_mm && one.ends_mm.includes(job.value.scoring.border_ends) && one.sides_mm.includes(job.value.scoring.border_sides);
  const take = (/** @type {any} */ one) => edit(`squares of ${cutText(one.size_mm, true)}`, [
    { path: ["scoring", "length"], value: inUnits(one.size_mm) },
    { path: ["scoring", "border_ends"], value: inUnits(one.equal_mm[0] ?? one.ends_mm[0]) },
    { path: ["scoring", "border_sides"], value: inUnits(one.equal_mm[0] ?? one.sides_mm[0]) }]);
  return html`<table class="figures"><caption>Squares and borders that land on every joint</caption>
    <thead><tr><th scope="col">Squares</th><th scope="col">Border at the ends</th><th scope="col">Along the sides</th><td></td></tr></thead>
    <tbody>${search.landings.map((/** @type {any} */ one) => html`<tr key=${one.size_mm}><th scope="row">${cutText(one.size_mm)}</th><td class="number">${list(one.ends_mm)}</td><td class="number">${list(one.sides_mm)}</td>
      <td>${taken(one) ? "taken" : html`<button type="button" aria-label=${`take squares of ${cutText(one.size_mm, true)}`} onClick=${() => void take(one)}>Take</button>`}</td></tr>`)}</tbody></table>
    <p class="quiet">${search.sizes_tried} squares and ${search.borders_tried} borders were tried, in steps of ${cutText(search.step_mm, true)}: there are no others.</p>`;
}

/** The form of what is scored. */
export function ScoringPart() {
  const own = job.value?.scoring;
  if (!own) return null;
  const drop = (/** @type {number} */ n) => edit(`circle ${n + 1} left out`, [{ do: "drop", path: ["scoring", "circles", n] }]);
  return html`<${Section} title="Pattern and border" says=${[say(own.pattern, words.value), own.length === null ? "" : typedLength(own.length)].filter(Boolean).join(", ")}><div class="fields">
      <${LengthField} label="Length of a cell" path=${["scoring", "length"]} mm=${own.length} />
      <${LengthField} label="Width, if it is another" path=${["scoring", "width"]} mm=${own.width} />
      <${LengthField} label="Border at the ends" path=${["scoring", "border_ends"]} mm=${own.border_ends} />
      <${LengthField} label="Border along the sides" path=${["scoring", "border_sides"]} mm=${own.border_sides} />
      <${ValueField} label="Turned by, degrees" path=${["scoring", "angle"]} value=${own.angle} />
      <${ListField} label="Stains" path=${["scoring", "colours"]} value=${own.colours} hint="set apart by commas" />
      <${ValueField} label="Stain of the border" path=${["scoring", "border_colour"]} value=${own.border_colour} />
      <${ValueField} label="Stain of the circles" path=${["scoring", "circle_colour"]} value=${own.circle_colour} />
    </div><${InFile} says="Other patterns, borders and insets with lines of their own, stencils and the joints of the slab stand" keys=${["scoring.pattern", "scoring.zones", "scoring.stencil", "slab_joints"]} /></${Section}>
    <${Section} title="Saw" says=${own.saw}><div class="fields">
      <${Choice} label="Straight lines with a" choices=${SAWS} value=${own.saw} choose=${(/** @type {string} */ value) => edit(`cut with a ${value}`, [{ path: ["scoring", "saw"], value }])} />
      <${LengthField} label="Blade across" path=${["scoring", "blade"]} mm=${own.blade} />
      <${LengthField} label="Depth of the cut" path=${["scoring", "depth"]} mm=${own.depth} />
      <${LengthField} label="Width of the cut" path=${["scoring", "cut"]} mm=${own.cut} /></div></${Section}>
    <${Section} title="Circles" says=${String(own.circles.length || "none")}>
      ${own.circles.map((/** @type {any} */ circle, /** @type {number} */ n) => html`<div class="row" key=${n}><div class="fields grow">
        <${LengthField} label=${`Circle ${n + 1}, across`} path=${["scoring", "circles", n, "diameter"]} mm=${circle.diameter} />
        <${Tick} label="Left plain inside" on=${circle.plain} change=${(/** @type {boolean} */ on) => edit(on ? "left plain" : "lines run through", [{ path: ["scoring", "circles", n, "plain"], value: on }])} /></div>
        <button type="button" class="at-foot" aria-label=${`Leave it out: circle ${n + 1}`} onClick=${() => void drop(n)}>Leave it out</button></div>`)}
      <button type="button" class="wide" onClick=${() => void edit("one more circle", [{ do: "add", path: ["scoring", "circles"], value: { diameter: inUnits(2 * (own.length ?? scored.value.cell_mm[0])) } }])}>One more circle</button>
      <${InFile} says=${say("A centre off the middle, and rings with spokes, stand", words.value)} keys=${["scoring.circles.centre", "scoring.circles.rings"]} /></${Section}>`;
}
