// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import { boundsOf, fitted, moved, toFloor, toScreen, zoomed } from "../../../src/floorwright/web/static/app/plan/view.js";

const size = { width: 800, height: 600 };

test("a fitted room lies whole within its edges, the right way up", () => {
  const room = /** @type {[number, number][]} */ ([[0, 0], [4200, 0], [4210, 3612], [0, 3588]]);
  const view = fitted(/** @type {any} */ (boundsOf(room)), size, 40);
  for (const point of room) {
    const [x, y] = toScreen(view, size, point);
    assert.ok(x >= 39.9 && x <= 760.1 && y >= 39.9 && y <= 560.1, `${x} ${y}`);
  }
  assert.ok(toScreen(view, size, [0, 3588])[1] < toScreen(view, size, [0, 0])[1]);
});

test("the screen and the floor are each other's way back", () => {
  const view = { x: 1200, y: -300, scale: 0.13 };
  for (const point of /** @type {[number, number][]} */ ([[0, 0], [5000, 100], [-40, 77.5]])) {
    const back = toFloor(view, size, toScreen(view, size, point));
    assert.ok(Math.hypot(back[0] - point[0], back[1] - point[1]) < 1e-9);
  }
});

test("what lies under the fingers stays there when the plan is zoomed", () => {
  const view = { x: 1200, y: -300, scale: 0.13 };
  const place = /** @type {[number, number]} */ ([123, 456]);
  const before = toFloor(view, size, place);
  for (const factor of [0.5, 1.1, 3, 1e9]) {
    const after = toFloor(zoomed(view, size, place, factor), size, place);
    assert.ok(Math.hypot(after[0] - before[0], after[1] - before[1]) < 1e-6);
  }
});

test("a plan that is moved goes with the finger", () => {
  const view = { x: 0, y: 0, scale: 0.5 };
  const [x, y] = toScreen(moved(view, 30, -20), size, [100, 100]);
  const [x0, y0] = toScreen(view, size, [100, 100]);
  assert.deepEqual([x - x0, y - y0], [30, -20]);
});

test("nothing has no bounds", () => assert.equal(boundsOf([]), null));
