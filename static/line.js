// The line between this page and the shop's computer: what is not saved yet says so, drawings of older numbers are grey,
// and what did not arrive is sent again, by itself and by a button. Shares the counts of strokes with app.js.
"use strict";
const LATE_MS = 3000;
const AGAIN_MS = 5000;

let isDown = false; // something was sent and did not arrive
let drawnStrokes = 0; // how far what is shown follows what is typed
let unsavedSince = 0;
let lastStroke = 0;
let lastTry = 0;

const isUnsaved = () => Boolean(form) && strokes !== savedStrokes;
const waiting = () => document.querySelectorAll(".tick.waits");

form?.addEventListener("input", () => { lastStroke = Date.now(); });

// ---- what is late -----------------------------------------------------------------------------------------------------
setInterval(() => {
  if (!isUnsaved() && !waiting().length) isDown = false;
  unsavedSince = isUnsaved() ? unsavedSince || Date.now() : 0;
  const isLate = unsavedSince && Date.now() - unsavedSince >= LATE_MS;
  document.body.classList.toggle("unsaved", Boolean(isLate) || (isDown && isUnsaved()));
  document.body.classList.toggle("lags", drawnStrokes !== strokes && (isLate || isDown));
  if (isDown && Date.now() - lastTry >= AGAIN_MS && Date.now() - lastStroke >= LATE_MS) tryAgain();
}, 250);

document.addEventListener("htmx:after:request", (event) => {
  const { ctx } = event.detail;
  if (ctx.response.status < 400 || ctx.response.status === 422) drawnStrokes = Math.max(drawnStrokes, ctx.strokes ?? 0);
});

// ---- a line that is down: no answer at all, or one that is not ours -------------------------------------------------------
document.addEventListener("htmx:before:response", (event) => {
  const { response } = event.detail.ctx;
  if (response.status >= 500 && !response.headers.has("x-rabbetry")) {
    event.preventDefault();
    sayDown(tickOf(event));
  }
});

document.addEventListener("htmx:error", (event) => sayDown(tickOf(event)));

function sayDown(tick) {
  tick?.classList.add("waits");
  isDown = true;
  lastTry = Date.now();
  const name = tick ? "ticks-down" : "line-down";
  const said = document.getElementById(name);
  if (!said || (trouble.childElementCount && trouble.dataset.says === name)) return; // a finger may be on its button
  trouble.dataset.says = name;
  trouble.replaceChildren(said.content.cloneNode(true));
}

function tryAgain() {
  lastTry = Date.now();
  if (saving) return;
  waiting().forEach((tick) => tick.click());
  if (isUnsaved()) tell(form, "change");
}
addEventListener("online", () => { if (isDown) tryAgain(); });

trouble.addEventListener("click", (event) => {
  if (!event.target.closest("button")) return;
  waiting().forEach((tick) => tick.click());
  if (event.target.closest("[data-again]") && isUnsaved()) tell(form, "change");
});

document.addEventListener("visibilitychange", () => { // the tablet is put away in the middle of a field
  if (document.hidden && isUnsaved()) tell(form, "change");
});

// ---- ticks: pending until the shop's computer has them -----------------------------------------------------------------
function tickOf(event) {
  const { sourceElement } = event.detail.ctx ?? {};
  return sourceElement?.matches(".tick") ? sourceElement : null;
}

document.addEventListener("htmx:before:request", (event) => {
  tickOf(event)?.classList.remove("waits");
  tickOf(event)?.setAttribute("aria-busy", "true");
});
