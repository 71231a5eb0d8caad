// What is written about work: visits, claims, concessions, reopenings and answers.
import { uuidv7 } from "uuidv7";
import type { TestService } from "../../support/app.ts";
import { addPracticeJob } from "../../support/practice-job.ts";
import { addJobRows } from "../../support/rows.ts";
import { rowsIn, SMALL_PLAN } from "../../support/work-rows.ts";
import { line, lines, type RecordKind } from "./records.ts";

const dayAt = (count: number): string =>
  new Date(Date.UTC(2027, 0, 1) + count * 86_400_000).toISOString().slice(0, 10);
const TAKEN_AT = "2026-11-25T10:42:00+00:00";

const visits = (jobId: string, crewId: string): RecordKind => ({
  ...{ name: "visit", to: `/api/v1/jobs/${jobId}/visits`, list: "/api/v1/visits" },
  texts: { note: lines(2000) },
  rest: (count) => ({ crewId, local: { day: dayAt(count), from: "09:00", to: "10:00" } }),
  one: (id) => `/api/v1/visits/${id}`,
});

const claims = (unitId: string): RecordKind => ({
  ...{ name: "claim", to: "/api/v1/warranty/claims", list: "/api/v1/warranty/claims" },
  ...{ texts: { fault: lines(4000) }, rest: () => ({ unitId }) },
  ...{ one: (id) => `/api/v1/warranty/claims/${id}`, page: (id) => `/warranty/claims/${id}` },
});

const concessions = (jobId: string, subject: string): RecordKind => ({
  ...{ name: "concession", to: `/api/v1/jobs/${jobId}/concessions`, by: "manager" },
  ...{ list: "/api/v1/concessions", texts: { reason: lines(2000) } },
  rest: () => ({ itemId: "wall_gap", subject }),
  ...{ page: () => "/concessions", sharesPage: true },
});

/** Each is opened again after it was closed once more. */
const reopenings = (service: TestService, jobId: string): RecordKind => ({
  ...{ name: "reopening", to: `/api/v1/jobs/${jobId}/reopening`, by: "manager" },
  ...{ texts: { reason: lines(2000) }, rest: () => ({}), alone: true },
  before: async () => {
    await service.as(service.firm.people.manager).post(`/api/v1/jobs/${jobId}/close-out`);
  },
  // The job's ledger alone shows it again.
  ...{ list: `/api/v1/jobs/${jobId}/ledger`, pagesBy: "after", namesItself: false },
  reads: { item: ({ texts }) => ({ reason: texts[0]?.text }) },
});

const SIGN = {
  kind: "sign",
  id: "handed_over",
  title: "Handed over",
  do: "Sign.",
  whose: "customer",
};
const SIGN_PLAN = {
  ...SMALL_PLAN,
  stages: [{ id: "end", title: "End", items: [{ ...SIGN, holdPoint: true }] }],
};

/** What was written to it, and who signed it: the one is judged before the other. */
const answers = (jobId: string): RecordKind[] => {
  const shared: Omit<RecordKind, "name" | "texts"> = {
    ...{ to: `/api/v1/jobs/${jobId}/answers`, by: "installer", alone: true },
    ...{ list: `/api/v1/jobs/${jobId}/answers`, pagesBy: "after" },
    rest: () => ({
      answers: [{ id: uuidv7(), itemId: "handed_over", takenAt: TAKEN_AT, value: { name: "Ida" } }],
    }),
    reads: { reply: () => undefined, item: (item) => ({ answers: [item] }) },
    idOf: (reply) => reply.answers[0].id,
    page: () => `/jobs/${jobId}`,
  };
  const signed = { ...line(120), asTyped: true, filled: true };
  return [
    { ...shared, name: "answer", texts: { "answers/0/note": lines(2000) } },
    { ...shared, name: "signed answer", texts: { "answers/0/value/name": signed } },
  ];
};

export async function workKinds(service: TestService): Promise<RecordKind[]> {
  const rows = rowsIn(service);
  const [open, closing, signed] = [
    await addPracticeJob(service),
    await addJobRows(service, SMALL_PLAN),
    await addJobRows(service, SIGN_PLAN),
  ];
  const crewId = await rows.crew("Visiting crew", [await rows.person("Vic Larch")]);
  const unitId = await rows.unit(await rows.model());
  const proved = { itemId: "proved_dead", takenAt: TAKEN_AT, value: { done: true } };
  await service
    .as(service.firm.people.installer)
    .post(`/api/v1/jobs/${closing.jobId}/answers`)
    .send({ answers: [{ ...proved, id: uuidv7() }] });
  return [
    ...[visits(open.jobId, crewId), claims(unitId), concessions(open.jobId, open.packIds[0]!)],
    ...[reopenings(service, closing.jobId), ...answers(signed.jobId)],
  ];
}
