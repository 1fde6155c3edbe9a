// Rabbetry in the browser. Pages work without this file; with it they are live: drawings follow while a field is typed,
// a field is saved when it is left, and a pad for fractions stands beside plain typing. No field is ever replaced.
"use strict";
document.documentElement.classList.add("scripts");

const form = document.getElementById("typed");
const saver = document.getElementById("saver");
const trouble = document.getElementById("trouble");

// What goes along with the form. In one of type "hidden" a value is an attribute, and a change of it has styles matched anew.
function beside(named) {
  return form?.appendChild(Object.assign(document.createElement("input"), { type: "text", hidden: true, ...named }));
}

// ---- this tab: its own saves never clash with each other -------------------------------------------------------------
const letters = "0123456789abcdefghijklmnopqrstuv";
const tab = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => letters[byte % 32]).join("");
const nameTab = () => document.querySelectorAll("input.tab").forEach((input) => { input.value = tab; });
nameTab();

// ---- saving: one at a time, and nothing leaves the page while one is under way -----------------------------------------
let strokes = 0; // counts what was typed, so that an answer knows whether it is still news
let savedStrokes = 0;
let saving = 0;
const afterSaving = [];

// What was touched since the revision that the page starts from: a field may be typed back to what it was there.
const touched = new Map(); // names of fields, each with the stroke that touched it last
const meant = beside({ name: "meant" });
const base = () => form?.elements.namedItem("base")?.value;

function touch(name) {
  if (name) touched.set(name, strokes);
  meant.value = [...touched.keys()].join(" ");
}

function untouch(stroke) {
  touched.forEach((last, name) => { if (last <= stroke) touched.delete(name); });
  touch();
}

// Stands for what the page shows: a preview sends it along and gets what is new, without it everything.
const holds = beside({ name: "holds", id: "holds" });

const isSave = (event) => event.detail.ctx.sourceElement === saver;

document.addEventListener("htmx:before:request", (event) => {
  event.detail.ctx.strokes = strokes;
  event.detail.ctx.base = base();
  event.detail.ctx.holds = holds?.value;
  if (!isSave(event)) return;
  saving += 1;
  document.body.classList.add("saving");
  htmx.trigger(form, "htmx:abort"); // a preview under way knows less than this save
});

document.addEventListener("htmx:before:swap", (event) => {
  const { ctx, tasks } = event.detail;
  const isOld = isSave(event) && ctx.strokes !== strokes; // more was typed meanwhile: a preview will show it
  const stands = !isSave(event) && document.querySelector("#notice button"); // a preview does not settle a conflict
  const isLeft = ({ target }) => (isOld && !OF_EVERY_SAVE.includes(target?.id)) || (stands && target?.id === "notice");
  if (holds && ctx.response.status !== 204) holds.value = ctx.holds !== holds.value || tasks.some(isLeft) ? "" : ctx.response.headers.get("x-holds") ?? "";
  tasks.splice(0, tasks.length, ...tasks.filter((task) => isNews(task) && !isLeft(task)));
});

document.addEventListener("htmx:after:swap", (event) => { // what was changed elsewhere must be seen
  if (event.detail.ctx.response.status === 409) document.querySelector("#clash, #notice")?.scrollIntoView();
});

const OF_EVERY_SAVE = ["saved", "clash", "notice", "trouble"];

// Most parts of an answer are what the page shows already; touching them would only cost time.
function isNews({ target, fragment }) {
  const first = fragment.firstElementChild;
  const isSaidAlready = target === trouble && first?.isEqualNode(trouble.firstElementChild); // a finger may be on its link
  return target && !first?.isEqualNode(target) && !isSaidAlready;
}

// A part of the same make as the one that it renews only gives it its texts and attributes: what the browser has made of
// the rest stands. For parts in which htmx has nothing to do.
htmx.registerExtension("in-place", {
  handle_swap: (style, target, fragment) => {
    if (style === "inPlace") renew(target, fragment.firstElementChild);
    return style === "inPlace" && []; // nothing is new to htmx
  },
  htmx_before_morph_node: (old, { newNode }) => { // a drawing within a part that is renewed in another way
    const isRenewed = old.localName === "svg" && isOfSameMake(old, newNode);
    if (isRenewed) renew(old, newNode);
    return !isRenewed;
  },
});

const isOfSameMake = (old, now) => old.nodeName === now.nodeName && old.childNodes.length === now.childNodes.length;

function renew(old, now) {
  if (old.isEqualNode(now)) return;
  if (!isOfSameMake(old, now)) old.replaceWith(now);
  else if (old.nodeType !== Node.ELEMENT_NODE) old.data = now.data;
  else {
    renewAttributes(old, now);
    renewParts(old.firstChild, now.firstChild);
  }
}

function renewAttributes(old, now) {
  const names = now.getAttributeNames();
  for (const name of names) if (old.getAttribute(name) !== now.getAttribute(name)) old.setAttribute(name, now.getAttribute(name));
  for (const name of old.getAttributeNames()) if (!names.includes(name)) old.removeAttribute(name);
}

function renewParts(old, now) {
  while (old) {
    const [nextOld, nextNow] = [old.nextSibling, now.nextSibling];
    renew(old, now);
    [old, now] = [nextOld, nextNow];
  }
}

document.addEventListener("htmx:after:request", (event) => {
  if (event.detail.ctx.response.status >= 400 && event.detail.ctx.response.status !== 422) return;
  if (isSave(event)) savedStrokes = event.detail.ctx.strokes;
  if (waiting().length) return;
  if (isSave(event) || savedStrokes === strokes) trouble.replaceChildren(); // a preview does not unsay "not saved"
});

document.addEventListener("htmx:finally:request", (event) => {
  if (!isSave(event)) return;
  nameTab();
  if (base() !== event.detail.ctx.base) untouch(event.detail.ctx.strokes);
  saving -= 1;
  setTimeout(() => { // the next save in line starts first
    if (saving) return;
    document.body.classList.remove("saving");
    afterSaving.shift()?.(); // one at a time: what starts a save of its own goes on with the next when that is done
  });
});

document.addEventListener("submit", (event) => {
  const button = event.submitter;
  if (button?.dataset.fills && fill(button.dataset.fills, button.dataset.text)) return event.preventDefault();
  const isLive = button && "live" in button.dataset;
  if (!isLive && !saving) return undefined;
  event.preventDefault();
  const { target } = event;
  return whenSaved(isLive ? () => saveWith(button.value) : () => target.requestSubmit(button));
});

// What a button asks for must not be dropped for a newer save that waits in the same line, so it waits beside it.
function whenSaved(go) {
  if (saving) afterSaving.push(go);
  else go();
}

function saveWith(action) {
  htmx.ajax("POST", saver.getAttribute("hx-post"), { source: saver, values: { do: action } });
}

// A way out fills its field as if it had been typed.
function fill(path, text) {
  const input = form?.elements.namedItem(path);
  if (!(input instanceof HTMLInputElement)) return false;
  put(input, text);
  tell(input, "change");
  return true;
}

function put(input, text) {
  input.value = text;
  tell(input, "input");
}

function tell(input, name) {
  input.dispatchEvent(new Event(name, { bubbles: true }));
}

form?.addEventListener("input", (event) => {
  strokes += 1;
  touch(event.target.name);
});

// The same value typed again confirms what was only assumed: to a browser that is no change.
let again = null;
form?.addEventListener("focusin", ({ target }) => {
  if (target === again?.input) return;
  again = target.closest(".field")?.querySelector(".entry input") === target
    && target.closest(".field").querySelector("button.assumed") ? { input: target, isTyped: false } : null;
});
form?.addEventListener("input", ({ target }) => { if (target === again?.input) again.isTyped = true; });
form?.addEventListener("change", ({ target }) => { if (target === again?.input) again = null; });
form?.addEventListener("focusout", ({ target }) => { if (target === again?.input) confirmAgain(); });

function confirmAgain() {
  if (!again?.isTyped) return;
  const action = `confirm:${again.input.name}`;
  again = null;
  whenSaved(() => saveWith(action));
}

// ---- where a link leads: open, in view, with the caret in it -----------------------------------------------------------
function goTo() {
  const target = document.querySelector(":target");
  if (!target?.matches(".field, .answer, .findings, .group, .in-drawer, #points, #links")) return;
  for (let fold = target.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  const box = target.matches(".field") && target.querySelector("input:not([type=hidden]), select, textarea");
  if (!box) target.tabIndex = -1;
  (box || target).focus({ preventScroll: true });
  target.scrollIntoView({ block: box ? "center" : "start" });
}
addEventListener("hashchange", goTo);
document.addEventListener("click", (event) => { // the same way once more, which is no news to the address
  const way = event.target.closest(".verdict a");
  if (way?.href === location.href) setTimeout(goTo); // after the browser itself, which takes the caret
});
addEventListener("load", () => setTimeout(goTo)); // after the browser has gone there in its own way, which takes the caret
document.querySelector(".of-groups [aria-current]")?.scrollIntoView({ block: "nearest", inline: "center" }); // in a row on a phone

// ---- around the fields -------------------------------------------------------------------------------------------------
const visible = (element) => element.checkVisibility(); // not in a closed card either
const boxes = (selector) => [...form.querySelectorAll(selector)].filter(visible);

form?.addEventListener("focusin", (event) => { // where one drawing is in view, it is the one that this field changes
  const name = event.target.closest("[data-drawing]")?.dataset.drawing;
  const choice = name && document.querySelector(`.tabs input[value="${name}"]`);
  if (choice) choice.checked = true;
});

form?.addEventListener("keydown", (event) => { // Enter goes on to the next field, as a tape is read
  if (event.key !== "Enter" || !event.target.matches("input[type=text]")) return;
  event.preventDefault();
  next(event.target, "input[type=text], select") ?? event.target.blur();
});

function next(input, selector) {
  const all = boxes(selector);
  const following = all[all.indexOf(input) + 1] ?? firstFurtherOn(input, selector);
  following?.focus();
  return following;
}

// The first field of the next card, which is opened for it.
function firstFurtherOn(input, selector) {
  const cards = [...form.querySelectorAll(".drawer")].filter(visible);
  for (const card of cards.slice(cards.indexOf(input.closest(".drawer")) + 1)) {
    card.open = true;
    const first = [...card.querySelectorAll(selector)].find(visible);
    if (first) return first;
  }
  return undefined;
}

form?.addEventListener("click", (event) => { // the card opened above closes, and this one must not go out of view with it
  const card = event.target.closest(".drawer > summary")?.parentElement;
  if (card) setTimeout(() => { if (card.open && !isWhollyInView(card)) card.scrollIntoView(); });
});

function isWhollyInView(element) {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop) && bottom <= innerHeight;
}

function closeExplanations(except) {
  document.querySelectorAll("details.explain[open]").forEach((details) => { if (details !== except) details.open = false; });
}
document.addEventListener("click", (event) => closeExplanations(event.target.closest("details.explain")));
document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  closeExplanations(null);
  if (pad && !pad.hidden) closePad();
});

// ---- the fraction pad --------------------------------------------------------------------------------------------------
const pad = document.getElementById("pad");
let entry = null; // the field that the pad writes into
let typed = { whole: "", fraction: "", unit: "", fresh: true };
let committed = "";

if (pad && form) {
  form.addEventListener("pointerdown", (event) => { if (event.target.closest(".pad-key")) event.preventDefault(); });
  form.addEventListener("click", (event) => {
    const key = event.target.closest(".pad-key");
    if (key) openPad(document.getElementById(key.dataset.pad));
  });
  form.addEventListener("focusin", (event) => {
    if (pad.hidden || event.target === entry) return;
    if (event.target.matches("input.length")) openPad(event.target);
    else if (event.target.matches("input, select, textarea")) closePad();
  });
  form.addEventListener("input", (event) => {
    if (event.isTrusted && event.target === entry && !pad.hidden) { typed = readTyped(entry.value); typed.fresh = false; showPad(); }
  });
  pad.addEventListener("pointerdown", (event) => event.preventDefault()); // the field keeps focus and caret
  pad.addEventListener("click", (event) => {
    const key = event.target.closest("button");
    if (key) press(key);
  });
}

function openPad(input) {
  if (entry && entry !== input) commit();
  entry = input;
  committed = input.value;
  typed = readTyped(input.value);
  pad.hidden = false;
  document.body.classList.add("with-pad");
  form.querySelectorAll("input.length").forEach((box) => { box.inputMode = "none"; });
  input.focus({ preventScroll: true });
  input.select();
  showPad();
  bringAbove(input);
}

function bringAbove(input) {
  const box = input.closest(".field").getBoundingClientRect();
  const covered = pad.getBoundingClientRect();
  const under = covered.left < box.right && box.bottom > covered.top - 8 ? box.bottom - covered.top + 16 : 0;
  const view = document.querySelector(".view")?.getBoundingClientRect();
  const behind = view?.left < box.right && view.height < innerHeight / 2 ? Math.max(0, view.bottom - box.top + 8) : 0;
  if (under || behind) scrollBy({ top: under || -behind });
}

function closePad() {
  commit();
  pad.hidden = true;
  document.body.classList.remove("with-pad");
  form.querySelectorAll("input.length").forEach((box) => { box.inputMode = ""; });
  entry = null;
}

function commit() {
  if (entry?.value === committed) confirmAgain();
  if (!entry || entry.value === committed) return;
  committed = entry.value;
  tell(entry, "change");
}

// What stands in the field already, as far as the pad could have written it.
function readTyped(text) {
  const match = /^\s*(\d+(?:[.,]\d*)?|\.\d+)?[\s-]*(\d+\/\d+)?\s*(mm|in)?\s*$/.exec(text) ?? [];
  return { whole: match[1] ?? "", fraction: match[2] ?? "", unit: match[3] ?? pad.dataset.unit, fresh: true };
}

function writtenTyped() {
  const number = [typed.whole, typed.fraction].filter(Boolean).join(" ");
  return number && typed.unit !== pad.dataset.unit ? `${number} ${typed.unit}` : number;
}

function press(button) {
  const { key, fraction } = button.dataset;
  if (fraction) takeFraction(button);
  else if (KEYS[key]) KEYS[key]();
  else takeDigit(key);
  if (!["ok", "next", "close"].includes(key)) write();
}

function takeDigit(digit) {
  if (typed.fresh) typed = { ...typed, whole: "", fraction: "", fresh: false };
  if (digit === "." && typed.whole.includes(".")) return;
  if (digit === ".") typed.fraction = "";
  if (typed.whole.length < 12) typed.whole += digit;
}

function takeFraction(button) {
  const again = typed.fraction === button.dataset.fraction && !button.closest(".finer");
  typed = { ...typed, whole: typed.whole.split(".")[0].replace(/^0+$/, ""), fraction: button.dataset.fraction, fresh: false };
  if (again) offerFiner(button.dataset.fraction);
  else if (!button.closest(".finer")) hideFiner();
}

// The thirty-seconds and sixty-fourths above a sixteenth.
function offerFiner(fraction) {
  const [over, under] = fraction.split("/").map(Number);
  const sixtyFourths = (over * 64) / under;
  const strip = pad.querySelector(".finer");
  strip.replaceChildren(...[0, 1, 2, 3].map((more) => fractionKey(sixtyFourths + more)));
}

function hideFiner() {
  const strip = pad.querySelector(".finer");
  if (strip.querySelector("button")) strip.replaceChildren(Object.assign(document.createElement("span"), { className: "note", textContent: strip.dataset.says }));
}

function fractionKey(sixtyFourths) {
  let [over, under] = [sixtyFourths, 64];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  const key = document.createElement("button");
  key.type = "button";
  key.dataset.fraction = `${over}/${under}`;
  key.append(Object.assign(document.createElement("sup"), { textContent: over }), "⁄", Object.assign(document.createElement("sub"), { textContent: under }));
  return key;
}

const KEYS = {
  none: () => { typed = { ...typed, fraction: "", fresh: false }; },
  back: () => {
    if (typed.fraction) typed.fraction = "";
    else typed.whole = typed.whole.slice(0, -1);
    typed.fresh = false;
  },
  unit: () => {
    typed.unit = typed.unit === "in" ? "mm" : "in";
    if (typed.unit === "mm") typed.fraction = "";
  },
  next: () => { commit(); if (!next(entry, "input.length")) closePad(); },
  ok: () => closePad(),
  close: () => closePad(),
};

function write() {
  put(entry, writtenTyped());
  showPad();
}

function showPad() {
  pad.dataset.types = typed.unit;
  pad.querySelector("#pad-label").textContent = entry.labels[0]?.textContent ?? "";
  pad.querySelector("#pad-shown").textContent = [typed.whole, typed.fraction, typed.unit].filter(Boolean).join(" ");
  pad.querySelectorAll("[data-fraction]").forEach((key) => key.classList.toggle("chosen", key.dataset.fraction === typed.fraction));
}
