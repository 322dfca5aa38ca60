// @ts-check
/** What stands where a room would be seen or worked on, while there is none. */
import { html } from "../html.js";
import { measured } from "../store.js";
import { ActionButton } from "./buttons.js";

/** @param {{says: string, onward?: boolean}} props what is to be done first, once the job is read; `onward`: with the way there. */
export function Unmeasured({ says, onward = false }) {
  if (!measured.value) return html`<p class="empty">Reading the job.</p>`;
  return html`<p class="empty">${says}</p>${onward && html`<${ActionButton} id="go-measure" text="Measure the room" primary wide />`}`;
}
