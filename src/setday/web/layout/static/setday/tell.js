// Tells a screen reader how a run gets on: when the words change, and not more often than every ten seconds.

const told = document.querySelector("[data-told]");
let last = "";

function tell() {
  const words = document.querySelector("[data-tell]")?.textContent.trim() ?? "";
  if (words && words !== last) told.textContent = last = words;
}

if (told) {
  tell();
  setInterval(tell, 10_000);
}
