// @ts-check
/** The joint and how far it may be opened or closed, the gap at the walls, and how the pattern is turned. */
import { html } from "../html.js";
import { Choice, LengthField, ListField, ValueField, typedLength } from "../parts/fields.js";
import { Section } from "../parts/section.js";
import { edit, known, words } from "../store.js";
import { say } from "../words.js";
import { placeOf, table, zone } from "./laid.js";

const ABOUT = ["first line", "long wall", "mean of walls"];

/** @param {number | null} mm */
const text = (mm) => (mm === null ? "" : typedLength(mm));

export function JointPart() {
  const own = table.value;
  const n = placeOf(zone.value);
  if (!own || n < 0) return null;
  const us = (/** @type {string} */ text) => say(text, words.value);
  const range = own.joint_least === null && own.joint_most === null ? text(own.joint) : `${text(own.joint_least ?? own.joint)} to ${text(own.joint_most ?? own.joint)}`;
  const rings = own.kind === "rings";
  return html`<${Section} title=${us("Joint and gap")} says=${`${range}; ${text(own.gap)}`}><div class="fields">
    <${LengthField} label=${us("Joint")} path=${["zones", n, "joint"]} mm=${own.joint} />
    <${LengthField} label="May be closed to" path=${["zones", n, "joint_least"]} mm=${own.joint_least} />
    <${LengthField} label="May be opened to" path=${["zones", n, "joint_most"]} mm=${own.joint_most} />
    ${!rings && html`<${LengthField} label="In steps of" path=${["zones", n, "joint_step"]} mm=${own.joint_step} />`}
    <${LengthField} label=${us("Gap at the walls")} path=${["zones", n, "gap"]} mm=${own.gap} />
    <${LengthField} label=${us("Gap at most")} path=${["zones", n, "gap_most"]} mm=${own.gap_most} />
    <${LengthField} label="Joint to the next part" path=${["zones", n, "joint_beside"]} mm=${own.joint_beside} />
  </div></${Section}>`;
}

/** How the pattern of a field is turned: one angle, a few, or every one between two. */
export function TurnPart() {
  const own = table.value;
  const n = placeOf(zone.value);
  if (own?.kind !== "field" || zone.value.kind !== "field" || n < 0) return null;
  const walls = (known.value?.plan?.walls ?? []).map((/** @type {any} */ one) => one.name);
  const between = own.angle_from !== null || own.angle_to !== null;
  const says = own.angles.length ? `${own.angles.join("°, ")}° tried` : between ? `${own.angle_from ?? 0}° to ${own.angle_to ?? 0}° tried` : `${own.angle}°`;
  return html`<${Section} title="Turned" says=${says}>
    <p class="quiet">Degrees from the first line, anticlockwise. Where several are given each is tried, and the best is laid.</p>
    <div class="fields">
      <${ValueField} label="Turned by" path=${["zones", n, "angle"]} value=${own.angle} />
      <${ListField} label="Or try these" path=${["zones", n, "angles"]} value=${own.angles} hint="degrees, set apart by commas" />
      <${ValueField} label="Or all from" path=${["zones", n, "angle_from"]} value=${own.angle_from} />
      <${ValueField} label="to" path=${["zones", n, "angle_to"]} value=${own.angle_to} />
      <${Choice} label="Counted from the" choices=${ABOUT} value=${own.angle_about} choose=${(/** @type {string} */ value) => edit(`turned from the ${value}`, [{ path: ["zones", n, "angle_about"], value }])} />
      ${own.angle_about === "mean of walls" && [0, 1].map((end) => html`<${Choice} key=${end} label=${end ? "and wall" : "Mean of wall"} choices=${walls} value=${own.angle_walls?.[end] ?? ""}
        choose=${(/** @type {string} */ value) => edit(`turned by wall ${value}`, [{ path: ["zones", n, "angle_walls"], value: end ? [own.angle_walls?.[0] ?? walls[0], value] : [value, own.angle_walls?.[1] ?? walls[1]] }])} />`)}
    </div></${Section}>`;
}
