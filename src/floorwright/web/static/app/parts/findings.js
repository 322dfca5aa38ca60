// @ts-check
/** What needs an answer: the worst first, each with how to mend it. */
import { html } from "../html.js";

/** @typedef {import("../types.js").Finding} Finding */

const SAID = { error: "Must be mended", warning: "Look at this", note: "Decided" };

/** @param {{findings: Finding[], only?: (finding: Finding) => boolean}} props */
export function Findings({ findings, only = () => true }) {
  const shown = findings.filter(only);
  if (!shown.length) return null;
  return html`<ul class="findings">
    ${shown.map(
      (one) => html`<li class=${one.severity}>
        <p class="what"><strong>${SAID[one.severity]}.</strong> ${one.place}: ${one.found}</p>
        ${one.remedy && html`<p class="mend">${one.remedy}</p>`}
      </li>`,
    )}
  </ul>`;
}
