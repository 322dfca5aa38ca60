// @ts-check
/** The readings as booked, what they fit to, which disagree, and what each rests on. */
import { signal } from "@preact/signals";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { edit, fine, measured, style } from "../store.js";
import { KINDS } from "./kinds.js";
import { open, pick, spoken, takeOut } from "./booking.js";

/** @typedef {import("../types.js").Survey} Survey */
/** @typedef {import("../types.js").Reading} Reading */
/** @typedef {import("../types.js").Explanation} Explanation */

/** The reading whose sum is open. */
const opened = signal("");

/** Finer than the job's graduation, for what is well under it. */

/** @param {{survey: Survey}} props */
export function Readings({ survey }) {
  const doubted = new Map(survey.explanations.map((one) => [one.key, one]));
  const booked = /** @type {Record<string, number[]>} */ (measured.value?.job?.survey?.distances ?? {});
  const keys = Object.keys(booked);
  if (!keys.length) return null;
  return html`<table class="figures readings">
    <caption>Readings</caption>
    <thead><tr><th scope="col">From, to</th><th scope="col">Read</th><th scope="col">Fits to</th><td></td></tr></thead>
    <tbody>
      ${keys.map((key) => {
        const every = survey.observations.filter((one) => one.key === key || one.key.startsWith(`${key}/`));
        const doubt = every.map((one) => doubted.get(one.key)).find(Boolean);
        const read = [booked[key] ?? []].flat();
        const isOpen = opened.value === key;
        return html`<tr key=${key} class=${doubt ? "doubt" : ""}>
          <th scope="row">${spoken(key)}</th>
          <td class="number">${read.map((one) => lengthText(one, fine.value)).join(", ")}</td>
          <td class="number">${every[0] ? html`<button type="button" class="why" aria-expanded=${isOpen} aria-label=${`why ${spoken(key)} fits to ${lengthText(every[0].adjusted, style.value)}`}
            onClick=${() => (opened.value = isOpen ? "" : key)}>${lengthText(every[0].adjusted, style.value)}</button>` : html`<button type="button" class="why" aria-expanded=${isOpen} aria-label=${`why ${spoken(key)} fits to nothing yet`} onClick=${() => (opened.value = isOpen ? "" : key)}>waits</button>`}</td>
          <td><button type="button" onClick=${() => pick(key)} aria-label=${`read ${spoken(key)} again`}>Again</button></td>
        </tr>
        ${doubt && html`<tr key=${`${key} doubt`} class="doubt says"><td colspan="4">${doubtText(key, doubt, doubted.size > 1)}</td></tr>`}
        ${isOpen && html`<tr key=${`${key} why`} class="because"><td colspan="4">
          ${every.map((one) => html`<p key=${one.key}>${sumOf(one)}</p>`)}
          ${!every[0] && html`<p>Waits for the readings that fix its points.</p>`}
          <div class="row"><button type="button" onClick=${() => pick(key, true)}>Read it once more</button>
            <button type="button" onClick=${() => takeOut(key)} aria-label=${`take ${spoken(key)} out`}>Take it out</button></div>
        </td></tr>`}`;
      })}
    </tbody>
  </table>`;
}

/** @param {Reading} one the sum of what a reading fits to, in words. */
function sumOf(one) {
  const [read, moved, spread] = [one.measured, one.residual, one.sd].map((mm) => lengthText(Math.abs(mm), fine.value, { unit: true }));
  const way = one.residual < 0 ? "less" : "more";
  const fits = Math.abs(one.residual) < 0.05 ? "All readings together leave it as it is." : `All readings together make it ${moved} ${way}.`;
  const checked = one.redundancy < 0.05 ? "Nothing checks it: a slip in it would show nowhere." : `The others check ${Math.round(one.redundancy * 100)} % of a slip in it.`;
  return `Read ${read}. A reading this long is out by ${spread} or less two times in three, by the tape's class and a person's eye. ${fits} ${checked}`;
}

/**
 * @param {string} key
 * @param {Explanation} doubt
 * @param {boolean} oneOfSeveral whether the readings cannot tell which of several it is.
 */
export function doubtText(key, doubt, oneOfSeveral) {
  const out = `${lengthText(Math.abs(doubt.slip), style.value, { unit: true })} ${doubt.slip < 0 ? "short" : "long"}`;
  const agree = lengthText(doubt.would_agree_mm ?? doubt.would_read, style.value);
  const like = doubt.looks_like ? ` It looks like ${doubt.looks_like}.` : "";
  return oneOfSeveral
    ? `It may be this one: then it is ${out}, and would agree if it read ${agree}.${like}`
    : `Read ${spoken(key)} again: it seems ${out}. It would agree if it read ${agree}.${like}`;
}

/** Everything booked beside the readings, by kind, each to change or take out. */
export function Others() {
  const job = measured.value?.job;
  const file = measured.value?.file;
  if (!job || !file) return null;
  const kinds = KINDS.filter((kind) => kind.list && listOf(job, kind.list).length > 0);
  return html`${kinds.map((kind) => {
    const list = kind.list ?? [];
    const asTyped = listOf(file, list);
    return html`<section key=${kind.id} class="others">
      <h3>${kind.name}</h3>
      <ul>${listOf(job, list).map((one, n) => html`<li key=${n}>
        <span class="grow">${kind.says?.(one, job)}</span>
        ${asTyped[n] && kind.id !== "straight" && html`<button type="button" aria-label=${`change ${kind.says?.(one, job)}`} onClick=${() => open(kind.id, n, asTyped[n])}>Change</button>`}
        ${asTyped[n] && html`<button type="button" aria-label=${`take out ${kind.says?.(one, job)}`} onClick=${() => edit(`${one.name ?? kind.name} taken out`, [{ do: "drop", path: [...list, n] }])}>Take out</button>`}
      </li>`)}</ul>
    </section>`;
  })}`;
}

/** @param {any} tables @param {(string | number)[]} path @returns {any[]} */
const listOf = (tables, path) => path.reduce((held, step) => held?.[step], tables) ?? [];
