import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { type Client, startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";
import { badRowsOf, confirm, importFile, office, sendFile, tryFile } from "../support/imports.ts";

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

describe("firmware levels", () => {
  test("are kept in the order of their moments; what goes back is flagged", async () => {
    const { modelId, unitIds } = await addFleet(service, "semver", ["1.0.0", "1.0.0"]);
    const target = await postTarget(service, { modelId, level: "1.2.0" });
    expect(target.status).toBeLessThan(300);
    const serials = await inFirm(service.db, service.firm.firmId, async (tx) => {
      const rows = await tx.unit.findMany({ where: { id: { in: unitIds } } });
      return unitIds.map((id) => rows.find((row) => row.id === id)!.serial);
    });
    const day = (hour: number) => `2026-11-20T${String(hour).padStart(2, "0")}:00:00Z`;
    const file =
      "serial;firmware version;date\n" +
      `${serials[0]};1.1.0;${day(11)}\n${serials[0]};1.2.0;${day(10)}\n` +
      `${serials[0]};new;${day(12)}\n${serials[1]};1.2.0;2026-11-20 09:00\nNONE;1.0.0;${day(9)}\n` +
      `${serials[1]};1.0.0;2999-01-01\n${serials[1]};1.3.0;20/11/2026\n`;
    const tried = await tryFile(desk, "firmware-levels", file);
    expect((await badRowsOf(desk, tried.id)).map(({ line, reason }) => [line, reason])).toEqual([
      [6, "serial: there is no such unit in your firm"],
      [7, "date: lies in the future; check the clock it was read by"],
      [8, "date: Invalid ISO datetime"],
    ]);
    const done = await confirm(desk, tried.id, "leave");
    expect(done.figures).toMatchObject({ new: 4, flagged: 2 });
    const { body } = await desk.get(`/api/v1/units/${unitIds[0]}/life`);
    expect(body.firmwareLevel).toBe("new");
    const read = body.firmwareReadings.map(
      (one: { level: string; flag: string; source: string }) => [
        ...[one.level, one.flag, one.source],
      ],
    );
    expect(read).toEqual(
      expect.arrayContaining([
        ["1.2.0", null, "import"],
        ["1.1.0", "backwards", "import"],
        ["new", "not-orderable", "import"],
      ]),
    );
    const again = await tryFile(desk, "firmware-levels", file);
    expect(again.figures).toMatchObject({ new: 0, unchanged: 4 });
  });
});

describe("instruments", () => {
  const file =
    "reference;name;class;serial;interval;% of reading;digits;resolution;unit of resolution;" +
    "calibrated;certificate\n" +
    "IT-1;Tester;insulation-tester;88-1;12;0,5;3;0,1;MΩ;2026-10-01;C-1\n";

  test("come in with their calibration, once", async () => {
    const done = await importFile(desk, "instruments", file);
    expect(done.figures).toMatchObject({ new: 1 });
    const { body } = await desk.get("/api/v1/instruments");
    expect(body.items[0]).toMatchObject({
      ...{ reference: "IT-1", accuracy: { percentOfReading: 0.5, digits: 3 }, fitNow: true },
      resolution: { step: 0.1, unit: "MΩ" },
      calibratedOn: "2026-10-01",
      dueOn: "2027-10-01",
    });
    expect((await importFile(desk, "instruments", file)).figures).toMatchObject({ unchanged: 1 });
    const next = file.replace("2026-10-01;C-1", "2026-11-01;C-2");
    expect((await importFile(desk, "instruments", next)).figures).toMatchObject({ changed: 1 });
  });

  test("are refused by the rules of instruments, in their words", async () => {
    const bad =
      "reference,name,class,serial,digits,calibrated,certificate,torque\n" +
      "IT-2,A,multimeter,1,3,,,\nIT-3,A,abacus,1,,,,\nIT-4,A,multimeter,1,,2999-01-01,C,\n" +
      "IT-5,,multimeter,1,,,,\nIT-1,,multimeter,,,,,\n";
    const tried = await tryFile(desk, "instruments", bad);
    const body = { name: "A", serial: "1", accuracy: { digits: 3 }, instrumentClass: "multimeter" };
    const reply = await desk.post("/api/v1/instruments").send({ reference: "IT-2", ...body });
    const rows = await badRowsOf(desk, tried.id);
    expect(rows.map(({ line }) => line)).toEqual([2, 3, 4, 5, 6]);
    expect(rows[0]!.reason).toBe(reply.body.errors[0].detail);
    expect(rows.slice(1).map(({ reason }) => reason)).toEqual([
      expect.stringContaining("class: Invalid option"),
      "lies in the future",
      "name: is missing; a new instrument needs it",
      "IT-1 is of the class insulation-tester: take it on as another one.",
    ]);
  });
});

describe("a file", () => {
  // Bytes by the tables of the WHATWG Encoding Standard: ñ is F1 and € is 80 in Windows-1252.
  const text = "reference,name\nENC-1,Núñez € 5\n";
  test.each([
    ["utf-8", Buffer.from(text)],
    ["utf-8", Buffer.from(`\ufeff${text}`)],
    ["utf-16le", Buffer.from(`\ufeff${text}`, "utf16le")],
    ["utf-16be", Buffer.from(`\ufeff${text}`, "utf16le").swap16()],
    [
      "windows-1252",
      Buffer.concat([
        Buffer.from(text.split("€")[0]!, "latin1"),
        Buffer.from([0x80]),
        Buffer.from(" 5\n"),
      ]),
    ],
  ])("in %s comes in as it was meant", async (encoding, bytes) => {
    const tried = await tryFile(desk, "customers", bytes);
    expect(tried).toMatchObject({ encoding, samples: [["ENC-1", "Núñez € 5"]] });
    expect(tried.figures).toMatchObject({ rows: 1, bad: 0 });
  });

  test("whose quotes do not close, or that is another one than it was, is told where", async () => {
    const tried = await tryFile(desk, "customers", 'reference,name\nA,B\nC,"D\nE,F\n');
    expect(tried).toMatchObject({ state: "failed" });
    expect(tried.problem).toMatch(/begins on line 3 has a quote that nothing closes/);
  });

  test("without its key columns is not tried, and remembers how it was matched", async () => {
    const { id, columns } = await sendFile(desk, "units", "Kennung,Typ\nFS1,X\n");
    expect(columns).toEqual([null, null]);
    const reply = await desk.post(`/api/v1/imports/${id}/dry-run`).send({});
    expect(reply.status).toBe(422);
    expect(reply.body.errors[0]).toEqual({
      ...{
        pointer: "/body/columns",
        detail: "Every row needs model, serial: say which column holds it.",
      },
    });
    await desk.post(`/api/v1/imports/${id}/dry-run`).send({ columns: ["serial", "model"] });
    const next = await sendFile(desk, "units", "TYP,KENNUNG,\nX,FS1,\n");
    expect(next.columns).toEqual(["model", "serial"]);
  });

  test("of another firm, or of nobody's, is not there", async () => {
    const { id } = await sendFile(desk, "customers", "name\nA\n");
    const other = await service.addFirm("birch");
    const stranger = service.as(other.people.office);
    expect((await stranger.get(`/api/v1/imports/${id}`)).status).toBe(404);
    expect((await stranger.get(`/api/v1/imports/${id}/rejects.csv`)).status).toBe(404);
    const installer = service.as(service.firm.people.installer);
    expect((await installer.post("/api/v1/imports").send({})).status).toBe(403);
  });
});
