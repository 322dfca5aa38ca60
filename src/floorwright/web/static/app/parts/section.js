// @ts-check
/** A part of the panel that opens and shuts, its heading saying what is in it. */
import { html } from "../html.js";

/** @param {{title: string, says?: string, open?: boolean, children?: any}} props */
export function Section({ title, says = "", open = false, children }) {
  return html`<details class="section" open=${open}><summary><h2>${title}</h2>${says && html`<span class="quiet">${says}</span>`}</summary>${children}</details>`;
}
