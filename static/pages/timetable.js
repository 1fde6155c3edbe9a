// Alarms of the glue-up: once they are turned on, each step rings at its minute and says what is due. Steps are read from
// the page anew each time, since it changes when one is begun late.
"use strict";
{
  const LOOK_MS = 5000;
  const LATE_MS = 120000;
  const rung = new Set();
  let sound = null;

  function steps() {
    return [...document.querySelectorAll(".turns-of li")].flatMap((line) => [
      { at: line.dataset.rings, says: `Glue ${line.dataset.name}`, line },
      { at: line.dataset.frees, says: `Clamps off ${line.dataset.name}`, line },
    ].filter((step) => step.at));
  }

  function beep() {
    for (const start of [0, 0.4, 0.8]) {
      const tone = sound.createOscillator();
      tone.frequency.value = 880;
      tone.connect(sound.destination);
      tone.start(sound.currentTime + start);
      tone.stop(sound.currentTime + start + 0.25);
    }
  }

  // A step that came due while the tablet slept for longer than two minutes is said no more.
  function look() {
    const now = Date.now();
    const due = steps().filter((step) => {
      const late = now - new Date(step.at).getTime();
      return late >= 0 && late < LATE_MS && !rung.has(step.says + step.at);
    });
    if (!due.length) return;
    due.forEach((step) => { rung.add(step.says + step.at); step.line.classList.add("rings"); });
    document.getElementById("rings").textContent = due.map((step) => step.says).join(". ");
    beep();
  }

  function show() {
    const button = document.getElementById("alarms");
    if (!button) return;
    button.hidden = false;
    button.textContent = sound ? "Alarms are on" : "Alarms on";
  }

  document.addEventListener("click", (event) => {
    if (event.target.id !== "alarms" || sound) return;
    sound = new AudioContext();
    navigator.wakeLock?.request("screen").catch(() => { /* the alarms ring as long as the tablet is awake */ });
    setInterval(look, LOOK_MS);
    show();
    look();
  });
  document.addEventListener("htmx:after:swap", show);
  show();
}
