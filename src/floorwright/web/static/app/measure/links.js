// @ts-check
/** Several rooms in one job: where the floor runs through from one to the other, and where it breaks. */
import { html } from "../html.js";
import { Choice, InFile, LengthField } from "../parts/fields.js";
import { edit, words } from "../store.js";
import { say } from "../words.js";
import { job } from "../written.js";

const FLOORS = ["runs through", "breaks"];

export function Links() {
  const rooms = /** @type {any[]} */ (job.value?.rooms ?? []);
  const links = /** @type {any[]} */ (job.value?.links ?? []);
  if (!rooms.length) return null;
  return html`<section class="panel-part" aria-labelledby="rooms-title"><h3 id="rooms-title">Rooms that open into each other</h3>
    ${links.map((link, n) => html`<div key=${n}><${Choice} label=${`From ${link.rooms.join(" to ")} the floor`} choices=${FLOORS} value=${link.floor}
        choose=${(/** @type {string} */ value) => edit(`the floor ${value}`, [{ path: ["links", n, "floor"], value }])} />
      ${link.floor === "breaks" && html`<div class="fields">
        <${LengthField} label="It breaks so far into the opening" path=${["links", n, "at"]} mm=${link.at} />
        <${LengthField} label=${say("Width of the strip or door bar", words.value)} path=${["links", n, "strip"]} mm=${link.strip} /></div>`}</div>`)}
    <${InFile} says="Another room, and what it opens into, stand" keys=${["rooms", "links"]} /></section>`;
}
