// @ts-check
/** A number that opens to its sum. */
import { html } from "../html.js";

/** @param {{value: string, says: string}} props */
export function Why({ value, says }) {
  return html`<details class="opens"><summary><strong>${value}</strong><span class="ask">why</span></summary><p>${says}</p></details>`;
}
