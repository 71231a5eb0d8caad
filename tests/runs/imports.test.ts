import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { confirmImport } from "../../src/features/imports/decide-import.ts";
import { purgeImports, resumeImports } from "../../src/runs/imports.ts";
import { startService, type TestService } from "../support/app.ts";
import { office, tryFile } from "../support/imports.ts";

let service: TestService;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "holdpoint-import-runs-"));
  service = await startService({ environment: { DATA_DIR: folder } });
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

const NOW = new Date();
const DAY_MS = 24 * 3_600_000;
const place = () => ({ dataFolder: folder });
const resume = () => resumeImports(service.db, place(), () => new Date());
const purgeAt = (now: Date) => purgeImports(service.db, place(), now);
const read = (id: string) =>
  inFirm(service.db, service.firm.firmId, (tx) => tx.csvImport.findFirstOrThrow({ where: { id } }));
const rowsOf = (importId: string) =>
  inFirm(service.db, service.firm.firmId, (tx) => tx.csvImportRow.count({ where: { importId } }));
const customers = (prefix: string) => `reference,name\n${prefix}-1,Hanne Osei\n${prefix}-2,Bo Li\n`;

test("an import that its process left is taken up by the next run, and once", async () => {
  const { id } = await tryFile(office(service), "customers", customers("LEFT"));
  // As a process leaves it that ends right after the word to go.
  await inFirm(service.db, service.firm.firmId, (tx) => confirmImport(tx, id, "refuse"));
  const resumed = await Promise.all([resume(), resume()]);
  expect(resumed.reduce((sum, count) => sum + count, 0)).toBe(1);
  expect(await read(id)).toMatchObject({ state: "imported", figures: { new: 2 } });
  expect(await resume()).toBe(0);
});

test("rows and file of what is over for ninety days go, what was confirmed stays so", async () => {
  const { id: open } = await tryFile(office(service), "customers", customers("OPEN"));
  const { id: bad } = await tryFile(office(service), "customers", "reference,name\nBAD-1,\n");
  const files = () => readdirSync(join(folder, "imports", service.firm.firmId));
  expect(files().sort()).toEqual([`${bad}.csv`, `${open}.csv`].sort());
  expect(await purgeAt(new Date(NOW.getTime() + 89 * DAY_MS))).toBe(0);
  expect([await rowsOf(open), await rowsOf(bad)]).toEqual([2, 1]);

  const late = new Date(NOW.getTime() + 91 * DAY_MS);
  expect(await purgeAt(late)).toBe(3);
  expect([await rowsOf(open), await rowsOf(bad)]).toEqual([0, 0]);
  expect(files()).toEqual([]);
  expect(await read(open)).toMatchObject({ state: "cancelled", purgedAt: late });
  const states = await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.csvImport.findMany({ where: { state: "imported" } }),
  );
  expect(states).toHaveLength(1);
  expect(await purgeAt(late)).toBe(0);
});
