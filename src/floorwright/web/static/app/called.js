// @ts-check
/** What a job is called: its title where its file is named after it, else the name of the file. */

const bare = (/** @type {string} */ text) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");

/**
 * @param {string} name of the file, `larch-row-kitchen`.
 * @param {string} [title] `Larch Row kitchen`
 */
export const called = (name, title = "") => (bare(name) === bare(title) ? title : name);
