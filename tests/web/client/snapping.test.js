// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import { linedUp, offBy, snapped, snappedTurn } from "../../../src/floorwright/web/static/app/lay/snapping.js";

/** @typedef {import("../../../src/floorwright/web/static/app/lay/snapping.js").Catch} Catch */
/** @type {(words: string, direction: [number, number], at: number, pitch?: number) => Catch} */
const on = (words, direction, at, pitch = 450) => ({ words, direction, at_mm: at, pitch_mm: pitch });
const across = on("a joint on the square line", [1, 0], 2100);
const along = on("a joint on the first line", [0, 1], 1800);
const tile = on("the middle of a tile on the first line", [0, 1], 1800 - 225);

test("it goes to both axes at once, and says all that lines up", () => {
  const found = snapped([across, along, tile], { x: 2100 - 450 + 20, y: 1785, angle: 0 }, 5);
  assert.deepEqual(found.at, { x: 1650, y: 1800, angle: 0 });
  assert.deepEqual(found.words, [across.words, along.words]);
});

test("how near it must be is counted in pixels", () => {
  const near = { x: 2130, y: 1700, angle: 0 };
  assert.deepEqual(snapped([across], near, 1).words, []);
  assert.equal(snapped([across], near, 1).at.x, 2130);
  assert.deepEqual(snapped([across], near, 5).words, [across.words]);
});

test("the nearer of two goes first", () => {
  const other = on("balanced across", [1, 0], 2130);
  assert.deepEqual(snapped([across, other], { x: 2120, y: 0, angle: 0 }, 5).words, ["balanced across"]);
});

test("of two that look the same the one that the server names first is met", () => {
  const side = on("a joint in line with a side of door", [1, 0], 2102);
  const found = snapped([across, side], { x: 2104, y: 0, angle: 0 }, 5);
  assert.deepEqual(found, { at: { x: 2100, y: 0, angle: 0 }, words: [across.words] });
});

test("what lies on the same place is said too, once", () => {
  const door = on("a joint at the middle of door", [1, 0], 2100 + 900);
  assert.deepEqual(snapped([across, door, door], { x: 2099, y: 0, angle: 0 }, 5).words, [across.words, door.words]);
});

test("directions that are not square to each other are both met", () => {
  const slant = on("axes on the 45 left", [Math.SQRT1_2, Math.SQRT1_2], 700, 640);
  const { at } = snapped([across, slant], { x: 2095, y: -195, angle: 45 }, 5);
  assert.ok(Math.abs(offBy(across, at)) < 1e-9 && Math.abs(offBy(slant, at)) < 1e-9);
  assert.equal(linedUp([across, slant], at).length, 2);
});

test("a turned pattern comes true to a wall or the first line, or diagonal to it", () => {
  const lines = [{ words: "the first line", angle: 0 }, { words: "wall E", angle: 87 }];
  assert.deepEqual(snappedTurn(lines, 0.9), { angle: 0, words: ["true to the first line"] });
  assert.deepEqual(snappedTurn(lines, 44.2), { angle: 45, words: ["diagonal to the first line"] });
  assert.deepEqual(snappedTurn(lines, -4), { angle: -3, words: ["true to wall E"] });
  assert.deepEqual(snappedTurn(lines, 20.04), { angle: 20, words: [] });
});
