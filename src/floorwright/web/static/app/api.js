// @ts-check
/** Asking the server. Nothing is ever asked of any other. */

/** @typedef {import("./types.js").Fault} Fault */

/** An answer that is an error, with what the server said of it. */
export class Refusal extends Error {
  /** @param {number} status @param {Fault} fault */
  constructor(status, fault) {
    super(fault.message);
    this.status = status;
    this.fault = fault;
  }
}

/**
 * @param {string} method
 * @param {string} address
 * @param {unknown} [body]
 * @param {AbortSignal} [signal]
 * @returns {Promise<any>}
 */
async function ask(method, address, body, signal) {
  /** @type {RequestInit} */
  const request = { method, signal: signal ?? null };
  if (body !== undefined) {
    request.headers = { "content-type": "application/json" };
    request.body = JSON.stringify(body);
  }
  return told(await reached(address, request));
}

/** The server is not there: it has ended, or the network between has. */
export class LostError extends Error {}

/** @param {string} address @param {RequestInit} request @returns {Promise<Response>} */
async function reached(address, request) {
  try {
    return await fetch(address, request);
  } catch (error) {
    if (error instanceof TypeError) throw new LostError("the server does not answer");
    throw error;
  }
}

/**
 * Returns what an answer holds, or throws what the server said of why it has none.
 *
 * @param {Response} answer
 * @returns {Promise<any>}
 */
async function told(answer) {
  const found = await answer.json().catch(() => null);
  if (answer.ok) return found;
  throw new Refusal(answer.status, found?.error ?? { code: "http", message: `the server answered ${answer.status}` });
}

/** @param {string} address @param {AbortSignal} [signal] */
export const get = (address, signal) => ask("GET", address, undefined, signal);

/** @param {string} address @param {unknown} [body] @param {AbortSignal} [signal] */
export const post = (address, body = {}, signal) => ask("POST", address, body, signal);

/**
 * Sends a file as it is.
 *
 * @param {string} address
 * @param {Blob} content
 * @returns {Promise<any>}
 */
export async function send(address, content) {
  return told(await reached(address, { method: "POST", body: content }));
}

/** @param {string} job @param {string} [rest] */
export const jobAddress = (job, rest = "") => `/api/jobs/${encodeURIComponent(job)}${rest}`;

/**
 * Follows a piece of long work.
 *
 * @param {string} address
 * @param {{progress: (news: {what: string, share: number}) => void}} heard
 * @param {AbortSignal} signal ends it, here and on the server.
 * @returns {Promise<any>} what it comes to.
 */
export async function follow(address, heard, signal) {
  const answer = await reached(address, { signal });
  if (!answer.ok || !answer.body) return told(answer);
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let held = "";
  for (;;) {
    const { done, value } = await reader.read().catch((error) => {
      if (error instanceof TypeError) throw new LostError("the server does not answer");
      throw error;
    });
    if (done) throw new Refusal(502, { code: "cut", message: "the server ended before it had an answer" });
    held += value;
    const blocks = held.split("\n\n");
    held = blocks.pop() ?? "";
    for (const block of blocks) {
      const [kind, data] = block.split("\n");
      const found = JSON.parse((data ?? "").slice("data: ".length));
      if (kind === "event: progress") heard.progress(found);
      else if (kind === "event: failed") throw new Refusal(500, found);
      else return found;
    }
  }
}
