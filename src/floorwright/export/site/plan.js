// @ts-check
/** The plan: drawn once, then only moved. What is being done lights up over it, in screen pixels. */
import { gestures } from "./gestures.js";
import { button, el, svg } from "./parts.js";
import { fitted, moved, toFloor, toScreen, zoomed } from "./view.js";

/** @typedef {import("./types.js").Job} Job */
/** @typedef {import("./types.js").Mark} Mark */
/** @typedef {import("./types.js").Point} Point */
/** @typedef {import("./types.js").Stretch} Stretch */
/** @typedef {{points: Mark[], lines: Stretch[], arcs: Stretch[]}} Lit */

const EDGE = 30;
const NAME_OUT = 13;
const ASIDE = 0.8;
const ROOM_FOR_NAMES = 150;
const RANK = ["corner", "door", "room", "wall"];
const LETTER = 8;
const LINE = 16;
const NUMBER_ROOM = 22;
const MOST_NUMBERS = 160;
const REACH = 26;
const ARC_HALF = 26;
const STEP = 1.5;
const ARROW_STEP = 40;

/** @type {Lit} */
export const NOTHING = { points: [], lines: [], arcs: [] };

/**
 * @param {Job} job
 * @param {(cut: number) => void} tapped
 */
export function makePlan(job, tapped) {
  const { plan } = job;
  const cuts = plan.cuts.map(([, path, under]) => /** @type {SVGPathElement} */ (svg("path", { d: path, class: under ? "cut under" : "cut" })));
  const base = svg(
    "g",
    { class: "base" },
    ...plan.floor.map(([kind, d]) => svg("path", { d, class: kind })),
    ...plan.tiles.map(([shape, at]) => svg("path", { d: repeated(shape, at), class: "tile" })),
    ...cuts,
    svg("path", { d: plan.sawn, class: "sawn" }),
    ...plan.walls.map(([kind, d]) => svg("path", { d, class: kind })),
  );
  const over = svg("g", { class: "over" });
  const drawing = svg("svg", { class: "drawing", role: "img", tabindex: "0", "aria-label": `Plan of ${job.job}. ${job.title}` }, hatch(), base, over);
  const element = el("div", { class: "plan" }, drawing);
  const zooms = el(
    "div",
    { class: "zooms", role: "group", "aria-label": "Plan" },
    button("−", "zoom", () => zoom(middle(), 1 / STEP), { "aria-label": "Farther" }),
    button("+", "zoom", () => zoom(middle(), STEP), { "aria-label": "Nearer" }),
    button("All", "zoom", () => fit(), { "aria-label": "All of the floor" }),
  );
  let size = { width: 0, height: 0 };
  let view = { x: 0, y: 0, scale: 1 };
  let isWhole = true;
  let asked = 0;
  let lit = NOTHING;
  /** @type {Set<number>} */
  let chosen = new Set();
  /** @type {DOMRect[] | null} */
  let boxes = null;

  const whole = () => fitted(plan.size, size, EDGE);
  /** @returns {Point} */
  const middle = () => [size.width / 2, size.height / 2];

  function draw() {
    asked ||= requestAnimationFrame(() => {
      asked = 0;
      base.style.transform = `translate(${view.x}px, ${view.y}px) scale(${view.scale})`;
      over.replaceChildren(...numbers(), ...names(), ...lights());
    });
  }

  function fit() {
    isWhole = true;
    view = whole();
    draw();
  }

  /** @param {Point} place @param {number} factor */
  function zoom(place, factor) {
    isWhole = false;
    view = zoomed(view, place, factor, whole().scale);
    draw();
  }

  /** @param {number} right @param {number} down */
  function pan(right, down) {
    isWhole = false;
    view = moved(view, right, down);
    draw();
  }

  const boxesOf = () => (boxes ??= cuts.map((cut) => cut.getBBox()));

  /** @param {Point} place @returns {number | null} the cut there, or the nearest that a finger can have meant. */
  function cutAt(place) {
    const [x, y] = toFloor(view, place);
    const inside = cuts.findIndex((cut) => cut.isPointInFill(new DOMPoint(x, y)));
    if (inside >= 0) return inside;
    let [nearest, least] = [-1, REACH / view.scale];
    boxesOf().forEach((box, n) => {
      const off = Math.hypot(Math.max(box.x - x, 0, x - box.x - box.width), Math.max(box.y - y, 0, y - box.y - box.height));
      if (off > 0 && off < least) [nearest, least] = [n, off];
    });
    return nearest < 0 ? null : nearest;
  }

  /** @param {number} x @param {number} y @param {number} [edge] */
  const isSeen = (x, y, edge = 0) => x >= edge && y >= edge && x <= size.width - edge && y <= size.height - edge;

  function numbers() {
    /** @type {SVGElement[]} */
    const found = [];
    boxesOf().forEach((box, n) => {
      const isChosen = chosen.has(n);
      if (found.length >= MOST_NUMBERS || (!isChosen && Math.min(box.width, box.height) * view.scale < NUMBER_ROOM)) return;
      const [x, y] = toScreen(view, [box.x + box.width / 2, box.y + box.height / 2]);
      if (isSeen(x, y)) found.push(svg("text", { x, y, class: isChosen ? "number chosen" : "number" }, plan.cuts[n]?.[0] ?? ""));
    });
    return found;
  }

  /** Returns the names that there is room for, those that figures run from first. */
  function names() {
    /** @type {[number, number, number][]} */
    const taken = [];
    /** @type {SVGElement[]} */
    const found = [];
    for (const what of size.height < ROOM_FOR_NAMES ? RANK.slice(0, 1) : RANK) {
      for (const [x, y, right, down, said, kind] of plan.names) {
        if (kind !== what) continue;
        const text = what === "door" && down ? `${down > 0 ? "↑" : "↓"} ${said}` : said;
        const [left, top] = toScreen(view, [x, y]);
        const side = right > ASIDE ? 1 : right < -ASIDE ? -1 : 0;
        const half = ([...text].length * LETTER) / 2;
        const place = /** @type {[number, number, number]} */ ([left + right * NAME_OUT + side * half, top + down * NAME_OUT, half]);
        if (!isSeen(left, top, -NAME_OUT)) continue;
        place[0] = Math.min(Math.max(place[0], half + 2), size.width - half - 2);
        if (place[1] < 0 || place[1] > size.height || taken.some((other) => Math.abs(other[1] - place[1]) < LINE && Math.abs(other[0] - place[0]) < other[2] + half)) continue;
        taken.push(place);
        found.push(svg("text", { x: place[0], y: place[1], class: `name ${what}` }, text));
      }
    }
    return found;
  }

  function lights() {
    /** @type {SVGElement[]} */
    const found = [];
    for (const kind of ["casing", "light"]) {
      for (const line of lit.lines) {
        const [[x1, y1], [x2, y2]] = bothOf(line);
        found.push(svg("line", { x1, y1, x2, y2, class: kind }));
      }
      for (const arc of lit.arcs) found.push(svg("path", { d: struck(...bothOf(arc)), class: kind }));
      for (const [x, y] of lit.points) {
        const [left, top] = toScreen(view, [x, y]);
        found.push(svg("path", { d: `M${left - 9} ${top}h18M${left} ${top - 9}v18`, class: kind }));
      }
    }
    for (const [x, y, letter] of lit.points) {
      const [left, top] = toScreen(view, [x, y]);
      const right = left > size.width - 60;
      if (letter) found.push(svg("text", { x: left + (right ? -14 : 14), y: Math.max(14, top - 14), class: "letter", "text-anchor": right ? "end" : "start" }, letter));
    }
    return found;
  }

  /** @param {Stretch} stretch @returns {[Point, Point]} */
  const bothOf = ([ax, ay, bx, by]) => [toScreen(view, [ax, ay]), toScreen(view, [bx, by])];

  gestures(drawing, {
    pan,
    zoom,
    tap: (place) => {
      const cut = cutAt(place);
      if (cut !== null) tapped(cut);
    },
  });
  drawing.addEventListener("keydown", (event) => {
    const { key } = /** @type {KeyboardEvent} */ (event);
    const way = { ArrowLeft: [1, 0], ArrowRight: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[key];
    if (way) pan((way[0] ?? 0) * ARROW_STEP, (way[1] ?? 0) * ARROW_STEP);
    else if (key === "+" || key === "=") zoom(middle(), STEP);
    else if (key === "-") zoom(middle(), 1 / STEP);
    else if (key === "0") fit();
    else return;
    event.preventDefault();
  });
  new ResizeObserver(() => {
    const before = size;
    size = { width: drawing.clientWidth, height: drawing.clientHeight };
    if (isWhole || !before.width) fit();
    else pan((size.width - before.width) / 2, (size.height - before.height) / 2);
  }).observe(drawing);

  return {
    element,
    zooms,
    /** @param {Lit} light what is being done. */
    show(light) {
      lit = light;
      const ends = [...lit.points, ...lit.lines, ...lit.lines.map(([, , x, y]) => [x, y])];
      const isLost = ends.some(([x, y]) => {
        const [left, top] = toScreen(view, [Number(x), Number(y)]);
        return !isSeen(left, top, 4);
      });
      if (isLost) fit();
      draw();
    },
    /** @param {Iterable<number>} picked cuts that are spoken of. */
    choose(picked) {
      for (const cut of chosen) cuts[cut]?.classList.remove("chosen");
      chosen = new Set(picked);
      for (const cut of chosen) cuts[cut]?.classList.add("chosen");
      draw();
    },
    /** @param {number} cut @param {boolean} isDone */
    tick(cut, isDone) {
      cuts[cut]?.classList.toggle("done", isDone);
    },
  };
}

/** @param {string} shape @param {number[]} at */
function repeated(shape, at) {
  const parts = [];
  for (let n = 0; n < at.length; n += 2) parts.push(`M${at[n]} ${at[n + 1]}${shape}`);
  return parts.join("");
}

/** @param {Point} centre @param {Point} near pixels @returns {string} a short arc, as it is struck. */
function struck(centre, near) {
  const radius = Math.hypot(near[0] - centre[0], near[1] - centre[1]);
  const towards = Math.atan2(near[1] - centre[1], near[0] - centre[0]);
  const half = Math.min(ARC_HALF / Math.max(radius, 1), Math.PI / 6);
  const [start, end] = [towards - half, towards + half].map((angle) => `${centre[0] + radius * Math.cos(angle)} ${centre[1] + radius * Math.sin(angle)}`);
  return `M${start}A${radius} ${radius} 0 0 1 ${end}`;
}

function hatch() {
  const line = svg("path", { d: "M0 0V500", class: "hatch" });
  return svg("defs", {}, svg("pattern", { id: "done", width: 500, height: 500, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" }, line));
}
