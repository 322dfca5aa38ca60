// @ts-check
/** What the layout aims for, in order, and the least that is good enough. */
import { html } from "../html.js";
import { edit } from "../store.js";
import { Choice, ValueField } from "./fields.js";
import { cutText } from "./figures.js";
import { job, without, written, zone } from "./laid.js";
import { Section } from "./section.js";

const LEAST = ["half", "third", "fifth"];
const OWN_LENGTH = "a length of your own";

/** Every aim that can be asked for without naming a wall or a line. */
const AIMS = ["no piece under", "widest worst piece", "fewest small pieces", "least small edge", "fewest cuts", "fewest tiles", "least taper", "no thin trim", "firm", "joint as asked", "lined up"];

/** The aims as they are written, or as they are without any. @returns {Record<string, unknown>[]} */
const ordered = () =>
  written.value.aims?.order?.length ? written.value.aims.order : zone.value.aims.map((/** @type {any} */ one) => ({ aim: one.aim }));

/** @param {string} label @param {Record<string, unknown>[]} order */
const putOrder = (label, order) => edit(label, [{ path: ["aims", "order"], value: order }]);

/** @param {number} from @param {number} by */
function move(from, by) {
  const order = [...ordered()];
  const to = from + by;
  if (to < 0 || to >= order.length) return;
  const [one] = order.splice(from, 1);
  if (!one) return;
  order.splice(to, 0, one);
  void putOrder(`${one.aim} is aim ${to + 1}`, order);
}

export function AimsPart() {
  const of = zone.value;
  const least = job.value?.aims.least_piece;
  if (!of.aims.length) return null;
  const own = Boolean(written.value.aims?.order?.length);
  const order = ordered();
  return html`<${Section} title="Aims" says=${own ? "your own, the weightiest first" : "ours, the weightiest first"}>
    <p class="quiet">${own ? "Your own." : "Ours; move one and they are yours."}</p>
    <ol class="aims">${order.map((one, n) => {
      const reached = of.aims.find((/** @type {any} */ each) => each.aim === one.aim);
      return html`<li key=${`${n} ${one.aim}`} tabindex="0" aria-label=${`Aim ${n + 1}: ${one.aim}; arrow keys move it`} onKeyDown=${(/** @type {KeyboardEvent} */ event) => key(event, n)}>
        <span><strong>${one.aim}</strong>${reached && html`<span class="quiet"> ${reachedText(reached)}</span>`}</span>
        <button type="button" aria-label=${`${one.aim} up`} disabled=${n === 0} onClick=${() => move(n, -1)}>↑</button>
        <button type="button" aria-label=${`${one.aim} down`} disabled=${n === order.length - 1} onClick=${() => move(n, 1)}>↓</button>
        <button type="button" aria-label=${`${one.aim} out`} disabled=${order.length === 1} onClick=${() => void putOrder(`without ${one.aim}`, order.filter((_, k) => k !== n))}>×</button>
      </li>`;
    })}</ol>
    <${Choice} label="One more aim" choices=${["", ...AIMS.filter((aim) => !order.some((one) => one.aim === aim))]} value="" choose=${(/** @type {string} */ aim) => aim && putOrder(`also ${aim}`, [...order, { aim }])} />
    ${own && html`<button type="button" onClick=${() => void edit("our own aims again", without([["aims", "order"]]))}>Ours again</button>`}
    <${Choice} label="Least width of a piece" choices=${[...LEAST, OWN_LENGTH]} value=${typeof least === "string" ? least : OWN_LENGTH}
      choose=${(/** @type {string} */ value) => edit(`no piece under ${value}`, [{ path: ["aims", "least_piece"], value: value === OWN_LENGTH ? `${Math.round(of.limit_mm)}mm` : value }])} />
    ${typeof least === "number" && html`<${ValueField} label="Least width" path=${["aims", "least_piece"]} value=${cutText(least)} />`}</${Section}>`;
}

/** @param {KeyboardEvent} event @param {number} n */
function key(event, n) {
  const by = /** @type {Record<string, number>} */ ({ ArrowUp: -1, ArrowDown: 1 })[event.key];
  if (!by || event.target !== event.currentTarget) return;
  event.preventDefault();
  move(n, by);
}

/** What the floor makes of an aim, and by how much another position is better by it alone. @param {any} reached */
function reachedText(reached) {
  const figure = /^(fewest|widest|no piece|least)/.test(reached.aim) && reached.reached !== null;
  const text = (/** @type {number} */ value) => (reached.unit === "mm" ? cutText(value, true) : String(Math.round(value)));
  const better = figure && reached.best_option !== null && text(reached.best_option) !== text(reached.reached);
  return [
    figure ? text(reached.reached) : "",
    better ? `${text(reached.best_option)} can be had` : "",
    reached.kept === false ? "not kept" : "",
    reached.decided ? "this one decides" : "",
  ].filter(Boolean).join(", ");
}
