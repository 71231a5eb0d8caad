// What office and crew tell each other about a job.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestFirm, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { outcomes, sendOps, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
let job: PracticeJob;
let other: TestFirm;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  other = await service.addFirm("birch");
  job = await addPracticeJob(service);
});
afterAll(() => service.stop());

const messages = (jobId: string) => `/api/v1/jobs/${jobId}/messages`;
const people = () => service.firm.people;

describe("messages", () => {
  test("are numbered in one thread, paged from either end", async () => {
    const { jobId } = await addPracticeJob(service);
    for (const [role, text] of [
      ["office", "Start with the garage."],
      ["installer", "Will do."],
      ["manager", "Mind the dog."],
    ] as const) {
      const reply = await service.as(people()[role]).post(messages(jobId)).send({ text });
      expect(reply.status).toBe(201);
    }
    const office = service.as(people().office);
    const first = await office.get(`${messages(jobId)}?limit=2`);
    expect(first.body.items).toMatchObject([
      { number: 1, text: "Start with the garage.", personName: "office person", fromTablet: false },
      { number: 2, text: "Will do.", writtenAt: "2026-11-25T17:00:00.000Z" },
    ]);
    const rest = await office.get(`${messages(jobId)}?limit=2&cursor=${first.body.next}`);
    expect(rest.body.items.map(({ number }: { number: number }) => number)).toEqual([3]);
    const last = await office.get(`${messages(jobId)}?limit=2&from=last`);
    expect(last.body.items.map(({ number }: { number: number }) => number)).toEqual([3, 2]);
  });

  test("of others count as unread until they are read, and reading never goes back", async () => {
    const { jobId } = await addPracticeJob(service);
    const [office, installer] = [service.as(people().office), service.as(people().installer)];
    await office.post(messages(jobId)).send({ text: "One" });
    await office.post(messages(jobId)).send({ text: "Two" });
    await installer.post(messages(jobId)).send({ text: "Three" });
    const standing = async (client: typeof office) =>
      (await client.get(`${messages(jobId)}/seen`)).body;
    expect(await standing(installer)).toEqual({ last: 3, through: 0, unread: 2 });
    expect(await standing(office)).toEqual({ last: 3, through: 0, unread: 1 });
    const unread = await installer.get("/api/v1/messages/unread");
    expect(unread.body.items).toContainEqual(expect.objectContaining({ jobId, unread: 2 }));
    await installer.put(`${messages(jobId)}/seen`).send({ through: 900 });
    expect(await standing(installer)).toEqual({ last: 3, through: 3, unread: 0 });
    const back = await installer.put(`${messages(jobId)}/seen`).send({ through: 1 });
    expect(back.body).toEqual({ last: 3, through: 3, unread: 0 });
    const nothing = await installer.get("/api/v1/messages/unread");
    expect(nothing.body.items.map((row: { jobId: string }) => row.jobId)).not.toContain(jobId);
  });

  test("are no part of the record: the ledger does not know of them", async () => {
    const { jobId } = await addPracticeJob(service);
    const office = service.as(people().office);
    const before = await office.get(`/api/v1/jobs/${jobId}/ledger`);
    await office.post(messages(jobId)).send({ text: "Only talk." });
    const after = await office.get(`/api/v1/jobs/${jobId}/ledger`);
    expect(after.body.items).toEqual(before.body.items);
  });

  test("with one Idempotency-Key are written once", async () => {
    const { jobId } = await addPracticeJob(service);
    const send = () =>
      service
        .as(people().office)
        .post(messages(jobId))
        .set("idempotency-key", "message-once")
        .send({ text: "Once" });
    const [one, two] = [await send(), await send()];
    expect(two.body).toEqual(one.body);
    const thread = await service.as(people().office).get(messages(jobId));
    expect(thread.body.items).toHaveLength(1);
  });

  test("written side by side get a number each", async () => {
    const { jobId } = await addPracticeJob(service);
    const texts = Array.from({ length: 8 }, (_, index) => `No ${index}`);
    await Promise.all(
      texts.map((text) => service.as(people().office).post(messages(jobId)).send({ text })),
    );
    const thread = await service.as(people().office).get(messages(jobId));
    expect(thread.body.items.map(({ number }: { number: number }) => number)).toEqual([
      ...[1, 2, 3, 4, 5, 6, 7, 8],
    ]);
  });

  test.each([
    [{ text: "" }, "/body/text"],
    [{ text: "x".repeat(2001) }, "/body/text"],
    [{}, "/body/text"],
  ])("%j is refused with its pointer", async (body, pointer) => {
    const reply = await service.as(people().office).post(messages(job.jobId)).send(body);
    expect(reply.status).toBe(422);
    expect(reply.body.errors[0].pointer).toBe(pointer);
  });

  test("are nobody else's: 403 for an auditor to write, 404 for another firm", async () => {
    const write = (person: { token: string }) =>
      service.as(person).post(messages(job.jobId)).send({ text: "Hello" });
    expect((await write(people().auditor)).status).toBe(403);
    expect((await write(other.people.office)).status).toBe(404);
    expect((await service.as(other.people.office).get(messages(job.jobId))).status).toBe(404);
    expect((await service.as(other.people.office).get(`${messages(job.jobId)}/seen`)).status).toBe(
      404,
    );
  });

  test("reach the tablet's packet, and come from it once, in its own words", async () => {
    const theirs = await addPracticeJob(service);
    const { jobId } = theirs;
    await service.as(people().office).post(messages(jobId)).send({ text: "Ring first." });
    const tablet = testTablet(jobId, people().installer.id);
    const op = tablet.keep({ kind: "message", text: "Nobody opens." });
    expect(outcomes(await sendOps(service, [op]))).toEqual(["stored"]);
    expect(outcomes(await sendOps(service, [op]))).toEqual(["repeated"]);
    const packet = await service.as(people().installer).get(`/api/v1/tablet/packets/${jobId}`);
    expect(packet.body.messages).toMatchObject([
      { number: 1, text: "Ring first.", personName: "office person", fromTablet: false },
      { number: 2, text: "Nobody opens.", personName: "installer person", fromTablet: true },
    ]);
    expect(packet.body.messages[1].id).toBe(op.opId);
  });
});
