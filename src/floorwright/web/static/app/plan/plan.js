// @ts-check
/**
 * The plan: the floor drawn once in floor mm and moved as a whole, and over it what is written and what drags, placed in
 * screen pixels so that it keeps its size.
 */
import { useEffect, useRef, useState } from "preact/hooks";
import { html } from "../html.js";
import { gestures } from "./gestures.js";
import { boundsOf, fitted, moved, pathOf, toFloor, toScreen, transformOf, zoomed } from "./view.js";

/** @typedef {import("../types.js").Point} Point */
/** @typedef {import("../types.js").Plan} PlanData */
/** @typedef {import("./view.js").View} View */
/** @typedef {import("./view.js").Size} Size */
/**
 * @typedef {object} Handle something that drags.
 * @property {string} id
 * @property {Point} at floor mm.
 * @property {string} label for those who hear it.
 * @property {(point: Point) => void} drag
 * @property {(point: Point) => void} drop
 * @property {string} [keys] what its keys do, where that is another thing than to move it.
 * @property {(event: KeyboardEvent) => boolean} [key] takes a key in its own way; whether it did.
 */
/** @typedef {Pick<Handle, "drag" | "drop">} Held */

/** Kept free about the plan, for names and figures: pixels, where there is room for them and where there is little. */
const EDGE = 44;
const NARROW_EDGE = 34;
const NARROW = 480;
const HANDLE_PIXELS = 26;
const KEY_PIXELS = 40;

/**
 * @param {object} props
 * @param {Point[]} props.around what the plan is fitted to.
 * @param {string} props.label says what is seen, for those who hear it.
 * @param {unknown} [props.floor] what is drawn in floor mm.
 * @param {(screen: (point: Point) => Point, view: View) => unknown} [props.over] what is written over it, in pixels.
 * @param {Handle[]} [props.handles]
 * @param {(point: Point, pixel: number) => void} [props.tap] a touch on the floor; `pixel` is mm.
 * @param {(point: Point, pixel: number) => Held | null} [props.hold] what a finger on the floor drags, off any handle.
 * @param {(event: KeyboardEvent) => boolean} [props.keys] takes a key before the plan does; whether it did.
 */
export function Plan({ around, label, floor, over, handles = [], tap, hold, keys }) {
  const root = useRef(/** @type {SVGSVGElement | null} */ (null));
  const [size, setSize] = useState(/** @type {Size} */ ({ width: 0, height: 0 }));
  const [view, setView] = useState(/** @type {View | null} */ (null));
  const now = useRef(/** @type {any} */ ({}));
  const shape = JSON.stringify(boundsOf(around));

  useEffect(() => {
    const element = root.current;
    if (!element) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry) setSize({ width: entry.contentRect.width, height: entry.contentRect.height });
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);

  // A room of another shape, or a window of another size, is shown whole.
  useEffect(() => {
    const bounds = boundsOf(around);
    if (bounds && size.width) setView(fitted(bounds, size, size.width < NARROW ? NARROW_EDGE : EDGE));
  }, [shape, size.width, size.height]);

  now.current = { size, view, handles, tap, hold };
  useEffect(() => {
    const element = root.current;
    if (!element) return;
    /** @type {Held | null | undefined} */
    let held;
    /** @type {Point} */
    let last = [0, 0];
    const floorAt = (/** @type {Point} */ place) => toFloor(now.current.view, now.current.size, place);
    return gestures(element, {
      pan: (right, down) => setView((view) => view && moved(view, right, down)),
      zoom: (place, factor) => setView((view) => view && zoomed(view, now.current.size, place, factor)),
      grab: (place) => {
        const { view, size, handles } = now.current;
        if (!view) return false;
        const far = (/** @type {Handle} */ handle) => {
          const [x, y] = toScreen(view, size, handle.at);
          return Math.hypot(x - place[0], y - place[1]);
        };
        held = handles.filter((/** @type {Handle} */ one) => far(one) <= HANDLE_PIXELS).sort(
          (/** @type {Handle} */ a, /** @type {Handle} */ b) => far(a) - far(b))[0];
        last = floorAt(place);
        held ??= now.current.hold?.(last, 1 / view.scale);
        return Boolean(held);
      },
      drag: (place) => {
        last = floorAt(place);
        held?.drag(last);
      },
      drop: () => {
        held?.drop(last);
        held = null;
      },
      tap: (place) => now.current.view && now.current.tap?.(floorAt(place), 1 / now.current.view.scale),
    });
  }, []);

  /** @param {KeyboardEvent} event */
  const key = (event) => {
    if (!view || event.ctrlKey || event.metaKey || event.altKey || event.target !== event.currentTarget) return;
    const middle = /** @type {Point} */ ([size.width / 2, size.height / 2]);
    if (keys?.(event)) {
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    /** @type {Record<string, () => View>} */
    const known = {
      "+": () => zoomed(view, size, middle, 1.25),
      "=": () => zoomed(view, size, middle, 1.25),
      "-": () => zoomed(view, size, middle, 0.8),
      ArrowLeft: () => moved(view, KEY_PIXELS, 0),
      ArrowRight: () => moved(view, -KEY_PIXELS, 0),
      ArrowUp: () => moved(view, 0, KEY_PIXELS),
      ArrowDown: () => moved(view, 0, -KEY_PIXELS),
    };
    const next = known[event.key];
    if (!next) return;
    event.preventDefault();
    setView(next());
  };

  const screen = (/** @type {Point} */ point) => (view ? toScreen(view, size, point) : point);
  return html`<svg class="plan" ref=${root} role="group" aria-label=${label} tabindex="0" onKeyDown=${key}
    style=${{ "--pixel": view ? 1 / view.scale : 1 }}>
    ${view &&
    html`<g class="floor" style=${{ transform: transformOf(view, size) }}>${floor}</g>
      <g class="over">${over?.(screen, view)}</g>
      ${handles.map((handle) => html`<${Grip} key=${handle.id} handle=${handle} at=${screen(handle.at)} />`)}`}
  </svg>`;
}

const NUDGES = /** @type {Record<string, Point>} */ ({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] });

/** @param {{handle: Handle, at: Point}} props */
function Grip({ handle, at }) {
  /** @param {KeyboardEvent} event */
  const key = (event) => {
    if (handle.key?.(event)) {
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    const nudge = NUDGES[event.key];
    if (!nudge) return;
    event.preventDefault();
    event.stopPropagation();
    const step = event.shiftKey ? 10 : 1;
    handle.drop([handle.at[0] + nudge[0] * step, handle.at[1] + nudge[1] * step]);
  };
  return html`<g class="grip" role="button" tabindex="0" aria-label=${`${handle.label}: ${handle.keys ?? "arrow keys move it by 1 mm, with shift by 10"}`}
    transform=${`translate(${at[0]} ${at[1]})`} onKeyDown=${key}>
    <circle r="22" class="grip-reach" /><circle r="9" class="grip-dot" />
  </g>`;
}

/** @param {{plan: PlanData}} props the walls, openings and obstacles, in floor mm. */
export function Walls({ plan }) {
  return html`<path class="wall" d=${pathOf([plan.outline_mm])} />
    ${plan.openings.map(
      (opening) => html`<line class="opening" x1=${opening.start_mm[0]} y1=${opening.start_mm[1]} x2=${opening.end_mm[0]} y2=${opening.end_mm[1]} />`,
    )}
    ${plan.obstacles.map((obstacle) => html`<path class="obstacle" d=${pathOf([obstacle.outline_mm])} />`)}`;
}
