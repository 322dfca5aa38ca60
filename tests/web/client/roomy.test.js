import assert from "node:assert/strict";
import { test } from "node:test";
import { roomy } from "../../../src/floorwright/web/static/app/score/roomy.js";

const box = (left, foot, right, head) => [[left, foot], [right, foot], [right, head], [left, head]];

test("a letter stands in the middle of a square", () => {
  assert.deepEqual(roomy([box(100, 200, 700, 800)]), { at: [400, 500], room: 600 });
});

test("in a border it stands in the wider of its strips, off what it goes round", () => {
  const { at: [x, y], room } = roomy([box(0, 0, 7000, 5000), box(600, 300, 6400, 4700)]);
  assert.ok((x === 300 || x === 6700) && y > 300 && y < 4700);
  assert.equal(room, 600);
});

test("in what a circle leaves of a square it stands in the leg that is left", () => {
  const { at: [x, y], room } = roomy([[[0, 0], [600, 0], [600, 100], [100, 100], [100, 600], [0, 600]]]);
  assert.ok((x < 100 || y < 100) && x > 0 && y > 0);
  assert.ok(room > 90 && room < 101);
});

test("where little is left at the head of a square it stands half way up that", () => {
  const { at, room } = roomy([[[0, 0], [10, 0], [10, 500], [600, 500], [600, 600], [0, 600]]]);
  assert.deepEqual([at[1], room], [550, 100]);
});

test("in a round it stands off the middle, where the lines cross", () => {
  const round = Array.from({ length: 120 }, (_, n) => [500 * Math.cos((n * Math.PI) / 60), 500 * Math.sin((n * Math.PI) / 60)]);
  const { at, room } = roomy([round]);
  assert.ok(Math.abs(at[1]) > 50 && room > 800);
});
