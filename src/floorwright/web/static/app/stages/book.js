// @ts-check
/** The jobs of the folder, and how a new one starts. */
import { useEffect, useState } from "preact/hooks";
import { html } from "../html.js";
import { jobs, listJobs, openJob, stage, startFrom, startJob } from "../store.js";

const SHAPES = [
  { name: "Rectangle", corners: 4, inward: [], path: "M4 8H44V40H4Z" },
  { name: "L shape", corners: 6, inward: ["D"], path: "M4 4H24V22H44V44H4Z" },
  { name: "Bay", corners: 8, inward: ["D", "G"], path: "M4 20H14V8H34V20H44V44H4Z" },
];

export function BookStage() {
  useEffect(() => void listJobs(), []);
  const shelf = jobs.value;
  return html`<section class="book" aria-labelledby="book-title">
    <h1 id="book-title">Jobs${shelf ? html` in <span class="quiet">${shelf.folder}</span>` : ""}</h1>
    ${shelf && shelf.jobs.length === 0 && html`<p>No job here yet. Start one below: call out the readings as you take them.</p>`}
    ${shelf &&
    html`<ul class="jobs">
      ${shelf.jobs.map((name) => html`<li key=${name}><button type="button" class="job" onClick=${() => open(name)}>${name}</button></li>`)}
    </ul>`}
    <${NewJob} examples=${shelf?.examples ?? []} />
  </section>`;
}

/** @param {string} name */
async function open(name) {
  await openJob(name);
  stage.value = "measure";
}

/** @param {{examples: string[]}} props */
function NewJob({ examples }) {
  const [name, setName] = useState("");
  const [imperial, setImperial] = useState(false);
  const [corners, setCorners] = useState(5);
  const called = name.trim() || "New job";
  /** @param {Omit<Parameters<typeof startJob>[0], "name">} asked */
  const start = async (asked) => {
    if (await startJob({ name: called, imperial, ...asked })) stage.value = "measure";
  };
  /** @param {HTMLInputElement} input */
  const fromFile = async (input) => {
    const drawing = input.files?.[0];
    input.value = "";
    if (drawing && (await startFrom(name.trim() || drawing.name.replace(/\.[^.]*$/, ""), drawing))) stage.value = "measure";
  };
  return html`<div class="new-job">
    <h2>Start a job</h2>
    <label class="field"><span>Name</span>
      <input type="text" value=${name} maxlength="80" placeholder="Back kitchen"
        onInput=${(/** @type {InputEvent} */ event) => setName(/** @type {HTMLInputElement} */ (event.target).value)} /></label>
    <fieldset class="choice"><legend>Lengths</legend>
      <label><input type="radio" name="units" checked=${!imperial} onChange=${() => setImperial(false)} /> mm</label>
      <label><input type="radio" name="units" checked=${imperial} onChange=${() => setImperial(true)} /> feet and inches</label>
    </fieldset>
    <div class="shapes" role="group" aria-label="Shape of the room">
      ${SHAPES.map(
        (shape) => html`<button type="button" class="shape" onClick=${() => start({ corners: shape.corners, inward: shape.inward })}>
          <svg viewBox="0 0 48 48" aria-hidden="true"><path d=${shape.path} /></svg>${shape.name}
        </button>`,
      )}
      <div class="shape any">
        <label>Corners <input type="number" min="3" max="26" value=${corners}
          onInput=${(/** @type {InputEvent} */ event) => setCorners(Number(/** @type {HTMLInputElement} */ (event.target).value))} /></label>
        <button type="button" onClick=${() => start({ corners })}>Start</button>
      </div>
    </div>
    <label class="button from-file">From a drawing or a list of coordinates (DXF, GeoJSON, CSV)
      <input type="file" accept=".dxf,.geojson,.json,.csv" onChange=${(/** @type {Event} */ event) => fromFile(/** @type {HTMLInputElement} */ (event.target))} /></label>
    ${examples.length > 0 &&
    html`<h2>Or look at an example</h2>
      <ul class="jobs">
        ${examples.map((one) => html`<li key=${one}><button type="button" onClick=${() => start({ example: one, imperial: false }).then(() => undefined)}>${one.replaceAll("-", " ")}</button></li>`)}
      </ul>`}
  </div>`;
}
