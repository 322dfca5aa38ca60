// @ts-check
/** The form of what is being booked: one field open at a time, filled by the keypad, by a touch on the plan or by name. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { html } from "../html.js";
import { Keypad } from "../parts/keypad.js";
import { style } from "../store.js";
import { asWritten, bookForm, close, fill, form, room } from "./booking.js";

/** @typedef {import("./kinds.js").Field} Field */
/** @typedef {import("./kinds.js").Values} Values */

export function BookingForm() {
  const now = form.value;
  const top = useRef(/** @type {HTMLElement | null} */ (null));
  const id = now?.kind.id;
  useLayoutEffect(() => top.current?.scrollIntoView({ block: "start" }), [id]);
  if (!now) return null;
  const { kind, values, active } = now;
  const fields = kind.fields.filter((field) => field.when?.(values) ?? true);
  const ready = fields.every((field) => field.optional || values[field.key] !== undefined);
  return html`<section class="booking" ref=${top} aria-labelledby="booking-title">
    <h2 id="booking-title">${kind.name}</h2>
    ${kind.hint && html`<p class="quiet">${kind.hint}</p>`}
    <ol class="booking-fields">
      ${fields.map(
        (field) => html`<li key=${field.key} class=${field.key === active ? "open" : ""}>
          <button type="button" class="field-name" aria-expanded=${field.key === active}
            onClick=${() => (form.value = { ...now, active: field.key === active ? "" : field.key })}>
            <span>${field.label}</span><strong>${shown(field, values)}</strong>
          </button>
          ${field.key === active && html`<div class="field-open">
            ${field.hint && html`<p class="quiet">${field.hint}</p>`}
            <${Control} key=${field.key} field=${field} values=${values} />
          </div>`}
        </li>`,
      )}
    </ol>
    <div class="row">
      <button type="button" class="primary" disabled=${!ready} onClick=${bookForm}>${now.at === null ? "Book it" : "Change it"}</button>
      <button type="button" onClick=${close}>Leave it</button>
    </div>
  </section>`;
}

/** @param {Field} field @param {Values} values */
function shown(field, values) {
  const value = values[field.key];
  if (value === undefined) return field.optional ? "if need be" : "";
  return field.choices?.find(([one]) => one === value)?.[1] ?? String(value);
}

/** @param {{field: Field, values: Values}} props */
function Control({ field, values }) {
  if (field.kind === "length") return html`<${Keypad} label=${field.label} style=${style.value} button="Next" focus=${true} enter=${(/** @type {string} */ typed) => fill(field.key, asWritten(typed))} />`;
  if (field.kind === "degrees") return html`<${Keypad} label=${field.label} style=${style.value} unit="°" button="Next" focus=${true} enter=${(/** @type {string} */ typed) => fill(field.key, Number(typed))} />`;
  if (field.kind === "count") return html`<${Keypad} label=${field.label} style=${style.value} unit="" button="Next" focus=${true} enter=${(/** @type {string} */ typed) => fill(field.key, Number(typed))} />`;
  if (field.kind === "text") return html`<${Words} field=${field} start=${String(values[field.key] ?? "")} />`;
  if (field.kind === "choice") return html`<${Chips} field=${field} chosen=${values[field.key]} choices=${field.choices ?? []} />`;
  if (field.kind === "wall") return html`<${Chips} field=${field} chosen=${values[field.key]} choices=${(room.value?.walls ?? []).map((wall) => [wall.name, wall.name])} />`;
  const wall = room.value?.walls.find((one) => one.name === values["wall"]);
  const ends = field.of === "ends" && wall ? [wall.start, wall.end] : null;
  const points = ends ?? (field.fresh ? [...(room.value?.at.keys() ?? [])] : (room.value?.corners ?? []));
  return html`<${Chips} field=${field} chosen=${values[field.key]} choices=${points.map((name) => [name, name])} />
    ${field.fresh && html`<${Words} field=${{ ...field, label: "Or a point called" }} start="" />`}`;
}

/** @param {{field: Field, chosen: unknown, choices: [string, string][]}} props */
function Chips({ field, chosen, choices }) {
  return html`<div class="chips" role="group" aria-label=${field.label}>
    ${choices.map(([value, says]) => html`<button type="button" key=${value} aria-pressed=${chosen === value} onClick=${() => fill(field.key, value)}>${says}</button>`)}
  </div>`;
}

/** @param {{field: Field, start: string}} props */
function Words({ field, start }) {
  const [typed, setTyped] = useState(start);
  return html`<form class="row" onSubmit=${(/** @type {Event} */ event) => (event.preventDefault(), typed.trim() && fill(field.key, typed.trim()))}>
    <label class="field grow"><span>${field.label}</span>
      <input type="text" maxlength="60" autocomplete="off" value=${typed} onInput=${(/** @type {InputEvent} */ event) => setTyped(/** @type {HTMLInputElement} */ (event.target).value)} /></label>
    <button type="submit" class="at-foot">Next</button>
  </form>`;
}
