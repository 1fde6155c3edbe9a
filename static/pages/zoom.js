// A sheet made larger and smaller under the pointer: by pinch, by scroll, and by the two buttons. Without scripts the
// buttons are links to the page with a larger sheet.
"use strict";

const view = document.getElementById("paper-view");
const most = Number(view.dataset.most);
const buttons = [...document.querySelectorAll("[data-zoom]")];
let zoom = Number(getComputedStyle(view).getPropertyValue("--zoom"));
let apart = 0; // how far two fingers were apart when the pinch began, over the zoom of then

const middle = () => {
  const box = view.getBoundingClientRect();
  return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
};

// What lies under a place of the screen stays there.
function zoomTo(wanted, place) {
  const [box, before] = [view.getBoundingClientRect(), zoom];
  zoom = Math.min(Math.max(wanted, 1), most);
  const [x, y] = [place.x - box.left, place.y - box.top];
  const [left, top] = [view.scrollLeft, view.scrollTop];
  view.style.setProperty("--zoom", zoom);
  view.scrollLeft = ((left + x) * zoom) / before - x;
  view.scrollTop = ((top + y) * zoom) / before - y;
  for (const button of buttons) button.toggleAttribute("aria-disabled", zoom === (isLarger(button) ? most : 1));
}

const isLarger = (button) => button.dataset.zoom === "+";

for (const button of buttons) {
  button.setAttribute("role", "button");
  button.tabIndex = 0;
  const press = (event) => {
    event.preventDefault();
    zoomTo(isLarger(button) ? zoom * 1.5 : zoom / 1.5, middle());
  };
  button.addEventListener("click", press);
  button.addEventListener("keydown", (event) => { if (event.key === " " || event.key === "Enter") press(event); });
}

view.addEventListener("wheel", (event) => {
  event.preventDefault();
  zoomTo(zoom * Math.exp(-event.deltaY / 400), { x: event.clientX, y: event.clientY });
}, { passive: false });

const between = ([one, other]) => ({
  apart: Math.hypot(one.clientX - other.clientX, one.clientY - other.clientY),
  x: (one.clientX + other.clientX) / 2,
  y: (one.clientY + other.clientY) / 2,
});

view.addEventListener("touchstart", (event) => {
  if (event.touches.length === 2) apart = between(event.touches).apart / zoom;
}, { passive: true });

view.addEventListener("touchmove", (event) => {
  if (event.touches.length !== 2) return;
  if (event.cancelable) event.preventDefault();
  const fingers = between(event.touches);
  zoomTo(fingers.apart / apart, fingers);
}, { passive: false });
