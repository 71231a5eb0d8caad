// What a firm says of itself: its people and their days, keys, settings and plans.
import type { TestService } from "../../support/app.ts";
import type { Rule } from "./list.ts";
import { line, lines, type RecordKind } from "./records.ts";

const dayAt = (count: number): string =>
  new Date(Date.UTC(2027, 0, 1) + count * 86_400_000).toISOString().slice(0, 10);

const crewKinds = (personId: string): RecordKind[] => [
  {
    ...{ name: "crew", to: "/api/v1/crews", list: "/api/v1/crews", csv: "crews" },
    ...{ texts: { name: line(80) }, unique: ["name"], rest: () => ({}) },
    ...{ one: (id) => `/api/v1/crews/${id}`, page: (id) => `/crews/${id}` },
  },
  {
    ...{ name: "absence", to: "/api/v1/absences", list: "/api/v1/absences", csv: "absences" },
    texts: { note: line(200) },
    rest: (count) => ({ personId, from: dayAt(count), to: dayAt(count), reason: "other" }),
    page: (id) => `/absences/${id}`,
  },
];

const qualificationKinds = (personId: string, kindId: string): RecordKind[] => [
  {
    ...{ name: "qualification kind", to: "/api/v1/qualification-kinds" },
    ...{ list: "/api/v1/qualification-kinds", texts: { name: line(80) }, unique: ["name"] },
    ...{ rest: () => ({}), page: (id) => `/qualifications/kinds/${id}` },
  },
  {
    ...{ name: "qualification", to: "/api/v1/qualifications", list: "/api/v1/qualifications" },
    ...{ texts: { number: line(80), issuedBy: line(160) }, csv: "qualifications" },
    rest: () => ({ personId, kindId, validFrom: "2026-01-01", validTo: null }),
    page: (id) => `/qualifications/${id}`,
  },
];

const API_KEY: RecordKind = {
  ...{ name: "API key", to: "/api/v1/api-keys", list: "/api/v1/api-keys" },
  ...{ texts: { name: line(80) }, rest: () => ({ scopes: ["read:fleet"] }) },
  ...{ page: () => "/api-keys", sharesPage: true },
};

const orNone = (rule: Rule): Rule => ({ ...rule, mayBeEmpty: true });

const SETTINGS: RecordKind[] = [
  {
    ...{ name: "firm's settings", to: "/api/v1/firm", method: "PATCH", alone: true },
    texts: {
      ...{ name: line(120), address: orNone({ ...lines(400), linesMost: 5 }) },
      ...{ phone: orNone(line(40)), registrations: orNone(lines(600)) },
    },
    ...{ rest: () => ({}), one: () => "/api/v1/firm", page: () => "/firm" },
  },
  {
    ...{ name: "mail's settings", to: "/api/v1/mail/settings", method: "PATCH", alone: true },
    texts: { senderName: line(80) },
    ...{ rest: () => ({}), one: () => "/api/v1/mail/settings", page: () => "/outbox/settings" },
  },
];

/** A document is kept as it is, whatever a plan's own rules will say of it. */
const anything: Rule = { ...lines(1e6), asTyped: true };
const ITEM = { kind: "confirm", id: "proved_dead", holdPoint: true };
const STAGES = [{ id: "isolation", title: "", items: [{ ...ITEM, title: "", do: "" }] }];
const DOCUMENT = { schema: "plan/1", title: "", decisionRule: "simple", attributes: {} };

const PLANS: RecordKind[] = [
  {
    ...{ name: "plan", to: "/api/v1/plans", list: "/api/v1/plans", csv: "plans" },
    ...{ texts: { title: line(200) }, rest: (count) => ({ code: `PLAN-${count}` }) },
    ...{ one: (id) => `/api/v1/plans/${id}`, page: (id) => `/plans/${id}` },
  },
  {
    ...{ name: "plan document", to: "/api/v1/plans" },
    texts: {
      ...{ "document/title": anything, "document/stages/0/title": anything },
      ...{ "document/stages/0/items/0/title": anything, "document/stages/0/items/0/do": anything },
    },
    rest: (count) => ({
      ...{ code: `PLAN-${count}`, title: "Plan" },
      document: { ...DOCUMENT, stages: STAGES },
    }),
    reads: { reply: () => undefined, one: (document) => ({ document }) },
    one: (id) => `/api/v1/plans/${id}/versions/1/document`,
    page: (id) => `/plans/${id}/versions/1`,
    unshown: ["document/title", "document/stages/0/items/0/do"],
  },
];

export async function firmKinds(service: TestService): Promise<RecordKind[]> {
  const personId = service.firm.people.installer.id;
  const kind = await service
    .as(service.firm.people.owner)
    .post("/api/v1/qualification-kinds")
    .send({ name: "Lifting" });
  return [
    ...crewKinds(personId),
    ...qualificationKinds(personId, kind.body.id),
    ...[API_KEY, ...SETTINGS, ...PLANS],
  ];
}
