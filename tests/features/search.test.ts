import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Role } from "../../src/web/roles.ts";
import { startService, type TestFirm, type TestService } from "../support/app.ts";
import { addModel, receive, SITE } from "../support/stock.ts";
import { rowsIn, SMALL_PLAN } from "../support/work-rows.ts";

let service: TestService;
let other: TestFirm;
const ids: Record<string, string> = {};

beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T12:00:00Z") });
  other = await service.addFirm("birch");
  const office = service.as(service.firm.people.office);
  const post = async (path: string, body: object, as = office) => {
    const reply = await as.post(path).send(body);
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    return reply.body.id as string;
  };
  const contact = { phone: "+44 20 7946 0018", email: "hanne@larchhouse.example" };
  ids.customer = await post("/api/v1/customers", { name: "Hanne Ósei", ...contact });
  ids.kiln = await post("/api/v1/customers", { name: "Piotr Kiln" });
  ids.site = await post("/api/v1/sites", {
    ...SITE,
    customerId: ids.customer,
    addressLine: "17 Lanternmaker Row",
    postcode: "QX7 3ZD",
  });
  const { id: modelId } = await addModel(service, { serialMask: "FSA@@#{6}" });
  ids.unit = (await receive(service, modelId, { serial: "FSAQK204417" })).id;
  ids.unitBeside = (await receive(service, modelId, { serial: "FSAQK204418" })).id;
  ids.instrument = await post("/api/v1/instruments", {
    reference: "IT-07",
    name: "Insulation tester, van 2",
    instrumentClass: "insulation-tester",
    serial: "4471-0932",
  });
  const { id: planVersionId } = await rowsIn(service).planVersion(SMALL_PLAN);
  ids.job = await post("/api/v1/jobs", {
    siteId: ids.site,
    kind: "install",
    title: "Two packs in the coach house",
    planVersionId,
  });
  await post("/api/v1/customers", { name: "Hanne Osei" }, service.as(other.people.office));
});
afterAll(() => service.stop());

async function find(q: string, role: Role = "office", firm = service.firm) {
  const reply = await service
    .as(firm.people[role])
    .get(`/api/v1/search?q=${encodeURIComponent(q)}`);
  expect(reply.status, JSON.stringify(reply.body)).toBe(200);
  return reply.body.items as { kind: string; id: string; exact: boolean; name: string }[];
}
const idsOf = async (q: string, role?: Role) => (await find(q, role)).map(({ id }) => id);

describe("one box finds", () => {
  test.each([
    ["a name without its accent, in capitals", "HANNE OSEI", "customer"],
    ["a name with two letters exchanged", "hanne soei", "customer"],
    ["a short word with two letters exchanged", "piotr klin", "kiln"],
    ["a name with a letter missing", "hane osei", "customer"],
    ["a phone number as it is said at home", "020 7946 0018", "customer"],
    ["an e-mail address", "hanne@larchhouse.example", "customer"],
    ["a street with slips in it", "lanternmakr rwo", "site"],
    ["a street with its house number", "17 lanternmaker", "site"],
    ["a postcode without its blank", "qx73zd", "site"],
    ["a postcode with its blank", "QX7 3ZD", "site"],
    ["a word of a job's title", "coach house", "job"],
    ["the beginning of a serial number", "fsaqk2044", "unit"],
    ["the end of a serial number", "4417", "unit"],
    ["a serial number with a sign too many", "FSAQK2044177", "unit"],
    ["a serial number with two signs exchanged", "FSAQK204471", "unit"],
    ["an instrument by its reference", "it-07", "instrument"],
    ["an instrument by its serial number", "44710932", "instrument"],
  ])("%s: %s", async (_, q, what) => {
    expect(await idsOf(q)).toContain(ids[what]);
  });

  test("a whole serial number first and alone, although another differs by one sign", async () => {
    const found = await find("fsa qk 204417");
    expect(found.map(({ id, exact }) => [id, exact])).toEqual([[ids.unit, true]]);
  });

  test("a reference in any spelling first, and says that it is the very one", async () => {
    const job = await service.as(service.firm.people.office).get(`/api/v1/jobs/${ids.job}`);
    const number = Number(job.body.reference.slice(-4));
    const [first] = await find(`j 2026 ${number}`);
    expect(first).toMatchObject({
      kind: "job",
      id: ids.job,
      exact: true,
      name: job.body.reference,
    });
  });

  test.each(["", "  ", "zq", "xylophonic quartz", "%", "' OR 1=1", "\\", "FSA%"])(
    "nothing for %j, and is not upset by it",
    async (q) => {
      expect(await idsOf(q)).toEqual([]);
    },
  );

  test("what was renamed by its new name and no longer by its old one", async () => {
    const office = service.as(service.firm.people.office);
    const { body } = await office.post("/api/v1/customers").send({ name: "Ottoline Vexley" });
    expect(await idsOf("vexley")).toEqual([body.id]);
    const edit = { name: "Ottoline Marchbanks" };
    await office.patch(`/api/v1/customers/${body.id}`).set("if-match", '"1"').send(edit);
    expect([await idsOf("vexley"), await idsOf("marchbanks")]).toEqual([[], [body.id]]);
  });
});

describe("who seeks", () => {
  test("finds nothing of another firm", async () => {
    const theirs = await find("osei", "office", other);
    expect(theirs.map(({ id }) => id)).not.toContain(ids.customer);
    expect(theirs).toHaveLength(1);
    expect(await find("FSAQK204417", "office", other)).toEqual([]);
  });

  test("as an installer is led from a customer to the site, and sees no people", async () => {
    expect(await idsOf("hanne osei", "installer")).toEqual([ids.site]);
    expect(await idsOf("installer person", "installer")).toEqual([]);
    const people = await find("installer person", "manager");
    expect(people[0]).toMatchObject({ kind: "person", id: service.firm.people.installer.id });
  });

  test("with more than a hundred signs is told so", async () => {
    const long = await service
      .as(service.firm.people.office)
      .get(`/api/v1/search?q=${"a".repeat(101)}`);
    expect([long.status, long.body.errors[0].pointer]).toEqual([422, "/query/q"]);
  });
});
