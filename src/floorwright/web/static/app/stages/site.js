// @ts-check
/** Taking it to site: one file for the phone, that needs no server and no network. */
import { html } from "../html.js";
import { jobAddress } from "../api.js";
import { file } from "../store.js";

export function SiteStage() {
  const name = file.value?.name ?? "";
  return html`
    <h2>Save for the phone</h2>
    <p>One file with the plan, the setting-out steps, the check readings and the cut list. It opens from a message or a
      cable, with no signal.</p>
    <a class="button primary" href=${jobAddress(name, "/files/site.html")} download>Save for the phone</a>
  `;
}
