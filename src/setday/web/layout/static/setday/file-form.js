// The house file form: a finding's line number leads to that line in the text being typed.

for (const hidden of document.querySelectorAll("[data-needs-script]")) hidden.hidden = false;

const form = document.querySelector("[data-file-form]");
const typed = form?.querySelector("textarea");
const picked = form?.querySelector('input[type="file"]');

function goTo(line) {
  const lines = typed.value.split("\n");
  const start = lines.slice(0, line - 1).reduce((sum, text) => sum + text.length + 1, 0);
  typed.focus();
  typed.setSelectionRange(start, start + (lines[line - 1] ?? "").length);
  const height = parseFloat(getComputedStyle(typed).lineHeight);
  typed.scrollTop = Math.max(0, (line - 4) * height);
}

document.querySelector("[data-line-jump]")?.addEventListener("click", (event) => {
  const link = event.target.closest("[data-line]");
  if (!link) return;
  event.preventDefault();
  goTo(Number(link.dataset.line));
});

// A picked file is laid open in the text, so that it can be checked and changed before it is kept.
picked?.addEventListener("change", async () => {
  const file = picked.files[0];
  if (!file || file.size > 200_000) return;
  const bytes = new Uint8Array(await file.arrayBuffer());
  let text;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return; // not text: it goes to the site as it is, which says what it is
  }
  if (text.includes("\0")) return;
  typed.value = text;
  form.querySelector('[name="file_name"]').value = file.name;
  picked.value = "";
});
