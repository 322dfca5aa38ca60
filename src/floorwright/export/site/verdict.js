// @ts-check
/** What a check reading says of the lines. Python worked out what it is held against; the rest is one angle. */
import { fine } from "./lengths.js";

/** @typedef {import("./types.js").Check} Check */
/** @typedef {{says: "good" | "out" | "doubtful" | "cannot tell", off: number, told: string, todo: string}} Verdict `off`: mm. */

/**
 * @param {Check} check
 * @param {number} reads mm
 * @param {"metric" | "imperial"} system
 * @returns {Verdict}
 */
export function judge(check, reads, system) {
  const off = offOf(check, reads);
  const amount = fine(Math.abs(off), system);
  /** @param {string} text */
  const filled = (text) => text.replace("{}", amount);
  const side = off > 0 ? 0 : 1;
  const told = filled(check.told);
  const [good, out] = check.limits;
  if (Math.abs(off) <= good) return { says: "good", off, told, todo: "" };
  if (Math.abs(off) >= out || good === out) return { says: "out", off, told, todo: filled(check.out[side]) };
  if (check.rough) return { says: "cannot tell", off, told, todo: check.cannot };
  return { says: "doubtful", off, told, todo: filled(check.doubtful[side]) };
}

/**
 * Returns how far out a reading is, or the line at its far mark by a reading across the cross.
 *
 * @param {Check} check
 * @param {number} reads
 */
function offOf(check, reads) {
  const [a, b] = check.arms;
  if (a === undefined || b === undefined) return reads - check.expected;
  const cosine = (a * a + b * b - reads * reads) / (2 * a * b);
  return check.way * (Math.acos(Math.max(-1, Math.min(1, cosine))) - Math.PI / 2) * check.at;
}
