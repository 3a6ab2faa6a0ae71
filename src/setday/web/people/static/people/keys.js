// Keys for gloves on the sign-in page: a digit a press, and in by itself once all digits are there.

const DIGITS = 9;
const OPEN_PART = 4;
const form = document.querySelector("[data-keys]");
const field = form?.querySelector("input.digits");

function shown(digits) {
  return digits.length > OPEN_PART ? `${digits.slice(0, OPEN_PART)}-${digits.slice(OPEN_PART)}` : digits;
}

function press(key) {
  const digits = field.value.replace(/\D/g, "");
  const after = key === "back" ? digits.slice(0, -1) : (digits + key).slice(0, DIGITS);
  field.value = shown(after);
  if (key !== "back" && after.length === DIGITS && after !== digits) form.requestSubmit();
}

if (form && field) {
  form.querySelector("[data-needs-keys]").hidden = false;
  form.querySelector("[data-without-keys]").hidden = true;
  form.addEventListener("click", (event) => {
    const key = event.target.closest("[data-key]");
    if (key) press(key.dataset.key);
  });
  field.addEventListener("input", () => {
    field.value = shown(field.value.replace(/\D/g, "").slice(0, DIGITS));
  });
}
