// @ts-check
/** Whether a key goes into something that is typed in, and so is no command. */

const TYPED_IN = "textarea, select, [contenteditable], input:not([type=checkbox]):not([type=radio])";

/** @param {EventTarget | null} target */
export const isTypedIn = (target) => target instanceof Element && target.closest(TYPED_IN) !== null;
