// @ts-check
/** What the layout aims for, in order, what each aim is held to, and the least that is good enough. */
import { html } from "../html.js";
import { edit, known } from "../store.js";
import { Choice, Field, Several, Tick, ValueField, asLength, asTyped, put, typedLength, unitShown } from "../parts/fields.js";
import { cutText } from "./text.js";
import { placeOf, table, zone } from "./laid.js";
import { Section } from "../parts/section.js";
import { job, without, written } from "../written.js";

/** @typedef {Record<string, any>} Aim as it is written. */

const LEAST = ["half", "third", "fifth"];
const OWN_LENGTH = "a length of your own";

const LIMITED = ["no piece under", "fewest small pieces", "least small edge"];
const AT_WALLS = ["widest worst piece", ...LIMITED];
const COUNTED = ["fewest small pieces", "fewest cuts", "fewest tiles"];
const ON_LINE = ["joint on line", "tile on line"];
/** Aims that are nothing without naming walls, and how many they name. @type {Record<string, number>} */
const NAMING = { "balanced cuts": 2, "full tile": 1 };
const AIMS = ["no piece under", "widest worst piece", "fewest small pieces", "least small edge", "fewest cuts", "fewest tiles", "balanced cuts", "full tile", ...ON_LINE, "least taper", "no thin trim", "firm", "joint as asked", "lined up"];

/** What an aim can be held to, as the server's check of them has it. @param {string} aim */
const held = (aim) => ({
  under: LIMITED.includes(aim),
  count: COUNTED.includes(aim),
  within: ["widest worst piece", "least small edge", "balanced cuts", "full tile", ...ON_LINE, "least taper"].includes(aim),
  walls: [...AT_WALLS, ...Object.keys(NAMING), "least taper"].includes(aim),
  visible: [...AT_WALLS, "least taper"].includes(aim),
  on: ON_LINE.includes(aim),
});

/** The aims as they are written, or as they are without any. @returns {Aim[]} */
const ordered = () =>
  written.value.aims?.order?.length ? written.value.aims.order : zone.value.aims.map((/** @type {any} */ one) => ({ aim: one.aim }));

const writtenZone = () => written.value.zones?.[placeOf(zone.value)];

/** @param {string} label @param {Aim[]} order */
const putOrder = (label, order) => edit(label, [{ path: ["aims", "order"], value: order }]);

/** @param {number} from @param {number} by */
function move(from, by) {
  const order = [...ordered()];
  const to = from + by;
  if (to < 0 || to >= order.length) return;
  const [one] = order.splice(from, 1);
  if (!one) return;
  order.splice(to, 0, one);
  void putOrder(`${one["aim"]} is aim ${to + 1}`, order);
}

/** Holds an aim to something, or to it no more. @param {number} n @param {string} key @param {unknown} value */
function hold(n, key, value) {
  const nothing = value === "" || value === false || (Array.isArray(value) && !value.length);
  const order = ordered().map((one, k) => {
    if (k !== n) return one;
    const { [key]: _, ...rest } = one;
    return nothing ? rest : { ...rest, [key]: value };
  });
  void putOrder(`${ordered()[n]?.["aim"]}: ${key} ${nothing ? "left out" : value}`, order);
}

const wallNames = () => /** @type {string[]} */ ((known.value?.plan?.walls ?? []).map((/** @type {any} */ one) => one.name));
const lineNames = () => ["first line", "square line", ...(known.value?.plan?.openings ?? []).map((/** @type {any} */ one) => one.name), ...wallNames()];

/** An aim to begin with: one that has to name something names the first there is. @param {string} aim @returns {Aim} */
function begun(aim) {
  if (ON_LINE.includes(aim)) return { aim, on: "first line" };
  return NAMING[aim] ? { aim, walls: wallNames().filter((_, n) => (NAMING[aim] === 1 ? n === 0 : n === 0 || n === 2)) } : { aim };
}

export function AimsPart() {
  const of = zone.value;
  const least = job.value?.aims.least_piece;
  if (!of.aims.length) return null;
  const own = Boolean(written.value.aims?.order?.length);
  const order = ordered();
  return html`<${Section} title="Aims" says=${own ? "your own, the weightiest first" : "ours, the weightiest first"}>
    <p class="quiet">${own ? "Your own." : "Ours; change one and they are yours."} Each leaves only the positions that are as good as the best by it.</p>
    <ol class="aims">${order.map((one, n) => html`<${AimRow} key=${`${n} ${one["aim"]}`} one=${one} n=${n} count=${order.length} reached=${of.aims.find((/** @type {any} */ each) => each.aim === one["aim"])} />`)}</ol>
    <${Choice} label="One more aim" none="choose one" choices=${["", ...AIMS.filter((aim) => NAMING[aim] || ON_LINE.includes(aim) || !order.some((one) => one["aim"] === aim))]} value="" choose=${(/** @type {string} */ aim) => aim && putOrder(`also ${aim}`, [...order, begun(aim)])} />
    ${own && html`<button type="button" onClick=${() => void edit("our own aims again", without([["aims", "order"]]))}>Ours again</button>`}
    <${Choice} label="Least width of a piece" choices=${[...LEAST, OWN_LENGTH]} value=${typeof least === "string" ? least : OWN_LENGTH}
      choose=${(/** @type {string} */ value) => edit(`no piece under ${value}`, [{ path: ["aims", "least_piece"], value: value === OWN_LENGTH ? `${Math.round(of.limit_mm)}mm` : value }])} />
    ${typeof least === "number" && html`<${ValueField} label="Least width" path=${["aims", "least_piece"]} value=${cutText(least)} />`}
    ${table.value && html`<${Field} label="Another in this part" text=${shareText(writtenZone()?.least_piece, table.value.least_piece)} hint="half, third, fifth or a length" enter=${(/** @type {string} */ typed) => put(`least width in this part ${typed || "left out"}`, ["zones", placeOf(zone.value), "least_piece"], typed && asLength(typed))} />`}
    <${Several} label="Walls where a small cut or a taper is seen by nobody" names=${wallNames()} chosen=${job.value?.aims.hidden ?? []} change=${(/** @type {string[]} */ walls) =>
      edit(`seen by nobody: ${walls.join(", ") || "none"}`, walls.length ? [{ path: ["aims", "hidden"], value: walls }] : without([["aims", "hidden"]]))} /></${Section}>`;
}

/** @param {{one: Aim, n: number, count: number, reached: any}} props */
function AimRow({ one, n, count, reached }) {
  const aim = String(one["aim"]);
  const may = held(aim);
  const can = Object.values(may).some(Boolean);
  const read = job.value?.aims.order[n] ?? {};
  return html`<li>
    <div class="aim" tabindex="0" role="group" aria-label=${`Aim ${n + 1}: ${aim}; arrow keys move it`} onKeyDown=${(/** @type {KeyboardEvent} */ event) => key(event, n)}>
      <span><strong>${aim}</strong><span class="quiet"> ${[heldText(one), reached ? reachedText(reached) : ""].filter(Boolean).join("; ")}</span></span>
      <button type="button" aria-label=${`${aim} up`} disabled=${n === 0} onClick=${() => move(n, -1)}>↑</button>
      <button type="button" aria-label=${`${aim} down`} disabled=${n === count - 1} onClick=${() => move(n, 1)}>↓</button>
      <button type="button" aria-label=${`${aim} out`} disabled=${count === 1} onClick=${() => void putOrder(`without ${aim}`, ordered().filter((_, k) => k !== n))}>×</button>
    </div>
    ${can && html`<details class="opens"><summary>Held to<span class="visually-hidden"> of ${aim}</span></summary><div class="fields">
      ${may.under && html`<${Field} label="Small is under" text=${shareText(one["under"], read.under)} hint="half, third, fifth or a length" enter=${(/** @type {string} */ typed) => hold(n, "under", asLength(typed))} />`}
      ${may.count && html`<${Field} label="Good enough at" text=${String(one["at_most"] ?? "")} unit="pieces" enter=${(/** @type {string} */ typed) => hold(n, "at_most", asTyped(typed))} />
        <${Field} label="As good as the fewest within" text=${String(one["within_count"] ?? "")} unit="pieces" enter=${(/** @type {string} */ typed) => hold(n, "within_count", asTyped(typed))} />`}
      ${may.within && html`<${Field} label="As good as the best within" text=${shareText(one["within"], read.within)} unit=${unitShown()} enter=${(/** @type {string} */ typed) => hold(n, "within", asLength(typed))} />`}
      ${may.on && html`<${Choice} label="On" choices=${lineNames()} value=${one["on"] ?? ""} choose=${(/** @type {string} */ line) => hold(n, "on", line)} />`}
      </div>
      ${may.walls && html`<${Several} label=${NAMING[aim] ? "At" : "Only at these walls"} names=${wallNames()} chosen=${one["walls"] ?? []} change=${(/** @type {string[]} */ walls) => hold(n, "walls", walls)} />`}
      ${may.visible && html`<${Tick} label="Only where it is seen" on=${Boolean(one["visible"])} change=${(/** @type {boolean} */ on) => hold(n, "visible", on)} />`}
    </details>`}
  </li>`;
}

/** A limit as a person would type it: a share by its name, a length in the job's unit. @param {unknown} value as written. @param {unknown} mm as read. */
const shareText = (value, mm) => (value === undefined ? "" : typeof mm === "number" ? typedLength(mm) : String(value));

/** What an aim is held to, in a few words. @param {Aim} one */
const heldText = (one) =>
  [
    one["under"] === undefined ? "" : `under ${one["under"]}`,
    one["at_most"] === undefined ? "" : `at most ${one["at_most"]}`,
    one["within"] === undefined ? "" : `within ${one["within"]}`,
    one["within_count"] === undefined ? "" : `within ${one["within_count"]}`,
    one["walls"]?.length ? `at ${one["walls"].join(", ")}` : "",
    one["visible"] ? "where it is seen" : "",
    one["on"] ? `on ${one["on"]}` : "",
  ].filter(Boolean).join(", ");

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
