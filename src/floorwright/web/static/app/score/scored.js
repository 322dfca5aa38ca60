// @ts-check
/** The scored slab as it was worked out last, and how its parts are said. */
import { computed } from "@preact/signals";
import { layout } from "../lay/laid.js";
import { style } from "../store.js";

const M2_PER_SQ_FT = 0.09290304;
const FOOT_MM = 304.8;

/** Null where the job scores nothing, or nothing is worked out yet. */
export const scored = computed(() => layout.value?.scoring ?? null);

/** A length of cuts, as saws and blades are reckoned: `254.5 ft`, `77.57 m`. @param {number} mm */
export const runText = (mm) => (style.value.system === "metric" ? `${(mm / 1000).toFixed(2)} m` : `${(mm / FOOT_MM).toFixed(1)} ft`);

/** @param {number} m2 */
export const areaText = (m2) => (style.value.system === "metric" ? `${m2.toFixed(2)} m²` : `${(m2 / M2_PER_SQ_FT).toFixed(1)} sq ft`);

/** The letter of each stain, A for the first. @returns {Map<string, string>} */
export const letters = () => new Map((scored.value?.colours ?? []).map((/** @type {any} */ one, /** @type {number} */ n) => [one.name, String.fromCharCode(65 + n)]));
