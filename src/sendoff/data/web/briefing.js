"use strict";
// One page at a time, in the order of the walk; light or dark by the reader's choice. Without this script all pages
// stand below one another.
(() => {
  const pages = [...document.querySelectorAll(".page")];
  const titles = pages.map((page) => page.querySelector("h1"));
  const names = titles.map((title) => title.dataset.name || title.textContent.trim());
  const before = document.getElementById("before");
  const next = document.getElementById("next");
  let at = 0;

  function point(link, to) {
    link.href = "#" + pages[to].id;
    link.querySelector("span").textContent = names[to];
  }

  // What a drawing has beyond the screen is reached by keys as well.
  function reach() {
    document.querySelectorAll(".shown .wide").forEach((figure) => {
      if (figure.scrollWidth > figure.clientWidth) figure.tabIndex = 0;
      else figure.removeAttribute("tabindex");
    });
  }

  function show() {
    const asked = pages.findIndex((page) => "#" + page.id === location.hash);
    at = Math.max(asked, 0);
    pages.forEach((page, position) => page.classList.toggle("shown", position === at));
    point(before, (at + pages.length - 1) % pages.length);
    point(next, (at + 1) % pages.length);
    window.scrollTo(0, 0);
    reach();
    if (asked >= 0) titles[at].focus({ preventScroll: true });
  }

  titles.forEach((title) => title.setAttribute("tabindex", "-1"));
  document.documentElement.classList.add("paged");
  document.getElementById("shelf").hidden = false;
  addEventListener("hashchange", show);
  addEventListener("resize", reach);
  addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (event.target.closest && event.target.closest(".wide")) return; // arrows move the drawing there
    if (event.key === "ArrowRight") next.click();
    if (event.key === "ArrowLeft") before.click();
  });
  show();

  const theme = document.getElementById("theme");
  const other = theme.dataset.other;
  const own = theme.textContent;
  theme.hidden = false;
  theme.addEventListener("click", () => {
    const dark = document.documentElement.classList.toggle("dark");
    theme.textContent = dark ? other : own;
  });

  // On paper every fault is told; the answers of the questions stay shut.
  const shut = [];
  addEventListener("beforeprint", () => {
    document.querySelectorAll("details:not(.answer):not([open])").forEach((one) => {
      one.open = true;
      shut.push(one);
    });
  });
  addEventListener("afterprint", () => shut.splice(0).forEach((one) => (one.open = false)));
})();
