// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import { renameCorner, renameWall } from "../../../src/floorwright/web/static/app/measure/renames.js";
import { keyOf, roomOf, touchedAt } from "../../../src/floorwright/web/static/app/measure/room.js";

const FILE = {
  title: "A",
  survey: {
    outline: ["A", "B", "C", "D"],
    walls: { S: "A-B" },
    distances: { "A-B": 3000, "B-C": 2000, "D-A": 2000 },
    square: [{ corner: "A" }],
    straight: [{ points: ["A", "P", "B"] }],
  },
  openings: [{ name: "door", wall: "S", from: "A" }, { name: "hatch", wall: "D-A", from: "D" }],
  obstacles: [{ name: "A", wall: "S", from: "B" }],
};

/** @param {any} file @param {any[]} edits what the server makes of them, for plain tables. */
function made(file, edits) {
  const copy = structuredClone(file);
  for (const one of edits) {
    const last = one.path.at(-1);
    const holder = one.path.slice(0, -1).reduce((/** @type {any} */ held, /** @type {any} */ step) => held[step], copy);
    if (one.do === "drop") delete holder[last];
    else holder[last] = one.value;
  }
  return copy;
}

test("a corner is renamed wherever it is named, and nothing else is", () => {
  const now = made(FILE, renameCorner(FILE, "A", "SW"));
  assert.deepEqual(now.survey.outline, ["SW", "B", "C", "D"]);
  assert.deepEqual(now.survey.distances, { "B-C": 2000, "SW-B": 3000, "D-SW": 2000 });
  assert.deepEqual(now.survey.walls, { S: "SW-B" });
  assert.deepEqual(now.survey.square, [{ corner: "SW" }]);
  assert.deepEqual(now.survey.straight, [{ points: ["SW", "P", "B"] }]);
  assert.deepEqual(now.openings, [{ name: "door", wall: "S", from: "SW" }, { name: "hatch", wall: "D-SW", from: "D" }]);
  assert.deepEqual([now.title, now.obstacles[0].name], ["A", "A"]);
});

test("a wall gets a name, or another, and its doors stay in it", () => {
  const first = made(FILE, renameWall(FILE, "D-A", "W"));
  assert.deepEqual(first.survey.walls, { S: "A-B", W: "D-A" });
  assert.equal(first.openings[1].wall, "W");
  const second = made(FILE, renameWall(FILE, "S", "street side"));
  assert.deepEqual(second.survey.walls, { "street side": "A-B" });
  assert.deepEqual([second.openings[0].wall, second.obstacles[0].wall], ["street side", "street side"]);
});

test("a reading is booked under the key that it has, whichever way round", () => {
  assert.equal(keyOf({ "A-C": 1 }, "C", "A"), "A-C");
  assert.equal(keyOf({}, "C", "A"), "C-A");
});

test("a touch finds the corner before the wall, and nothing far from both", () => {
  const sketch = { A: [0, 0], B: [3000, 0], C: [3000, 2000], D: [0, 2000] };
  const room = roomOf(/** @type {any} */ ({ findings: [], job: { survey: FILE.survey, rooms: [] }, sketch }));
  assert.ok(room);
  assert.deepEqual(touchedAt(room, [30, 40], 100), { point: "A" });
  assert.deepEqual(touchedAt(room, [1500, -60], 100), { wall: "S" });
  assert.deepEqual(touchedAt(room, [1500, 1000], 100), {});
});
