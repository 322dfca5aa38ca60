// @ts-check
/** What a position comes to: the worst piece, full and cut, and the cut at both ends of every wall. */
import { html } from "../html.js";
import { plan } from "../store.js";
import { Changed } from "./changed.js";
import { layout, zone } from "./laid.js";
import { away, figures } from "./moving.js";
import { cutText } from "./text.js";
import { Asked, FloorSum, WallSums, asked } from "./why.js";

/** The figures of the position in hand, or null while the pattern lies as it is laid. */
const inHand = () => (away.value ? figures.value : null);

/** The figures of where the pattern is held, beside those of where it is laid. */
export function Figures() {
  const laid = zone.value;
  const hand = inHand();
  const now = hand ?? laid;
  const figure = (/** @type {string} */ name, /** @type {string} */ says, /** @type {(of: any) => string} */ text) => {
    const shown = html`<${Changed} text=${text(now)} was=${hand && text(laid)} />`;
    return html`<dd data-figure=${name}>${hand ? shown : html`<${Asked} of=${name} says=${`why ${says} is ${text(now)}`}>${shown}</${Asked}>`}</dd>`;
  };
  return html`
    <dl class="big-figures" data-figures=${hand ? "held" : "laid"}>
      <div><dt>Worst piece</dt>${figure("worst", "the worst piece", (of) => cutText(of.narrowest_mm, true))}</div>
      <div><dt>Full</dt>${figure("full", "the count of full tiles", (of) => String(of.counts.full))}</div>
      <div class=${now.under_limit ? "broken" : ""}><dt>Under ${cutText(laid.limit_mm, true)}</dt>${figure("under", "the count of small pieces", (of) => String(of.under_limit))}</div>
      <div><dt>Cut</dt>${figure("cut", "the count of cuts", (of) => String(of.counts.cut))}</div>
    </dl>
    ${!hand && html`<${FloorSum} laid=${laid} />`}
    ${hand?.refused && html`<p class="found">${hand.refused}</p>`}`;
}

/** The corners that a wall runs between, where it is whole. @param {{wall: string}} props */
function Between({ wall }) {
  const found = plan.value?.walls.find((one) => one.name === wall);
  return found ? html` <small class="quiet">${found.start} to ${found.end}</small>` : null;
}

/** The cut at both ends of every wall. */
export function WallCuts() {
  const laid = layout.value.walls.filter((/** @type {any} */ wall) => wall.zone === zone.value.name);
  const hand = inHand()?.walls;
  const now = hand ?? laid;
  if (!now.length) return null;
  const before = (/** @type {any} */ wall) => hand && laid.find((/** @type {any} */ one) => one.name === wall.name);
  const cell = (/** @type {any} */ wall, /** @type {"start_mm" | "end_mm"} */ end) => {
    const shown = html`<${Changed} text=${cutText(wall[end])} was=${before(wall) ? cutText(before(wall)[end]) : null} />`;
    return html`<td class="number">${hand ? shown : html`<${Asked} of=${wall.name} says=${`why the cut at ${wall.name} is ${cutText(wall[end])}`}>${shown}</${Asked}>`}</td>`;
  };
  return html`<table class="figures"><caption>Cut at each wall</caption><thead><tr><th scope="col">Wall</th><th scope="col">At its start</th><th scope="col">At its end</th></tr></thead>
    <tbody>${now.map((/** @type {any} */ wall) => html`<tr key=${wall.name} class=${wall.fits ? "" : "doubt"}><th scope="row">${wall.name}<${Between} wall=${wall.name} /></th>${cell(wall, "start_mm")}${cell(wall, "end_mm")}</tr>
      ${!hand && asked.value === wall.name && html`<tr key=${`${wall.name} why`} class="because"><td colspan="3"><${WallSums} wall=${wall.name} /></td></tr>`}`)}</tbody></table>`;
}
