// The records whose free texts are tried, over the routes that take and show them.
import type { JobRows } from "../../support/rows.ts";
import type { Rule } from "./list.ts";

export interface RecordKind {
  name: string;
  /** Where it is posted. */
  to: string;
  list: string;
  texts: Record<string, Rule>;
  /** What else a new one needs. */
  rest: (count: number) => object;
  /** Its own address in the interface, unless it has none. */
  one?: (id: string) => string;
  page: (id: string) => string;
  /** Whether one page shows many of them. */
  sharesPage?: boolean;
  /** Its list as CSV, unless there is none. */
  csv?: string;
}

const line = (most: number): Rule => ({ most });
const lines = (most: number): Rule => ({ most, lines: true });

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

export const recordKinds = (rows: JobRows, customerId: string): RecordKind[] => [
  ...registry(customerId),
  ...work(rows),
  PERSON,
];
