// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import { fractionKeys, takenBack, withFraction, withKey } from "../../../src/floorwright/web/static/app/parts/typed.js";

test("fractions add up, reduced, and never to a whole inch", () => {
  const sums = [
    ["7' 3", "1/2", "7' 3 1/2"],
    ["7' 3 1/2", "1/8", "7' 3 5/8"],
    ["2 1/4", "1/4", "2 1/2"],
    ["", "1/16", "1/16"],
    ["7' ", "1/2", "7' 1/2"],
    ["3 1/2", "1/2", "3 1/2"],
    ["11 1/4", "1/2", "11 3/4"],
    ["5 7/8", "1/32", "5 29/32"],
  ];
  for (const [typed = "", key = "", sum] of sums) assert.equal(withFraction(typed, key), sum);
});

test("every sixteenth can be put together", () => {
  for (let n = 1; n < 16; n += 1) {
    let typed = "4";
    for (const [top, key] of /** @type {[number, string][]} */ ([[8, "1/2"], [4, "1/4"], [2, "1/8"], [1, "1/16"]])) {
      if (n & top) typed = withFraction(typed, key);
    }
    const [a, b] = (typed.split(" ")[1] ?? "").split("/").map(Number);
    assert.equal(((a ?? 0) * 16) / (b ?? 1), n);
  }
});

test("a job that rounds to 1/32 has a key for it", () => {
  assert.ok(fractionKeys({ system: "imperial", step: 1 / 32 }).includes("1/32"));
  assert.ok(!fractionKeys({ system: "imperial", step: 1 / 16 }).includes("1/32"));
});

test("taking back takes a figure, a mark or a whole fraction", () => {
  assert.equal(takenBack("7' 3 1/2"), "7' 3");
  assert.equal(takenBack("7' 3"), "7'");
  assert.equal(takenBack("7' "), "7");
  assert.equal(takenBack("4200"), "420");
  assert.equal(takenBack(""), "");
});

test("a real keyboard types what the keypad can, and leaves the rest alone", () => {
  assert.equal(withKey("42", "0", false), "420");
  assert.equal(withKey("42", ",", false), "42.");
  assert.equal(withKey("42.5", ".", false), "42.5");
  assert.equal(withKey("7", "'", true), "7' ");
  assert.equal(withKey("7' 3 1", "/", true), "7' 3 1/");
  assert.equal(withKey("12", "Backspace", false), "1");
  for (const key of ["m", "Escape", "ArrowUp", "'"]) assert.equal(withKey("1", key, false), null);
});
