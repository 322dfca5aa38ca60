// @ts-check
/** Elements. What comes from the job goes in as text, never as markup. */

/** @typedef {import("./types.js").Said} Said */
/** @typedef {Record<string, string | number | boolean | ((event: any) => void) | null>} Attributes */

const SVG = "http://www.w3.org/2000/svg";

/**
 * @param {string} tag
 * @param {Attributes} [attributes] those that begin with `on` are listeners; false and null are left out.
 * @param {(Node | string | null | false)[]} children
 * @returns {HTMLElement}
 */
export function el(tag, attributes = {}, ...children) {
  return /** @type {HTMLElement} */ (made(document.createElement(tag), attributes, children));
}

/**
 * @param {string} tag
 * @param {Attributes} [attributes]
 * @param {(Node | string | null | false)[]} children
 * @returns {SVGElement}
 */
export function svg(tag, attributes = {}, ...children) {
  return /** @type {SVGElement} */ (made(document.createElementNS(SVG, tag), attributes, children));
}

/** @param {Element} element @param {Attributes} attributes @param {(Node | string | null | false)[]} children */
function made(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name.slice(2), value);
    else if (value !== false && value !== null) element.setAttribute(name, value === true ? "" : String(value));
  }
  element.append(...children.filter((child) => child !== null && child !== false));
  return element;
}

/** @param {string} text that a person gave, which may run the other way. */
export const given = (text) => el("bdi", {}, text);

/** @param {Said[]} parts @returns {HTMLElement[]} */
export const said = (parts) =>
  parts.map(({ heading, lines, tone }) =>
    el("section", { class: `said ${tone}` }, heading ? el("h3", {}, heading) : null, ...lines.map((line) => el("p", { dir: "auto" }, line))),
  );

/** @param {string} says @param {string} kind @param {() => void} pressed @param {Attributes} [more] */
export const button = (says, kind, pressed, more = {}) => el("button", { type: "button", class: kind, onclick: pressed, ...more }, says);
