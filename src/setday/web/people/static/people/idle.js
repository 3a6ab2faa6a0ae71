// A crew's tablet that nobody touches signs itself out, so that its sheet does not stay open to the next hand.

const rail = document.querySelector("[data-idle-minutes]");
const wait = 60_000 * Number(rail?.dataset.idleMinutes ?? 0);
let touched = Date.now();

function touch() {
  touched = Date.now();
}

if (wait > 0) {
  for (const kind of ["pointerdown", "keydown", "scroll"]) {
    document.addEventListener(kind, touch, { passive: true, capture: true });
  }
  setInterval(() => {
    if (Date.now() - touched > wait) rail.requestSubmit();
  }, 5_000);
}
