// @ts-check
/** The positions to choose from, best first: what each costs, what lines up, what decides. */
import { html } from "../html.js";
import { edit, words } from "../store.js";
import { say } from "../words.js";
import { cutText } from "./text.js";
import { Section } from "../parts/section.js";
import { layout, placeOf, zone } from "./laid.js";
import { without } from "../written.js";

/**
 * Lays an option, by its name; the first of all by naming none.
 *
 * @param {string} name
 * @param {string} says
 */
export function choose(name, says) {
  const n = placeOf(zone.value);
  if (n < 0) return;
  const zones = /** @type {(string | number)[]} */ (["zones", n]);
  const put = name ? [{ path: [...zones, "option"], value: name }] : without([[...zones, "option"]]);
  const edits = [...put, ...without([[...zones, "at"], ...(zone.value.kind === "field" ? [["aims", "option"]] : [])])];
  if (edits.length) void edit(says, edits);
}

/** So many are shown at first, and the one that is laid. */
const SHOWN = 4;

export function Options() {
  const of = zone.value;
  const options = layout.value.options.filter((/** @type {any} */ one) => one.zone === of.name);
  if (options.length < 2 || of.kind === "border") return null;
  const first = options.filter((/** @type {any} */ one, /** @type {number} */ n) => n < SHOWN || one.chosen);
  const rest = options.filter((/** @type {any} */ one) => !first.includes(one));
  const row = (/** @type {any} */ option) => html`<${Position} key=${option.name} option=${option} first=${option === options[0]} />`;
  return html`<h2>Positions, best first</h2>
    <ol class="options">${first.map(row)}</ol>
    ${rest.length > 0 && html`<${Section} title=${`${rest.length} more positions`}><ol class="options">${rest.map(row)}</ol></${Section}>`}`;
}

/** So much of what lines up is said of a position that is not laid. */
const LINED_UP = 2;

/** @param {any} option */
function linedUp({ chosen, lines_up }) {
  const shown = chosen ? lines_up : lines_up.slice(0, LINED_UP);
  const more = lines_up.length - shown.length;
  return `${shown.join("; ")}${more ? `; ${more} more in line` : ""}`;
}

/** @param {{option: any, first: boolean}} props a position with what it costs, what lines up and what decides. */
function Position({ option, first }) {
  return html`<li><button type="button" aria-pressed=${option.chosen} disabled=${Boolean(option.refused)}
    onClick=${() => option.chosen || choose(first ? "" : option.name, option.name)}>
    <span>${say(option.name, words.value)}</span>
    ${option.refused
      ? html`<span class="quiet">${option.refused}</span>`
      : html`<span class="quiet">${cutText(option.narrowest_mm, true)} narrowest, ${option.counts.full} full, ${option.counts.cut} cut${option.under_limit ? `, ${option.under_limit} under the limit` : ""}</span>
        ${option.lines_up.length > 0 && html`<span class="quiet">${linedUp(option)}</span>`}
        ${option.decides.length > 0 && html`<span class="quiet">Decided in ${option.decides.join(" and ")}</span>`}
        ${option.fragile && html`<span class="found">Fragile: set out a little wrong, its worst piece is ${cutText(option.shaken_mm, true)}</span>`}`}
  </button></li>`;
}
