// @ts-check
/** The form of a border, of an inset, and of edges that may move: what is dragged on the plan, by figures. */
import { html } from "../html.js";
import { Choice, InFile, LengthField, Several, ValueField } from "../parts/fields.js";
import { Section } from "../parts/section.js";
import { edit, known, words } from "../store.js";
import { say } from "../words.js";
import { inUnits, job, without } from "../written.js";
import { cutText } from "./text.js";
import { placeOf, table, zone } from "./laid.js";

const LAID = ["stretchers", "soldiers"];
const SHAPES = ["rectangle", "round", "octagon", "hexagon"];
const CORNERS = ["mitred", "butted", "woven"];
const TAPERS = ["border", "field"];

const wallNames = () => /** @type {string[]} */ ((known.value?.plan?.walls ?? []).map((/** @type {any} */ one) => one.name));

/** The border or the inset that is shown. */
export function ShapePart() {
  const own = table.value;
  const n = placeOf(zone.value);
  if (!own || n < 0) return null;
  if (own.kind === "border") return html`<${Border} own=${own} n=${n} />`;
  return own.kind === "inset" ? html`<${Inset} own=${own} n=${n} />` : null;
}

/** @param {{own: any, n: number}} props */
function Border({ own, n }) {
  const walls = own.walls.length ? own.walls : wallNames();
  const put = (/** @type {string} */ key) => (/** @type {string} */ value) => edit(`${key} ${value}`, [{ path: ["zones", n, key], value }]);
  return html`<${Section} title="Border" says=${own.width === null && own.width_least === null ? `${own.rows} ${own.rows === 1 ? "row" : "rows"}` : own.width === null ? "of free width" : cutText(own.width, true)} open>
    <p class="quiet">Drag its inside edge on the plan, or say how wide.</p>
    <div class="fields">
      <${ValueField} label="Rows" path=${["zones", n, "rows"]} value=${own.rows} />
      <${LengthField} label="Width" path=${["zones", n, "width"]} mm=${own.width} />
      <${LengthField} label="Free from" path=${["zones", n, "width_least"]} mm=${own.width_least} />
      <${LengthField} label="to" path=${["zones", n, "width_most"]} mm=${own.width_most} />
      <${Choice} label="Laid as" choices=${LAID} value=${own.lay} choose=${(/** @type {string} */ value) => edit(`border of ${value}`, [{ path: ["zones", n, "lay"], value }])} />
      <${Choice} label="Corners" choices=${CORNERS} value=${own.corners} choose=${put("corners")} says=${(/** @type {string} */ one) => say(one, words.value)} />
      <${Choice} label="The taper goes to the" choices=${TAPERS} value=${own.taper} choose=${put("taper")} />
    </div>
    <${Several} label="Along" names=${wallNames()} chosen=${walls} change=${(/** @type {string[]} */ chosen) =>
      edit(`border along ${chosen.join(", ")}`, chosen.length && chosen.length < wallNames().length ? [{ path: ["zones", n, "walls"], value: chosen }] : without([["zones", n, "walls"]]))} />
    ${own.corners === "butted" && html`<${Several} label="Running through" names=${walls} chosen=${own.through} change=${(/** @type {string[]} */ chosen) =>
      edit(`running through: ${chosen.join(", ") || "the longer ones"}`, chosen.length ? [{ path: ["zones", n, "through"], value: chosen }] : without([["zones", n, "through"]]))} />`}</${Section}>`;
}

/** @param {{own: any, n: number}} props */
function Inset({ own, n }) {
  if (own.outline.length) return html`<${Section} title="Inset" says=${own.name}><p class="quiet">Drag its corners on the plan.</p><${InFile} says="Its corners stand" keys=${["zones.outline"]} /></${Section}>`;
  const doors = ["", ...(job.value.control.north === null ? [] : ["north"]), ...(known.value?.plan?.openings ?? []).map((/** @type {any} */ one) => one.name)];
  return html`<${Section} title="Inset" says=${own.name} open><p class="quiet">Drag its middle and its sides on the plan, or say how large.</p><div class="fields">
    <${Choice} label="Shape" choices=${SHAPES} value=${own.shape} choose=${(/** @type {string} */ value) => edit(`${own.name}: ${value}`, [{ path: ["zones", n, "shape"], value }, ...(value === "rectangle" ? [] : without([["zones", n, "width"]]))])} />
    <${LengthField} label=${own.shape === "rectangle" ? "Length" : "Across, side to side"} path=${["zones", n, "length"]} mm=${own.length} />
    ${own.shape === "rectangle" && html`<${LengthField} label="Width" path=${["zones", n, "width"]} mm=${own.width} />`}
    <${ValueField} label="Turned by, degrees" path=${["zones", n, "turn"]} value=${own.turn} />
    <${Choice} label="Facing" choices=${doors} value=${own.facing ?? ""} choose=${(/** @type {string} */ value) => edit(value ? `facing ${value}` : "facing no door", value ? [{ path: ["zones", n, "facing"], value }] : without([["zones", n, "facing"]]))} />
  </div></${Section}>`;
}

/** Walls that nobody has to meet: the floor may stop short of them, or run past. */
export function FreePart() {
  const free = /** @type {any[]} */ (job.value?.free ?? []);
  const left = wallNames().filter((name) => !free.some((one) => one.wall === name));
  if (!wallNames().length) return null;
  return html`<${Section} title="Edges that may move" says=${free.map((one) => one.wall).join(", ") || "none"}>
    <p class="quiet">An edge that is not built yet, such as a patio's: how far it may go out or in for the sake of the cuts.</p>
    ${free.map((one, k) => html`<div class="row" key=${one.wall}><div class="fields grow">
      <${LengthField} label=${`${one.wall} out by up to`} path=${["free", k, "out"]} mm=${one.out} />
      <${LengthField} label=${`${one.wall} in by up to`} path=${["free", k, "in"]} mm=${one.in} /></div>
      <button type="button" class="at-foot" aria-label=${`It stays: ${one.wall}`} onClick=${() => void edit(`${one.wall} stays`, [{ do: "drop", path: ["free", k] }])}>It stays</button></div>`)}
    ${left.length > 0 && html`<${Choice} label="One more edge" none="choose one" choices=${["", ...left]} value="" choose=${(/** @type {string} */ wall) => wall && edit(`${wall} may move`, [{ do: "add", path: ["free"], value: { wall, out: inUnits(100), in: inUnits(100) } }])} />`}</${Section}>`;
}
