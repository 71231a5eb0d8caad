// A text that cannot be kept as it is stands in the way of its own operation and of no other: a
// tablet whose whole batch is refused could never send what lies behind it.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { transactionQuery } from "../../src/db/query.ts";
import { inFirm } from "../../src/db/scope.ts";
import { readIncoming } from "../../src/features/tablet/ops-incoming.ts";
import { opStatement } from "../../src/features/tablet/ops-store.ts";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { outcomes, sendOps, type TestTablet, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
});
afterAll(() => service.stop());

const tabletAt = (job: PracticeJob): TestTablet =>
  testTablet(job.jobId, service.firm.people.installer.id);
const serialOf = (job: PracticeJob) => job.answers().find(({ itemId }) => itemId === "serial")!;
const answersOf = async (job: PracticeJob) =>
  (await service.as(service.firm.people.office).get(`/api/v1/jobs/${job.jobId}/answers`)).body
    .items;

type Fault = [place: string, op: (tablet: TestTablet, job: PracticeJob) => TabletOp];
const answer = (tablet: TestTablet, job: PracticeJob, more: object) =>
  tablet.answer({ ...serialOf(job), ...more });
const FAULTS: Fault[] = [
  ["/payload/answer/itemId", (tablet, job) => answer(tablet, job, { itemId: "no\u0000thing" })],
  ["/payload/answer/note", (tablet, job) => answer(tablet, job, { note: "a\u0007b" })],
  ["/payload/answer/note", (tablet, job) => answer(tablet, job, { note: "a\u0085b" })],
  [
    "/payload/answer/value/text",
    (tablet, job) => answer(tablet, job, { value: { text: "\u0000" } }),
  ],
  ["/payload/answer/value/text", (tablet, job) => answer(tablet, job, { value: { text: "a\nb" } })],
  [
    "/payload/answer/value/positions",
    (tablet, job) => answer(tablet, job, { value: { positions: { "\u009b": "1" } } }),
  ],
  ["/payload/text", (tablet) => tablet.keep({ kind: "snag", text: "a\u007fb" })],
  ["/payload/text", (tablet) => tablet.keep({ kind: "message", text: "a\u0000b" })],
];

test.each(FAULTS)(
  "at %s: the one operation is refused, the others are kept",
  async (place, make) => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const [first] = job.answers();
    const ops = [tablet.answer(first!), make(tablet, job), tablet.answer(serialOf(job))];
    const reply = await sendOps(service, ops);
    expect(outcomes(reply), reply.text).toEqual(["stored", "refused", "stored"]);
    expect(reply.body.storedThrough).toBe(3);
    expect(reply.body.results[1]).toMatchObject({
      ...{ code: "invalid-input", repeated: false },
      sentence: expect.stringContaining(
        `Its text at ${place} must`.replace("positions must", "positions has"),
      ),
    });
    expect((await answersOf(job)).map(({ id }: { id: string }) => id)).toEqual([
      ops[0]!.opId,
      ops[2]!.opId,
    ]);

    const again = await sendOps(service, ops);
    expect(outcomes(again)).toEqual(["repeated", "refused", "repeated"]);
    expect(again.body.results[1]).toEqual(reply.body.results[1]);
    const { firmId } = service.firm;
    const aside = await inFirm(service.db, firmId, (tx) =>
      tx.tabletQuarantine.findMany({ where: { firmId, opId: ops[1]!.opId } }),
    );
    expect(aside.map(({ body }) => JSON.parse(body))).toEqual([ops[1]]);
  },
);

test("half a character is refused with its own operation, and early before its turn", async () => {
  const job = await addPracticeJob(service);
  const tablet = tabletAt(job);
  const [first] = job.answers();
  const kept = tablet.answer(first!);
  const half = {
    ...tablet.keep({ kind: "snag", text: "?" }),
    payload: { kind: "snag", text: "\ud800" },
  };
  const next = tablet.keep({ kind: "snag", text: "Paint the wall" });
  expect(outcomes(await sendOps(service, [half]))).toEqual(["early"]);
  const reply = await sendOps(service, [kept, half, next]);
  expect(outcomes(reply), reply.text).toEqual(["stored", "refused", "stored"]);
  expect(reply.body.results[1].sentence).toContain("/payload/text must be well-formed Unicode");
});

test("lines and tabs stay in a note, a snag and a message", async () => {
  const job = await addPracticeJob(service);
  const tablet = tabletAt(job);
  const text = "first\n\tsecond\r\nthird";
  const ops = [
    tablet.answer({ ...serialOf(job), note: text }),
    tablet.keep({ kind: "snag", text }),
    tablet.keep({ kind: "message", text }),
  ];
  expect(outcomes(await sendOps(service, ops))).toEqual(["stored", "stored", "stored"]);
  expect(await answersOf(job)).toMatchObject([{ note: text }]);
});

test("an outbox's file says of the line what is wrong in it, and takes the others", async () => {
  const job = await addPracticeJob(service);
  const tablet = tabletAt(job);
  const ops = [tablet.keep({ kind: "snag", text: "a\u0000b" }), tablet.answer(serialOf(job))];
  const reply = await service
    .as(service.firm.people.installer)
    .post("/api/v1/tablet/outbox-files")
    .set("content-type", "application/jsonl")
    .send(ops.map((op) => JSON.stringify({ op })).join("\n"));
  expect(reply.body, reply.text).toMatchObject({
    ops: { stored: 1, refused: 1 },
    notes: [{ line: 1, sentence: expect.stringContaining("/payload/text must not hold") }],
  });
});

test("one that was held before texts were looked at is put aside, not applied", async () => {
  const job = await addPracticeJob(service);
  const op = tabletAt(job).answer({ ...serialOf(job), itemId: "no_such_item" });
  expect(outcomes(await sendOps(service, [op]))).toEqual(["held"]);
  const { firmId } = service.firm;
  const opId = uuidv7();
  const faulty = { ...op, opId, deviceSeq: 2, payload: { kind: "snag", text: "a\u0007b" } };
  const { jobId, personId } = op;
  const reply = { opId, deviceSeq: 2, outcome: "held", code: "job-not-open" } as const;
  const row = { jobId, personId, sentById: personId, reply, chainBroken: false };
  const incoming = readIncoming(faulty as TabletOp, faulty);
  const statement = opStatement(firmId, incoming, { ...row, receivedAt: new Date() });
  await inFirm(service.db, firmId, (tx) => transactionQuery(tx)(statement));
  const office = service.as(service.firm.people.office);
  const applied = await office.post(`/api/v1/held-operations/${opId}/application`);
  expect([applied.status, applied.body.detail]).toEqual([
    422,
    "Its text at /payload/text must not hold control characters. Put it aside.",
  ]);
});
