// The screen stays awake at the machine, where the browser allows it; a tablet that was put away asks again.
"use strict";

async function stayAwake() {
  if (document.hidden || !("wakeLock" in navigator)) return;
  try {
    await navigator.wakeLock.request("screen");
  } catch { /* the battery is low, or the browser will not: the card is there all the same */ }
}
document.addEventListener("visibilitychange", stayAwake);
stayAwake();
