// A battery's passport over the API and by form, and in the evidence bag of its job.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import {
  addProvenJob,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { missingTools, readmeScript, runReadme } from "../support/evidence-tampering.ts";
import { hiddenFields, pageForms, words } from "../support/page-forms.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { pointersOf } from "../support/replies.ts";

const GTIN = "https://id.gs1.org/01/09520123456788";
let stage: EvidenceStage;
let job: PracticeJob;
let unitId: string;
let serial: string;
const { post, page, as } = pageForms(() => stage as never);

beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  job = await addProvenJob(stage.service);
  [unitId] = job.packIds as [string];
  serial = (await as("office").get(`/api/v1/units/${unitId}`)).body.serial;
});
afterAll(() => stage.stop());

const path = () => `/api/v1/units/${unitId}/battery-passport`;
const put = (version: number, body: object, role: "installer" | "auditor" = "installer") =>
  as(role).put(path()).set("if-match", `"${version}"`).send(body);
const capacity = { field: "ratedCapacity", value: 100, readOn: "2026-11-24" };

test("is kept with its version, its address read and its serial compared", async () => {
  const none = await as("office").get(path());
  expect([none.headers.etag, none.body.uri, none.body.values]).toEqual(['"0"', null, []]);
  const kept = await put(0, { uri: `${GTIN}/21/${serial}`, values: [capacity] });
  expect(kept.status, kept.text).toBe(200);
  expect(kept.body).toMatchObject({
    ...{ serial: "same", version: 1, elements: [{ ai: "01" }, { ai: "21", value: serial }] },
    values: [{ ...capacity, unit: "Ah", point: "XIII 1(g)" }],
  });
  expect((await put(0, { uri: null, values: [] })).status).toBe(412);
  expect((await put(1, { uri: null, values: [] }, "auditor")).status).toBe(403);
});

test.each([
  [{ uri: "https://example.com/x", values: [] }, ["/body/uri"]],
  [{ uri: null, values: [{ ...capacity, value: -1 }] }, ["/body/values/0/value"]],
  [{ uri: null, values: [{ ...capacity, readOn: "2026-11-26" }] }, ["/body/values/0/readOn"]],
  [{ uri: null, values: [capacity, capacity] }, ["/body/values"]],
])("refuses %j at its field", async (body, pointers) => {
  expect(pointersOf(await put(1, body))).toEqual(pointers);
});

test("is entered by form; what stays as it was keeps its day", async () => {
  const form = `/units/${unitId}/battery-passport`;
  const { version = "" } = hiddenFields(await page(form), "passport-head");
  const typed = { version, readOn: "2026-11-25", ratedCapacity: "100", chemistry: "LFP" };
  const uri = `${GTIN}/21/OTHER-1`;
  const odd = await post(form, { ...typed, uri, nominalVoltage: "about 51" });
  expect(words(odd.text)).toContain("must be a number, in V");
  expect((await post(form, { ...typed, uri })).status).toBe(303);
  const { body } = await as("office").get(path());
  expect(body.values).toMatchObject([
    { field: "chemistry", value: "LFP", readOn: "2026-11-25" },
    { field: "ratedCapacity", value: 100, readOn: "2026-11-24" },
  ]);
  const shown = words(await page(`/units/${unitId}`));
  expect(shown).toMatch(/names another serial number.*\(21\) Serial number OTHER-1/);
  expect(shown).toMatch(/Rated capacity 100 Ah 24 Nov 2026/);
  expect(words(await page(form, "auditor"))).toContain("LFP");
});

test("stands in the bag of the unit's job, the same each time, and verifies", async () => {
  const bag = await downloadBag(stage.service, job.jobId);
  const folder = await unpack(bag, stage.folder);
  const name = "data/records/battery-passports.json";
  expect(JSON.parse(readFileSync(join(folder, name), "utf8"))).toMatchObject([
    {
      ...{ unitId, uri: `${GTIN}/21/OTHER-1`, keptAt: "2026-11-25T17:00:00.000Z" },
      values: [{ field: "chemistry", value: "LFP" }, capacity],
    },
  ]);
  expect(readFileSync(join(folder, "README.txt"), "utf8")).toContain("battery-passports.json");
  const again = await unpack(await downloadBag(stage.service, job.jobId), stage.folder);
  for (const file of ["manifest-sha256.txt", name]) {
    expect(readFileSync(join(again, file))).toEqual(readFileSync(join(folder, file)));
  }
  expect((await verifyBag(folder)).faults).toEqual([]);
});

test.skipIf(missingTools().length > 0)("the bag's own README checks it", async () => {
  const folder = await unpack(await downloadBag(stage.service, job.jobId), stage.folder);
  expect(runReadme(readmeScript(folder), folder, "")).toMatchObject({ whole: true });
});
