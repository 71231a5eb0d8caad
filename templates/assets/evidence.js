// Shows how far bags are that are being made, and the page anew when one is done; without this
// script the page says it whenever it is loaded.
const A_MOMENT_MS = 1500;
const rows = [...document.querySelectorAll("[data-export]")];

async function look(row) {
  const reply = await fetch(`/api/v1/evidence-exports/${row.dataset.export}`);
  if (!reply.ok) return;
  const { state, jobsDone } = await reply.json();
  if (state !== "making") return location.reload();
  row.querySelector("progress").value = jobsDone;
  row.querySelector("[data-done]").textContent = jobsDone;
  setTimeout(look, A_MOMENT_MS, row);
}

for (const row of rows) setTimeout(look, A_MOMENT_MS, row);
