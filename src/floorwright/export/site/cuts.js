// @ts-check
/** The cut list: by wall, like ones together, ticked as they are cut. */
import { button, el, given, said, svg } from "./parts.js";

/** @typedef {import("./types.js").Job} Job */
/** @typedef {import("./types.js").Alike} Alike */
/** @typedef {import("./types.js").Wall} Wall */
/** @typedef {import("./kept.js").Kept} Kept */

const PICTURE = 200;
const PICTURE_EDGE = 44;

/**
 * @param {Job} job
 * @param {Kept} kept
 * @param {() => void} keep
 * @param {{choose: (cuts: number[]) => void, tick: (cut: number, isDone: boolean) => void}} plan
 */
export function makeCuts(job, kept, keep, plan) {
  const rows = job.cuts.flatMap((wall) => wall.rows.map((row) => ({ wall, row })));
  const total = rows.reduce((sum, { row }) => sum + row.pieces.length, 0);
  const card = el("div", { class: "now card", "aria-live": "polite" });
  const so_far = el("p", { class: "progress", role: "status" });
  const bar = /** @type {HTMLProgressElement} */ (el("progress", { max: total || 1, "aria-label": "Cut" }));
  const list = el("div", { class: "all" });
  const foot = el("div", { class: "foot" });
  const scrolled = el("div", { class: "scrolled" }, el("div", { class: "sum" }, so_far, bar), card, list);
  const element = el("div", { class: "cuts" }, scrolled, foot);
  /** @type {{tick: HTMLElement, count: HTMLElement | null, line: HTMLElement}[]} */
  const shown = [];
  /** @type {{says: HTMLElement, of: number[]}[]} */
  const sums = [];
  let chosen = -1;

  /** @param {number} n */
  const done = (n) => Math.min(kept.done[`cut ${n}`] ?? 0, rows[n]?.row.pieces.length ?? 0);

  /** @param {number} n @param {number} count */
  function tick(n, count) {
    kept.done[`cut ${n}`] = count;
    keep();
    draw();
  }

  /** @param {number} n */
  function toggle(n) {
    const all = rows[n]?.row.pieces.length ?? 0;
    tick(n, done(n) === all ? 0 : all);
  }

  /** @param {number} n @param {boolean} [far] whether its row must be brought to it. */
  function choose(n, far = false) {
    chosen = n;
    draw();
    plan.choose(rows[n]?.row.pieces ?? []);
    if (far) scrolled.scrollTop = 0;
  }

  let n = 0;
  for (const wall of job.cuts) {
    const says = el("span", { class: "says" });
    /** @type {number[]} */
    const of = [];
    list.append(el("h2", { class: "head" }, given(wall.heading), " ", says), el("p", { class: "quiet" }, given(`${wall.ends.join(" / ")}${job.column ? `, ${job.column}` : ""}`)));
    for (const row of wall.rows) {
      const at = n++;
      of.push(at);
      const box = button("", "tickbox", () => toggle(at), { "aria-label": `Cut ${row.no}` });
      const many = row.pieces.length > 1;
      const count = many ? button("", "count-up", () => tick(at, (done(at) + 1) % (row.pieces.length + 1)), {}) : null;
      const line = el(
        "div",
        { class: "row" },
        box,
        el(
          "button",
          { type: "button", class: "what", onclick: () => choose(at, true) },
          el("span", { class: "no" }, row.no),
          el("span", { class: "both" }, bothEnds(row)),
          row.note ? el("span", { class: "note" }, given(row.note)) : null,
        ),
        count,
      );
      shown[at] = { tick: box, count, line };
      list.append(line);
    }
    sums.push({ says, of });
  }
  list.append(...said(job.sawing));

  function draw() {
    let sum = 0;
    rows.forEach(({ row }, at) => {
      const [is, all] = [done(at), row.pieces.length];
      sum += is;
      const parts = shown[at];
      if (!parts) return;
      parts.tick.textContent = is === all ? "✓" : is ? "–" : "";
      parts.tick.setAttribute("aria-pressed", is === all ? "true" : is ? "mixed" : "false");
      parts.line.classList.toggle("done", is === all);
      parts.line.classList.toggle("chosen", at === chosen);
      if (parts.count) {
        parts.count.textContent = `${is} of ${all}`;
        parts.count.setAttribute("aria-label", `Cut ${row.no}: ${is} of ${all}, one more`);
      }
      row.pieces.forEach((cut, k) => plan.tick(cut, k < is));
    });
    for (const { says, of } of sums) says.textContent = `${of.reduce((all, at) => all + done(at), 0)} of ${of.reduce((all, at) => all + (rows[at]?.row.pieces.length ?? 0), 0)}`;
    so_far.textContent = `${sum} of ${total} cut`;
    bar.value = sum;
    const one = rows[chosen];
    card.hidden = !one;
    foot.hidden = !one;
    if (!one) return;
    card.replaceChildren(...about(one.wall, one.row));
    const many = one.row.pieces.length;
    foot.replaceChildren(
      button("Close", "quiet", () => choose(-1)),
      button(done(chosen) === many ? "Not cut yet" : many > 1 ? `All ${many} cut` : "Cut", "primary", () => toggle(chosen)),
    );
  }

  /** @param {Wall} wall @param {Alike} row @returns {Node[]} */
  function about(wall, row) {
    const [start, end] = row.kept;
    const unit = job.column ? `, ${job.column}` : "";
    return [
      el("p", { class: "count" }, el("strong", {}, `No. ${row.no}`), " ", given(wall.heading)),
      ...(start ? [el("p", { class: "figure two" }, endOf(`${wall.ends[0]}${unit}`, start), endOf(`${wall.ends[1]}${unit}`, end))] : []),
      ...(row.note ? [el("p", { class: "text" }, given(row.note))] : []),
      ...row.also.map((text) => el("p", { class: "text" }, given(text))),
      ...(row.pieces.length > 1 ? [el("p", { class: "text" }, `All ${row.pieces.length} are the same.`)] : []),
      picture(row),
    ];
  }

  return {
    element,
    draw,
    /** @param {number} cut of the plan. */
    open(cut) {
      choose(rows.findIndex(({ row }) => row.pieces.includes(cut)), true);
    },
    leave: () => plan.choose([]),
    enter: () => plan.choose(rows[chosen]?.row.pieces ?? []),
  };
}

/** @param {string} words @param {string} figure */
const endOf = (words, figure) => el("span", { class: "end" }, el("span", { class: "words" }, given(words)), el("span", { class: "big" }, figure));

/** @param {Alike} row */
function bothEnds({ kept: [start, end], also }) {
  if (!start) return also[0] ?? "see its picture";
  return start === end ? start : `${start} / ${end}`;
}

/** @param {Alike} row @returns {Element} the piece in its tile, its waste crossed out. */
function picture(row) {
  const scale = PICTURE / Math.max(...row.size);
  const [wide, high] = [row.size[0] * scale + 2 * PICTURE_EDGE, row.size[1] * scale + 2 * PICTURE_EDGE];
  const middle = [row.size[0] / 2, row.size[1] / 2];
  const figures = row.marks.map(([x, y, cx, cy, text]) => {
    const [mx, my] = [(x + cx) / 2, (y + cy) / 2];
    const along = Math.abs(x - cx) >= Math.abs(y - cy);
    const out = along ? [0, my > (middle[1] ?? 0) ? 1 : -1] : [mx > (middle[0] ?? 0) ? 1 : -1, 0];
    return svg("text", { x: PICTURE_EDGE + mx * scale + (out[0] ?? 0) * 22, y: PICTURE_EDGE + my * scale + (out[1] ?? 0) * 14, class: "mark" }, text);
  });
  return svg(
    "svg",
    { class: "picture", viewBox: `0 0 ${wide} ${high}`, role: "img", "aria-label": `The piece in its tile: ${row.marks.map((mark) => mark[4]).join(", ")}` },
    svg("g", { transform: `translate(${PICTURE_EDGE} ${PICTURE_EDGE}) scale(${scale})` }, svg("path", { d: row.tile, class: "waste" }), svg("path", { d: row.left, class: "left" }), svg("path", { d: row.tile, class: "factory" }), svg("path", { d: row.sawn, class: "sawn" })),
    ...figures,
  );
}
