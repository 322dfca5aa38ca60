// @ts-check
/** Taking it to site: one file for the phone, that needs no server and no network. */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Refusal, jobAddress } from "../api.js";
import { html } from "../html.js";
import { Unmeasured } from "../parts/unmeasured.js";
import { file, known, plan, progress, solve } from "../store.js";

/** @typedef {{digest: string, state: "working"} | {digest: string, state: "failed", why: string} | {digest: string, state: "made", copy: File, address: string}} Made */

const KILO = 1000;
/** Of the copy that was asked for last; of another text of the job it counts for nothing. */
const made = signal(/** @type {Made | null} */ (null));

export function SiteStage() {
  useEffect(() => void solve(), [plan.value]);
  const { control, cuts } = known.value ?? {};
  const job = file.value;
  if (!plan.value || !job) return html`<${Unmeasured} says="Measure the room first: there is nothing to take to site yet." onward />`;
  if (!known.value?.layout && progress.value) return html`<p class="empty" role="status">Working the floor out: ${progress.value.what}.</p>`;
  if (!control) return html`<p class="empty">Nothing can be set out yet. Put right what the readings say first.</p>`;
  const pieces = (cuts?.stock ?? []).reduce((/** @type {number} */ sum, /** @type {any} */ tile) => sum + tile.pieces.length, 0);
  const copy = made.value?.digest === job.digest ? made.value : null;
  return html`
    <h2>Site copy</h2>
    <p>One file for the phone. It opens with no signal and no server, and asks nothing of anyone.</p>
    <ul class="site-copy">
      <li>The plan, to pinch and move${pieces ? html`, with ${pieces} cuts to tap` : null}</li>
      <li>The control lines, a step at a time</li>
      <li>${control.checks.length} check readings: type what the tape says, read what it means</li>
      ${control.snap.length ? html`<li>The lines to snap, as running figures from the nail</li>` : null}
      ${pieces ? html`<li>The cut list by wall, to tick</li>` : null}
    </ul>
    ${copy?.state === "made" ? html`<${Ready} copy=${copy.copy} address=${copy.address} />` : html`<${Ask} state=${copy} />`}
    <h2>On to the phone</h2>
    <ul class="site-copy">
      <li>Send it to yourself in a message, or copy it over by cable. Save it first if the phone only shows a preview, then open it in the browser.</li>
      <li>Started with <code>--lan</code>, the phone reaches this page itself by the code on the screen that started it, and saves the copy there.</li>
    </ul>
    <p class="quiet">Ticks and readings stay on that phone alone: nothing comes back here, and a copy made after a change starts without them.</p>
  `;
}

/** @param {{state: Made | null}} props */
function Ask({ state }) {
  const isWorking = state?.state === "working";
  return html`
    <button type="button" class="primary wide" disabled=${isWorking} onClick=${() => void make()}>${isWorking ? "Making the copy" : "Make the site copy"}</button>
    <p role="status">${isWorking ? "Drawing the sheets: a moment." : state?.state === "failed" ? `It could not be made: ${state.why}` : ""}</p>
  `;
}

/** @param {{copy: File, address: string}} props */
function Ready({ copy, address }) {
  const may = typeof navigator.canShare === "function" && navigator.canShare({ files: [copy] });
  return html`
    <p role="status">Ready: ${Math.ceil(copy.size / KILO)} kB.</p>
    <div class="site-ready">
      <a class="button primary" href=${address} download=${copy.name}>Save it</a>
      ${may ? html`<button type="button" onClick=${() => navigator.share({ files: [copy] }).catch(() => {})}>Send it</button>` : null}
    </div>
  `;
}

async function make() {
  const job = file.value;
  if (!job) return;
  const { digest, name } = job;
  if (made.value?.state === "made") URL.revokeObjectURL(made.value.address);
  made.value = { digest, state: "working" };
  try {
    const answer = await fetch(jobAddress(name, "/files/site.html"));
    if (!answer.ok) throw new Refusal(answer.status, (await answer.json()).error);
    const copy = new File([await answer.blob()], `${name} site.html`, { type: "text/html" });
    if (made.value?.digest === digest) made.value = { digest, state: "made", copy, address: URL.createObjectURL(copy) };
  } catch (error) {
    if (made.value?.digest === digest) made.value = { digest, state: "failed", why: error instanceof Error ? error.message : String(error) };
  }
}
