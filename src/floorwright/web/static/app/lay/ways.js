// @ts-check
/** What else could be done: ways out at a wall, changes of the job, and what more cuts would buy. */
import { html } from "../html.js";
import { cutText } from "./text.js";
import { layout, zone } from "./laid.js";
import { choose } from "./options.js";
import { Section } from "../parts/section.js";

/** @param {any} of */
const costs = (of) => `${cutText(of.narrowest_mm, true)} narrowest, ${of.counts.full} full, ${of.counts.cut} cut`;

export function Ways() {
  const ways = layout.value.ways_out.filter((/** @type {any} */ one) => one.zone === zone.value.name);
  const { changes } = layout.value;
  const found = [...new Set(ways.map((/** @type {any} */ one) => one.found))];
  const { trade_off } = zone.value;
  return html`
    ${found.length > 0 && html`<${Section} title="Ways out" says=${`at ${[...new Set(ways.map((/** @type {any} */ one) => one.wall))].join(", ")}`}>${found.map((what) => html`<p key=${what}>${what}</p><ul class="options">${ways.filter((/** @type {any} */ one) => one.found === what).map((/** @type {any} */ way) => html`<li key=${`${way.how} ${way.option} ${way.by_mm}`}>
      <button type="button" disabled=${Boolean(way.needs)} onClick=${() => choose(way.option, way.how)}>
        <span>${way.how}${way.by_mm ? ` by ${cutText(way.by_mm, true)}` : ""}</span><span class="quiet">${costs(way)}</span>
        ${way.needs && html`<span class="found">Would need ${way.needs}</span>`}${way.note && html`<span class="quiet">${way.note}</span>`}
      </button></li>`)}</ul>`)}</${Section}>`}
    ${changes.length > 0 && html`<${Section} title="Change the job, not the cuts"><ul class="options">${changes.map((/** @type {any} */ change) => html`<li key=${change.aim}>
      <button type="button" disabled=${change.moves.length > 0 || change.border !== null} onClick=${() => choose(change.option, change.aim)}>
        <span>${change.aim}: ${[...change.moves.map((/** @type {any} */ one) => `${one.wall} ${cutText(Math.abs(one.out_mm), true)} ${one.out_mm < 0 ? "in" : "out"}`), change.joint_mm === null ? "" : `joint ${cutText(change.joint_mm, true)}`, change.border === null ? "" : `${change.border.zone} ${cutText(change.border.width_mm, true)} wide`].filter(Boolean).join(", ")}</span>
        <span class="quiet">${costs(change.after)}, instead of ${costs(change.before)}</span></button></li>`)}</ul></${Section}>`}
    ${trade_off.length > 1 && html`<${Section} title="What more cuts buy"><table class="figures"><thead><tr><th scope="col">Cut</th><th scope="col">Narrowest</th></tr></thead>
      <tbody>${trade_off.map((/** @type {any} */ one) => html`<tr key=${one.cut}><th scope="row">${one.cut}</th><td class="number">${cutText(one.narrowest_mm, true)}</td></tr>`)}</tbody></table></${Section}>`}`;
}
