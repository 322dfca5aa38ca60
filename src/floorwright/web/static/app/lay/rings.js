// @ts-check
/** Rings: what they come to from the inside out, and the form of each. */
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { Choice, InFile, LengthField, ValueField } from "../parts/fields.js";
import { Section } from "../parts/section.js";
import { edit, style, words } from "../store.js";
import { say } from "../words.js";
import { job, without } from "../written.js";
import { cutText } from "./text.js";
import { placeOf, table, zone } from "./laid.js";

const LAID = ["along the ring", "out from the centre"];
const TAPERED = ["where needed", "never", "always"];

/** Joints of a ring are told to a tenth: their taper is what is looked at. @param {number} mm */
const fine = (mm) => lengthText(mm, { ...style.value, step: style.value.system === "metric" ? 0.1 : 1 / 32 }, { feet: false });

/** What every ring comes to. */
export function RingFigures() {
  const found = zone.value?.rings;
  if (!found) return null;
  const pieces = found.rings.reduce((/** @type {number} */ sum, /** @type {any} */ one) => sum + one.pieces, 0);
  const sawn = found.rings.filter((/** @type {any} */ one) => one.tapered);
  return html`<dl class="big-figures">
      <div><dt>Rings</dt><dd>${found.rings.length}</dd></div><div><dt>Pieces</dt><dd>${pieces}</dd></div>
      <div><dt>${found.sweep_deg < 360 ? "They go round" : "Across, outside"}</dt><dd>${found.sweep_deg < 360 ? `${Math.round(found.sweep_deg * 10) / 10}°` : cutText(2 * found.reach_mm, true)}</dd></div>
      <div class=${sawn.length ? "broken" : ""}><dt>Rings to saw tapered</dt><dd>${sawn.length}</dd></div></dl>
    <table class="figures"><caption>From the inside out</caption>
      <thead><tr><th scope="col">Ring</th><th scope="col">Pieces</th><th scope="col">${say("Inside, from the centre", words.value)}</th><th scope="col">Joint, inside to outside</th></tr></thead>
      <tbody>${found.rings.map((/** @type {any} */ one) => html`<tr key=${one.name}><th scope="row">${one.name}</th><td class="number">${one.pieces}</td>
        <td class="number">${cutText(one.inside_mm)}</td><td class="number">${fine(one.joint_inside_mm)} to ${fine(one.joint_outside_mm)}</td></tr>`)}</tbody></table>
    ${sawn.length > 0 && html`<table class="figures"><caption>Pieces to saw tapered</caption>
      <thead><tr><th scope="col">Ring</th><th scope="col">Wide inside</th><th scope="col">Wide outside</th><th scope="col">Deep</th></tr></thead>
      <tbody>${sawn.map((/** @type {any} */ one) => html`<tr key=${one.name}><th scope="row">${one.name}</th><td class="number">${cutText(one.wide_inside_mm)}</td>
        <td class="number">${cutText(one.wide_outside_mm)}</td><td class="number">${cutText(one.depth_mm)}</td></tr>`)}</tbody></table>
      <p class="quiet">Without sawing, their joints would leave the range that is allowed.</p>`}`;
}

/** The form of a zone of rings. */
export function RingsPart() {
  const own = table.value;
  const n = placeOf(zone.value);
  if (own?.kind !== "rings" || n < 0) return null;
  const goods = job.value.goods.map((/** @type {any} */ one) => one.name);
  const drop = (/** @type {number} */ k) => edit(`ring ${k + 1} left out`, [{ do: "drop", path: ["zones", n, "rings", k] }]);
  return html`<${Section} title="Rings" says=${`${own.rings.length} ${own.rings.length === 1 ? "kind" : "kinds"}`} open>
    ${own.rings.map((/** @type {any} */ ring, /** @type {number} */ k) => html`<fieldset class="panel-part" key=${k}><legend>${k ? "Then" : "From the inside out"}</legend><div class="fields">
      <${Choice} label="Goods" none=${own.goods} choices=${["", ...goods]} value=${ring.goods ?? ""} choose=${(/** @type {string} */ value) => edit(`ring ${k + 1}: ${value || own.goods}`, value ? [{ path: ["zones", n, "rings", k, "goods"], value }] : without([["zones", n, "rings", k, "goods"]]))} />
      <${ValueField} label="So many rings" path=${["zones", n, "rings", k, "times"]} value=${ring.times} />
      <${ValueField} label="Pieces in each" path=${["zones", n, "rings", k, "pieces"]} value=${ring.pieces} />
      <${Choice} label="Laid" choices=${LAID} value=${ring.lay} choose=${(/** @type {string} */ value) => edit(`ring ${k + 1} laid ${value}`, [{ path: ["zones", n, "rings", k, "lay"], value }])} />
      <${Choice} label="Sawn tapered" choices=${TAPERED} value=${ring.taper} choose=${(/** @type {string} */ value) => edit(`ring ${k + 1} tapered ${value}`, [{ path: ["zones", n, "rings", k, "taper"], value }])} />
      ${own.rings.length > 1 && html`<button type="button" class="at-foot" aria-label=${`Leave it out: ring ${k + 1}`} onClick=${() => void drop(k)}>Leave it out</button>`}
    </div></fieldset>`)}
    <button type="button" class="wide" onClick=${() => void edit("one more ring", [{ do: "add", path: ["zones", n, "rings"], value: {} }])}>One more ring outside</button>
    ${own.along_wall === null && html`<p class="quiet">Drag their middle on the plan.</p><div class="fields"><${Choice} label="Stone in the middle" none="none" choices=${["", ...goods]} value=${own.stone ?? ""}
      choose=${(/** @type {string} */ value) => edit(value ? `${value} in the middle` : "no stone in the middle", value ? [{ path: ["zones", n, "stone"], value }, ...without([["zones", n, "inside"]])] : without([["zones", n, "stone"]]))} />
      ${own.stone === null && html`<${LengthField} label="Inside radius" path=${["zones", n, "inside"]} mm=${own.inside} />`}
      <${ValueField} label="Degrees round" path=${["zones", n, "sweep"]} value=${own.sweep} />
      <${ValueField} label="Joints in line, spokes" path=${["zones", n, "spokes"]} value=${own.spokes} /></div>
      <${InFile} says="Broken setts stand" keys=${["zones.rings.broken"]} />`}
    ${own.along_wall !== null && html`<p class="quiet">They follow the wall ${own.along_wall}.</p>`}</${Section}>`;
}
