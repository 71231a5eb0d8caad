import { readFileSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import supertest from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { buildApp } from "../src/app.ts";
import { loadDemoOnce, offerDemo } from "../src/demo/offer-demo.ts";
import { beginSignInFile, keptSignInLines } from "../src/demo/sign-in-file.ts";
import { PEOPLE } from "../src/demo/tables/people.ts";
import { listFirmsForRuns } from "../src/features/firms/store.ts";
import { ROLES } from "../src/web/roles.ts";
import { type TestDatabase, testDatabase } from "./support/database.ts";
import { configIn, temporaryFolder } from "./support/demo.ts";

describe("the demo at a start", () => {
  let database: TestDatabase;
  const folder = temporaryFolder();
  const said: string[] = [];
  const start = (more: Record<string, string> = {}, embedded = true) =>
    offerDemo({ db: database.db, embedded }, configIn(folder, more), new Date(), (line) =>
      said.push(line),
    );

  beforeAll(async () => {
    database = await testDatabase();
  });
  afterAll(async () => {
    await database.drop();
    rmSync(folder, { recursive: true });
  });

  test("is loaded where it is wanted, tells the password once, later where it stands", async () => {
    expect(await start({ DEMO: "false" })).toEqual([]);
    expect(await start({}, false)).toEqual([]);
    expect(said).toEqual([]);

    const first = await start();
    const file = join(folder, "demo-sign-in.txt");
    const password = passwordIn(first.join("\n"));
    expect(password.length).toBeGreaterThanOrEqual(16);
    expect(readFileSync(file, "utf8")).toContain(password);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    for (const role of ROLES) expect(first.join("\n")).toContain(role);
    expect(said).toHaveLength(1);

    const second = await start();
    expect(second.join("\n")).toContain(file);
    expect(second.join("\n")).not.toContain(password);
    for (const { email } of PEOPLE) expect(second.join("\n")).toContain(email);
    expect(await listFirmsForRuns(database.db)).toHaveLength(1);
  });

  test("lets everyone sign in with the kept password, in the roles that are told", async () => {
    const password = passwordIn(readFileSync(join(folder, "demo-sign-in.txt"), "utf8"));
    const jwtSecret = "a secret of forty characters for the tests";
    const app = await buildApp({ db: database.db, config: configIn(folder), jwtSecret });
    await app.ready();
    const client = supertest(app.server);
    for (const { email, roles } of PEOPLE) {
      const { body } = await client.post("/api/v1/session").send({ email, password });
      const session = await client
        .get("/api/v1/session")
        .set("authorization", `Bearer ${body.accessToken}`);
      expect(session.body.roles, email).toEqual(roles);
    }
    await app.close();
  });

  test("is refused by the command where there is a firm, with the way out", async () => {
    const refused = loadDemoOnce(database.db, configIn(folder), new Date());
    await expect(refused).rejects.toThrow(
      /has a firm already \(Copperbeck Home Storage\).*DATA_DIR/,
    );
  });

  test("has a password of its own a folder, and says when loading was interrupted", () => {
    const [one, other] = [temporaryFolder(), temporaryFolder()];
    expect(keptSignInLines(one)).toEqual([]);
    expect(beginSignInFile(one)).not.toBe(beginSignInFile(other));
    expect(keptSignInLines(one).join(" ")).toMatch(/interrupted.*remove .* and start again/);
    for (const folder of [one, other]) rmSync(folder, { recursive: true });
  });
});

const passwordIn = (text: string): string => /^Password.*: (\S+)$/m.exec(text)![1]!;
