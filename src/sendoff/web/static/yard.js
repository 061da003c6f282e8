// What makes pages handier; every page works without it.
"use strict";

// the act's own id and clock are made where the act happens
for (const form of document.querySelectorAll("form[data-act]")) {
  form.addEventListener("submit", () => {
    form.elements.taken_at.value = String(Date.now());
    form.elements.offset_min.value = String(-new Date().getTimezoneOffset());
  });
}

// one tap sends once
for (const form of document.querySelectorAll("form")) {
  form.addEventListener("submit", (event) => {
    if (form.dataset.sent) { event.preventDefault(); return; }
    form.dataset.sent = "yes";
    setTimeout(() => { delete form.dataset.sent; }, 4000);
  });
}
window.addEventListener("pageshow", () => {
  for (const form of document.querySelectorAll("form[data-sent]")) delete form.dataset.sent;
});

// the keypad: the phone's own keyboard stays away
const pad = document.querySelector(".keypad");
if (pad) {
  const field = document.getElementById("given");
  pad.hidden = false;
  if (matchMedia("(pointer: coarse)").matches) field.inputMode = "none";
  pad.addEventListener("click", (event) => {
    const key = event.target.closest("button");
    if (!key) return;
    if (key.dataset.key === "erase") field.value = field.value.slice(0, -1);
    else if (field.value.length < 8) field.value += key.dataset.key;
    field.dispatchEvent(new Event("input"));
  });
}

// "/" goes to Find
document.addEventListener("keydown", (event) => {
  if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey) return;
  if (/^(INPUT|TEXTAREA|SELECT)$/.test(document.activeElement.tagName)) return;
  for (const field of document.querySelectorAll("input[type=search]")) {
    if (field.offsetParent !== null) { event.preventDefault(); field.focus(); break; }
  }
});

// choosing another station shows its figure
for (const field of document.querySelectorAll("[data-go]")) {
  field.addEventListener("change", () => {
    const number = field.selectedOptions[0].dataset.number;
    const figure = document.getElementById("figure");
    if (number && figure) location.search = "?station=" + number;
  });
}
