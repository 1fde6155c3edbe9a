// What is saved on another screen appears here by itself, but never under the fingers: not while anything here is unsaved,
// nor in a field that holds the caret. Shares form, tell and isUnsaved with app.js and line.js.
"use strict";
{
  const LOOK_MS = 2000;

  // The revision whose texts the fields show: a save that goes in beside another one leaves it behind the newest.
  const shownNumber = () => Number(base());

  async function lookElsewhere() {
    const { project } = document.getElementById("saved")?.dataset ?? {};
    if (!project || !form || document.hidden || saving || isUnsaved() || isDown) return;
    try {
      const answer = await fetch(`${project}/newest`);
      if (answer.ok && Number(await answer.text()) > shownNumber()) await showNewest();
    } catch { /* the line is down: a save will say so */ }
  }

  // The address that the form is of: a page that was asked for without a group is about the one that it shows.
  const shownAt = () => form.getAttribute("action");

  async function showNewest() {
    const before = strokes;
    const answer = await fetch(shownAt());
    if (!answer.ok || strokes !== before || saving) return;
    const there = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("typed");
    if (!there || names(there) !== names(form) || isUnderFingers(there)) {
      offer();
      return;
    }
    controls(there).forEach(take);
    await htmx.ajax("GET", shownAt(), { target: "#trouble", swap: "innerHTML" });
    untouch(strokes);
  }

  // Fields came or went, or one that holds the caret: the person says when. Where nobody is in the form, it is at once.
  function offer() {
    const isIdle = !form.contains(document.activeElement) && (pad?.hidden ?? true);
    if (isIdle) location.reload();
    else document.querySelector("#saved .news")?.removeAttribute("hidden");
  }

  const SERVICE = ["base", "tab", "meant", "over", "frame", "place", "do"];

  function controls(of) {
    return [...of.ownerDocument.querySelectorAll("input[name], select[name], textarea[name]")]
      .filter((one) => one.form === of && !SERVICE.includes(one.name));
  }

  const names = (of) => controls(of).map((one) => `${one.name}=${one.type === "radio" ? one.value : ""}`).join(" ");

  function isUnderFingers(there) {
    const here = document.activeElement;
    return controls(there).some((one) => one.name === here?.name && one.type !== "radio" && one.value !== here.value);
  }

  function take(one) {
    const here = controls(form).find((mine) => mine.name === one.name && (mine.type !== "radio" || mine.value === one.value));
    if (one.type === "radio" || one.type === "checkbox") here.checked = one.checked;
    else if (here.value !== one.value) here.value = one.value;
  }

  setInterval(lookElsewhere, LOOK_MS);
}
