// @ts-check
/** Finding an action by its name: the same table as the buttons and keys. */
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { ACTIONS } from "./actions.js";
import { html } from "./html.js";
import { searching } from "./searching.js";

export function Search() {
  const field = useRef(/** @type {HTMLInputElement | null} */ (null));
  const typed = useRef(signal("")).current;
  useEffect(() => field.current?.focus(), []);
  const words = typed.value.toLowerCase().split(/\s+/).filter(Boolean);
  const found = ACTIONS.filter((one) => one.when() && one.id !== "find" && words.every((word) => one.name.toLowerCase().includes(word)));
  /** @param {typeof ACTIONS[number]} one */
  const run = (one) => {
    searching.value = false;
    void one.run();
  };
  return html`<section class="search" role="search" aria-label="Find an action"
    onKeyDown=${(/** @type {KeyboardEvent} */ event) => event.key === "Escape" && (event.stopPropagation(), (searching.value = false))}>
    <form onSubmit=${(/** @type {Event} */ event) => (event.preventDefault(), found[0] && run(found[0]))}>
      <label class="field"><span>What do you want to do?</span>
        <input type="text" ref=${field} value=${typed.value} autocomplete="off"
          onInput=${(/** @type {InputEvent} */ event) => (typed.value = /** @type {HTMLInputElement} */ (event.target).value)} /></label>
    </form>
    <ul>${found.map((one) => html`<li key=${one.id}><button type="button" class="wide" onClick=${() => run(one)}><span>${one.name}</span>${one.key && html`<kbd>${one.key}</kbd>`}</button></li>`)}
      ${found.length === 0 && html`<li class="quiet">Nothing of that name can be done now.</li>`}</ul>
    <button type="button" class="wide" onClick=${() => (searching.value = false)}>Back to the plan</button>
  </section>`;
}
