// The wall screen looks again every twenty seconds and shows what changed; nobody has to touch it.

const EVERY_MS = 20000;

async function lookAgain() {
  try {
    const answer = await fetch(location.href);
    if (!answer.ok) return;
    const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").querySelector(".wall");
    const shown = document.querySelector(".wall");
    if (fresh && shown && !fresh.isEqualNode(shown)) shown.replaceWith(document.importNode(fresh, true));
  } catch {
    // The network is away; what stands there stays until it returns.
  }
}

setInterval(lookAgain, EVERY_MS);
