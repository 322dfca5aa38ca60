// @ts-check
/** The room while it is measured: what is read, what is read next, what disagrees, and how sure each corner is. */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { lit } from "../lit.js";
import { CornerNames, WallFigures } from "../parts/names.js";
import { Unmeasured } from "../parts/unmeasured.js";
import { Plan, Walls } from "../plan/plan.js";
import { measured, plan, style } from "../store.js";
import { first, form, reading, room, touched } from "./booking.js";
import { sorted, touchedAt } from "./room.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {(point: Point) => Point} Screen */
/** @typedef {import("./room.js").Room} Room */

export const showEllipses = signal(false);
/** How many times larger than life they are drawn. */
const enlargement = signal(0);
/** Pixels that the largest ellipse is drawn long, from its middle. */
const ELLIPSE_PIXELS = 34;
/** A corner that can only be out one way is a line, and is seen as one. */
const LEAST_PIXELS = 1.5;
const TOUCH_PIXELS = 34;
const DOUBT = "?";
/** How far beside its line a figure stands. */
const SAYS_PIXELS = 14;

export function MeasurePlan() {
  const drawn = room.value;
  if (!drawn) return html`<${Unmeasured} says="The file holds no room to draw yet." />`;
  const around = [...drawn.at.values(), ...(plan.value?.outline_mm ?? [])];
  const says = drawn.fixed ? "Plan of the room as measured" : `Sketch of a room with corners ${drawn.corners.join(", ")}, not to scale`;
  return html`<${Plan} around=${around} label=${says}
    floor=${plan.value && html`<${Walls} plan=${plan.value} />`}
    tap=${(/** @type {Point} */ point, /** @type {number} */ pixel) => touched(touchedAt(drawn, point, TOUCH_PIXELS * pixel))}
    over=${(/** @type {Screen} */ screen) => html`
      ${!drawn.fixed && html`<${SketchWalls} room=${drawn} screen=${screen} />`}
      <${ReadLines} room=${drawn} screen=${screen} />
      ${showEllipses.value && html`<${Ellipses} screen=${screen} />`}
      ${drawn.fixed && html`<${WallFigures} screen=${screen} /><${Things} screen=${screen} />`}
      <${Points} room=${drawn} screen=${screen} />
`} />
    ${!drawn.fixed && html`<p class="not-to-scale">Not to scale yet</p>`}
    ${showEllipses.value && drawn.fixed && enlargement.value > 0 && html`<p class="not-to-scale">Ellipses ${enlargement.value} times larger than life</p>`}`;
}

/** Degrees of a line on the screen, turned so that what is written along it reads from the bottom or the right. @param {number} right @param {number} down */
function upright(right, down) {
  const turn = (Math.atan2(down, right) * 180) / Math.PI;
  return turn > 90 || turn <= -90 ? turn + 180 : turn;
}

/** @param {{room: Room, screen: Screen}} props */
function SketchWalls({ room, screen }) {
  return html`${room.walls.map((wall) => html`<${Line} key=${wall.name} room=${room} screen=${screen} from=${wall.start} to=${wall.end} kind="sketch" />`)}`;
}

/** @param {{room: Room, screen: Screen, from: string, to: string, kind: string, says?: string, at?: number}} props `at`: the share of the line before what it says. */
function Line({ room, screen, from, to, kind, says, at = 0.5 }) {
  const [start, end] = [room.at.get(from), room.at.get(to)];
  if (!start || !end) return null;
  const [[x1, y1], [x2, y2]] = [screen(start), screen(end)];
  const far = Math.hypot(x2 - x1, y2 - y1) || 1;
  // A figure stands outside its wall; a doubt inside, clear of it.
  const out = says === DOUBT ? -SAYS_PIXELS : SAYS_PIXELS;
  const [nx, ny] = [(-(y2 - y1) / far) * out, ((x2 - x1) / far) * out];
  return html`<line class=${kind} x1=${x1} y1=${y1} x2=${x2} y2=${y2} />
    ${says && html`<text class=${`wall-figure ${kind}-says`} transform=${`translate(${x1 + at * (x2 - x1) + nx} ${y1 + at * (y2 - y1) + ny}) rotate(${says === DOUBT ? 0 : upright(x2 - x1, y2 - y1)})`}>${says}</text>`}`;
}

/** Readings that are no walls, those in doubt, the one that comes next, and what a finding names. @param {{room: Room, screen: Screen}} props */
function ReadLines({ room, screen }) {
  const booked = /** @type {Record<string, number[]>} */ (measured.value?.job?.survey?.distances ?? {});
  // The reading of a wall that is an arc runs straight across it.
  const walls = new Set(room.walls.filter((wall) => !wall.arc).map((wall) => sorted(`${wall.start}-${wall.end}`)));
  const doubted = new Set((measured.value?.survey?.explanations ?? []).map((one) => one.key.split("/")[0] ?? ""));
  const ends = (/** @type {string} */ key) => /** @type {[string, string]} */ (key.split("-"));
  const line = (/** @type {string} */ key, /** @type {string} */ kind, /** @type {string} */ says = "", at = 0.5) => {
    const [from, to] = ends(key);
    return html`<${Line} key=${`${kind} ${key}`} room=${room} screen=${screen} from=${from} to=${to} kind=${kind} says=${says} at=${at} />`;
  };
  const next = form.value ? "" : reading.value;
  return html`${Object.entries(booked).map(([key, values]) => {
      const isWall = walls.has(sorted(key));
      if (room.fixed && (isWall || doubted.has(key))) return null;
      return line(key, isWall ? "read" : "read across", room.fixed ? "" : lengthText([values].flat()[0] ?? 0, style.value));
    })}
    ${[...doubted].map((key) => line(key, "doubted", DOUBT, 0.3))}
    ${[...lit.value].filter((key) => key.includes("-")).map((key) => line(key, "lit"))}
    ${room.walls.filter((wall) => lit.value.has(wall.name)).map((wall) => line(`${wall.start}-${wall.end}`, "lit"))}
    ${next && line(next, "next")}`;
}

/** @param {{room: Room, screen: Screen}} props */
function Points({ room, screen }) {
  const corners = new Set(room.corners);
  const ends = new Set(form.value ? Object.values(form.value.values) : reading.value.split("-"));
  return html`${[...room.at].map(([name, point]) => {
      const [x, y] = screen(point);
      const kind = name === first.value || lit.value.has(name) ? "spot picked" : ends.has(name) ? "spot end" : corners.has(name) && room.fixed ? "" : "spot";
      return html`${kind && html`<circle key=${name} class=${kind} cx=${x} cy=${y} r=${kind === "spot" ? 4 : 7} />`}
        ${!corners.has(name) && html`<text key=${`${name} name`} class="corner tie" x=${x} y=${y - 14}>${name}</text>`}`;
    })}
    <${CornerNames} screen=${screen} walls=${room.walls} at=${room.corners.flatMap((name) => { const point = room.at.get(name); return point ? [{ name, x_mm: point[0], y_mm: point[1] }] : []; })} />`;
}

/** Names of doors, columns and pipes. @param {{screen: Screen}} props */
function Things({ screen }) {
  const drawn = plan.value;
  if (!drawn) return null;
  return html`${drawn.openings.map((one) => {
      const [x1, y1] = screen(one.start_mm);
      const [x2, y2] = screen(one.end_mm);
      const far = Math.hypot(x2 - x1, y2 - y1) || 1;
      // The room lies left of its walls: on the screen, where y is down, its inside is the other way round.
      const [nx, ny] = [(y2 - y1) / far, -(x2 - x1) / far];
      return html`<text key=${one.name} class="thing" x=${(x1 + x2) / 2 + nx * 16} y=${(y1 + y2) / 2 + ny * 16}>${one.name}</text>`;
    })}
    ${drawn.obstacles.map((one) => {
      const [x, y] = screen(one.centre_mm);
      return html`<text key=${one.name} class="thing" x=${x} y=${y}>${one.name}</text>`;
    })}`;
}

/** How many times larger than life the ellipses are drawn, so that the largest is seen. @param {number} pixel mm of floor to a pixel. */
function enlarged(pixel) {
  const largest = Math.max(...Object.values(measured.value?.survey?.points ?? {}).map((spot) => spot.ellipse?.major_mm ?? 0));
  if (!(largest > 0)) return 0;
  const times = (ELLIPSE_PIXELS * pixel) / largest;
  const power = 10 ** Math.floor(Math.log10(times));
  return [5, 2, 1].map((one) => one * power).find((one) => one <= times) ?? power;
}

/** @param {{screen: Screen}} props */
function Ellipses({ screen }) {
  const spots = Object.entries(measured.value?.survey?.points ?? {});
  const [x0] = screen([0, 0]);
  const [x1] = screen([1000, 0]);
  const scale = (x1 - x0) / 1000;
  const times = enlarged(1 / scale);
  useEffect(() => void (enlargement.value = times), [times]);
  if (!times) return null;
  return html`${spots.map(([name, spot]) => {
      const [x, y] = screen([spot.x_mm, spot.y_mm]);
      const { major_mm, minor_mm, angle_deg } = spot.ellipse;
      return html`<ellipse key=${name} class="ellipse" rx=${major_mm * scale * times} ry=${Math.max(minor_mm * scale * times, LEAST_PIXELS)}
        transform=${`translate(${x} ${y}) rotate(${-angle_deg})`} />`;
    })}
`;
}
