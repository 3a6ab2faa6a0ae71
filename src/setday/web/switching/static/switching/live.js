// Flipping switches: every position came with the page, so a flip asks nobody and works without a network.

const SVG = "http://www.w3.org/2000/svg";
const LIVE = 1, OUT = 2, IN = 4;
const EVERY = 22, EDGE = 9;

const root = document.querySelector("[data-live]");
const table = JSON.parse(document.getElementById("positions").textContent);
const signs = new Map(table.points.map(([key], place) => [key, place]));
const switches = new Map(table.switches.map((each, place) => [each.name, place]));

function corners(path) {
  return path.getAttribute("d").slice(1).split("L").map((pair) => pair.split(" ").map(Number));
}

function make(name, attributes, klass) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.setAttribute("class", klass);
  return made;
}

// One mark across a line, pointing the way (dx, dy); its place along the line sets when it swells.
function mark(x, y, dx, dy, step) {
  const [wx, wy] = [-dy, dx];
  const point = (along, across) => `${(x + along * dx + across * wx).toFixed(1)} ${(y + along * dy + across * wy).toFixed(1)}`;
  return make("path", { d: `M${point(-3, 4)}L${point(2.5, 0)}L${point(-3, -4)}` }, `sd-way sd-way-${step % 6}`);
}

function marks(points, forward, once) {
  const line = forward ? points : [...points].reverse();
  const lengths = line.slice(1).map(([x, y], i) => Math.hypot(x - line[i][0], y - line[i][1]));
  const whole = lengths.reduce((sum, each) => sum + each, 0);
  const places = [];
  if (once) places.push(whole > 34 ? whole / 2 : -1);
  else for (let at = EDGE + 6; at < whole - EDGE; at += EVERY) places.push(at);
  return places.map((at, step) => {
    for (let i = 0, left = at; i < lengths.length && at >= 0; i++) {
      if (left <= lengths[i]) {
        if (left < EDGE / 2 || lengths[i] - left < EDGE / 2) return null;
        const [dx, dy] = [(line[i + 1][0] - line[i][0]) / lengths[i], (line[i + 1][1] - line[i][1]) / lengths[i]];
        return mark(line[i][0] + left * dx, line[i][1] + left * dy, dx, dy, step);
      }
      left -= lengths[i];
    }
    return null;
  }).filter(Boolean);
}

function paintRun(run, code) {
  const line = run.querySelector("path");
  if (!line || !code) return;
  if (code & LIVE) {
    const wide = Number(line.getAttribute("stroke-width")) + 2.2;
    run.insertBefore(make("path", { d: line.getAttribute("d"), "stroke-width": wide, fill: "none" }, "sd-now sd-live"), line.nextSibling);
  }
  const flows = code & OUT ? 1 : code & IN ? -1 : 0;
  if (!flows) return;
  const wire = "wire" in run.dataset;
  if (!wire && !("point" in run.dataset)) return;
  const forward = wire || run.dataset.way === "out" ? flows > 0 : flows < 0;
  for (const each of marks(corners(line), forward, !wire)) run.append(each);
}

function paintDevices(svg, now, at) {
  for (const words of svg.querySelectorAll("[data-says]")) {
    const name = words.dataset.says;
    const text = words.querySelector("text");
    if (name === "breaker") text.textContent = now.opens ? "breaker OPEN" : table.breaker;
    else if (name in table.devices) text.textContent = lookOf(name, now).toUpperCase();
    else if (switches.has(name)) text.textContent = handle(name, at).toUpperCase();
  }
  for (const body of svg.querySelectorAll('[data-kind="device"]')) {
    if (body.dataset.id in table.devices) body.dataset.look = lookOf(body.dataset.id, now);
  }
  for (const contact of svg.querySelectorAll("[data-when]")) {
    const cut = contact.dataset.when.lastIndexOf("|");
    const [name, when] = [contact.dataset.when.slice(0, cut), contact.dataset.when.slice(cut + 1)];
    if (at[switches.get(name)] === when) contact.removeAttribute("display");
    else contact.setAttribute("display", "none");
  }
}

function lookOf(device, now) {
  return table.devices[device].map((place) => now.looks[place]).join("/");
}

function handle(name, at) {
  const place = switches.get(name);
  return table.switches[place].says[Number(at[place])];
}

function paint(svg, now, at) {
  for (const old of svg.querySelectorAll(".sd-now, .sd-way")) old.remove();
  for (const run of svg.querySelectorAll("[data-at]")) {
    paintRun(run, Number(now.points[signs.get(run.dataset.at)] ?? 0));
  }
  paintDevices(svg, now, at);
  for (const link of svg.querySelectorAll("a.sd-link")) {
    const place = switchOf(link);
    link.setAttribute("href", `?at=${flipped(at, place)}`);
    link.setAttribute("aria-label", `${table.switches[place].name} ${table.switches[place].says[Number(at[place])]}`);
  }
}

function switchOf(link) {
  return switches.get(link.querySelector('[data-kind="switch"]').dataset.id);
}

function flipped(at, place) {
  return at.slice(0, place) + (at[place] === "1" ? "0" : "1") + at.slice(place + 1);
}

function tellSigns(now, at) {
  for (const button of root.querySelectorAll("[data-switch]")) {
    const place = Number(button.dataset.switch);
    const says = table.switches[place].says[Number(at[place])];
    button.value = flipped(at, place);
    button.dataset.up = at[place] === "1" ? "yes" : "no";
    button.querySelector("[data-says]").textContent = says;
    button.setAttribute("aria-label", button.dataset.label.replace("…", says));
  }
  for (const sign of root.querySelectorAll("[data-load]")) {
    const place = Number(sign.dataset.load);
    sign.dataset.look = now.looks[place];
    sign.querySelector("[data-says]").textContent = now.words[place];
  }
  const breaker = root.querySelector("[data-breaker]");
  breaker.dataset.opens = now.opens ? "yes" : "no";
  breaker.querySelector("[data-says]").textContent = now.breaker;
  root.querySelector("[data-said]").textContent = now.said;
}

function tellLive(now) {
  const list = root.querySelector("[data-live-list]");
  const boxes = new Map();
  table.points.forEach(([, box, words], place) => {
    if (box === "panel" || !(Number(now.points[place]) & LIVE)) return;
    boxes.set(box, [...(boxes.get(box) ?? []), words]);
  });
  list.replaceChildren(...[...boxes].map(([box, words]) => {
    const line = document.createElement("p");
    const name = document.createElement("b");
    name.textContent = box;
    line.append(name, `: ${words.join(", ")}`);
    return line;
  }));
  root.querySelector("[data-off]").hidden = !boxes.size || now.looks.some((look) => look !== "off");
  if (!boxes.size) {
    const none = document.createElement("p");
    none.textContent = list.dataset.none;
    list.append(none);
  }
}

function show(at) {
  const now = table.positions[at];
  if (!now) return;
  root.dataset.at = at;
  for (const svg of root.querySelectorAll(".hookup-drawing svg")) paint(svg, now, at);
  tellSigns(now, at);
  tellLive(now);
  for (const row of document.querySelectorAll("[data-row]")) {
    if (row.dataset.row === at) row.setAttribute("aria-current", "true");
    else row.removeAttribute("aria-current");
  }
}

function turn(place) {
  const at = flipped(root.dataset.at, place);
  show(at);
  const address = new URL(location.href);
  address.searchParams.set("at", at);
  history.replaceState(null, "", address);
}

root.querySelector("[data-flip]").addEventListener("submit", (event) => {
  event.preventDefault();
  turn(Number(event.submitter.dataset.switch));
});

root.addEventListener("click", (event) => {
  const link = event.target.closest("a.sd-link");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  turn(switchOf(link));
});

show(root.dataset.at);
