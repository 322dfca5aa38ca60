// @ts-check
/** The screen: what is on the desk at the top, the stages, the plan, and the stage's own controls beside or under it. */
import { render } from "preact";
import { useEffect } from "preact/hooks";
import { html } from "./html.js";
import { STAGE_NAMES, heard } from "./actions.js";
import { ActionButton } from "./parts/buttons.js";
import { Search } from "./search.js";
import { searching } from "./searching.js";
import { BookStage } from "./stages/book.js";
import { CutStage } from "./stages/cut.js";
import { LayPlan, LayStage } from "./stages/lay.js";
import { MeasurePlan, MeasureStage } from "./stages/measure.js";
import { SetoutPlan, SetoutStage } from "./stages/setout.js";
import { SiteStage } from "./stages/site.js";
import { STAGES, closeJob, file, lookAgain, progress, said, stage, stopSearch, trouble } from "./store.js";

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
    return () => {
      removeEventListener("keydown", heard);
      removeEventListener("focus", lookAgain);
    };
  }, []);
  const shown = SHOWN[stage.value];
  return html`
    <p class="said" role="status" aria-live="polite">${said.value}</p>
    ${trouble.value && html`<div class="trouble" role="alert"><p>${trouble.value.message}</p><button type="button" onClick=${() => (trouble.value = null)}>All right</button></div>`}
    ${shown && file.value ? html`<${Desk} shown=${shown} />` : html`<div class="page"><${BookStage} /></div>`}
  `;
}

/** @param {{shown: Shown}} props */
function Desk({ shown }) {
  return html`<div class="desk">
    <header class="top">
      <button type="button" class="back" onClick=${closeJob}>All jobs</button>
      <h1>${file.value?.name}</h1>
      <span class="history"><${ActionButton} id="undo" /><${ActionButton} id="redo" /><${ActionButton} id="find" text="Find" /></span>
    </header>
    <nav class="stages" aria-label="Stages">
      ${STAGES.filter((one) => one !== "book").map(
        (one) => html`<button type="button" key=${one} aria-current=${stage.value === one ? "step" : null} onClick=${() => (stage.value = one)}>${STAGE_NAMES[one]}</button>`,
      )}
    </nav>
    <div class="view"><${shown.plan} /></div>
    <section class="panel" aria-label=${STAGE_NAMES[stage.value]}>
      ${progress.value && html`<div class="working" role="status"><progress max="1" value=${progress.value.share}></progress><span>${progress.value.what}</span><button type="button" onClick=${stopSearch}>Stop</button></div>`}
      ${searching.value ? html`<${Search} />` : html`<${shown.panel} />`}
    </section>
  </div>`;
}

const root = document.getElementById("app");
if (root) render(html`<${App} />`, root);
