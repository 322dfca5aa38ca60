// @ts-check
import { render } from "preact";
import htm from "htm";
import { h } from "preact";

const html = htm.bind(h);
const root = document.getElementById("app");
if (root) render(html`<p>floorwright</p>`, root);
