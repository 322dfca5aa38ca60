// @ts-check
/** What is laid already: marked by touching its pieces, or everything on one side of a line. */
import { batch, computed, signal } from "@preact/signals";
import { post } from "../api.js";
import { html } from "../html.js";
import { pathOf } from "../plan/view.js";
import { edit, file, known, listJobs, said, tell } from "../store.js";
import { Choice } from "../parts/fields.js";
import { layout, pieceAt } from "./laid.js";
import { Section } from "../parts/section.js";
import { has, inUnits, job } from "../written.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../types.js").Edit} Edit */

const PIECES = "pieces that are touched";
const TWO_POINTS = "a line of two points";
const LINES = ["first line", "square line"];

/** How a touch on the floor marks what is laid; empty while it does not. */
const marking = signal("");
const marked = signal(/** @type {ReadonlySet<string>} */ (new Set()));
const points = signal(/** @type {Point[]} */ ([]));

const before = computed(() => new Set(/** @type {string[]} */ (job.value?.laid?.pieces ?? [])));

/** What is drawn as laid: what the job says, and what is being marked. */
const shown = computed(() => new Set([...before.value, ...marked.value]));

/** A touch while what is laid is being marked; whether it was one. @param {Point} point @param {number} reach mm. */
export function mark(point, reach) {
  if (!marking.value) return false;
  if (marking.value === PIECES) {
    const id = pieceAt(point, reach)?.id;
    if (!id) return true;
    const next = new Set(marked.value);
    if (!next.delete(id)) next.add(id);
    marked.value = next;
    return true;
  }
  if (marking.value === TWO_POINTS && points.value.length < 2) {
    points.value = [...points.value, point];
    return true;
  }
  void freeze(`${marking.value}, ${sideOf(point)} side laid`, lineEdits(point));
  return true;
}

/** @returns {[Point, Point]} two points of the line that is laid up to. */
function line() {
  if (marking.value === TWO_POINTS) return /** @type {[Point, Point]} */ (points.value);
  const { centre, lines } = known.value.control;
  const angle = (lines.find((/** @type {any} */ one) => one.name === marking.value).angle_deg * Math.PI) / 180;
  return [[centre.x_mm, centre.y_mm], [centre.x_mm + Math.cos(angle), centre.y_mm + Math.sin(angle)]];
}

/** The side of the line that a point is on, as one looks along it. @param {Point} point */
function sideOf([x, y]) {
  const [[ax, ay], [bx, by]] = line();
  return (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0 ? "left" : "right";
}

/** @param {Point} point on the side that is laid. @returns {Edit[]} */
const lineEdits = (point) => [
  { path: ["laid", "line"], value: marking.value === TWO_POINTS ? points.value.map(([x, y]) => [inUnits(x), inUnits(y)]) : marking.value },
  { path: ["laid", "side"], value: sideOf(point) },
];

/**
 * Writes what is laid. The job as it stands is kept beside it under a name of its own, since that is what it was laid by.
 *
 * @param {string} label
 * @param {Edit[]} edits
 */
async function freeze(label, edits) {
  const now = file.value;
  if (!now) return;
  try {
    const from = has(["laid", "from"]) ? [] : [{ path: ["laid", "from"], value: `${(await post("/api/jobs", { name: `${now.name} as laid`, text: now.text })).name}.toml` }];
    void listJobs();
    await edit(label, [...from, ...edits]);
    stop();
  } catch (error) {
    tell(error);
  }
}

export function stop() {
  batch(() => {
    marking.value = "";
    marked.value = new Set();
    points.value = [];
  });
}

/** @param {string} how */
function start(how) {
  stop();
  marking.value = how;
  said.value = how === PIECES ? "Touch the pieces that are laid" : "Touch the floor";
}

/** What is laid, on the plan: hatched by its outline alone, since colours say other things. */
export function FrozenPieces() {
  if (!shown.value.size && !points.value.length) return null;
  const rings = (layout.value?.zones ?? []).flatMap((/** @type {any} */ zone) => zone.pieces.filter((/** @type {any} */ one) => shown.value.has(one.id)).flatMap((/** @type {any} */ one) => one.outline_mm));
  const [a, b] = points.value;
  return html`<path class="laid-already" d=${pathOf(rings)} />
    ${a && b && html`<line class="laid-line" x1=${a[0]} y1=${a[1]} x2=${b[0]} y2=${b[1]} />`}`;
}

/** @returns {string} what to touch next. */
function next() {
  if (marking.value === PIECES) return `Touch the pieces that are laid: ${marked.value.size} so far.`;
  if (marking.value === TWO_POINTS && points.value.length < 2) return `Touch ${points.value.length ? "the other end" : "one end"} of the line.`;
  return "Touch the side that is laid.";
}

export function FrozenPart() {
  const laid = job.value?.laid;
  const says = laid ? (laid.pieces.length ? `${laid.pieces.length} ${laid.pieces.length === 1 ? "piece" : "pieces"}` : `${laid.side} of ${typeof laid.line === "string" ? laid.line : "a line"}`) : "nothing yet";
  return html`<${Section} title="Laid already" says=${says} open=${Boolean(marking.value)}>
    <p class="quiet">What is laid keeps its place; new readings and changes go round it.</p>
    <${Choice} label="Mark" none="choose one" choices=${["", PIECES, ...LINES, TWO_POINTS]} value=${marking.value} choose=${(/** @type {string} */ how) => (how ? start(how) : stop())} />
    ${marking.value && html`<p role="status" data-marking>${next()}</p>
      ${marking.value === PIECES && html`<button type="button" class="primary" disabled=${!marked.value.size} onClick=${() => void freeze("pieces laid", [{ path: ["laid", "pieces"], value: [...shown.value] }])}>They are laid</button>`}
      <button type="button" onClick=${stop}>Leave it</button>`}
    ${laid && !marking.value && html`<button type="button" onClick=${() => void edit("nothing is laid", [{ do: "drop", path: ["laid"] }])}>Nothing is laid</button>`}
  </${Section}>`;
}
