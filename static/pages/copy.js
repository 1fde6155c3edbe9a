// A button that copies the text of a field. Without scripts it is not there: the field can be copied by hand.
"use strict";
for (const button of document.querySelectorAll("[data-copies]")) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    const field = document.getElementById(button.dataset.copies);
    field.select();
    try {
      await navigator.clipboard.writeText(field.value);
    } catch { // plain http from another computer has no clipboard of its own
      document.execCommand("copy");
    }
    button.textContent = "Copied";
  });
}
