// How an import runs: whole or not at all, whoever cuts it off; and what it makes of the file.
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { confirmImport } from "../../src/features/imports/decide-import.ts";
import { requireImport } from "../../src/features/imports/import-state.ts";
import { startDryRun } from "../../src/features/imports/start-dry-run.ts";
import type { Desk } from "../../src/features/imports/task.ts";
import { workOn } from "../../src/features/imports/work.ts";
import { type Client, startService, type TestService } from "../support/app.ts";
import { confirm, importFile, office, sendFile, tryFile } from "../support/imports.ts";

const CLI = fileURLToPath(new URL("../../src/cli.ts", import.meta.url));
const ROWS = 10_000;
let service: TestService;
let desk: Client;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "holdpoint-imports-"));
  service = await startService({ environment: { DATA_DIR: folder } });
  desk = office(service);
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

const manyCustomers = (prefix: string, rows = ROWS): string =>
  `reference,name,email\n${Array.from(
    { length: rows },
    (_, index) => `${prefix}-${index},Person ${index},p${index}@x.example\n`,
  ).join("")}`;
const countOf = (prefix: string): Promise<number> =>
  inFirm(service.db, service.firm.firmId, (tx) =>
    tx.customer.count({ where: { reference: { startsWith: `${prefix}-` } } }),
  );
const importRow = (id: string) =>
  inFirm(service.db, service.firm.firmId, (tx) => requireImport(tx, id));
const deskWith = (stop?: AbortSignal): Desk => ({
  ...{ db: service.db, dataFolder: folder, firmId: service.firm.firmId, now: () => new Date() },
  onFault: (error) => {
    throw error;
  },
  stop,
});

describe("an import of ten thousand rows", () => {
  test("killed in the middle leaves nothing, and is done by whoever comes next", async () => {
    const file = join(folder, "killed.csv");
    writeFileSync(file, manyCustomers("KILL"));
    const child = command(["import", "customers", file, "--as", service.firm.people.office.email]);
    const id = await startedToImport(child);
    child.kill("SIGKILL");
    await new Promise((resolve) => child.once("exit", resolve));
    expect((await importRow(id)).state).toBe("importing");
    expect(await countOf("KILL")).toBe(0);
    expect(await workOn(deskWith(), id)).toBe(false);
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.csvImport.updateMany({ where: { id }, data: { leaseUntil: new Date(0) } }),
    );
    expect(await workOn(deskWith(), id)).toBe(true);
    expect(await importRow(id)).toMatchObject({ state: "imported", figures: { new: ROWS } });
    expect(await countOf("KILL")).toBe(ROWS);
  });

  test("that is cancelled in the middle, or whose process ends, leaves nothing", async () => {
    const { id } = await sendFile(desk, "customers", manyCustomers("STOP", 3000));
    const place = deskWith();
    await startDryRun(place, id, { constants: {} }, new Date());
    await workOn(place, id);
    await inFirm(service.db, service.firm.firmId, (tx) => confirmImport(tx, id, "refuse"));
    await workOn(deskWith(AbortSignal.abort()), id);
    expect(await importRow(id)).toMatchObject({ state: "importing", workerId: null });
    expect(await countOf("STOP")).toBe(0);
    const cancelled = await desk.post(`/api/v1/imports/${id}/cancellation`).send();
    expect(cancelled.body.state).toBe("cancelled");
    expect(await workOn(place, id)).toBe(false);
    expect(await countOf("STOP")).toBe(0);
    expect((await desk.post(`/api/v1/imports/${id}/cancellation`).send()).status).toBe(409);
  });
});

function command(args: string[]): ChildProcess {
  const env = {
    ...process.env,
    ...{ DATABASE_URL: service.appUrl, DATABASE_OWNER_URL: service.ownerUrl, DATA_DIR: folder },
  };
  return spawn(process.execPath, [CLI, ...args], { env, stdio: ["ignore", "pipe", "pipe"] });
}

/** Once the first rows are in the transaction. */
async function startedToImport(child: ChildProcess): Promise<string> {
  let told = "";
  child.stderr?.on("data", (chunk) => {
    told += chunk;
  });
  for (;;) {
    if (child.exitCode !== null) throw new Error(`it ended by itself: ${told}`);
    const row = await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.csvImport.findFirst({ where: { state: "importing", progressDone: { gte: 1000 } } }),
    );
    if (row) return row.id;
  }
}

describe("a row that was good at the dry run and is bad at the import", () => {
  test("stops an import that was to be whole, and is left out by one that was not", async () => {
    const tried = await tryFile(desk, "sites", SITES);
    expect(tried.figures).toMatchObject({ bad: 2, new: 0 });
    await importFile(desk, "customers", "reference,name\nZ-1,Una\nZ-2,Vera\n");
    const good = await tryFile(desk, "sites", SITES);
    expect(good.figures).toMatchObject({ new: 2, bad: 0 });
    const { body } = await desk.get("/api/v1/customers?name=Vera");
    await desk.patch(`/api/v1/customers/${body.items[0].id}`).set("if-match", '"1"').send({
      archived: true,
    });
    const stopped = await confirm(desk, good.id, "refuse");
    expect(stopped).toMatchObject({ state: "checked", figures: { new: 1, bad: 1 } });
    expect(stopped.problem).toContain("Nothing was imported");
    expect((await desk.get("/api/v1/sites?postcode=ZZ9")).body.items).toEqual([]);
    const done = await confirm(desk, good.id, "leave");
    expect(done).toMatchObject({ state: "imported", figures: { new: 1, bad: 1 } });
    expect((await desk.get("/api/v1/sites?postcode=ZZ9")).body.items).toHaveLength(1);
  });
});

const SITE_REST = 'Northwick,ZZ9 9ZZ,GB,"52,19",-1.71,Europe/London,TN-S,uk';
const SITES =
  "customer,address,town,postcode,country,lat,lon,time zone,supply,region\n" +
  `Z-1,1 Larch Row,${SITE_REST}\nZ-2,2 Larch Row,${SITE_REST}\n`;
