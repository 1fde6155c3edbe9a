// The line between this page and the shop's computer: what is not saved yet says so, drawings of older numbers are grey,
// and what did not arrive is sent again, by itself and by a button. Shares the counts of strokes with app.js.
"use strict";
const LATE_MS = 3000;
const AGAIN_MS = 5000;
const LATER = [403, 503]; // let in no more until it is paired anew, or busy: sent again by itself

let isDown = false; // something was sent and did not arrive
let drawnStrokes = 0; // how far what is shown follows what is typed
let behindSince = 0;
let unsavedSince = 0;
let lastStroke = 0;
let lastTry = 0;

const unsent = new Set(); // what a button asked for and what did not arrive

const isUnsaved = () => Boolean(form) && strokes !== savedStrokes;
const waiting = () => document.querySelectorAll(".tick.waits");
const isKept = () => !isUnsaved() && !waiting().length && !unsent.size;

form?.addEventListener("input", () => {
  lastStroke = Date.now();
  behindSince ||= lastStroke;
});

// ---- what is late -----------------------------------------------------------------------------------------------------
const isLate = (since) => since > 0 && Date.now() - since >= LATE_MS;

setInterval(() => {
  if (isKept()) isDown = false;
  unsavedSince = isUnsaved() ? unsavedSince || Date.now() : 0;
  document.body.classList.toggle("unsaved", isLate(unsavedSince) || (isDown && isUnsaved()));
  document.body.classList.toggle("lags", drawnStrokes !== strokes && (isLate(behindSince) || isDown));
  if (isDown && Date.now() - lastTry >= AGAIN_MS && Date.now() - lastStroke >= LATE_MS) tryAgain();
}, 250);

document.addEventListener("htmx:after:request", (event) => {
  const { ctx } = event.detail;
  if (ctx.response.status < 400 || ctx.response.status === 422) follow(ctx.strokes ?? 0);
  if (isSave(event)) isDown = LATER.includes(ctx.response.status) || waiting().length + unsent.size > 0;
});

function follow(stroke) {
  if (stroke <= drawnStrokes) return;
  drawnStrokes = stroke;
  behindSince = drawnStrokes === strokes ? 0 : Date.now();
}

// ---- a line that is down: no answer at all, or one that is not ours -----------------------------------------------------
document.addEventListener("htmx:before:response", (event) => {
  const { ctx } = event.detail;
  if (!ctx.response.headers.has("x-rabbetry")) {
    event.preventDefault();
    sayDown(event);
    return;
  }
  delete trouble.dataset.says;
  if (LATER.includes(ctx.response.status)) keepForLater(event);
});

document.addEventListener("htmx:error", sayDown);

function keepForLater(event) {
  const { ctx } = event.detail;
  tickOf(event)?.classList.add("waits");
  if (ctx?.sourceElement === saver && ctx.values?.do) unsent.add(ctx.values.do);
  isDown = true;
  lastTry = Date.now();
}

function sayDown(event) {
  keepForLater(event);
  const name = tickOf(event) ? "ticks-down" : "line-down";
  const said = document.getElementById(name);
  if (!said || (trouble.childElementCount && trouble.dataset.says === name)) return; // a finger may be on its button
  trouble.dataset.says = name;
  trouble.replaceChildren(said.content.cloneNode(true));
}

function tryAgain() {
  lastTry = Date.now();
  if (saving) return;
  sendWaiting();
  if (isUnsaved()) tell(form, "change");
}

function sendWaiting() {
  waiting().forEach((tick) => tick.click());
  afterSaving.push(...[...unsent].map((action) => () => saveWith(action)));
  unsent.clear();
  if (!saving) afterSaving.shift()?.();
}

// What was sent into a line that was not there yet would be awaited for long: it is let go and sent anew.
addEventListener("online", () => {
  if (saving) {
    htmx.trigger(saver, "htmx:abort");
    isDown = true;
  }
  lastTry = 0;
  if (isDown) tryAgain();
});

trouble.addEventListener("click", (event) => {
  if (!event.target.closest("button")) return;
  sendWaiting();
  if (event.target.closest("[data-again]") && isUnsaved()) tell(form, "change");
});

addEventListener("beforeunload", (event) => { // what would be lost with the page is asked about
  if (isDown && !isKept()) event.preventDefault();
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
