// Marks on corners in a photo: put by tap, by drawing them, or by keys. Each writes its two number fields as if they had
// been typed, so the page draws and saves them like any other field. The board says where the fields are (data-path),
// into how many parts a pixel counts, how slowly a mark follows the finger, and how much of the photo the loupe shows.
"use strict";

const board = document.getElementById("marks");
const loupe = document.getElementById("loupe");
const outlines = [...board.querySelectorAll(".between")];
const names = [...board.querySelectorAll(".mark")].map((mark) => mark.dataset.mark);
const reach = 44; // pixels of the screen within which a finger means the mark
const told = (name, usual) => Number(board.dataset[name] ?? usual);
const radius = told("radius", 26); // of a mark, in pixels of the screen: wide enough for a gloved finger, open so that the corner shows
const [parts, slow, loupeShows] = [told("parts", 1), told("slow", 1), told("loupe", 40)];
const path = board.dataset.path;
const size = { across: Number(board.dataset.across), down: Number(board.dataset.up) };
let drawn = null; // the mark under the finger

const markOf = (name) => board.querySelector(`[data-mark="${name}"]`);
const placeOf = (name) => ({ across: Number(markOf(name).getAttribute("cx")), down: Number(markOf(name).getAttribute("cy")) });
const inputOf = (name, axis) => document.querySelector(`[name$=".${path}.${name}.${axis}"]`);
const radioOf = (name) => document.querySelector(`[name="corner_now"][value="${name}"]`);
const clamp = (value, most) => Math.min(Math.max(Math.round(value * parts) / parts, 0), most);
const isPut = (name) => !markOf(name).classList.contains("unput");

// Where the photo is touched, in its own pixels.
function placeAt(event) {
  const box = board.getBoundingClientRect();
  return { across: ((event.clientX - box.left) / box.width) * size.across, down: ((event.clientY - box.top) / box.height) * size.down };
}

function nearest(place) {
  const scale = board.getBoundingClientRect().width / size.across;
  const away = (name) => Math.hypot(placeOf(name).across - place.across, placeOf(name).down - place.down) * scale;
  const near = names.filter(isPut).sort((one, other) => away(one) - away(other))[0];
  return near && away(near) <= reach ? near : null;
}

// The lines between the marks that are put; a board with two outlines says which marks are of which.
function outline() {
  outlines.forEach((line) => {
    const of = names.filter((name) => isPut(name) && name.startsWith(line.dataset.of ?? ""));
    line.setAttribute("points", of.map((name) => Object.values(placeOf(name)).join(",")).join(" "));
  });
}

function put(name, place) {
  const [across, down] = [clamp(place.across, size.across), clamp(place.down, size.down)];
  markOf(name).setAttribute("cx", across);
  markOf(name).setAttribute("cy", down);
  inputOf(name, "across").value = across;
  inputOf(name, "down").value = down;
  markOf(name).classList.remove("unput");
  outline();
}

function tellTyped(name, what) {
  inputOf(name, "down").dispatchEvent(new Event(what, { bubbles: true }));
}

function choose(name) {
  radioOf(name).checked = true;
  names.forEach((one) => markOf(one).classList.toggle("chosen", one === name));
}

// A part of the photo around a mark, four times as large as the photo is shown.
function look(name) {
  const across = board.getBoundingClientRect().width;
  const part = (size.across / across) * loupeShows;
  const place = placeOf(name);
  loupe.firstElementChild.setAttribute("viewBox", `${place.across - part / 2} ${place.down - part / 2} ${part} ${part}`);
  loupe.classList.toggle("to-the-right", place.across < size.across / 2);
  loupe.hidden = false;
}

board.addEventListener("pointerdown", (event) => {
  const place = placeAt(event);
  const asked = document.querySelector('[name="corner_now"]:checked').value;
  const name = nearest(place) ?? asked;
  const from = placeOf(name);
  const isNear = nearest(place) === name;
  const tapped = isPut(asked) ? name : asked; // a tap puts the corner that is still to put, even beside another mark
  drawn = { name, tapped, place, from: isNear ? from : place, start: [event.clientX, event.clientY], isTap: true };
  choose(name);
  if (!isNear) put(name, place);
  look(name);
  board.setPointerCapture(event.pointerId);
  event.preventDefault();
});

function draw(event) {
  if (!drawn) return;
  drawn.isTap &&= Math.hypot(event.clientX - drawn.start[0], event.clientY - drawn.start[1]) < 4;
  if (drawn.isTap) return;
  const { place, from } = drawn;
  const now = placeAt(event);
  put(drawn.name, { across: from.across + (now.across - place.across) / slow, down: from.down + (now.down - place.down) / slow });
  look(drawn.name);
}
board.addEventListener("pointermove", draw);

function letGo() {
  if (!drawn) return;
  const { place, isTap } = drawn;
  const name = isTap ? drawn.tapped : drawn.name;
  if (isTap) put(name, place); // a mark that is drawn keeps its distance from the finger; one that is tapped does not
  drawn = null;
  markOf(name).focus({ preventScroll: true });
  tellTyped(name, "input");
  tellTyped(name, "change");
  const next = names.find((one) => !isPut(one));
  if (next) choose(next);
}
board.addEventListener("pointerup", (event) => {
  draw(event);
  letGo();
});
board.addEventListener("pointercancel", letGo);

const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
let moving = null;

board.addEventListener("keydown", (event) => {
  const name = event.target.dataset.mark;
  const step = STEPS[event.key];
  if (!name || !step) return;
  event.preventDefault();
  const far = event.shiftKey ? 20 : 1;
  const place = placeOf(name);
  put(name, { across: place.across + step[0] * far, down: place.down + step[1] * far });
  choose(name);
  look(name);
  tellTyped(name, "input");
  clearTimeout(moving);
  moving = setTimeout(() => tellTyped(name, "change"), 500);
});

board.addEventListener("focusin", (event) => {
  if (!event.target.dataset.mark) return;
  choose(event.target.dataset.mark);
  look(event.target.dataset.mark);
});
board.addEventListener("focusout", () => { loupe.hidden = true; });

// A number typed beside the photo moves its mark.
document.getElementById("typed").addEventListener("input", (event) => {
  const match = new RegExp(`\\.${path.replace(".", "\\.")}\\.([\\w.]+)\\.(across|down)$`).exec(event.target.name ?? "");
  if (!match || !event.isTrusted || !/^\d+(\.\d+)?$/.test(event.target.value)) return;
  const [, name, axis] = match;
  markOf(name).setAttribute(axis === "across" ? "cx" : "cy", event.target.value);
  markOf(name).classList.toggle("unput", !inputOf(name, "across").value || !inputOf(name, "down").value);
  outline();
});

// Marks keep their size on the screen, however large the photo is shown.
function widen() {
  const shown = board.getBoundingClientRect().width;
  if (!shown) return; // on paper the photo is left out
  const scale = size.across / shown;
  names.forEach((name) => markOf(name).setAttribute("r", radius * scale));
}
new ResizeObserver(widen).observe(board);

choose(names.find((name) => !isPut(name)) ?? names[0]);
