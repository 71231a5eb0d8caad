// Shows only the fields that the chosen form of limit and repetition needs; without this script all
// of them are there.
for (const select of document.querySelectorAll("select[data-shows]")) {
  const group = select.dataset.shows;
  const show = () => {
    for (const part of document.querySelectorAll(`[data-group="${group}"]`)) {
      part.hidden = !part.dataset.when.split(" ").includes(select.value);
    }
  };
  select.addEventListener("change", show);
  show();
}
