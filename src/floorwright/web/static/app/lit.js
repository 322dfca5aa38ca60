// @ts-check
/** What a finding points at on the plan: names of corners and walls, keys of readings. */
import { signal } from "@preact/signals";

export const lit = signal(/** @type {Set<string>} */ (new Set()));
