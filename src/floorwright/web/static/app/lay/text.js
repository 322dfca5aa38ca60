// @ts-check
/** Lengths on a tile as they are said: in inches alone where they are not metric. */
import { lengthText } from "../lengths.js";
import { style } from "../store.js";

/** @param {number} mm @param {boolean} [unit] */
export const cutText = (mm, unit = false) => lengthText(mm, style.value, { unit, feet: false });
