// The records whose free texts are tried, over the routes that take and show them.
import { inFirm } from "../../../src/db/scope.ts";
import type { Role } from "../../../src/web/roles.ts";
import type { TestService } from "../../support/app.ts";
import { addJobRows, type JobRows } from "../../support/rows.ts";
import { SMALL_PLAN } from "../../support/work-rows.ts";
import type { Rule } from "./list.ts";

export interface RecordKind {
  name: string;
  /** Where it is sent. */
  to: string;
  /** PATCH for what there is one of; POST unless said. */
  method?: "POST" | "PATCH";
  by?: Role;
  /** What has to happen before each is sent. */
  before?: () => Promise<void>;
  /** Whether one after another is sent, since the next takes the place of the one before. */
  alone?: boolean;
  list?: string;
  /** What the next page is asked for by, instead of its cursor. */
  pagesBy?: "after";
  /** By place in what is sent: "name", "kit/0/name". */
  texts: Record<string, Rule>;
  /** Of which no two may be alike in a firm. */
  unique?: readonly string[];
  /** What else a new one needs, with room for the texts. */
  rest: (count: number) => object;
  /** What comes back as it would be sent; undefined where that says nothing of the texts. */
  reads?: Partial<Record<"reply" | "one" | "item", (body: Read) => object | undefined>>;
  idOf?: (reply: Read) => string;
  /** False where the reply does not name what it added. */
  namesItself?: boolean;
  /** Its own address in the interface, unless it has none. */
  one?: (id: string) => string;
  page?: (id: string) => string;
  /** Texts that pages do not show as they are. */
  unshown?: readonly string[];
  /** Whether one page shows many of them. */
  sharesPage?: boolean;
  /** Its list as CSV, unless there is none. */
  csv?: string;
}

// biome-ignore lint/suspicious/noExplicitAny: a reply is read as what the test expects of it
export type Read = any;

export const line = (most: number): Rule => ({ most });
export const lines = (most: number): Rule => ({ most, lines: true });

const PLACE = { country: "GB", latitude: 51.5, longitude: -2.5, timeZone: "Europe/London" };

const registry = (customerId: string): RecordKind[] => [
  {
    ...{ name: "customer", to: "/api/v1/customers", list: "/api/v1/customers", csv: "customers" },
    texts: {
      ...{ name: line(120), phone: line(40), address: line(300) },
      note: { ...lines(4000), asTyped: true },
    },
    ...{
      rest: () => ({}),
      one: (id) => `/api/v1/customers/${id}`,
      page: (id) => `/customers/${id}`,
    },
  },
  {
    ...{ name: "site", to: "/api/v1/sites", list: "/api/v1/sites", csv: "sites" },
    texts: {
      ...{ addressLine: line(200), locality: line(80), postcode: line(16), region: line(40) },
      name: line(120),
    },
    rest: () => ({ customerId, supply: "TN-S", ...PLACE }),
    ...{ one: (id) => `/api/v1/sites/${id}`, page: (id) => `/sites/${id}` },
  },
];

const work = ({ jobId, siteId, planVersionId }: JobRows): RecordKind[] => [
  {
    ...{ name: "job", to: "/api/v1/jobs", list: "/api/v1/jobs", csv: "jobs" },
    ...{ texts: { title: line(160) }, rest: () => ({ siteId, planVersionId, kind: "install" }) },
    ...{ one: (id) => `/api/v1/jobs/${id}`, page: (id) => `/jobs/${id}` },
  },
  {
    ...{ name: "snag", to: `/api/v1/jobs/${jobId}/snags`, list: "/api/v1/snags", csv: "snags" },
    ...{ texts: { title: line(160), detail: lines(4000) }, rest: () => ({}) },
    ...{ one: (id) => `/api/v1/snags/${id}`, page: (id) => `/snags/${id}` },
  },
  {
    ...{ name: "nonconformance", to: "/api/v1/nonconformances", csv: "nonconformances" },
    ...{ list: "/api/v1/nonconformances", rest: () => ({ kind: "other" }) },
    texts: {
      ...{ title: line(200), cause: lines(4000), containment: lines(4000) },
      correction: lines(4000),
    },
    one: (id) => `/api/v1/nonconformances/${id}`,
    page: (id) => `/nonconformances/${id}`,
  },
  {
    ...{ name: "message", to: `/api/v1/jobs/${jobId}/messages`, rest: () => ({}) },
    ...{ list: `/api/v1/jobs/${jobId}/messages`, texts: { text: lines(2000) } },
    page: () => `/jobs/${jobId}`,
    sharesPage: true,
  },
];

const PERSON: RecordKind = {
  ...{ name: "person", to: "/api/v1/people", list: "/api/v1/people", csv: "people" },
  texts: { name: line(120) },
  rest: (count) => ({
    ...{ email: `naughty-${count}@alder.example`, password: "seven quiet lanterns drift" },
    roles: ["installer"],
  }),
  ...{ one: (id) => `/api/v1/people/${id}`, page: (id) => `/people/${id}` },
};

export async function recordKinds(service: TestService): Promise<RecordKind[]> {
  const rows = await addJobRows(service, SMALL_PLAN);
  const { customerId } = await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.site.findFirstOrThrow({ where: { id: rows.siteId } }),
  );
  return [...registry(customerId), ...work(rows), PERSON];
}
