// Entries made on a tablet: sent at once, or kept here and sent when the network returns, once and only once.
//
// A form marked data-keep is sent with a sign of its own and the time of the tap. What cannot be sent waits
// in the browser's storage; the server keeps an entry of one sign once, however often it arrives.

const STORE = "setday-entries-2";
const EARLIER = "setday-entries"; // where an earlier script kept entries, each field's last value only
const EVERY_MS = 5000;
const LONGEST_MS = 15000;
const words = document.documentElement.lang === "es"
  ? { kept: (n) => `${n} por enviar: guardado en esta tableta hasta que vuelva la red.`, sent: "Enviado.", refused: "No se aceptó una entrada guardada:", again: "Entre de nuevo; lo guardado se enviará entonces.", drop: "Leído, quitar", resend: "Enviar otra vez", photo: "Sin red: deje la página abierta y envíe la foto cuando vuelva.", full: "Esta tableta no puede guardar más: espere a la red y no cierre la página.", step: "Sin red: lo que hay en esta hoja se queda; siga cuando vuelva.", others: (n) => `${n} con la entrada de otra persona: se enviará cuando vuelva.` }
  : { kept: (n) => `${n} to send: kept on this tablet until the network returns.`, sent: "Sent.", refused: "An entry that was kept was not taken:", again: "Sign in again; what is kept is sent then.", drop: "Read, take away", resend: "Send again", photo: "No network: leave the page open and send the photo when it returns.", full: "This tablet can keep no more: wait for the network and do not close the page.", step: "No network: what is on this sheet stays; go on when it returns.", others: (n) => `${n} of another sign-in kept on this tablet: sent when they come back.` };

let sending = false;

function stored(place) {
  try {
    return JSON.parse(localStorage.getItem(place) ?? "[]");
  } catch {
    return [];
  }
}

function waiting() {
  return stored(STORE);
}

function write(list) {
  try {
    localStorage.setItem(STORE, JSON.stringify(list));
    return true;
  } catch {
    return false;
  }
}

// What an earlier script kept is sent like the rest: its fields become pairs, under the sign it has.
function takeOver() {
  const earlier = stored(EARLIER);
  if (!earlier.length) return;
  const taken = earlier.map(({ fields, ...rest }) => ({ ...rest, entry: fields.entry, who: fields.who, fields: Object.entries(fields) }));
  if (write([...waiting(), ...taken])) localStorage.removeItem(EARLIER);
}

// Who is signed in, as the page says; what somebody else entered here is neither sent nor shown as theirs.
function ours(entry) {
  const who = document.querySelector("[data-who]")?.dataset.who ?? document.querySelector("[name=who]")?.value;
  return !who || !entry.who || entry.who === who;
}

function toSend() {
  return waiting().filter((each) => !each.refused && ours(each));
}

function without(entry) {
  return waiting().filter((each) => each.entry !== entry.entry);
}

// crypto.randomUUID is not there on a plain class network (http); random numbers are.
function sign() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((each) => each.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

function bar() {
  let found = document.getElementById("entries-said");
  if (!found) {
    found = document.createElement("div");
    found.id = "entries-said";
    found.className = "said no-print";
    found.setAttribute("role", "status");
    document.querySelector("main").prepend(found);
  }
  return found;
}

function tell(text, { alert = false } = {}) {
  const found = bar();
  found.setAttribute("role", alert ? "alert" : "status");
  found.textContent = text;
  found.hidden = !text;
}

function tellWaiting() {
  const open = toSend();
  const refused = waiting().filter((each) => each.refused && ours(each));
  const others = waiting().filter((each) => !each.refused && !ours(each));
  if (refused.length) {
    tellRefused(refused[0]);
  } else if (open.length) {
    tell(words.kept(open.length));
  } else if (others.length) {
    tell(words.others(others.length));
  } else {
    document.getElementById("entries-said")?.remove();
  }
}

// A refused entry stays in sight with what was typed, until somebody has read it.
function tellRefused(entry) {
  const typed = entry.typed ?? entry.fields
    .filter(([name]) => !["entry", "who", "entered_at", "csrfmiddlewaretoken"].includes(name))
    .map(([name, value]) => `${name}: ${value}`);
  tell(`${words.refused} ${entry.refused} (${typed.join("; ")}) `, { alert: true });
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = words.drop;
  button.addEventListener("click", () => {
    write(without(entry));
    tellWaiting();
  });
  const again = document.createElement("button");
  again.type = "button";
  again.textContent = words.resend;
  again.addEventListener("click", () => {
    write(waiting().map((each) => (each.entry === entry.entry ? { ...each, refused: undefined } : each)));
    tellWaiting();
    sendWaiting();
  });
  bar().append(again, " ", button);
}

function token() {
  return document.querySelector("[name=csrfmiddlewaretoken]")?.value ?? "";
}

async function send(entry) {
  const answer = await fetch(entry.to, {
    method: "POST",
    body: new URLSearchParams([...entry.fields, ["csrfmiddlewaretoken", token()]]),
    headers: { "X-Setday-Entry": "1" },
    signal: AbortSignal.timeout?.(LONGEST_MS), // older tablets have none and wait as long as they do
  });
  const json = answer.headers.get("Content-Type")?.includes("json") ? await answer.json() : null;
  if (json && answer.ok) return { kept: true, to: json.to };
  if (json && answer.status === 422) return { refused: json.said };
  if (json && answer.status === 409) return { waits: json.said, others: true };
  if (answer.status === 404) return { refused: "404" };
  if (answer.status >= 500) return { waits: "" };
  return { waits: words.again };
}

async function sendWaiting() {
  if (sending || !toSend().length) return;
  sending = true;
  try {
    await inTurn(async () => {
      let to = "";
      for (const entry of toSend()) {
        const answer = await send(entry);
        if (answer.others) continue; // it waits for whoever made it, and holds up nobody
        if (answer.waits !== undefined) {
          if (answer.waits) tell(answer.waits);
          return;
        }
        to = answer.to ?? to;
        const left = without(entry);
        write(answer.refused ? [...left, { ...entry, refused: answer.refused }] : left);
      }
      tellWaiting();
      if (to && !toSend().length && !typing()) anew();
    });
  } catch {
    tellWaiting(); // the network is away
  } finally {
    sending = false;
  }
}

// A page that came of a form is asked for by its address: loaded again, it would send that form once more.
function anew() {
  if (document.querySelector("[data-of-form]")) location.assign(location.pathname);
  else location.reload();
}

// Two tabs of one tablet send in turn where the browser has locks; the server keeps each entry once anyway.
async function inTurn(work) {
  return navigator.locks ? navigator.locks.request(STORE, work) : work();
}

// Whether somebody is writing or ticking, who must not have the page drawn anew under their hand.
function typing() {
  const at = document.activeElement;
  const boxes = document.querySelectorAll("form[data-keep] input[type=checkbox]");
  if ([...boxes].some((each) => each.checked !== each.defaultChecked)) return true;
  return at !== null && ["INPUT", "TEXTAREA", "SELECT"].includes(at.tagName) && at.value !== "";
}

// Every field as a pair, so that all the boxes ticked of one name are there; a photo does not wait here.
function entryOf(form, button) {
  const own = { entry: sign(), entered_at: new Date().toISOString() };
  const left = ["csrfmiddlewaretoken", ...Object.keys(own)];
  const fields = [...new FormData(form)].filter(([name, value]) => typeof value === "string" && !left.includes(name));
  if (button?.name) fields.push([button.name, button.value]);
  const who = fields.find(([name]) => name === "who")?.[1];
  const to = button?.getAttribute("formaction") || form.getAttribute("action") || location.pathname;
  return { to, entry: own.entry, who, typed: typedIn(form, button), fields: [...fields, ...Object.entries(own)] };
}

// What somebody reads who is told that it was not taken: the words beside what was ticked, chosen and written.
function typedIn(form, button) {
  const of = (each) => each.labels?.[0]?.textContent.trim().replace(/\s+/g, " ") ?? each.name;
  const told = [...form.elements].filter((each) => each.name && each.type !== "hidden").flatMap((each) => {
    if (["checkbox", "radio"].includes(each.type)) return each.checked ? [of(each)] : [];
    if (each.tagName === "SELECT") return each.value ? [`${of(each)}: ${each.selectedOptions[0].textContent.trim()}`] : [];
    return ["INPUT", "TEXTAREA"].includes(each.tagName) && each.type !== "file" && each.value ? [`${of(each)}: ${each.value}`] : [];
  });
  return button ? [...told, button.textContent.trim()] : told;
}

function withPhoto(form) {
  return [...form.querySelectorAll("input[type=file]")].some((each) => each.files.length > 0);
}

// A photo is too large to keep here: the form goes as any form does, with a sign, so that twice is once.
function sendWithPhoto(event, form) {
  if (!navigator.onLine) {
    event.preventDefault();
    tell(words.photo, { alert: true });
    return;
  }
  const field = form.querySelector("[name=entry]") ?? form.appendChild(Object.assign(document.createElement("input"), { type: "hidden", name: "entry" }));
  field.value ||= sign();
}

// A step that only the server can answer, and that enters nothing: without a network the sheet stays as it is.
function goAtOnce(event) {
  if (navigator.onLine) return;
  event.preventDefault();
  tell(words.step, { alert: true });
}

async function submitted(event) {
  const form = event.target;
  if (!(form instanceof HTMLFormElement) || !form.matches("[data-keep]")) return;
  if (event.submitter?.matches("[data-at-once]")) return goAtOnce(event);
  if (withPhoto(form)) return sendWithPhoto(event, form);
  event.preventDefault();
  const entry = entryOf(form, event.submitter);
  if (event.submitter) event.submitter.disabled = true;
  if (!write([...waiting(), entry])) {
    tell(words.full, { alert: true });
    form.removeAttribute("data-keep");
    if (event.submitter) event.submitter.disabled = false;
    return;
  }
  try {
    const answer = await send(entry);
    if (answer.waits === undefined) write(without(entry));
    if (answer.kept) {
      if (answer.to && new URL(answer.to, location.href).pathname !== location.pathname) location.assign(answer.to);
      else anew();
      return;
    }
    if (answer.refused) tell(answer.refused, { alert: true });
    else {
      form.reset(); // it is kept: pressed again, it would be entered twice
      tell(answer.waits || words.kept(toSend().length), { alert: true });
    }
    bar().scrollIntoView({ block: "start" });
  } catch {
    form.reset();
    tellWaiting();
    bar().scrollIntoView({ block: "start" });
  } finally {
    if (event.submitter) event.submitter.disabled = false;
  }
}

document.addEventListener("submit", submitted);
addEventListener("online", sendWaiting);
setInterval(sendWaiting, EVERY_MS);
takeOver();
tellWaiting();
sendWaiting();
