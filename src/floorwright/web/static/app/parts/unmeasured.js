// @ts-check
/** What stands where a room would be seen or worked on, while there is none. */
import { html } from "../html.js";
import { measured } from "../store.js";

/** @param {{says: string}} props what is to be done first, once the job is read. */
export function Unmeasured({ says }) {
  return html`<p class="empty">${measured.value ? says : "Reading the job."}</p>`;
}
