// A file is sent as it is read, with a bar that moves; and what runs on the server is looked at
// until it is done. Without this script a form sends smaller files, and a link looks again.
const form = document.querySelector("[data-import]");
const running = document.querySelector("[data-running]");
const LOOK_MS = 400;

form?.addEventListener("submit", (event) => {
  event.preventDefault();
  const [file] = form.elements.file.files;
  tell("");
  if (file.size > Number(form.dataset.most)) tell(form.dataset.tooLong);
  else send(file).catch((error) => tell(error.message || form.dataset.failed));
});

function tell(text) {
  document.getElementById("file-problem").textContent = text && `▲ ${text}`;
  document.getElementById("sending").hidden = text !== "";
  form.querySelector("button.main").disabled = text === "";
}

async function send(file) {
  const begun = await fetch("/api/v1/imports", {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ kind: form.elements.kind.value, fileName: file.name }),
  });
  const { id, detail } = await begun.json();
  if (!begun.ok) throw new Error(detail);
  await put(`/api/v1/imports/${id}/file`, file);
  location.assign(`/imports/${id}`);
}

/** By the older interface, as fetch does not tell how much of a file has been sent. */
function put(path, file) {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open("PUT", path);
    request.setRequestHeader("content-type", "text/csv");
    request.upload.addEventListener("progress", ({ loaded, total }) => {
      document.getElementById("sending").value = (loaded / Math.max(total, 1)) * 100;
    });
    request.addEventListener("load", () => {
      if (request.status === 200) return resolve();
      return reject(new Error(detailOf(request.responseText)));
    });
    request.addEventListener("error", () => reject(new Error(form.dataset.failed)));
    request.send(file);
  });
}

function detailOf(text) {
  try {
    return JSON.parse(text).detail;
  } catch {
    return form.dataset.failed;
  }
}

if (running) look();

async function look() {
  const { running: id, state: was } = running.dataset;
  const reply = await fetch(`/api/v1/imports/${id}`).catch(() => undefined);
  if (reply?.ok) {
    const { state, progress } = await reply.json();
    if (state !== was) return location.reload();
    const percent = Math.min(100, Math.floor((progress.done / Math.max(progress.total, 1)) * 100));
    document.getElementById("progress").value = percent;
    document.getElementById("percent").textContent = `${percent} %`;
  }
  setTimeout(look, LOOK_MS);
}
