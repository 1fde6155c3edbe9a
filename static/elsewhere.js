// What is saved on another screen appears here by itself, but never under the fingers: not while anything here is unsaved,
// nor in a field that holds the caret. Shares form, tell and isUnsaved with app.js and line.js.
"use strict";
{
  const LOOK_MS = 2000;
  const LONGEST_MS = 10000;

  // A line that is silent is not asked again while it is awaited: a browser holds few lines, and a save needs one.
  const read = (address) => fetch(address, { signal: AbortSignal.timeout(LONGEST_MS) });

  function oneAtATime(look) {
    let isLooking = false;
    return async () => {
      if (isLooking) return;
      isLooking = true;
      await look();
      isLooking = false;
    };
  }

  // The revision whose texts the fields show: a save that goes in beside another one leaves it behind the newest.
  const shownNumber = () => Number(base());

  async function lookElsewhere() {
    const { project } = document.getElementById("saved")?.dataset ?? {};
    if (!project || !form || document.hidden || saving || isUnsaved() || isDown) return;
    try {
      const answer = await read(`${project}/newest`);
      if (answer.ok && Number(await answer.text()) > shownNumber()) await showNewest();
    } catch { /* the line is down: a save will say so */ }
  }

  // The address that the form is of: a page that was asked for without a group is about the one that it shows.
  const shownAt = () => form.getAttribute("action");

  async function showNewest() {
    const before = strokes;
    const answer = await read(shownAt());
    if (!answer.ok || strokes !== before || saving) return;
    const there = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("typed");
    if (!there || names(there) !== names(form) || isUnderFingers(there)) {
      offer();
      return;
    }
    controls(there).forEach(take);
    await htmx.ajax("GET", shownAt(), { target: "#trouble", swap: "innerHTML" });
    untouch(before);
  }

  // Fields came or went, or one that holds the caret: the person says when. Where nobody is in the form, it is at once.
  function offer() {
    const isIdle = !form.contains(document.activeElement) && (pad?.hidden ?? true);
    if (isIdle) location.reload();
    else document.querySelector("#saved .news")?.removeAttribute("hidden");
  }

  const SERVICE = ["base", "tab", "meant", "over", "frame", "place", "do", "holds"];

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

  setInterval(oneAtATime(lookElsewhere), LOOK_MS);

  // ---- a list at the machine has no fields: its lines are ticked as they are elsewhere, but for those that wait to be sent
  const list = document.getElementById("ticks");
  let taps = 0;
  const ticks = (of) => new Map([...of.querySelectorAll(".tick")].map((tick) => [tick.id, tick]));

  async function lookAtTicks() {
    if (!list || form || document.hidden) return;
    const before = taps;
    try {
      const answer = await read(`${list.dataset.project}/newest`);
      if (!answer.ok || Number(await answer.text()) <= Number(list.dataset.revision)) return;
      const page = await read(location.pathname);
      if (!page.ok) return;
      const there = new DOMParser().parseFromString(await page.text(), "text/html");
      if (taps === before) showTicks(there);
    } catch { /* the line is down: a tick will say so */ }
  }

  function showTicks(there) {
    const here = ticks(document), others = ticks(there);
    if ([...here.keys()].join() !== [...others.keys()].join()) {
      if (!document.querySelector(".tick[aria-busy]")) location.reload();
      return;
    }
    others.forEach((other, id) => { if (!here.get(id).ariaBusy) takeTick(here.get(id), other); });
    list.dataset.revision = there.getElementById("ticks").dataset.revision;
    document.querySelector("h1").replaceChildren(...there.querySelector("h1").childNodes);
  }

  function takeTick(here, other) {
    if (here.value === other.value) return;
    here.value = other.value;
    here.ariaPressed = other.ariaPressed;
    here.firstElementChild.textContent = other.firstElementChild.textContent;
  }

  document.addEventListener("click", (event) => { if (event.target.closest?.(".tick")) taps += 1; });
  if (list) setInterval(oneAtATime(lookAtTicks), LOOK_MS);
}
