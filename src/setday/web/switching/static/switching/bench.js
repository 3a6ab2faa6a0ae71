// The bench: a tap goes to the site, which keeps it and sends the bench back; if it is lost, that is said.

const lost = document.querySelector("[data-lost]");

document.addEventListener("htmx:error", () => {
  lost.hidden = false;
});

document.addEventListener("htmx:after:request", (event) => {
  const status = event.detail?.ctx?.response?.status ?? 0;
  if (status >= 400) lost.hidden = false;
  else if (status) lost.hidden = true;
});

// A button that went with what it took apart leaves the keyboard at the words that tell of it.
document.addEventListener("htmx:after:swap", () => {
  if (document.activeElement === document.body) document.querySelector(".bench-said")?.focus();
});

// Escape lets a picked end go.
document.addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  document.querySelector('.pin[aria-pressed="true"]')?.click();
});
