// @ts-check
/** Things to do one after the other: the one in hand large, a big button to the next, all of them below. */
import { button, el, given, said } from "./parts.js";

/** @typedef {import("./types.js").Said} Said */
/** @typedef {import("./types.js").Task} Task */
/** @typedef {import("./kept.js").Kept} Kept */
/** @typedef {{heading: string, why: string, tasks: Task[]}} Group */

/**
 * @param {object} of
 * @param {string} of.key what they are kept under.
 * @param {string} of.unit of figures that stand without theirs.
 * @param {Group[]} of.groups
 * @param {string} of.next what the big button says.
 * @param {{says: string, go: () => void} | null} of.after where it goes after the last.
 * @param {Said[]} of.mind
 * @param {Kept} of.kept
 * @param {() => void} of.keep
 * @param {(task: Task) => void} of.show
 */
export function makeTasks({ key, unit, groups, next, after, mind, kept, keep, show }) {
  const all = groups.flatMap((group, part) => group.tasks.map((task, n) => ({ task, group, part, n })));
  const now = el("div", { class: "now", "aria-live": "polite" });
  const foot = el("div", { class: "foot" });
  const list = el("div", { class: "all" });
  const scrolled = el("div", { class: "scrolled" }, now, list);
  const element = el("div", { class: "tasks" }, scrolled, foot);
  const place = () => Math.min(Math.max(kept.at[key] ?? 0, 0), all.length);
  /** @param {number} n */
  const doneKey = (n) => `${key} ${n}`;
  /** @type {HTMLElement[]} */
  const rows = [];

  /** @param {number} n */
  function go(n) {
    kept.at[key] = n;
    keep();
    draw();
    scrolled.scrollTop = 0;
  }

  /** @param {number} n @param {boolean} isDone */
  function tick(n, isDone) {
    kept.done[doneKey(n)] = Number(isDone);
    keep();
  }

  groups.forEach((group, part) => {
    const here = all.map((one, n) => ({ ...one, at: n })).filter((one) => one.part === part);
    list.append(
      el("h2", { class: "head" }, group.heading),
      el(
        "ol",
        {},
        ...here.map(({ task, at }) => {
          const row = el("button", { type: "button", class: "row", onclick: () => go(at) }, el("span", { class: "tick", "aria-hidden": "true" }), el("span", { class: "what" }, ...inShort(task)));
          rows[at] = row;
          return el("li", {}, row);
        }),
      ),
      group.why ? el("p", { class: "quiet" }, group.why) : "",
    );
  });
  list.append(...said(mind));

  function draw() {
    const at = place();
    rows.forEach((row, n) => {
      const isDone = Boolean(kept.done[doneKey(n)]);
      row.classList.toggle("done", isDone);
      if (n === at) row.setAttribute("aria-current", "step");
      else row.removeAttribute("aria-current");
      const tick = row.querySelector(".tick");
      if (tick) tick.textContent = isDone ? "✓" : "";
    });
    const one = all[at];
    const back = button("Back", "quiet", () => go(at - 1), { disabled: at === 0 });
    if (!one) {
      now.replaceChildren(el("p", { class: "count" }, `${all.length} of ${all.length}`), el("p", { class: "text" }, "All done."));
      foot.replaceChildren(back, after ? button(after.says, "primary", after.go) : button("Start again", "primary", () => go(0)));
      show({ name: "", text: "", figures: [], points: [], lines: [], arcs: [] });
      return;
    }
    const { task, group, n } = one;
    now.replaceChildren(
      el("p", { class: "count" }, el("strong", {}, task.name || `${n + 1}`), ` ${task.name ? `${at + 1} of ${all.length}` : `of ${group.tasks.length}. ${group.heading}`}`),
      ...(task.text ? [el("p", { class: "text", dir: "auto" }, task.text)] : []),
      ...task.figures.map(([words, figure]) => el("p", { class: "figure" }, words ? el("span", { class: "words" }, given(words)) : null, figure ? el("span", { class: "big" }, figure) : null, figure && unit ? el("span", { class: "give" }, unit) : null)),
    );
    foot.replaceChildren(
      back,
      button(at === all.length - 1 ? "Done" : next, "primary", () => {
        tick(at, true);
        go(at + 1);
      }),
    );
    show(task);
  }

  return { element, draw };
}

/** @param {Task} task @returns {(Node | string)[]} */
function inShort(task) {
  if (task.text) return [given(task.text)];
  return [el("strong", {}, task.name), ` ${task.figures.map(([words, figure]) => `${words} ${figure}`).join("; ")}`];
}
