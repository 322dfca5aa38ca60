// @ts-check
/** A figure that, for a moment after it changed, says what it was. */
import { useEffect, useRef, useState } from "preact/hooks";
import { html } from "../html.js";

const MOMENT_MS = 4000;

/**
 * @param {object} props
 * @param {string} props.text
 * @param {string | null} [props.was] what it is held against as long as it is another; without it what it was before.
 */
export function Changed({ text, was = null }) {
  const before = useRef(text);
  const [shown, setShown] = useState("");
  useEffect(() => {
    if (before.current === text) return undefined;
    setShown(before.current);
    before.current = text;
    const timer = setTimeout(() => setShown(""), MOMENT_MS);
    return () => clearTimeout(timer);
  }, [text]);
  const old = was ?? shown;
  return old && old !== text ? html`<mark class="changed">${text}<small> was ${old}</small></mark>` : html`<span>${text}</span>`;
}
