import { expect, test } from "vitest";
import { titleIn } from "../../src/features/evidence-exports/title-in.ts";

const ID = "018f3e2a-0000-7000-8000-000000000001";

test.each([
  [{ kind: "fleet" }, "the whole fleet", "the whole fleet", "todo el parque"],
  [
    { kind: "period", from: "2026-01-01", to: "2026-03-31" },
    "jobs closed from 2026-01-01 to 2026-03-31",
    "jobs closed from 1 Jan 2026 to 31 Mar 2026",
    "los trabajos cerrados del 1 ene 2026 al 31 mar 2026",
  ],
  [
    { kind: "site", siteId: ID },
    "site S-2026-0001",
    "site S-2026-0001",
    "el emplazamiento S-2026-0001",
  ],
  [
    { kind: "unit", unitId: ID },
    "unit AB 12 (AB-5), within the scope of an audit (sites S-1)",
    "unit AB 12 (AB-5), within the scope of an audit (sites S-1)",
    "el equipo AB 12 (AB-5), dentro del alcance de una auditoría (sites S-1)",
  ],
])("%j is told as its reader reads", (scope, title, english, spanish) => {
  expect(titleIn("en", { scope, title })).toBe(english);
  expect(titleIn("es", { scope, title })).toBe(spanish);
});
