// @ts-check
/** What stands in the way: the server has ended, the file has gone, or somebody else changed the same value. */
import { html } from "./html.js";
import { clash, file, gone, keepMine, lookAgain, lost, putBack, closeJob, saved, takeTheirs, trouble } from "./store.js";

export function Banners() {
  if (lost.value) return html`<${Lost} />`;
  if (gone.value) return html`<${Gone} />`;
  if (clash.value) return html`<${Clash} />`;
  if (!trouble.value) return null;
  return html`<div class="trouble" role="alert"><p>${trouble.value.message}</p><button type="button" onClick=${() => (trouble.value = null)}>All right</button></div>`;
}

function Lost() {
  return html`<div class="trouble" role="alert">
    <p><strong>The server has ended.</strong> ${saved.value ? `Everything up to “${saved.value}” is in the file.` : "Nothing of yours is waiting to be saved."} Start floorwright again where you started it; this screen finds it by itself.</p>
    <button type="button" onClick=${lookAgain}>Try now</button></div>`;
}

function Gone() {
  const name = file.value?.name ?? "";
  return html`<div class="trouble" role="alert">
    <p><strong>The file of ${name} is gone</strong>, renamed or deleted outside this window. This is how it was.</p>
    <button type="button" onClick=${putBack}>Put it back</button><button type="button" onClick=${closeJob}>Leave it</button></div>`;
}

function Clash() {
  const now = clash.value;
  if (!now) return null;
  return html`<div class="trouble clash" role="alert">
    <p><strong>Somebody else changed ${now.where} too.</strong></p>
    <dl class="sides"><div><dt>Before</dt><dd>${now.before}</dd></div><div><dt>Theirs</dt><dd>${now.theirs}</dd></div><div><dt>Yours</dt><dd>${now.mine}</dd></div></dl>
    <button type="button" onClick=${takeTheirs}>Take theirs</button><button type="button" onClick=${keepMine}>Put mine</button></div>`;
}
