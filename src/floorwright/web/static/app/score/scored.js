// @ts-check
/** The scored slab as it was worked out last, and how its parts are said. */
import { computed } from "@preact/signals";
import { layout } from "../lay/laid.js";
import { FOOT_MM } from "../lengths.js";
import { style } from "../store.js";

/** Null where the job scores nothing, or nothing is worked out yet. */
export const scored = computed(() => layout.value?.scoring ?? null);

/** A length of cuts, as saws and blades are reckoned: `254.5 ft`, `77.57 m`. @param {number} mm */
export const runText = (mm) => (style.value.system === "metric" ? `${(mm / 1000).toFixed(2)} m` : `${(mm / FOOT_MM).toFixed(1)} ft`);

/** The letter of each stain, A for the first. @returns {Map<string, string>} */
export const letters = () => new Map((scored.value?.colours ?? []).map((/** @type {any} */ one, /** @type {number} */ n) => [one.name, String.fromCharCode(65 + n)]));
