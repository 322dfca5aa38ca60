// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import { drawing, inRepeats, nearest, turned } from "../../../src/floorwright/web/static/app/lay/lattice.js";

/** @typedef {[number, number]} Point */
const floor = /** @type {Point[]} */ ([[0, 0], [4200, 0], [4210, 3612], [-22, 3588]]);
const bond = {
  repeat: /** @type {[Point, Point]} */ ([[603, 0], [201, 303]]),
  pieces: /** @type {Point[][]} */ ([[[1.5, 1.5], [601.5, 1.5], [601.5, 301.5], [1.5, 301.5]]]),
};
const middle = /** @type {Point} */ ([2094, 1806]);

/** The lower left corners of the pieces of a drawing, by name. @param {string} path */
const firsts = (path) => new Set([...path.matchAll(/M(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => `${Number(x).toFixed(0)} ${Number(y).toFixed(0)}`));

test("any position is the drawing moved by less than a repeat", () => {
  for (const [x, y, angle] of [[0, 0, 0], [12345.6, -987.6, 0], [-40, 77, 33], [5e5, 5e5, 201]]) {
    const at = { x: x ?? 0, y: y ?? 0, angle: angle ?? 0 };
    const near = nearest(bond.repeat, at, [100, 50], middle);
    const off = inRepeats(bond.repeat, turned(-at.angle, [near.x - at.x, near.y - at.y]));
    assert.ok(off.every((n) => Math.abs(n - Math.round(n)) < 1e-6), `${off} whole repeats`);
    const [mx, my] = turned(at.angle, [100, 50]);
    const away = inRepeats(bond.repeat, turned(-at.angle, [near.x + mx - middle[0], near.y + my - middle[1]]));
    assert.ok(away.every((n) => Math.abs(n) <= 0.5 + 1e-9), `${away} at most half a repeat away`);
  }
});

for (const anyAngle of [false, true]) {
  test(`the drawing covers the floor wherever the pattern is moved${anyAngle ? " and turned" : ""}`, () => {
    const start = { x: 2100, y: 1807, angle: 5 };
    const drawn = drawing(bond, start, floor, anyAngle);
    const there = firsts(drawn.path);
    for (let n = 0; n < 40; n++) {
      const moved = { x: 311.7 * n - 3000, y: 97.3 * n, angle: anyAngle ? 5 + 9 * n : 5 };
      const at = nearest(bond.repeat, moved, drawn.middle, middle);
      for (const corner of floor) {
        const [i, j] = inRepeats(bond.repeat, turned(-at.angle, [corner[0] - at.x, corner[1] - at.y])).map(Math.floor);
        const [a, b] = bond.repeat;
        const first = `${(1.5 + (i ?? 0) * a[0] + (j ?? 0) * b[0]).toFixed(0)} ${(1.5 + (i ?? 0) * a[1] + (j ?? 0) * b[1]).toFixed(0)}`;
        assert.ok(there.has(first), `${first} under ${corner}`);
      }
    }
  });
}

test("no more is drawn than the floor and a repeat round it take", () => {
  const drawn = drawing(bond, { x: 0, y: 0, angle: 0 }, floor, false);
  const [wide, high] = [4232 + 603 * 3 + 201 * 2, 3612 + 303 * 4];
  assert.ok(firsts(drawn.path).size <= (wide * high) / (603 * 303));
});
