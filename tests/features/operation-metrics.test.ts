// What a monitoring service reads, taken apart by a parser of the text format that is not the
// library that wrote it (parse-prometheus-text-format).
import parse from "parse-prometheus-text-format";
import supertest from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";

const TOKEN = "a token of the test's own";

interface Family {
  name: string;
  type: string;
  metrics: { value?: string; labels?: Record<string, string>; count?: string }[];
}

let service: TestService;
beforeAll(async () => {
  service = await startService({ environment: { METRICS_TOKEN: TOKEN } });
});
afterAll(() => service.stop());

const scrape = (token = TOKEN) =>
  service.anonymous.get("/metrics").set("authorization", `Bearer ${token}`);

async function families(): Promise<Map<string, Family>> {
  const reply = await scrape();
  expect(reply.status).toBe(200);
  const read = parse(reply.text) as Family[];
  return new Map(read.map((family) => [family.name, family]));
}

describe("/metrics", () => {
  test("is there for whoever has the token, and for nobody where none is set", async () => {
    expect((await scrape("another token of somebody")).status).toBe(401);
    expect((await service.anonymous.get("/metrics")).status).toBe(401);
    const { owner } = service.firm.people;
    expect((await service.as(owner).get("/metrics")).status).toBe(401);
    const without = await startService();
    expect((await supertest(without.app.server).get("/metrics")).status).toBe(404);
    await without.stop();
  });

  test("counts requests by route, status and duration", async () => {
    const { jobId } = await addPracticeJob(service);
    const { installer } = service.firm.people;
    for (let count = 0; count < 3; count += 1) {
      expect((await service.as(installer).get(`/api/v1/jobs/${jobId}/answers`)).status).toBe(200);
    }
    expect((await service.anonymous.get("/nowhere/at/all")).status).toBe(404);
    expect((await families()).get("holdpoint_request_duration_seconds")?.type).toBe("HISTOGRAM");
    // The parser gives a histogram without its labels.
    const { text } = await scrape();
    const count = (labels: string) =>
      text
        .split("\n")
        .find((line) => line.startsWith(`holdpoint_request_duration_seconds_count{${labels}}`))
        ?.split(" ")[1];
    expect(count('method="GET",route="/api/v1/jobs/:id/answers",status="200"')).toBe("3");
    expect(count('method="GET",route="none",status="404"')).toBe("1");
  });

  test("tells of event loop, memory, connections, mails and photos", async () => {
    const found = await families();
    for (const name of [
      ...["nodejs_eventloop_lag_seconds", "process_resident_memory_bytes"],
      ...["holdpoint_mails_waiting", "holdpoint_mails_failed", "holdpoint_photo_store_bytes"],
    ]) {
      const value = Number(found.get(name)?.metrics[0]?.value);
      expect(value, name).toBeGreaterThanOrEqual(0);
    }
    const pools = found.get("holdpoint_database_connections")?.metrics ?? [];
    expect(pools).toHaveLength(6);
  });

  test("holds no word of a firm, a person or a customer", async () => {
    const { text } = await scrape();
    const { firmId, people } = service.firm;
    const words = [firmId, "alder", "Row Customer", "Kiln Lane", TOKEN];
    for (const { id, email } of Object.values(people)) words.push(id, email);
    for (const word of words) expect(text).not.toContain(word);
  });
});
