// "Exports of every list": each list that the interface has, and what its export holds. What is
// written is read back by a parser of others' (csv-parse).
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { EXPORT_LISTS } from "../../src/features/exports/every-list.ts";
import { type Client, startService, type TestService } from "../support/app.ts";
import { addModel, receive } from "../support/stock.ts";

let service: TestService;
let owner: Client;
let office: Client;
beforeAll(async () => {
  service = await startService();
  owner = service.as(service.firm.people.owner);
  office = service.as(service.firm.people.office);
});
afterAll(() => service.stop());

async function take(path: string, client = owner): Promise<Record<string, string>[]> {
  const { status, text } = await client.get(`/api/v1/exports/${path}`);
  expect(status, `${path} ${text}`).toBe(200);
  return parse(text, { columns: true, bom: true });
}

/** Lists whose export has another name than theirs. */
const NAMED: Readonly<Record<string, string>> = {
  listAllConcessions: "exportConcessions",
  listFirmwareDue: "exportDueList",
  listAuditSamples: "exportKeptAuditSample",
  listJobSnags: "exportSnags",
  countStock: "exportStockCounts",
  readMissing: "exportMissing",
};
/** What is no list of the firm's, or leaves as something else than a table, and why. */
const ELSEWHERE: Readonly<Record<string, string>> = {
  search: "what was looked for, not what there is",
  listCalculations: "the product's own",
  listHolidays: "the product's own",
  listStarterPlans: "the product's own",
  listUnreadMessages: "the reader's own, from the jobs' messages",
  listMessages: "leaves with the customer's personal data",
  listUnplacedJobs: "jobs, which leave by theirs, in the order of the diary",
  listPhotos: "files, which leave in the evidence bag",
  listDocuments: "files, which are fetched one by one",
  readLedger: "leaves as lines of JSON in the evidence bag, hash by hash",
  listClaimEvidence: "files, which are fetched one by one",
  listBadRows: "leaves as the import's rejects file",
  readTabletDay: "the tablet's own",
  listDifferences: "worked out from the answers of a job, which leave by theirs",
  readJobKit: "worked out for one job, and printed",
  readFirmwareRollout: "worked out for one model",
  listAffectedReadings: "answers, which leave by theirs with their instrument",
  listSurveyVersions: "drawings of one site",
  listRulePackVersions: "documents, which are fetched one by one",
};
const ONE_THINGS_OWN = /\/(changes|duplicates)$/;

describe("every list of the interface", () => {
  test("is taken away as CSV, or there is a reason why not", async () => {
    const { paths } = (await service.anonymous.get("/openapi.json")).body;
    const operations: string[] = Object.values<Record<string, { operationId: string }>>(
      paths,
    ).flatMap((methods) => Object.values(methods).map(({ operationId }) => operationId));
    const exported = new Set(operations.filter((name) => name.startsWith("export")));
    const lists = await listsOf(paths);
    const without = lists.filter(
      (name) => !exported.has(NAMED[name] ?? name.replace(/^list/, "export")) && !ELSEWHERE[name],
    );
    expect(without).toEqual([]);
    expect(lists.length).toBeGreaterThan(60);
    // A reason for a list that is gone, or that has an export by now, is one too many.
    expect(Object.keys(ELSEWHERE).filter((name) => !lists.includes(name))).toEqual([]);
  });

  test("takes the filters of the list itself", async () => {
    const { paths } = (await service.anonymous.get("/openapi.json")).body;
    const lacking: string[] = [];
    for (const { name, operationId } of EXPORT_LISTS) {
      const list = operationOf(paths, operationId.replace(/^export/, "list"));
      const taken = queryOf(operationOf(paths, operationId));
      const asked = queryOf(list).filter((name) => !["limit", "cursor", "after"].includes(name));
      lacking.push(...asked.filter((one) => !taken.includes(one)).map((one) => `${name}: ${one}`));
    }
    expect(lacking).toEqual([]);
  });
});

interface Operation {
  operationId: string;
  parameters?: { in: string; name: string }[];
  responses: Record<string, { content?: Record<string, { schema: Schema }> }>;
}
interface Schema {
  $ref?: string;
  properties?: Record<string, unknown>;
}
type Paths = Record<string, Record<string, Operation>>;

async function listsOf(paths: Paths): Promise<string[]> {
  const { components } = (await service.anonymous.get("/openapi.json")).body;
  return Object.entries(paths).flatMap(([path, { get }]) => {
    const schema = get?.responses["200"]?.content?.["application/json"]?.schema;
    const found = schema?.$ref ? components.schemas[schema.$ref.split("/").at(-1) ?? ""] : schema;
    return get && found?.properties?.items && !ONE_THINGS_OWN.test(path) ? [get.operationId] : [];
  });
}
const operationOf = (paths: Paths, name: string): Operation | undefined =>
  Object.values(paths)
    .flatMap((methods) => Object.values(methods))
    .find(({ operationId }) => operationId === name);
const queryOf = (operation: Operation | undefined): string[] =>
  (operation?.parameters ?? []).filter((one) => one.in === "query").map(({ name }) => name);

describe("an export holds what its list holds", () => {
  test("keys without what opens them, webhooks without their secrets", async () => {
    const made = await owner
      .post("/api/v1/api-keys")
      .send({ name: "Dashboard", scopes: ["read:due", "read:fleet"] });
    const hook = await owner
      .post("/api/v1/webhooks")
      .send({ url: "https://hooks.partner.example/in", kinds: ["firmware.due"] });
    await owner.post(`/api/v1/webhooks/${hook.body.id}/trial`);
    const keys = await take("api-keys.csv");
    expect(keys).toMatchObject([{ name: "Dashboard", scopes: "read:due read:fleet" }]);
    const hooks = await take("webhooks.csv");
    expect(hooks).toMatchObject([
      { url: "https://hooks.partner.example/in", kinds: "firmware.due", state: "active" },
    ]);
    const told = JSON.stringify([keys, hooks]);
    expect(told).not.toContain(made.body.token);
    expect(told).not.toContain(hook.body.secret);
    const sent = await take(`webhook-deliveries.csv?endpointId=${hook.body.id}&state=waiting`);
    expect(sent).toMatchObject([{ kind: "webhook.trial", state: "waiting", attempts: "0" }]);
    expect(await take("webhook-deliveries.csv?state=failed")).toEqual([]);
    expect((await office.get("/api/v1/exports/api-keys.csv")).status).toBe(403);
  });

  test("models, crews, consumables and absences by the filters of their lists", async () => {
    const model = await addModel(service, { code: "CAIRN-LISTS" });
    await addModel(service, { code: "HEATH-LISTS" });
    expect(await take("product-models.csv?code=cairn")).toMatchObject([{ code: "CAIRN-LISTS" }]);
    const crew = await office.post("/api/v1/crews").send({ name: "Dale", personIds: [] });
    await office.post("/api/v1/crews").send({ name: "Fell", personIds: [] });
    await office
      .patch(`/api/v1/crews/${crew.body.id}`)
      .set("if-match", crew.headers.etag ?? "")
      .send({ active: false });
    expect(await take("crews.csv?active=true")).toMatchObject([{ name: "Fell" }]);
    expect(await take("crews.csv")).toHaveLength(2);
    const personId = service.firm.people.installer.id;
    const away = { personId, reason: "leave" };
    await office.post("/api/v1/absences").send({ ...away, from: "2026-12-08", to: "2026-12-09" });
    await office.post("/api/v1/absences").send({ ...away, from: "2027-02-01", to: "2027-02-02" });
    const span = "from=2026-12-09&to=2026-12-31";
    const listed = (await office.get(`/api/v1/absences?${span}`)).body.items;
    expect(await take(`absences.csv?${span}`)).toHaveLength(1);
    expect(listed).toHaveLength(1);
    expect(await take("absences.csv?to=2026-12-07")).toEqual([]);
    const unit = await receive(service, model.id);
    expect(await take("stock-counts.csv")).toMatchObject([{ model: "CAIRN-LISTS", units: "1" }]);
    expect(unit.serial).not.toBe("");
  });

  test("calibrations of one instrument, and what is missing for a day", async () => {
    const add = (reference: string) =>
      office.post("/api/v1/instruments").send({
        ...{ reference, name: "Tester", serial: reference, instrumentClass: "multimeter" },
        accuracy: { percentOfReading: 0.5 },
      });
    const { body } = await add("MM-1");
    const other = await add("MM-2");
    for (const { id } of [body, other.body]) {
      const kept = await office.post(`/api/v1/instruments/${id}/calibrations`).send({
        ...{ calibratedOn: "2026-05-01", dueOn: "2027-05-01", passed: true, certificate: "C-1" },
      });
      expect(kept.status, kept.text).toBe(201);
    }
    expect(await take(`calibrations.csv?instrumentId=${body.id}`)).toMatchObject([
      { instrument: "MM-1", calibratedOn: "2026-05-01", dueOn: "2027-05-01", passed: "true" },
    ]);
    expect(await take("missing.csv?day=2026-12-01")).toEqual([]);
  });
});
