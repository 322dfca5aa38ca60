// @ts-check
/** Fingers, mouse and wheel on a plan: one moves it, two pinch it, the wheel zooms; a handle under the first drags. */

/** @typedef {import("../types.js").Point} Point */
/**
 * @typedef {object} Told
 * @property {(right: number, down: number) => void} pan
 * @property {(place: Point, factor: number) => void} zoom
 * @property {(place: Point) => boolean} grab whether something that drags lies there: the finger has it from then on.
 * @property {(place: Point) => void} drag
 * @property {() => void} drop
 * @property {(place: Point) => void} tap
 */

const TAP_PIXELS = 6;
const WHEEL_STEP = 0.0016;

/**
 * @param {HTMLElement | SVGElement} element
 * @param {Told} told
 * @returns {() => void} ends it.
 */
export function gestures(element, told) {
  /** @type {Map<number, Point>} */
  const fingers = new Map();
  let grabbed = false;
  let went = 0;
  // Asked for as the first finger comes, and not at each move: there it would have the page laid out in mid-drag.
  let box = element.getBoundingClientRect();

  /** @param {PointerEvent | WheelEvent} event @returns {Point} */
  const placeOf = (event) => {
    if (fingers.size === 0) box = element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  /** @param {PointerEvent} event */
  const down = (event) => {
    if (event.button > 0) return;
    element.setPointerCapture(event.pointerId);
    const place = placeOf(event);
    fingers.set(event.pointerId, place);
    if (fingers.size === 1) {
      went = 0;
      grabbed = told.grab(place);
    } else if (grabbed) {
      grabbed = false;
      told.drop();
    }
  };

  /** @param {PointerEvent} event */
  const move = (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const place = placeOf(event);
    went += Math.hypot(place[0] - before[0], place[1] - before[1]);
    if (grabbed) {
      fingers.set(event.pointerId, place);
      told.drag(place);
      return;
    }
    if (fingers.size === 1) {
      fingers.set(event.pointerId, place);
      if (went > TAP_PIXELS) told.pan(place[0] - before[0], place[1] - before[1]);
      return;
    }
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    fingers.set(event.pointerId, place);
    if (!other) return;
    const apart = Math.hypot(place[0] - other[0], place[1] - other[1]);
    const were = Math.hypot(before[0] - other[0], before[1] - other[1]);
    /** @type {Point} */
    const middle = [(place[0] + other[0]) / 2, (place[1] + other[1]) / 2];
    told.pan((place[0] - before[0]) / 2, (place[1] - before[1]) / 2);
    if (were > 0 && apart > 0) told.zoom(middle, apart / were);
  };

  /** @param {PointerEvent} event */
  const up = (event) => {
    const place = fingers.get(event.pointerId);
    if (!place) return;
    fingers.delete(event.pointerId);
    if (grabbed) {
      grabbed = false;
      told.drop();
    } else if (fingers.size === 0 && went <= TAP_PIXELS && event.type === "pointerup") {
      told.tap(place);
    }
  };

  /** @param {WheelEvent} event */
  const wheel = (event) => {
    event.preventDefault();
    told.zoom(placeOf(event), Math.exp(-event.deltaY * WHEEL_STEP));
  };

  /** @type {[string, (event: any) => void][]} */
  const heard = [
    ["pointerdown", down],
    ["pointermove", move],
    ["pointerup", up],
    ["pointercancel", up],
  ];
  for (const [kind, hear] of heard) element.addEventListener(kind, hear);
  element.addEventListener("wheel", /** @type {EventListener} */ (wheel), { passive: false });
  return () => {
    for (const [kind, hear] of heard) element.removeEventListener(kind, hear);
    element.removeEventListener("wheel", /** @type {EventListener} */ (wheel));
  };
}
