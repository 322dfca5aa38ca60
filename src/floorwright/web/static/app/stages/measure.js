// @ts-check
/** Measuring: the next reading is proposed, the room draws itself, and a reading that disagrees lights up. */
import { computed, signal } from "@preact/signals";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { Findings } from "../parts/findings.js";
import { Keypad } from "../parts/keypad.js";
import { Plan, Walls } from "../plan/plan.js";
import { edit, file, findings, measured, plan, style } from "../store.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../types.js").Survey} Survey */

/** The reading that the person picked, in place of the one proposed. */
const picked = signal("");
const showEllipses = signal(false);
/** How much larger than life the ellipses are drawn. */
const ELLIPSE_SCALE = 50;

/** @param {string} key @param {string} typed */
const book = async (key, typed) => {
  const number = Number(typed);
  const metric = style.value.system === "metric";
  const value = metric && Number.isFinite(number) ? number : typed;
  await edit(`${key} reads ${typed}`, [{ path: ["survey", "distances", key], value }]);
  picked.value = "";
};

export function MeasureStage() {
  const found = measured.value;
  const survey = found?.survey;
  const next = picked.value || survey?.to_measure?.[0]?.key || "";
  const why = survey?.to_measure?.find((one) => one.key === next)?.why;
  return html`
    <div class="panel-part">
      <h2>${next ? html`Next: <span class="reading">${spoken(next)}</span>` : measured.value?.job?.survey?.outline?.length ? "Every reading is in" : "The outline of the room"}</h2>
      ${why && html`<p class="quiet">${why}</p>`}
      ${next && html`<${Keypad} key=${`${file.value?.name} ${next}`} label=${spoken(next)} style=${style.value} enter=${(/** @type {string} */ typed) => book(next, typed)} />`}
    </div>
    ${asksUnit.value && html`<${DrawnIn} />`}
    ${survey && html`<${Readings} survey=${survey} />`}
    ${survey?.area_m2 != null && html`<p class="sum"><strong>${areaText(survey.area_m2)}</strong> wall to wall</p>`}
    <label class="switch"><input type="checkbox" checked=${showEllipses.value} onChange=${() => (showEllipses.value = !showEllipses.value)} />
      Show how far out each corner may be</label>
    <${Findings} findings=${findings.value} only=${(/** @type {any} */ one) => one.severity !== "note" && /^(job|survey|plan)-/.test(one.code)} />
  `;
}

const asksUnit = computed(() => measured.value?.findings.some((one) => /drawn_in/.test(one.remedy)) && !plan.value);
const UNITS = ["mm", "cm", "m", "in", "ft"];

/** Asks which unit a drawing is in, where it does not say so, or nobody should believe it. */
function DrawnIn() {
  return html`<fieldset class="choice"><legend>Which unit is the drawing in?</legend>
    ${UNITS.map((unit) => html`<button type="button" key=${unit} onClick=${() => edit(`the drawing is in ${unit}`, [{ path: ["survey", "drawn_in"], value: unit }])}>${unit}</button>`)}
  </fieldset>`;
}

/** @param {string} key `A-B` as it is said. */
const spoken = (key) => key.replace("-", " to ");

/** @param {number} m2 */
const areaText = (m2) => (style.value.system === "metric" ? `${m2.toFixed(2)} m²` : `${(m2 / 0.09290304).toFixed(1)} sq ft`);

/** @param {{survey: Survey}} props */
function Readings({ survey }) {
  const doubted = new Map(survey.explanations.map((one) => [one.key, one]));
  const booked = measured.value?.job?.survey?.distances ?? {};
  const adjusted = new Map(survey.observations.map((one) => [one.key, one]));
  const keys = Object.keys(booked);
  if (!keys.length) return null;
  return html`<table class="figures">
    <caption>Readings</caption>
    <thead><tr><th scope="col">From, to</th><th scope="col">Read</th><th scope="col">Fits to</th><td></td></tr></thead>
    <tbody>
      ${keys.map((key) => {
        const doubt = doubted.get(key);
        const reading = adjusted.get(key);
        const read = [booked[key]].flat();
        return html`<tr key=${key} class=${doubt ? "doubt" : ""}>
          <th scope="row">${spoken(key)}</th>
          <td class="number">${read.map((/** @type {number} */ one) => lengthText(one, style.value)).join(", ")}</td>
          <td class="number">${reading ? lengthText(reading.adjusted, style.value) : ""}</td>
          <td><button type="button" onClick=${() => (picked.value = key)} aria-label=${`read ${spoken(key)} again`}>Again</button></td>
        </tr>
        ${doubt && html`<tr class="doubt says"><td colspan="4">${doubtText(key, doubt, doubted.size > 1)}</td></tr>`}`;
      })}
    </tbody>
  </table>`;
}

/**
 * @param {string} key
 * @param {import("../types.js").Explanation} doubt
 * @param {boolean} oneOfSeveral whether the readings cannot tell which of several it is.
 */
function doubtText(key, doubt, oneOfSeveral) {
  const out = `${lengthText(Math.abs(doubt.slip), style.value, { unit: true })} ${doubt.slip < 0 ? "short" : "long"}`;
  const agree = lengthText(doubt.would_agree_mm ?? doubt.would_read, style.value);
  return oneOfSeveral
    ? `It may be this one: then it is ${out}, and would agree if it read ${agree}.`
    : `Read ${spoken(key)} again: it seems ${out}. It would agree if it read ${agree}.`;
}

export function MeasurePlan() {
  const room = plan.value;
  if (!room) return html`<${Sketch} />`;
  const points = room.corners.map((corner) => /** @type {Point} */ ([corner.x_mm, corner.y_mm]));
  const survey = measured.value?.survey;
  return html`<${Plan} around=${points} label="Plan of the room as measured"
    floor=${html`<${Walls} plan=${room} />`}
    over=${(/** @type {(point: Point) => Point} */ screen) => html`
      ${showEllipses.value && survey && Object.entries(survey.points).map(([name, spot]) => {
        const [x, y] = screen([spot.x_mm, spot.y_mm]);
        const [far] = screen([spot.x_mm + ELLIPSE_SCALE, spot.y_mm]);
        return html`<ellipse key=${name} class="ellipse" cx=${x} cy=${y} rx=${Math.abs(far - x) * spot.sd_x_mm} ry=${Math.abs(far - x) * spot.sd_y_mm} />`;
      })}
      <${WallFigures} screen=${screen} /><${CornerNames} screen=${screen} />`} />`;
}

/** @param {{screen: (point: Point) => Point}} props */
export function CornerNames({ screen }) {
  const room = plan.value;
  if (!room) return null;
  const middle = mean(room.corners.map((corner) => [corner.x_mm, corner.y_mm]));
  return html`${room.corners.map((corner) => {
    const [x, y] = screen([corner.x_mm, corner.y_mm]);
    const [cx, cy] = screen(middle);
    const away = Math.hypot(x - cx, y - cy) || 1;
    return html`<text key=${corner.name} class="corner" x=${x + ((x - cx) / away) * 18} y=${y + ((y - cy) / away) * 18}>${corner.name}</text>`;
  })}`;
}

/** @param {{screen: (point: Point) => Point}} props */
export function WallFigures({ screen }) {
  const room = plan.value;
  if (!room) return null;
  const at = new Map(room.corners.map((corner) => [corner.name, /** @type {Point} */ ([corner.x_mm, corner.y_mm])]));
  return html`${room.walls.map((wall) => {
    const [start, end] = [at.get(wall.start), at.get(wall.end)];
    if (!start || !end) return null;
    const [x1, y1] = screen(start);
    const [x2, y2] = screen(end);
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length < 60) return null;
    // The room lies left of its walls, so the outside is to the right: on the screen, where y is down, likewise.
    const [nx, ny] = [-(y2 - y1) / length, (x2 - x1) / length];
    let turn = (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI;
    if (turn > 90 || turn <= -90) turn += 180;
    return html`<text key=${wall.name} class="wall-figure" transform=${`translate(${(x1 + x2) / 2 + nx * 16} ${(y1 + y2) / 2 + ny * 16}) rotate(${turn})`}>${lengthText(wall.length_mm, style.value)}</text>`;
  })}`;
}

/** @param {number[][]} points @returns {Point} */
const mean = (points) => [
  points.reduce((sum, one) => sum + (one[0] ?? 0), 0) / points.length,
  points.reduce((sum, one) => sum + (one[1] ?? 0), 0) / points.length,
];

/** A room that the readings do not fix yet: its corners in order, not to scale, with what is read so far. */
function Sketch() {
  const survey = measured.value?.job?.survey;
  const names = /** @type {string[]} */ (survey?.outline ?? []);
  if (!names.length) return html`<p class="empty">The file holds no room yet.</p>`;
  const points = names.map((_, n) => {
    const turn = (2 * Math.PI * n) / names.length - Math.PI / 2 - Math.PI / names.length;
    return /** @type {Point} */ ([1500 * Math.cos(turn), 1500 * Math.sin(turn)]);
  });
  const at = new Map(names.map((name, n) => [name, points[n]]));
  const read = /** @type {Record<string, number[]>} */ (survey?.distances ?? {});
  return html`<${Plan} around=${points} label=${`Sketch of a room with corners ${names.join(", ")}, not to scale`}
    over=${(/** @type {(point: Point) => Point} */ screen) => html`
      ${names.map((name, n) => {
        const [x1, y1] = screen(/** @type {Point} */ (points[n]));
        const [x2, y2] = screen(/** @type {Point} */ (points[(n + 1) % names.length]));
        return html`<line key=${name} class="sketch" x1=${x1} y1=${y1} x2=${x2} y2=${y2} />`;
      })}
      ${Object.entries(read).map(([key, values]) => {
        const [from, to] = key.split("-").map((name) => at.get(name));
        if (!from || !to) return null;
        const [x1, y1] = screen(from);
        const [x2, y2] = screen(to);
        return html`<g key=${key}><line class="read" x1=${x1} y1=${y1} x2=${x2} y2=${y2} />
          <text class="wall-figure" x=${(x1 + x2) / 2} y=${(y1 + y2) / 2}>${lengthText([values].flat()[0] ?? 0, style.value)}</text></g>`;
      })}
      ${names.map((name, n) => {
        const [x, y] = screen(/** @type {Point} */ (points[n]));
        return html`<g key=${name}><circle class="spot" cx=${x} cy=${y} r="4" /><text class="corner" x=${x} y=${y - 12}>${name}</text></g>`;
      })}
      <text class="not-to-scale" x="12" y="22">Not to scale yet</text>`} />`;
}
