// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import { crossing, directionTo, foot, leftOf, nextAhead, snapped, snappedAlong, snappedThrough, square } from "../../../src/floorwright/web/static/app/plan/snap.js";

/** @typedef {[number, number]} Point */

const door = { words: "in line with door", through: /** @type {Point} */ ([1650, 0]), direction: /** @type {Point} */ ([0, 1]) };
const joint = { words: "on a joint", through: /** @type {Point} */ ([0, 1800]), direction: /** @type {Point} */ ([1, 0]) };
const corner = { words: "corner SW", at: /** @type {Point} */ ([0, 0]) };
const near = (/** @type {Point} */ a, /** @type {Point} */ b) => assert.ok(Math.hypot(a[0] - b[0], a[1] - b[1]) < 1e-9, `${a} is not ${b}`);

test("what is out of reach draws nothing", () => {
  assert.deepEqual(snapped([corner], [door], [1700, 900], 40), { at: [1700, 900], words: [] });
});

test("a point goes square onto a line, and to where two lines cross", () => {
  const on = snapped([corner], [door, joint], [1640, 900], 40);
  near(on.at, [1650, 900]);
  assert.deepEqual(on.words, ["in line with door"]);
  const both = snapped([corner], [door, joint], [1640, 1815], 40);
  near(both.at, [1650, 1800]);
  assert.deepEqual(both.words.sort(), ["in line with door", "on a joint"]);
});

test("a spot is taken before a line that is nearer", () => {
  const wall = { words: "along S", through: /** @type {Point} */ ([0, 5]), direction: /** @type {Point} */ ([1, 0]) };
  assert.deepEqual(snapped([corner], [wall], [12, 6], 20), { at: [0, 0], words: ["corner SW"] });
});

test("a point that is held to a line stays on it", () => {
  const rail = { words: "", through: /** @type {Point} */ ([0, 1000]), direction: directionTo([0, 1000], [4000, 1400]) };
  const found = snappedAlong(rail, [corner], [door], [1655, 1300], 40);
  near(found.at, /** @type {Point} */ (crossing(rail, door)));
  assert.ok(Math.abs(leftOf(rail, found.at)) < 1e-9);
  assert.deepEqual(found.words, ["in line with door"]);
  const free = snappedAlong(rail, [corner], [door], [3000, 1900], 40);
  near(free.at, foot(rail, [3000, 1900]));
  assert.deepEqual(free.words, []);
});

test("a line that is moved sideways goes through what is near it", () => {
  const line = { words: "", through: /** @type {Point} */ ([2000, 30]), direction: directionTo([0, 0], [4000, 40]) };
  const found = snappedThrough(line, [corner], 40);
  assert.ok(Math.abs(leftOf({ ...line, through: found.at }, corner.at)) < 1e-9);
  assert.deepEqual(found.words, ["corner SW"]);
});

test("by keys a point goes to the next thing ahead, never back", () => {
  near(/** @type {any} */ (nextAhead([], [door, joint], [1000, 900], [1, 0])).at, [1650, 900]);
  near(/** @type {any} */ (nextAhead([], [door, joint], [1000, 900], [0, 1])).at, [1000, 1800]);
  assert.equal(nextAhead([], [door, joint], [1650, 1800], [1, 0]), null);
  const level = nextAhead([corner], [], [500, 300], [0, -1]);
  near(/** @type {any} */ (level).at, [500, 0]);
  assert.deepEqual(level?.words, ["level with corner SW"]);
});

test("the foot of a point is the nearest of a line, whichever way the line runs", () => {
  for (let turn = 0; turn < 360; turn += 7) {
    const angle = (turn * Math.PI) / 180;
    const line = { words: "", through: /** @type {Point} */ ([120, -40]), direction: /** @type {Point} */ ([Math.cos(angle), Math.sin(angle)]) };
    const point = /** @type {Point} */ ([900, 700]);
    const at = foot(line, point);
    assert.ok(Math.abs(leftOf(line, at)) < 1e-9);
    const across = directionTo(at, point);
    assert.ok(Math.abs(across[0] * line.direction[0] + across[1] * line.direction[1]) < 1e-9);
    near(square(square(line.direction)), [-line.direction[0], -line.direction[1]]);
  }
});
