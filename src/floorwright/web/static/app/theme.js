// @ts-check
/** Light, dark or high contrast: the system's own until the person says otherwise, and kept on this device. */
import { signal } from "@preact/signals";

export const THEMES = /** @type {const} */ (["system", "light", "dark", "contrast"]);
/** @typedef {(typeof THEMES)[number]} Theme */
/** What each is called. */
export const LOOKS = { system: "As the device", light: "Light", dark: "Dark", contrast: "High contrast" };

const KEPT = "floorwright-theme";
const kept = THEMES.find((one) => one === localStorage.getItem(KEPT));

export const theme = signal(/** @type {Theme} */ (kept ?? "system"));

/** @param {Theme} wanted */
export function setTheme(wanted) {
  theme.value = wanted;
  localStorage.setItem(KEPT, wanted);
  show();
}

/** A device that asks for more contrast gets it, until the person says otherwise. */
const moreContrast = matchMedia("(prefers-contrast: more)");

function show() {
  document.documentElement.dataset["theme"] = theme.value === "system" && moreContrast.matches ? "contrast" : theme.value;
}

export function cycleTheme() {
  setTheme(THEMES[(THEMES.indexOf(theme.value) + 1) % THEMES.length] ?? "system");
}

moreContrast.addEventListener("change", show);
show();
