// @ts-check
/** First lines and centres side by side: what each would cost, and a small plan of it. */
import { computed, signal } from "@preact/signals";
import { get, jobAddress } from "../api.js";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { Pieces } from "../plan/pieces.js";
import { boundsOf, pathOf } from "../plan/view.js";
import { edit, file, fine, measured, plan, solve, solvedOf, style, tell } from "../store.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../plan/pieces.js").Drawn} Drawn */
/**
 * @typedef {object} Candidate see the server's `compared_data`.
 * @property {string} name
 * @property {string[]} also
 * @property {boolean} yours
 * @property {string} how
 * @property {{x_mm: number, y_mm: number}} centre
 * @property {[Point, Point]} ends_mm
 * @property {{first_line: unknown, centre: unknown} | null} choose
 * @property {number} narrowest_mm
 * @property {number} under_limit
 * @property {{full: number, cut: number}} counts
 * @property {string} refused
 * @property {{name: string, thin_mm: number, fat_mm: number, fits: boolean}[]} walls
 * @property {number} drift_mm
 * @property {string} reason
 * @property {Drawn | null} drawn
 */

const compared = signal(/** @type {{digest: string, candidates: Candidate[], cost: import("../types.js").Finding[]} | null} */ (null));
const isWorking = signal(false);
const fresh = computed(() => compared.value !== null && compared.value.digest === file.value?.digest);

/** Has the lines compared, once the floor is worked out. */
export async function compare() {
  const job = file.value;
  if (!job || fresh.value) return;
  isWorking.value = true;
  try {
    await solve();
    if (file.value?.digest !== job.digest || solvedOf.value !== job.digest) return;
    const found = await get(jobAddress(job.name, "/compared"));
    if (file.value?.digest === job.digest) compared.value = { digest: job.digest, candidates: found.candidates, cost: found.cost };
  } catch (error) {
    tell(error);
  } finally {
    if (file.value?.digest === job.digest) isWorking.value = false;
  }
}

export function Candidates() {
  const found = compared.value;
  if (!fresh.value && isWorking.value && !found) return html`<p class="empty" role="status">Laying the floor by each line that the room offers.</p>`;
  if (!found?.candidates.length) return html`<p class="empty">${isWorking.value ? "Laying the floor by each line." : measured.value?.job?.scoring ? "Scored lines go by the joints that are in the slab: no other first line is weighed." : "Lines are compared once there are goods and a pattern to lay."}</p>`;
  const yours = found.candidates.find((one) => one.yours);
  const best = found.candidates[0];
  return html`<div class=${fresh.value ? "candidates" : "candidates of-before"} aria-busy=${!fresh.value}>
    ${isWorking.value && html`<p class="quiet" role="status">Comparing anew.</p>`}
    ${yours && html`<h2>Yours</h2><${Card} one=${yours} />`}
    <h2>${best === yours ? "The others, the best first" : "What the room offers, the best first"}</h2>
    ${found.candidates.filter((one) => !one.yours).map((one) => html`<${Card} key=${one.name} one=${one} />`)}
  </div>`;
}

/** @param {Candidate} one */
const take = (one) =>
  one.choose &&
  edit(`first line ${one.name}`, [
    { path: ["control", "first_line"], value: one.choose.first_line },
    { path: ["control", "centre"], value: one.choose.centre },
  ]);

/** @param {{one: Candidate}} props */
function Card({ one }) {
  const tile = (/** @type {number} */ mm) => lengthText(mm, style.value, { feet: false, unit: true });
  const bare = (/** @type {number} */ mm) => lengthText(mm, style.value, { feet: false });
  return html`<button type="button" class=${`candidate ${one.yours ? "yours" : ""}`} aria-pressed=${one.yours} disabled=${Boolean(one.refused)} onClick=${() => !one.yours && take(one)}>
    <${SmallPlan} one=${one} />
    <span class="costs">
      <strong>${one.yours ? one.how : one.name}</strong>
      <span class="quiet">${one.refused || one.reason}${one.also.length ? `; the same as ${one.also[0]}${one.also.length > 1 ? ` and ${one.also.length - 1} more` : ""}` : ""}</span>
      ${!one.refused && html`<span class="cost"><b class=${one.under_limit ? "broken" : ""}>${tile(one.narrowest_mm)}</b> narrowest${one.under_limit ? `, ${one.under_limit} under the limit` : ""}</span>
      <span class="cost"><b>${one.counts.cut}</b> to cut, <b>${one.counts.full}</b> full</span>
      ${one.walls.length > 0 && html`<span class="cost quiet">Cuts: ${one.walls.map((wall) => html`<span class="at-wall">${wall.name} ${wall.thin_mm === wall.fat_mm ? bare(wall.thin_mm) : `${bare(wall.thin_mm)} to ${bare(wall.fat_mm)}`}</span>`)}</span>`}
      <span class="cost">may be <b>${lengthText(one.drift_mm, fine.value, { unit: true })}</b> out at the far wall</span>`}
    </span>
  </button>`;
}

/** @param {{one: Candidate}} props */
function SmallPlan({ one }) {
  const room = plan.value;
  if (!room) return null;
  const bounds = boundsOf(room.outline_mm);
  if (!bounds) return null;
  const [wide, high] = [bounds.right - bounds.left, bounds.top - bounds.bottom];
  const edge = Math.max(wide, high) * 0.03;
  const [[x1, y1], [x2, y2]] = one.ends_mm.length === 2 ? one.ends_mm : [[0, 0], [0, 0]];
  const { x_mm: x, y_mm: y } = one.centre;
  const length = Math.hypot(x2 - x1, y2 - y1) || 1;
  const [sx, sy] = [(-(y2 - y1) / length) * Math.max(wide, high), ((x2 - x1) / length) * Math.max(wide, high)];
  return html`<svg class="small-plan" aria-hidden="true" viewBox=${`${bounds.left - edge} ${-bounds.top - edge} ${wide + 2 * edge} ${high + 2 * edge}`}>
    <g transform="scale(1 -1)">
      ${one.drawn && html`<${Pieces} drawn=${one.drawn} />`}
      <path class="wall" d=${pathOf([room.outline_mm])} />
      ${room.openings.map((opening) => html`<line key=${opening.name} class="opening" x1=${opening.start_mm[0]} y1=${opening.start_mm[1]} x2=${opening.end_mm[0]} y2=${opening.end_mm[1]} />`)}
      <line class="control-line" x1=${x1} y1=${y1} x2=${x2} y2=${y2} />
      <line class="control-line thin" x1=${x - sx} y1=${y - sy} x2=${x + sx} y2=${y + sy} />
      <circle class="spot" cx=${x} cy=${y} r=${edge} />
    </g>
  </svg>`;
}
