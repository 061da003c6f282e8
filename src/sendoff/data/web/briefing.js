"use strict";
// One page at a time, in the order of the walk; light or dark by the reader's choice. Without this script all pages
// stand below one another.
(() => {
  const pages = [...document.querySelectorAll(".page")];
  const titles = pages.map((page) => page.querySelector("h1"));
  const labels = titles.map((title) => title.textContent.replace(/\s+/g, " ").trim());
  const before = document.getElementById("before");
  const next = document.getElementById("next");

  function point(link, at) {
    link.href = "#" + pages[at].id;
    link.textContent = labels[at];
  }

  function show() {
    const asked = pages.findIndex((page) => "#" + page.id === location.hash);
    const at = Math.max(asked, 0);
    pages.forEach((page, position) => page.classList.toggle("shown", position === at));
    point(before, (at + pages.length - 1) % pages.length);
    point(next, (at + 1) % pages.length);
    window.scrollTo(0, 0);
    if (asked >= 0) titles[at].focus({ preventScroll: true });
  }

  titles.forEach((title) => title.setAttribute("tabindex", "-1"));
  document.documentElement.classList.add("paged");
  document.getElementById("shelf").hidden = false;
  addEventListener("hashchange", show);
  show();

  const theme = document.getElementById("theme");
  theme.hidden = false;
  theme.addEventListener("click", () => document.documentElement.classList.toggle("dark"));
})();
