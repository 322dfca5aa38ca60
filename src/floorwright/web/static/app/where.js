// @ts-check
/** Where the person is, in the page's address: loaded again it shows the same job and stage, and Back leads back. */
import { effect } from "@preact/signals";
import { goTo } from "./actions.js";
import { STAGES, closeJob, file, openJob, stage } from "./store.js";

/** The job and stage that the address names; no job where it names none. */
function named() {
  const asked = new URLSearchParams(location.hash.slice(1));
  return { job: asked.get("job") ?? "", at: STAGES.find((one) => one === asked.get("stage")) ?? "measure" };
}

async function goThere() {
  const { job, at } = named();
  if (!job && file.value) closeJob();
  else if (job && (file.value?.name === job || (await openJob(job)))) goTo(at);
}

/** Writes into the address where the person is; the key of the link, now in a cookie, is no longer shown there. */
function write() {
  const job = file.value?.name ?? "";
  const hash = job ? `#${new URLSearchParams({ job, stage: stage.value })}` : "";
  if (hash === location.hash && !location.search) return;
  const leaves = named().job !== job;
  history[leaves ? "pushState" : "replaceState"](null, "", location.pathname + hash);
}

/** Goes where the address says, and keeps it true from then on. @returns {() => void} ends it. */
export function keepPlace() {
  let unwatch = () => {};
  void goThere().then(() => (unwatch = effect(write)));
  addEventListener("popstate", goThere);
  return () => {
    unwatch();
    removeEventListener("popstate", goThere);
  };
}
