// @ts-check
/** What a position comes to: the worst piece, full and cut, and the cut at both ends of every wall. */
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { style } from "../store.js";
import { Changed } from "./changed.js";
import { layout, zone } from "./laid.js";
import { figures, held, moving } from "./moving.js";

/** @param {number} mm @param {boolean} [unit] */
export const cutText = (mm, unit = false) => lengthText(mm, style.value, { unit, feet: false });

/** The figures of where the pattern is held, beside those of where it is laid. */
export function Figures() {
  const laid = zone.value;
  if (!laid) return null;
  const walls = layout.value.walls.filter((/** @type {any} */ wall) => wall.zone === laid.name);
  const inHand = moving.value && held.value && figures.value ? figures.value : null;
  const now = inHand ?? laid;
  const was = (/** @type {(of: any) => string} */ text) => (inHand ? text(laid) : null);
  const worst = (/** @type {any} */ of) => cutText(of.narrowest_mm, true);
  const full = (/** @type {any} */ of) => String(of.counts.full);
  const cut = (/** @type {any} */ of) => String(of.counts.cut);
  const under = (/** @type {any} */ of) => String(of.under_limit);
  return html`
    <dl class="big-figures" data-figures=${inHand ? "held" : "laid"}>
      <div><dt>Worst piece</dt><dd data-figure="worst"><${Changed} text=${worst(now)} was=${was(worst)} /></dd></div>
      <div><dt>Full</dt><dd data-figure="full"><${Changed} text=${full(now)} was=${was(full)} /></dd></div>
      <div><dt>Cut</dt><dd data-figure="cut"><${Changed} text=${cut(now)} was=${was(cut)} /></dd></div>
      <div class=${now.under_limit ? "broken" : ""}><dt>Under ${cutText(laid.limit_mm, true)}</dt><dd data-figure="under"><${Changed} text=${under(now)} was=${was(under)} /></dd></div>
    </dl>
    ${inHand?.refused && html`<p class="found">${inHand.refused}</p>`}
    ${(inHand?.walls ?? walls).length > 0 && html`<table class="figures"><caption>Cut at each wall</caption><thead><tr><th scope="col">Wall</th><th scope="col">Start</th><th scope="col">End</th></tr></thead>
      <tbody>${(inHand?.walls ?? walls).map((/** @type {any} */ wall) => {
        const before = inHand ? walls.find((/** @type {any} */ one) => one.name === wall.name) : null;
        return html`<tr key=${wall.name} class=${wall.fits ? "" : "doubt"}><th scope="row">${wall.name}</th>
          <td class="number"><${Changed} text=${cutText(wall.start_mm)} was=${before && cutText(before.start_mm)} /></td>
          <td class="number"><${Changed} text=${cutText(wall.end_mm)} was=${before && cutText(before.end_mm)} /></td></tr>`;
      })}</tbody></table>`}
  `;
}
