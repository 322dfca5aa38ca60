// @ts-check
/** The job file as it is written, key by key, and the job as it is read from it. */
import { computed } from "@preact/signals";
import { INCH } from "./lengths.js";
import { measured } from "./store.js";

/** @typedef {import("./types.js").Path} Path */

/** The job, what is left out filled in, lengths in mm. */
export const job = computed(() => measured.value?.job ?? null);

/** The tables of the job file as they are written, with nothing that is left out. */
export const written = computed(() => measured.value?.file ?? {});

/** Whether the file has a key. @param {Path} path */
export function has(path) {
  let value = written.value;
  for (const step of path) value = value?.[step];
  return value !== undefined;
}

/** The edits that take out what there is of some keys. @param {Path[]} paths @returns {import("./types.js").Edit[]} */
export const without = (paths) => paths.filter(has).map((path) => ({ do: "drop", path }));

/** @param {number} mm @returns {number} in the job's own unit, as fine as anybody marks. */
export function inUnits(mm) {
  const per = /** @type {Record<string, number>} */ ({ mm: 1, cm: 10, m: 1000, in: INCH, ft: 12 * INCH })[job.value?.units ?? "mm"] ?? 1;
  return Number((mm / per).toFixed({ 1: 2, 10: 3, 1000: 5 }[per] ?? 4));
}
