// @ts-check
/** Buttons: each action of the table wherever it is wanted, and plain ones. */
import { html } from "../html.js";
import { action } from "../actions.js";

/** @param {{id: string, primary?: boolean, wide?: boolean, text?: string}} props an action of the table. */
export function ActionButton({ id, primary = false, wide = false, text }) {
  const one = action(id);
  return html`<button type="button" class=${`${primary ? "primary" : ""} ${wide ? "wide" : ""}`} disabled=${!one.when()} onClick=${() => one.run()}
    title=${one.key ? `${one.name} (${one.key})` : one.name} aria-keyshortcuts=${one.key?.replace("Ctrl", "Control") ?? null}>
    ${text ?? one.name}
  </button>`;
}
