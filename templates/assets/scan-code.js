// Reads the codes off a photo of a label into a field, where the browser can. Without this script,
// or in a browser that cannot, the field is typed into or filled by a scanner that types.
const CODES_MOST = 20;
if ("BarcodeDetector" in window) {
  for (const part of document.querySelectorAll("[data-scan]")) offer(part);
}

function offer(part) {
  const field = document.getElementById(part.dataset.scan);
  const picture = part.querySelector("input");
  const said = part.querySelector("[role=status]");
  const choices = part.querySelector("ul");
  const take = (text) => {
    field.value = text;
    choices.replaceChildren();
    said.textContent = part.dataset.read.replace("…", text);
    field.focus();
  };
  picture.addEventListener("change", async () => {
    const [file] = picture.files;
    if (!file) return;
    choices.replaceChildren();
    const texts = await codesIn(file).catch(() => undefined);
    // The same picture again is a change again.
    picture.value = "";
    if (texts?.length === 1) return take(texts[0]);
    const { none, failed, several } = part.dataset;
    said.textContent = texts === undefined ? failed : texts.length === 0 ? none : several;
    for (const text of texts ?? []) choices.append(choice(text, take));
    choices.querySelector("button")?.focus();
  });
  part.hidden = false;
}

async function codesIn(file) {
  const image = await createImageBitmap(file);
  try {
    const codes = await new BarcodeDetector().detect(image);
    return [...new Set(codes.map(({ rawValue }) => rawValue))].filter(Boolean).slice(0, CODES_MOST);
  } finally {
    image.close();
  }
}

function choice(text, take) {
  const [item, button] = [document.createElement("li"), document.createElement("button")];
  button.type = "button";
  button.textContent = text;
  button.addEventListener("click", () => take(text));
  item.append(button);
  return item;
}
