// Pictures of a list open over the page: arrow keys go on, Escape closes. Without this script each
// is a link to a page of its own.
for (const list of document.querySelectorAll("[data-photos]")) view(list);

function view(list) {
  const links = [...list.querySelectorAll("[data-photo]")];
  const parts = laidOut(list.dataset);
  let at = 0;
  const show = (index) => {
    if (index < 0 || index >= links.length) return;
    at = index;
    fill(parts, links[at].dataset);
    parts.newer.disabled = at === 0;
    parts.older.disabled = at === links.length - 1;
  };
  for (const [index, link] of links.entries()) {
    link.addEventListener("click", (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      show(index);
      parts.dialog.showModal();
      parts.close.focus();
    });
  }
  parts.newer.addEventListener("click", () => show(at - 1));
  parts.older.addEventListener("click", () => show(at + 1));
  parts.close.addEventListener("click", () => parts.dialog.close());
  parts.dialog.addEventListener("keydown", ({ key }) => {
    if (key === "ArrowRight") show(at + 1);
    if (key === "ArrowLeft") show(at - 1);
  });
  parts.dialog.addEventListener("close", () => links[at].focus());
}

function laidOut({ newer, close, older }) {
  const dialog = made("dialog", "viewer");
  const image = made("img");
  const caption = made("p");
  caption.setAttribute("aria-live", "polite");
  const row = made("div", "row");
  const buttons = { newer: button(newer), close: button(close), older: button(older) };
  row.append(buttons.newer, buttons.close, buttons.older);
  dialog.append(image, caption, row);
  document.body.append(dialog);
  return { dialog, image, caption, ...buttons };
}

function fill({ dialog, image, caption }, { photo, caption: text }) {
  image.src = photo;
  image.alt = text;
  caption.textContent = text;
  dialog.setAttribute("aria-label", text);
}

function made(name, className = "") {
  const element = document.createElement(name);
  element.className = className;
  return element;
}

function button(text) {
  const element = made("button");
  element.type = "button";
  element.textContent = text;
  return element;
}
