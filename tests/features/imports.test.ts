import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Client, startService, type TestService } from "../support/app.ts";
import { badRowsOf, confirm, importFile, office, tryFile } from "../support/imports.ts";

let service: TestService;
let desk: Client;
beforeAll(async () => {
  service = await startService();
  desk = office(service);
});
afterAll(() => service.stop());

describe("customers", () => {
  test("come in new, are unchanged the second time, changed where the file differs", async () => {
    const file =
      "Customer number,Name,E-mail,Phone\r\nK-1,Hanne Osei,hanne@x.example,1\r\nK-2,Bo Li,,2\r\n";
    const first = await importFile(desk, "customers", file);
    expect(first).toMatchObject({ state: "imported", figures: { rows: 2, new: 2, bad: 0 } });
    expect(first.columns).toEqual(["reference", "name", "email", "phone"]);
    const again = await importFile(desk, "customers", file);
    expect(again.figures).toMatchObject({ new: 0, changed: 0, unchanged: 2 });
    const changed = await importFile(desk, "customers", "referencia,teléfono\nK-2,0712\nK-1,\n");
    expect(changed.figures).toMatchObject({ changed: 1, unchanged: 1 });
    const { body } = await desk.get("/api/v1/customers?name=Bo");
    expect(body.items).toMatchObject([{ reference: "K-2", phone: "0712", version: 2 }]);
  });

  test("without references are known by name and mail, and are given references", async () => {
    const file = "name;correo\nÅse Núñez;ase@x.example\nTom;\n";
    expect((await importFile(desk, "customers", file)).figures).toMatchObject({ new: 2 });
    expect((await importFile(desk, "customers", file)).figures).toMatchObject({ unchanged: 2 });
    const { body } = await desk.get("/api/v1/customers?name=Núñez");
    expect(body.items[0].reference).toMatch(/^C-\d{4}-0001$/);
  });

  test("bad rows are told with line and reason, and the good ones can go in alone", async () => {
    const file =
      'reference,name,email\nB-1,"Two\nlines",\nB-2,Ada,nobody\n\nB-3,Ida,\nB-3,Ida,\nB-4,,\n';
    const tried = await tryFile(desk, "customers", file);
    expect(tried.figures).toMatchObject({ rows: 5, new: 1, bad: 4 });
    const bad = await badRowsOf(desk, tried.id);
    expect(bad.map(({ line, reason }) => [line, reason])).toEqual([
      [2, "name: must be one line without control characters"],
      [4, "email: Invalid email address"],
      [7, "The same stands on line 6 already."],
      [8, "name: is missing; a new customer needs it"],
    ]);
    const refused = await desk
      .post(`/api/v1/imports/${tried.id}/confirmation`)
      .send({ badRows: "refuse" });
    expect(refused.status).toBe(409);
    expect((await confirm(desk, tried.id, "leave")).state).toBe("imported");
    const rejects = await desk.get(`/api/v1/imports/${tried.id}/rejects.csv`);
    expect(rejects.text.split("\r\n")[0]).toBe("\ufeffreference,name,email,line,reason");
  });
});
