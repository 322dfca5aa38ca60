// @ts-check
/** A floor with nothing to lay on it yet: the first goods, their joint and the gap at the walls, by the keypad. */
import { useEffect } from "preact/hooks";
import { html } from "../html.js";
import { close, form, open } from "../measure/booking.js";
import { BookingForm } from "../measure/fields.js";

export function FirstGoods() {
  useEffect(() => {
    open("first-goods");
    return () => void close();
  }, []);
  if (form.value?.kind.id === "first-goods") return html`<${BookingForm} />`;
  return html`<div class="panel-part"><p class="empty">Nothing is laid yet.</p>
    <button type="button" class="primary wide" onClick=${() => open("first-goods")}>Say what is laid</button></div>`;
}
