// The name stands in a form of its own: what is put on the stage by another form takes it along.

document.addEventListener("formdata", (event) => {
  const called = document.getElementById("called");
  if (called && called.form !== event.target) event.formData.set("called", called.value);
});
