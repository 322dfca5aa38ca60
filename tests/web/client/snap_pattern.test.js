// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import { REACH, leftOf, linedUp, lineNear, snappedPattern, snappedTurn } from "../../../src/floorwright/web/static/app/plan/snap.js";

/** @typedef {import("../../../src/floorwright/web/static/app/plan/snap.js").Catch} Catch */
/** @type {(words: string, direction: [number, number], at: number, pitch?: number) => Catch} */
const on = (words, direction, at, pitch = 450) => ({ words, direction, at_mm: at, pitch_mm: pitch });
const across = on("a joint on the square line", [1, 0], 2100);
const along = on("a joint on the first line", [0, 1], 1800);
const tile = on("the middle of a tile on the first line", [0, 1], 1800 - 225);

test("it goes to both axes at once, and says all that lines up", () => {
  const found = snappedPattern([across, along, tile], [2100 - 450 + 20, 1785], 5 * REACH);
  assert.deepEqual(found.at, [1650, 1800]);
  assert.deepEqual(found.words, [across.words, along.words]);
});

test("how near it must be is counted in pixels", () => {
  const near = /** @type {[number, number]} */ ([2130, 1700]);
  assert.deepEqual(snappedPattern([across], near, REACH).words, []);
  assert.equal(snappedPattern([across], near, REACH).at[0], 2130);
  assert.deepEqual(snappedPattern([across], near, 5 * REACH).words, [across.words]);
});

test("the nearer of two goes first", () => {
  const other = on("balanced across", [1, 0], 2130);
  assert.deepEqual(snappedPattern([across, other], [2120, 0], 5 * REACH).words, ["balanced across"]);
});

test("of two that look the same the one that the server names first is met", () => {
  const side = on("a joint in line with a side of door", [1, 0], 2102);
  const found = snappedPattern([across, side], [2104, 0], 5 * REACH);
  assert.deepEqual(found, { at: [2100, 0], words: [across.words] });
});

test("what lies on the same place is said too, once", () => {
  const door = on("a joint at the middle of door", [1, 0], 2100 + 900);
  assert.deepEqual(snappedPattern([across, door, door], [2099, 0], 5 * REACH).words, [across.words, door.words]);
});

test("directions that are not square to each other are both met", () => {
  const slant = on("axes on the 45 left", [Math.SQRT1_2, Math.SQRT1_2], 700, 640);
  const { at } = snappedPattern([across, slant], [2095, -195], 5 * REACH);
  assert.ok([across, slant].every((one) => Math.abs(leftOf(lineNear(one, at), at)) < 1e-9));
  assert.equal(linedUp([across, slant], at).length, 2);
});

test("a turned pattern comes true to a wall or the first line, or diagonal to it", () => {
  const lines = [{ words: "the first line", angle: 0 }, { words: "wall E", angle: 87 }];
  assert.deepEqual(snappedTurn(lines, 0.9), { angle: 0, words: ["true to the first line"] });
  assert.deepEqual(snappedTurn(lines, 44.2), { angle: 45, words: ["diagonal to the first line"] });
  assert.deepEqual(snappedTurn(lines, -4), { angle: -3, words: ["true to wall E"] });
  assert.deepEqual(snappedTurn(lines, 20.04), { angle: 20, words: [] });
});
