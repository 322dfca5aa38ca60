// @ts-check
/** The goods as they are measured. */
import { html } from "../html.js";
import { edit } from "../store.js";
import { Choice, LengthField, ValueField } from "../parts/fields.js";
import { placeOf, table, zone } from "./laid.js";
import { Section } from "../parts/section.js";
import { job, without, written } from "../written.js";

/** How a length comes to be known: from one tile, or from a row of them laid dry. */
const MEASURED = ["one tile", "a row of tiles"];

export function GoodsPart() {
  const own = table.value;
  const n = placeOf(zone.value);
  const g = (written.value.goods ?? []).findIndex((/** @type {any} */ one) => one.name === own?.goods);
  const goods = (job.value?.goods ?? []).find((/** @type {any} */ one) => one.name === own?.goods);
  if (!own || !goods || n < 0 || g < 0) return null;
  const names = job.value.goods.map((/** @type {any} */ one) => one.name);
  const by = goods.group ? MEASURED[1] : MEASURED[0];
  return html`<${Section} title="Goods" says=${own.goods}><div class="fields">
    ${names.length > 1 && html`<${Choice} label="Laid with" choices=${names} value=${own.goods} choose=${(/** @type {string} */ value) => edit(`laid with ${value}`, [{ path: ["zones", n, "goods"], value }])} />`}
    <${Choice} label="Length from" choices=${MEASURED} value=${by} choose=${(/** @type {string} */ value) => void byRow(g, goods, own, value === MEASURED[1])} />
    ${goods.group
      ? html`<${ValueField} label="Tiles in the row" path=${["goods", g, "group", "tiles"]} value=${goods.group.tiles} />
        <${ValueField} label="Joints in the row" path=${["goods", g, "group", "joints"]} value=${goods.group.joints} />
        <${LengthField} label="Spacer in each joint" path=${["goods", g, "group", "joint"]} mm=${goods.group.joint} />
        <${LengthField} label="The whole row reads" path=${["goods", g, "group", "reads"]} mm=${goods.group.reads} />`
      : html`<${LengthField} label="Length" path=${["goods", g, "length"]} mm=${goods.length} />`}
    <${LengthField} label="Width" path=${["goods", g, "width"]} mm=${goods.width} />
    <${LengthField} label="Thickness" path=${["goods", g, "thickness"]} mm=${goods.thickness} />
    <${ValueField} label="Pieces in a box" path=${["goods", g, "box"]} value=${goods.box} />
  </div></${Section}>`;
}

/**
 * Takes the length from a row of tiles, or from one.
 *
 * @param {number} g where the goods stand.
 * @param {any} goods
 * @param {any} own the zone.
 * @param {boolean} row
 */
function byRow(g, goods, own, row) {
  if (!row) return edit("length from one tile", [...without([["goods", g, "group"]]), ...(goods.length === null ? [{ path: ["goods", g, "length"], value: `${goods.group.reads / goods.group.tiles}mm` }] : [])]);
  const tiles = 10;
  // To start from: what the row would read if every tile were as long as it is said to be.
  const reads = tiles * goods.length + (tiles - 1) * own.joint;
  return edit("length from a row of tiles", [{ path: ["goods", g, "group"], value: { tiles, joints: tiles - 1, joint: `${own.joint}mm`, reads: `${reads}mm` } }]);
}
