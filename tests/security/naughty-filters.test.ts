// Texts in addresses: what a list is asked for, and the place of a photo. U+0000 cannot be stored
// or looked for (PostgreSQL's manual, 8.3), so it is refused by the name of its part.
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointers } from "../support/reading.ts";
import { addJobRows } from "../support/rows.ts";
import { shareOf } from "./naughty-strings/list.ts";

const folder = mkdtempSync(join(tmpdir(), "holdpoint-filters-"));
const HASH = createHash("sha256").update("no picture").digest("hex");
let service: TestService;
let jobId: string;

beforeAll(async () => {
  service = await startService({ environment: { DATA_DIR: folder } });
  ({ jobId } = await addJobRows(service, { schema: "plan/1", stages: [] }));
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

const ask = async (path: string) => {
  const authorization = `Bearer ${service.firm.people.owner.token}`;
  const reply = await service.app.inject({ url: path, headers: { authorization } });
  return { status: reply.statusCode, text: reply.body, body: reply.json() };
};

const FILTERS = [
  ...["customers?name", "people?name", "sites?locality", "sites?postcode", "sites?region"],
  ...["units?firmwareLevel", "product-models?code", "snags?title", "search?q", "concessions?q"],
] as const;

test.each(FILTERS)("U+0000 in %s is refused by name", async (filter) => {
  const reply = await ask(`/api/v1/${filter}=a%00b`);
  expect([reply.status, pointers(reply)]).toEqual([422, [`/query/${filter.split("?")[1]}`]]);
});

test.each(["itemId", "subject"])("U+0000 in a photo's %s is refused by name", async (name) => {
  const reply = await service
    .as(service.firm.people.installer)
    .put(`/api/v1/jobs/${jobId}/photos/${HASH}?${name}=a%00b`)
    .set("content-type", "image/jpeg")
    .send(Buffer.from("no picture"));
  expect([reply.status, pointers(reply)]).toEqual([422, [`/query/${name}`]]);
});

test.each(["itemId", "subject"])("U+0000 in the %s of answers is refused by name", async (name) => {
  const reply = await ask(`/api/v1/jobs/${jobId}/answers?${name}=a%00b`);
  expect([reply.status, pointers(reply)]).toEqual([422, [`/query/${name}`]]);
});

const ASKED = [...FILTERS.filter((filter) => !/firmwareLevel|concessions/.test(filter))];

test.each(ASKED.map((filter, place) => [filter, place] as const))(
  "each string that %s is asked for is refused by name, or finds nothing",
  async (filter, place) => {
    for (const text of shareOf(place)) {
      // The longest address that servers take is another test's subject.
      const short = text.toWellFormed().slice(0, 200).toWellFormed();
      const reply = await ask(`/api/v1/${filter}=${encodeURIComponent(short)}`);
      if (reply.status === 200) expect(reply.body.items).toBeInstanceOf(Array);
      else {
        const refusal = [422, [`/query/${filter.split("?")[1]}`]];
        expect([reply.status, pointers(reply)], JSON.stringify(short)).toEqual(refusal);
      }
    }
  },
);
