// @ts-check
import assert from "node:assert/strict";
import test from "node:test";
import { namesIn, stageOf, toAnswer, worstFirst } from "../../../src/floorwright/web/static/app/places.js";

/** @returns {any} */
const finding = (/** @type {string} */ code, /** @type {string} */ severity = "warning", place = "") => ({ code, severity, place });

test("a finding leads to the stage that mends it", () => {
  assert.equal(stageOf(finding("survey-suspect")), "measure");
  assert.equal(stageOf(finding("plan-opening-past-wall")), "measure");
  assert.equal(stageOf(finding("control-mid-lines")), "setout");
  assert.equal(stageOf(finding("layout-under-limit")), "lay");
  assert.equal(stageOf(finding("job-range", "error", "kitchen.toml:12 goods 1, length")), "lay");
  assert.equal(stageOf(finding("job-range", "error", "kitchen.toml:9 survey, distances, A-B")), "measure");
});

test("notes ask for no answer, and the worst stands first", () => {
  const all = [finding("survey-datum", "note"), finding("survey-weak-corner"), finding("survey-suspect", "error")];
  assert.equal(toAnswer(all, "measure"), 2);
  assert.equal(toAnswer(all, "lay"), 0);
  assert.deepEqual(worstFirst(all).map((one) => one.severity), ["error", "warning", "note"]);
});

test("names are found whole, the longest first", () => {
  const names = ["N", "N left", "A", "A-B", "B-D", "SW"];
  assert.deepEqual(namesIn("N left", names), ["N left"]);
  assert.deepEqual(namesIn("corner SW", names), ["SW"]);
  assert.deepEqual(namesIn("A-B or B-D", names).sort(), ["A-B", "B-D"]);
  assert.deepEqual(namesIn("survey", names), []);
});
