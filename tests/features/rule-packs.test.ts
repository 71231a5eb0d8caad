import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { packBody } from "../support/survey-rows.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const PATH = "/api/v1/rule-packs";
const BUILT_IN = ["au-nz-2026", "uk-2026", "us-2026"];
const manager = () => service.as(service.firm.people.manager);
const auditor = () => service.as(service.firm.people.auditor);

async function added(fields: object) {
  const reply = await manager().post(PATH).send(packBody(fields));
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply;
}
const put = (id: string, version: number, body: object) =>
  manager().put(`${PATH}/${id}`).set("if-match", `"${version}"`).send(body);

interface Source {
  document: string;
  edition: string;
  clause: string;
}
const idsOf = (reply: { body: { items: { id: string }[] } }) =>
  reply.body.items.map(({ id }) => id);

describe("the packs that come with the product", () => {
  test("are read by everyone, every rule with document, edition and clause", async () => {
    const list = await auditor().get(PATH);
    expect(idsOf(list)).toEqual(BUILT_IN);
    for (const id of BUILT_IN) {
      const { document, builtIn, version } = (await auditor().get(`${PATH}/${id}`)).body;
      expect([builtIn, version, document.schema]).toEqual([true, null, "siting-rule-pack/1"]);
      const sources: Source[] = document.rules.map(({ source }: { source: Source }) => source);
      expect(sources.length).toBeGreaterThan(2);
      for (const source of sources) {
        expect([source.document, source.edition, source.clause]).not.toContain("");
      }
    }
  });

  test("cannot be changed, nor their ids taken", async () => {
    const changed = await put("uk-2026", 1, packBody({ id: "uk-2026" }));
    expect([changed.status, changed.body.detail]).toEqual([
      409,
      expect.stringContaining("comes with the product"),
    ]);
    const taken = await manager()
      .post(PATH)
      .send(packBody({ id: "uk-2026" }));
    expect(taken.status).toBe(409);
    expect((await auditor().get(`${PATH}/uk-2026`)).body.title).toBe("United Kingdom");
  });
});

describe("a firm's own pack", () => {
  test("is added, read back, and listed among the others in pages", async () => {
    const reply = await added({ id: "mill-rules", region: "mill" });
    expect([reply.headers.etag, reply.headers.location]).toEqual(['"1"', `${PATH}/mill-rules`]);
    const read = await auditor().get(reply.headers.location as string);
    expect(read.headers.etag).toBe('"1"');
    expect(read.body).toEqual(reply.body);
    expect(read.body).toMatchObject({ builtIn: false, version: 1, region: "mill" });
    expect(idsOf(await auditor().get(`${PATH}?region=mill`))).toEqual(["mill-rules"]);
    const first = await auditor().get(`${PATH}?limit=2`);
    expect(idsOf(first)).toEqual(["au-nz-2026", "mill-rules"]);
    const next = /<([^>]+)>/.exec(first.headers.link as string)?.[1] as string;
    expect(idsOf(await auditor().get(next))).toEqual(["uk-2026", "us-2026"]);
    expect((await auditor().get(`${PATH}?cursor=_`)).status).toBe(422);
  });

  test("is replaced by a new version; the earlier one stays to be judged by", async () => {
    await added({ id: "barn-rules" });
    const second = packBody({ id: "barn-rules", title: "Barn rules, second" });
    const changed = await put("barn-rules", 1, second);
    expect([changed.status, changed.headers.etag, changed.body.version]).toEqual([200, '"2"', 2]);
    expect((await put("barn-rules", 1, { ...second, title: "Late" })).status).toBe(412);
    const versions = await auditor().get(`${PATH}/barn-rules/versions`);
    expect(versions.body.items.map((row: { number: number }) => row.number)).toEqual([1, 2]);
    const old = await auditor().get(`${PATH}/barn-rules/versions/1`);
    expect([old.body.title, old.body.version]).toEqual(["House rules", 1]);
    expect((await auditor().get(`${PATH}/barn-rules/versions/3`)).status).toBe(404);
    const same = await put("barn-rules", 2, second);
    expect([same.status, same.body.version]).toEqual([200, 2]);
  });

  test("keeps its id, and is changed only by who saw it", async () => {
    await added({ id: "yard-rules" });
    const renamed = await put("yard-rules", 1, packBody({ id: "court-rules" }));
    expect([renamed.status, pointersOf(renamed)]).toEqual([422, ["/body/id"]]);
    const unseen = await manager()
      .put(`${PATH}/yard-rules`)
      .send(packBody({ id: "yard-rules" }));
    expect(unseen.status).toBe(428);
    expect((await put("no-rules", 1, packBody({ id: "no-rules" }))).status).toBe(404);
    const twice = await manager()
      .post(PATH)
      .send(packBody({ id: "yard-rules" }));
    expect(twice.status).toBe(409);
  });

  test("is added once under one Idempotency-Key", async () => {
    const send = () =>
      manager()
        .post(PATH)
        .set("idempotency-key", "pack-key-0001")
        .send(packBody({ id: "dock-rules" }));
    expect((await send()).status).toBe(201);
    const again = await send();
    expect([again.status, again.headers["idempotency-replayed"]]).toEqual([201, "true"]);
  });

  test("belongs to its firm: another may use the id and sees only its own", async () => {
    const other = await service.addFirm("birch");
    await added({ id: "shared-name", title: "Ours" });
    const theirs = service.as(other.people.manager);
    expect((await theirs.get(`${PATH}/shared-name`)).status).toBe(404);
    expect((await theirs.get(`${PATH}/shared-name/versions`)).status).toBe(404);
    const body = packBody({ id: "shared-name", title: "Theirs" });
    expect((await theirs.post(PATH).send(body)).status).toBe(201);
    expect((await auditor().get(`${PATH}/shared-name`)).body.title).toBe("Ours");
    expect(idsOf(await theirs.get(PATH))).toEqual([
      "au-nz-2026",
      "shared-name",
      "uk-2026",
      "us-2026",
    ]);
  });

  test("is written by owner and manager alone", async () => {
    for (const role of ["office", "installer", "auditor"] as const) {
      const client = service.as(service.firm.people[role]);
      expect((await client.post(PATH).send(packBody())).status, role).toBe(403);
    }
    const owner = service.as(service.firm.people.owner);
    const body = packBody({ id: "owner-rules" });
    expect((await owner.post(PATH).send(body)).status).toBe(201);
  });
});

describe("a pack with faults", () => {
  const [rule] = packBody().rules;
  const without = (name: "edition" | "document" | "clause") => {
    const { [name]: _left, ...source } = rule!.source;
    return { rules: [{ ...rule, source }] };
  };
  const edition = (id: string, isDefault: boolean) => ({
    id,
    family: "code",
    title: id,
    isDefault,
  });
  test.each([
    ["a rule without its edition", without("edition"), "/body/rules/0/source/edition"],
    ["a rule without its document", without("document"), "/body/rules/0/source/document"],
    ["a rule without its clause", without("clause"), "/body/rules/0/source/clause"],
    [
      "an empty edition",
      { rules: [{ ...rule, source: { ...rule!.source, edition: " " } }] },
      "/body/rules/0/source/edition",
    ],
    ["a doubled rule", { rules: [rule, rule] }, "/body/rules/1/id"],
    [
      "an edition that it does not hold",
      { rules: [rule, { ...rule, id: "b", editions: ["x"] }] },
      "/body/rules/1",
    ],
    ["two defaults", { editions: [edition("a", true), edition("b", true)] }, "/body/editions"],
    [
      "a kind of rule that there is not",
      { rules: [{ ...rule, kind: "aura" }] },
      "/body/rules/0/kind",
    ],
    [
      "a negative distance",
      { rules: [{ ...rule, distance: { shape: "straight-line", minimumMm: -1 } }] },
      "/body/rules/0/distance/minimumMm",
    ],
    ["no rules", { rules: [] }, "/body/rules"],
    ["an id with capitals", { id: "Upper" }, "/body/id"],
  ])("is refused at the place of the fault: %s", async (_name, fields, pointer) => {
    const reply = await manager()
      .post(PATH)
      .send(packBody({ id: "faulty", ...fields }));
    expect([reply.status, pointersOf(reply)]).toEqual([422, [pointer]]);
    expect((await auditor().get(`${PATH}/faulty`)).status).toBe(404);
  });
});
