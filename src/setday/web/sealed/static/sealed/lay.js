// A finger on the drawn wall chooses the row and where the board ends, and lays it: the form does the rest.
const form = document.getElementById("lay-form");

document.addEventListener("click", (event) => {
  const place = event.target.closest("[data-end]");
  if (!place || !form) return;
  form.elements.row.value = place.dataset.row;
  form.elements.end.value = place.dataset.end;
  form.requestSubmit(form.querySelector("[value=lay]"));
});
