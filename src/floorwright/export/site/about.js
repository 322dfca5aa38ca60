// @ts-check
/** The job in short: what was decided, what needs an answer, what this copy keeps, how it looks. */
import { button, el, given, said } from "./parts.js";

/** @typedef {import("./types.js").Job} Job */
/** @typedef {import("./kept.js").Kept} Kept */

export const LOOKS = { "": "As the phone", light: "Light", dark: "Dark", sun: "Sun" };

/**
 * @param {Job} job
 * @param {Kept} kept
 * @param {(look: string) => void} look
 * @param {() => boolean} keeps
 * @param {() => void} forget
 */
export function makeAbout(job, kept, look, keeps, forget) {
  const choices = el("div", { class: "choices", role: "group", "aria-label": "Look" });
  const keeping = el("p", { role: "status" });
  const sure = el("div", { class: "foot" });
  const element = el(
    "div",
    { class: "about" },
    el("h2", { dir: "auto" }, job.title),
    ...said(job.first),
    el("section", {}, el("h3", {}, "Look"), choices),
    el("section", {}, el("h3", {}, "On this device"), keeping, sure),
    el("section", { class: "quiet" }, ...job.of.map((text) => el("p", {}, given(text))), el("p", {}, `Figures in ${job.units}.`)),
  );

  function ask() {
    sure.replaceChildren(
      button("Keep them", "quiet", draw),
      button("Clear all ticks", "danger", () => {
        forget();
        draw();
      }),
    );
  }

  function draw() {
    choices.replaceChildren(...Object.entries(LOOKS).map(([name, says]) => button(says, "choice", () => (look(name), draw()), { "aria-pressed": String(kept.look === name) })));
    keeping.textContent = keeps()
      ? "Ticks and readings stay on this device. Nothing is sent anywhere, and another copy of this file starts without them."
      : "This device keeps nothing from files: ticks and readings last until this page is closed.";
    keeping.className = keeps() ? "" : "warned";
    sure.replaceChildren(button("Clear ticks and readings", "quiet", ask));
  }

  return { element, draw };
}
