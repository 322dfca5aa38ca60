// @ts-check
/** Fingers, mouse and wheel on the plan: one moves it, two pinch it, a tap asks. */

/** @typedef {import("./types.js").Point} Point */
/** @typedef {{pan: (right: number, down: number) => void, zoom: (place: Point, factor: number) => void, tap: (place: Point) => void}} Told */

/** A gloved finger rolls a little. */
const TAP_PIXELS = 12;
const WHEEL_STEP = 0.0016;

/** @param {Element} element @param {Told} told */
export function gestures(element, told) {
  /** @type {Map<number, Point>} */
  const fingers = new Map();
  let went = 0;
  let most = 0;

  /** @param {{clientX: number, clientY: number}} event @returns {Point} */
  const placeOf = (event) => {
    const box = element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  /** @param {PointerEvent} event */
  const down = (event) => {
    if (event.button > 0) return;
    element.setPointerCapture(event.pointerId);
    if (!fingers.size) went = most = 0;
    fingers.set(event.pointerId, placeOf(event));
    most = Math.max(most, fingers.size);
  };

  /** @param {PointerEvent} event */
  const move = (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const place = placeOf(event);
    const [right, lower] = [place[0] - before[0], place[1] - before[1]];
    went += Math.hypot(right, lower);
    fingers.set(event.pointerId, place);
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    if (!other) {
      if (went > TAP_PIXELS) told.pan(right, lower);
      return;
    }
    const apart = Math.hypot(place[0] - other[0], place[1] - other[1]);
    const were = Math.hypot(before[0] - other[0], before[1] - other[1]);
    told.pan(right / 2, lower / 2);
    if (were > 0 && apart > 0) told.zoom([(place[0] + other[0]) / 2, (place[1] + other[1]) / 2], apart / were);
  };

  /** @param {PointerEvent} event */
  const up = (event) => {
    const place = fingers.get(event.pointerId);
    fingers.delete(event.pointerId);
    if (place && event.type === "pointerup" && most === 1 && went <= TAP_PIXELS) told.tap(place);
  };

  element.addEventListener("pointerdown", /** @type {EventListener} */ (down));
  element.addEventListener("pointermove", /** @type {EventListener} */ (move));
  element.addEventListener("pointerup", /** @type {EventListener} */ (up));
  element.addEventListener("pointercancel", /** @type {EventListener} */ (up));
  element.addEventListener(
    "wheel",
    (event) => {
      event.preventDefault();
      const wheel = /** @type {WheelEvent} */ (event);
      told.zoom(placeOf(wheel), Math.exp(-wheel.deltaY * WHEEL_STEP));
    },
    { passive: false },
  );
}
