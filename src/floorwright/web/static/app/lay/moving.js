// @ts-check
/**
 * The pattern in the person's hand: where it is, what it comes to there, and what becomes of it. While it is moved only
 * the drawing moves; the server is asked for the figures of the latest position, one request at a time.
 */
import { batch, computed, signal } from "@preact/signals";
import { Refusal, jobAddress, post } from "../api.js";
import { INCH, lengthText } from "../lengths.js";
import { edit, file, known, said, solve, solvedOf, style, tell } from "../store.js";
import { placeOf, table, zone } from "./laid.js";
import { circleRound, drawing, nearest, turned } from "./lattice.js";
import { REACH, linedUp, snappedPattern, snappedTurn } from "../plan/snap.js";
import { inUnits, job, without } from "../written.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("./lattice.js").Position} Position */

/** Whether the pattern is what a finger on the floor moves. */
export const moving = signal(false);
/** Whether a finger is on it now. */
export const dragging = signal(false);
/** Where it is held; null while it lies as it is laid. */
export const held = signal(/** @type {Position | null} */ (null));
/** Whether it is held off where it is laid. */
export const away = computed(() => moving.value && held.value !== null);
/** What the server made of the position asked for last; `drawn` and `catches` where its pieces were asked for. */
export const figures = signal(/** @type {any} */ (null));
/** What it snapped to, in words. */
export const snaps = signal(/** @type {string[]} */ ([]));
const catches = signal(/** @type {import("../plan/snap.js").Catch[]} */ ([]));
/** The pieces of the position it was let go at. */
export const drawn = signal(/** @type {any} */ (null));

export const canMove = computed(() => ["field", "inset"].includes(zone.value?.kind) && !job.value?.laid);
/** An inset turns with its own outline, and its pattern with it. */
export const canTurn = computed(() => canMove.value && zone.value.kind === "field");

/** @returns {Position} where the zone's pattern is laid. */
export const laidAt = () => ({ x: zone.value.origin_mm[0], y: zone.value.origin_mm[1], angle: zone.value.angle_deg });

const cell = () => ({ repeat: zone.value.repeat_mm, pieces: zone.value.repeat_pieces_mm });
export const middle = computed(() => circleRound(zone.value?.region_mm[0] ?? [[0, 0]]).middle);

/** The drawing that is moved, and the larger one that is turned; each made once for a zone. */
export const ghost = computed(() => (moving.value && zone.value ? drawing(cell(), laidAt(), zone.value.region_mm[0], false) : null));
const turning = signal(false);
const turnedGhost = computed(() => (turning.value && zone.value ? drawing(cell(), laidAt(), zone.value.region_mm[0], true) : null));
/** The one of the two that covers the floor as the pattern is held. */
export const shownGhost = computed(() => turnedGhost.value ?? ghost.value);

/** Where the drawing stands now. @returns {Position | null} */
export function ghostAt() {
  const shown = shownGhost.value;
  if (!shown || !zone.value) return null;
  return nearest(zone.value.repeat_mm, held.value ?? laidAt(), shown.middle, middle.value);
}

let asking = false;
/** @type {{pieces: boolean} | null} */
let next = null;

/** Asks what the pattern comes to where it is held; of what is asked meanwhile only the last. @param {boolean} pieces */
export async function ask(pieces) {
  next = { pieces: pieces || (next?.pieces ?? false) };
  if (asking) return;
  asking = true;
  try {
    while (next) {
      const { pieces } = /** @type {{pieces: boolean}} */ (next);
      next = null;
      await askOnce(pieces);
    }
  } catch (error) {
    next = null;
    if (error instanceof Refusal && error.fault.code === "unsolved") {
      solvedOf.value = "";
      void solve();
    } else tell(error);
  } finally {
    asking = false;
  }
}

/** @param {boolean} pieces */
async function askOnce(pieces) {
  const [here, of] = [file.value, zone.value];
  if (!here || !of || !moving.value) return;
  const at = held.value ?? laidAt();
  const asked = { digest: here.digest, zone: of.name, x_mm: at.x, y_mm: at.y, angle_deg: at.angle, pieces };
  const found = await post(jobAddress(here.name, "/place"), asked);
  if (!moving.value || zone.value?.name !== of.name) return;
  batch(() => {
    figures.value = found;
    if (!pieces) return;
    catches.value = found.catches;
    if (!dragging.value) drawn.value = found.drawn;
  });
}

/** Takes the pattern in hand. */
export function take() {
  batch(() => {
    held.value = figures.value = drawn.value = null;
    snaps.value = catches.value = [];
    turning.value = dragging.value = false;
    moving.value = canMove.value;
  });
  if (moving.value) void ask(true);
}

/** Puts the pattern back to where it is laid. */
export function putBack() {
  batch(() => {
    held.value = drawn.value = null;
    snaps.value = [];
    turning.value = dragging.value = false;
  });
  said.value = "Put back";
  void ask(true);
}

/** Lets the pattern go, as it is laid. */
export function letGo() {
  batch(() => {
    moving.value = turning.value = dragging.value = false;
    held.value = figures.value = drawn.value = null;
    snaps.value = [];
  });
}

/**
 * Moves the pattern by a finger's way.
 *
 * @param {Position} from where it was when the finger came.
 * @param {Point} way mm.
 * @param {number} pixel mm.
 */
export function drag(from, way, pixel) {
  const { at, words } = snappedPattern(catches.value, [from.x + way[0], from.y + way[1]], REACH * pixel);
  batch(() => {
    dragging.value = true;
    held.value = { x: at[0], y: at[1], angle: from.angle };
    snaps.value = words;
  });
  void ask(false);
}

/** The step of an arrow key, mm: a millimetre or a sixteenth, ten of them with shift. @param {boolean} large */
export const stepOf = (large) => (style.value.system === "metric" ? 1 : INCH / 16) * (large ? 10 : 1);

/** Moves the pattern by a step. @param {Point} way steps. @param {boolean} large */
export function nudge([right, up], large) {
  const at = held.value ?? laidAt();
  const by = stepOf(large);
  const to = { x: at.x + right * by, y: at.y + up * by, angle: at.angle };
  batch(() => {
    held.value = to;
    snaps.value = linedUp(catches.value, [to.x, to.y]);
    drawn.value = null;
  });
  void ask(true);
}

/** What the pattern may be true to. */
const directions = computed(() => {
  const lines = (known.value?.control?.lines ?? []).filter((/** @type {any} */ one) => one.name === "first line");
  const walls = known.value?.plan?.walls ?? [];
  const corners = new Map((known.value?.plan?.corners ?? []).map((/** @type {any} */ one) => [one.name, one]));
  return [
    ...lines.map((/** @type {any} */ one) => ({ words: "the first line", angle: one.angle_deg })),
    ...walls.map((/** @type {any} */ wall) => {
      const [start, end] = [corners.get(wall.start), corners.get(wall.end)];
      return { words: `wall ${wall.name}`, angle: (Math.atan2(end.y_mm - start.y_mm, end.x_mm - start.x_mm) * 180) / Math.PI };
    }),
  ];
});

/** Turns the pattern about the middle of its floor. @param {number} angle degrees. @param {boolean} snap */
export function turnTo(angle, snap) {
  const found = snap ? snappedTurn(directions.value, angle) : { angle, words: [] };
  const at = held.value ?? laidAt();
  const [x, y] = turned(found.angle - at.angle, [at.x - middle.value[0], at.y - middle.value[1]]);
  batch(() => {
    turning.value = true;
    dragging.value = snap;
    held.value = { x: middle.value[0] + x, y: middle.value[1] + y, angle: found.angle };
    snaps.value = found.words;
    // Turned, it lines up with other things: the server says with which, once it is let go.
    catches.value = [];
    if (!snap) drawn.value = null;
  });
  void ask(!snap);
}

/** The finger has gone: its pieces are cut exactly. */
export function drop() {
  batch(() => {
    dragging.value = false;
    drawn.value = null;
  });
  void ask(true);
}

/** Writes the position that the pattern is held at into the job. */
export async function layHere() {
  const [at, own, n] = [ghostAt(), table.value, placeOf(zone.value)];
  if (!at || !own || !held.value) return;
  /** @type {import("../types.js").Edit[]} */
  const edits = [{ path: ["zones", n, "at"], value: [inUnits(at.x), inUnits(at.y)] }];
  const turnedBy = at.angle - zone.value.angle_deg;
  if (Math.abs(turnedBy) > 1e-6 || own.angles.length || own.angle_from !== null) {
    const first = known.value?.control?.lines?.find((/** @type {any} */ one) => one.name === "first line")?.angle_deg ?? 0;
    const stands = own.stand === "diagonal to wall" ? 45 : 0;
    const angle = at.angle - first - stands;
    edits.push({ path: ["zones", n, "angle"], value: Number((angle - Math.round(angle / 360) * 360).toFixed(3)) });
    edits.push(...without(["angles", "angle_from", "angle_to", "angle_about", "angle_walls"].map((key) => ["zones", n, key])));
  }
  // What was seen was at the joint that is laid: a position of one's own is laid at the joint asked for.
  if (Math.abs(zone.value.joint_mm - own.joint) > 0.005) edits.push({ path: ["zones", n, "joint"], value: inUnits(zone.value.joint_mm) });
  edits.push(...without([["zones", n, "option"], ...(zone.value.kind === "field" ? [["aims", "option"]] : [])]));
  const words = snaps.value.length ? `laid with ${snaps.value[0]}` : `laid at ${lengthText(at.x, style.value)}, ${lengthText(at.y, style.value)}`;
  await edit(words, edits);
  letGo();
}
