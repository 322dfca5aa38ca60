// @ts-check
/** Whether the search for an action is open. */
import { signal } from "@preact/signals";

export const searching = signal(false);
