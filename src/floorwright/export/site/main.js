// @ts-check
/** The page: the plan, what is being done under it, and the ways between, in reach of a thumb. */
import { makeAbout } from "./about.js";
import { makeCuts } from "./cuts.js";
import { keeping } from "./kept.js";
import { button, el, given } from "./parts.js";
import { NOTHING, makePlan } from "./plan.js";
import { makeProve } from "./prove.js";
import { makeTasks } from "./tasks.js";

/** @typedef {import("./types.js").Job} Job */
/** @typedef {{name: string, says: string, element: HTMLElement, draw: () => void}} Tab */

function start() {
  const page = document.getElementById("page");
  if (!page) return;
  const job = /** @type {Job} */ (JSON.parse(document.getElementById("job")?.textContent ?? ""));
  const { kept, keep, keeps } = keeping(page.dataset.key ?? "");
  const plan = makePlan(job, (cut) => {
    go("cuts");
    cuts.open(cut);
  });
  const cuts = makeCuts(job, kept, keep, plan);
  const lines = { says: "Snap the lines", go: () => go("snap") };
  const slab = job.scored.length ? { says: "To the saw", go: () => go("saw") } : null;
  const saw = job.cuts.length ? { says: "To the cuts", go: () => go("cuts") } : slab;
  const beyond = job.lines.length ? lines : saw;
  const prove = job.checks.length ? { says: "Now prove the cross", go: () => go("prove") } : beyond;
  const steps = makeTasks({ key: "lines", unit: "", groups: job.steps, next: "Done, next", after: prove, mind: [], kept, keep, show: plan.show });
  const snap = makeTasks({ key: "snap", unit: job.column, groups: [{ heading: `All from the nail at ${job.nail}`, why: "", tasks: job.lines }], next: "Snapped, next", after: saw, mind: job.snapping, kept, keep, show: plan.show });
  const scored = makeTasks({ key: "saw", unit: "", groups: job.scored, next: "Done, next", after: null, mind: [], kept, keep, show: plan.show });
  const proved = makeProve(job, kept, keep, (check) => plan.show({ ...NOTHING, points: check.points, lines: across(check.points) }), beyond);
  const about = makeAbout(job, kept, look, keeps, () => {
    Object.assign(kept, { done: {}, read: {}, at: {} });
    keep();
    cuts.draw();
  });
  const shown = [
    { name: "about", says: "Floor", element: about.element, draw: () => (plan.show(NOTHING), about.draw()) },
    ...(job.steps.length ? [{ name: "lines", says: "Lines", element: steps.element, draw: steps.draw }] : []),
    ...(job.checks.length ? [{ name: "prove", says: "Prove", element: proved.element, draw: proved.draw }] : []),
    ...(job.lines.length ? [{ name: "snap", says: "Snap", element: snap.element, draw: snap.draw }] : []),
    ...(job.scored.length ? [{ name: "saw", says: "Saw", element: scored.element, draw: scored.draw }] : []),
    ...(job.cuts.length ? [{ name: "cuts", says: "Cuts", element: cuts.element, draw: () => (plan.show(NOTHING), cuts.enter(), cuts.draw()) }] : []),
  ];
  const panel = el("main", { class: "panel" });
  const tabs = el("nav", { class: "tabs", "aria-label": "What to do" });
  const buttons = new Map(shown.map(({ name, says }) => [name, button(says, "tab", () => go(name))]));
  tabs.append(...buttons.values());

  /** @param {string} name */
  function go(name) {
    const tab = shown.find((one) => one.name === name) ?? shown[0];
    if (!tab || !page) return;
    if (kept.tab === "cuts" && tab.name !== "cuts") cuts.leave();
    kept.tab = tab.name;
    keep();
    page.dataset.tab = tab.name;
    for (const [one, at] of buttons) {
      if (one === tab.name) at.setAttribute("aria-current", "page");
      else at.removeAttribute("aria-current");
    }
    panel.replaceChildren(tab.element);
    panel.dataset.tab = tab.name;
    tab.draw();
  }

  /** @param {string} name */
  function look(name) {
    kept.look = name;
    keep();
    document.documentElement.dataset.look = name;
  }

  document.documentElement.dataset.look = kept.look;
  page.replaceChildren(el("header", {}, el("h1", {}, given(job.job)), plan.zooms), plan.element, panel, tabs);
  cuts.draw();
  go(kept.tab);
}

/** @param {import("./types.js").Mark[]} points @returns {import("./types.js").Stretch[]} */
function across(points) {
  const [from, to] = points;
  return from && to ? [[from[0], from[1], to[0], to[1]]] : [];
}

start();
