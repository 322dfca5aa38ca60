// @ts-check
/** The screen: what is on the desk at the top, the stages, the plan, and the stage's own controls beside or under it. */
import { render } from "preact";
import { useEffect } from "preact/hooks";
import { html } from "./html.js";
import { goTo, heard, stageName } from "./actions.js";
import { ActionButton } from "./parts/buttons.js";
import { Search } from "./search.js";
import { Banners } from "./banners.js";
import { Details, detailing } from "./details.js";
import { toAnswer } from "./places.js";
import { called } from "./called.js";
import { searching } from "./searching.js";
import { BookStage } from "./stages/book.js";
import { CutStage } from "./stages/cut.js";
import { LayPlan, LayStage } from "./stages/lay.js";
import { MeasurePlan, MeasureStage } from "./stages/measure.js";
import { SetoutPlan, SetoutStage } from "./stages/setout.js";
import { SiteStage } from "./stages/site.js";
import { STAGES, closeJob, file, findings, lookAgain, measured, progress, said, stage, stopSearch, watchFile } from "./store.js";
import { keepPlace } from "./where.js";

/** @typedef {{panel: any, plan: any}} Shown the components of a stage. */

/** @type {Record<string, Shown>} */
const SHOWN = {
  measure: { panel: MeasureStage, plan: MeasurePlan },
  setout: { panel: SetoutStage, plan: SetoutPlan },
  lay: { panel: LayStage, plan: LayPlan },
  cut: { panel: CutStage, plan: LayPlan },
  site: { panel: SiteStage, plan: LayPlan },
};

function App() {
  useEffect(() => {
    addEventListener("keydown", heard);
    addEventListener("focus", lookAgain);
    const [unwatch, forget] = [watchFile(), keepPlace()];
    return () => {
      unwatch();
      forget();
      removeEventListener("keydown", heard);
      removeEventListener("focus", lookAgain);
    };
  }, []);
  const shown = SHOWN[stage.value];
  return html`
    <p class="said" role="status" aria-live="polite">${said.value}</p>
    <${Banners} />
    ${shown && file.value ? html`<${Desk} shown=${shown} />` : html`<div class="page"><${BookStage} /></div>`}
  `;
}

/** Stages that begin with a heading, beside which there is room for what needs an answer. */
const OVER = ["measure", "cut"];

/** The address says where the person is, and no place within the page. @param {Event} event */
function toAnswers(event) {
  event.preventDefault();
  const answers = document.getElementById("answers");
  answers?.scrollIntoView();
  answers?.focus({ preventScroll: true });
}

/** @param {{shown: Shown}} props */
function Desk({ shown }) {
  const asks = toAnswer(findings.value, stage.value);
  const inner = searching.value ? html`<${Search} />` : detailing.value ? html`<${Details} />` : html`<${shown.panel} />`;
  return html`<div class="desk">
    <header class="top">
      <button type="button" class="back" onClick=${closeJob}><span class="wide-only">All jobs</span><span class="narrow-only">Jobs</span></button>
      <h1><button type="button" class="job-name" aria-expanded=${detailing.value} onClick=${() => (detailing.value = !detailing.value)}
        title="Job details and how the screen looks (D)"><span>${called(file.value?.name ?? "", measured.value?.job?.title)}</span></button></h1>
      <span class="history"><${ActionButton} id="undo" /><span class="wide-only"><${ActionButton} id="redo" /></span><${ActionButton} id="find" text="More" /></span>
    </header>
    <nav class="stages" aria-label="Stages">
      ${STAGES.filter((one) => one !== "book").map((one) => html`<${StageButton} key=${one} one=${one} />`)}
    </nav>
    <div class="view"><${shown.plan} /></div>
    <section class="panel" aria-label=${stageName(stage.value)}>
      ${progress.value && html`<div class="working" role="status"><progress max="1" value=${progress.value.share} aria-label="How far it is"></progress><span>${progress.value.what}</span><button type="button" onClick=${stopSearch}>Stop</button></div>`}
      ${asks > 0 && !searching.value && !detailing.value && html`<a class=${OVER.includes(stage.value) ? "asks over" : "asks"} href="#answers" onClick=${toAnswers}>${asks} to answer</a>`}
      ${inner}
    </section>
  </div>`;
}

/** @param {{one: typeof STAGES[number]}} props */
function StageButton({ one }) {
  const asks = toAnswer(findings.value, one);
  return html`<button type="button" aria-current=${stage.value === one ? "step" : null}
    aria-description=${asks ? `${asks} to answer` : null} onClick=${() => goTo(one)}>
    ${stageName(one)}${asks ? html`<span class="count" aria-hidden="true">${asks}</span>` : ""}</button>`;
}

const root = document.getElementById("app");
if (root) render(html`<${App} />`, root);
