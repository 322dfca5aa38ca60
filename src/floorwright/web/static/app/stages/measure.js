// @ts-check
/** Measuring: the next reading is proposed, the room draws itself, and a reading that disagrees lights up. */
import { signal } from "@preact/signals";
import { html } from "../html.js";
import { again, atKeypad, book, first, form, keyRead, open, pick, picked, reading, spoken } from "../measure/booking.js";
import { showEllipses } from "../measure/drawn.js";
import { BookingForm } from "../measure/fields.js";
import { KINDS } from "../measure/kinds.js";
import { Links } from "../measure/links.js";
import { Others, Readings, doubtText } from "../measure/readings.js";
import { ActionButton } from "../parts/buttons.js";
import { Findings } from "../parts/findings.js";
import { Keypad } from "../parts/keypad.js";
import { Why } from "../parts/why.js";
import { areaText, lengthText } from "../lengths.js";
import { edit, file, findings, fine, measured, plan, style } from "../store.js";
import { stageOf } from "../places.js";

/** @typedef {import("../types.js").Survey} Survey */

export { MeasurePlan } from "../measure/drawn.js";
export { CornerNames, WallFigures } from "../parts/names.js";

/** Whether the list of what else can be booked is open. */
const choosing = signal(false);

export function MeasureStage() {
  const found = measured.value;
  if (!found) return html`<p class="empty">Reading the job.</p>`;
  const survey = found.survey;
  return html`
    ${form.value ? html`<${BookingForm} />` : html`<${NextReading} />`}
    <${DrawnIn} /><${Layers} />
    <${More} />
    ${survey && html`<${Readings} survey=${survey} />`}
    <${Others} />
    <${Links} />
    ${survey && html`<${Size} survey=${survey} />`}
    <${Findings} findings=${findings.value} only=${(/** @type {any} */ one) => stageOf(one) === "measure"} />
  `;
}

function NextReading() {
  const next = reading.value;
  const found = measured.value?.survey?.to_measure?.find((one) => one.key === next);
  const left = measured.value?.survey?.to_measure?.length ?? 0;
  if (first.value) return html`<div class="panel-part"><h2>From <span class="reading">${first.value}</span></h2><p>Touch the point that it is read to.</p>
    <button type="button" onClick=${() => (first.value = "")}>Leave it</button></div>`;
  const doubted = measured.value?.survey?.explanations ?? [];
  const slip = doubted.find((one) => keyRead(one.key) === next);
  if (!next && doubted.length > 1) {
    return html`<div class="panel-part doubtful"><h2>The readings disagree</h2>
      <p>Which of them is wrong cannot be told from these readings. Read one of those marked ? again, or one that is not booked yet.</p></div>`;
  }
  if (!next) {
    const outlined = Boolean(measured.value?.job?.survey?.outline?.length);
    return html`<div class="panel-part"><h2>${outlined ? "Every reading is in" : "No outline yet"}</h2>
      ${outlined && html`<p class="quiet">Touch two corners to read between them, or a wall to read it again.</p>`}
      ${plan.value && html`<${ActionButton} id="go-setout" text="Set out the lines" primary wide />`}</div>`;
  }
  return html`<div class="panel-part">
    <h2>${again.value ? "Once more: " : slip ? "Read again: " : "Next: "}<span class="reading">${spoken(next)}</span>${!again.value && left > 1 && found ? html` <span class="quiet">and ${left - 1} more</span>` : ""}</h2>
    ${found && html`<p class="quiet">${found.why}</p>`}
    ${slip && html`<p class="doubtful">${doubtText(next, slip, doubted.length > 1)}</p>`}
    <${Keypad} key=${`${file.value?.name} ${next}`} label=${spoken(next)} style=${style.value} focus=${atKeypad.value} enter=${(/** @type {string} */ typed) => book(next, typed)} />
    ${picked.value && html`<button type="button" class="wide" onClick=${() => pick("")}>Leave it as it is</button>`}
  </div>`;
}

function More() {
  if (form.value) return null;
  return html`<div class="panel-part more">
    <button type="button" class="wide" aria-expanded=${choosing.value} onClick=${() => (choosing.value = !choosing.value)}>Book something else</button>
    ${choosing.value && html`<ul class="kinds">${KINDS.map((kind) => html`<li key=${kind.id}><button type="button" class="wide" onClick=${() => { choosing.value = false; open(kind.id); }}>${kind.name}</button></li>`)}</ul>`}
  </div>`;
}

/** @param {{survey: Survey}} props */
function Size({ survey }) {
  if (survey.area_m2 == null) return null;
  const several = (survey.rooms ?? []).length > 1;
  const round = survey.perimeter_mm == null ? "" : ` Round the walls it is ${lengthText(survey.perimeter_mm, style.value, { unit: true })}.`;
  const spare = survey.degrees_of_freedom ?? 0;
  return html`<div class="panel-part">
    <p class="sum"><${Why} value=${areaText(survey.area_m2, style.value)} says=${`Wall to wall, doors' reveals and columns not counted: from corner to corner round the room, half the sum of x of each corner times the difference in y of its neighbours. The corners are where all readings together put them.${round}`} /> wall to wall</p>
    ${several && html`<table class="figures"><caption>Rooms</caption><tbody>${survey.rooms?.map((one) => html`<tr key=${one.name}><th scope="row">${one.name}</th><td class="number">${areaText(one.area_m2, style.value)}</td><td class="number">${lengthText(one.perimeter_mm, style.value)} round</td></tr>`)}</tbody></table>`}
    <p class="quiet">${spare > 0 ? `${spare} ${spare === 1 ? "reading" : "readings"} more than the room needs: ${spare === 1 ? "a slip would show, but not where it is" : "a slip would show, and mostly where it is"}.` : "No reading to spare: a slip would show nowhere. Read one more diagonal."}</p>
    <label class="switch"><input type="checkbox" checked=${showEllipses.value} onChange=${() => (showEllipses.value = !showEllipses.value)} />
      Show how far out each corner may be</label>
    ${showEllipses.value && html`<${Sureness} survey=${survey} />`}
  </div>`;
}

/** The corner whose sum is open. */
const unsure = signal("");

/** What a corner's sureness rests on. @param {string} name @param {import("../types.js").Spot} spot @param {Survey} survey */
function sureText(name, spot, survey) {
  const held = survey.observations.filter((one) => one.kind === "distance" && one.key.split("/")[0]?.split("-").includes(name));
  if (spot.ellipse.major_mm < HELD_MM) return "It is held still, and the others are told against it.";
  const reads = held.map((one) => `${spoken(one.key)} (within ${lengthText(one.sd, fine.value, { unit: true })})`).join(", ");
  return `It hangs on ${reads || "the readings of other corners"}. Together they hold it least along ${Math.round(((spot.ellipse.angle_deg % 180) + 180) % 180)}° from the first wall: a reading in that direction would make it surer.`;
}

const HELD_MM = 0.005;

/** @param {{survey: Survey}} props */
function Sureness({ survey }) {
  return html`<table class="figures"><caption>How far out a corner may be</caption>
    <thead><tr><th scope="col">Corner</th><th scope="col">At the most</th><th scope="col">Square to that</th></tr></thead>
    <tbody>${Object.entries(survey.points).map(([name, spot]) => html`<tr key=${name}><th scope="row">${name}</th>
      <td class="number"><button type="button" class="why" aria-expanded=${unsure.value === name} aria-label=${`why ${name} may be out by ${lengthText(spot.ellipse.major_mm, fine.value)}`}
        onClick=${() => (unsure.value = unsure.value === name ? "" : name)}>${lengthText(spot.ellipse.major_mm, fine.value)}</button></td><td class="number">${lengthText(spot.ellipse.minor_mm, fine.value)}</td></tr>
      ${unsure.value === name && html`<tr key=${`${name} why`} class="because"><td colspan="3"><p>${sureText(name, spot, survey)}</p></td></tr>`}`)}</tbody></table>
    <p class="quiet">One standard deviation each way, against ${measured.value?.job?.survey?.datum === "inner constraints" ? "all corners together" : "the first wall, which is held still"}. Four times in ten a corner lies inside its ellipse, and hardly ever beyond three times as far.</p>`;
}

const UNITS = ["mm", "cm", "m", "in", "ft"];

/** Asks which unit a drawing is in, where it does not say so, or nobody should believe it. */
function DrawnIn() {
  const asks = !plan.value && findings.value.some((one) => /drawn_in/.test(one.remedy));
  if (!asks) return null;
  return html`<fieldset class="choice"><legend>Which unit is the drawing in?</legend>
    ${UNITS.map((unit) => html`<button type="button" key=${unit} onClick=${() => edit(`the drawing is in ${unit}`, [{ path: ["survey", "drawn_in"], value: unit }])}>${unit}</button>`)}
  </fieldset>`;
}

/** Asks which layer, or which shape, of a drawing is the room. */
function Layers() {
  const layers = measured.value?.layers ?? [];
  if (!layers.length) return null;
  return html`<fieldset class="choice"><legend>Which of these is the room?</legend>
    ${layers.map((layer) => html`<button type="button" key=${layer} onClick=${() => edit(`the room is ${layer}`, [{ path: ["survey", "layer"], value: layer }])}>${layer}</button>`)}
  </fieldset>`;
}
