import { auditSample } from "./audit-list.ts";
import * as firm from "./firm-lists.ts";
import { fleetLevels } from "./fleet-list.ts";
import * as held from "./held-lists.ts";
import { keptAuditSample } from "./kept-sample-list.ts";
import * as kit from "./kit-lists.ts";
import type { ExportList } from "./list.ts";
import { customers, notices, people, sites, snags, units } from "./lists.ts";
import { auditLooks } from "./look-list.ts";
import * as proof from "./proof-lists.ts";
import * as record from "./record-lists.ts";
import * as rules from "./rule-lists.ts";
import { instruments, jobs, visits } from "./ruled-lists.ts";
import { warrantyDays } from "./warranty-day-list.ts";
import { warranty } from "./warranty-list.ts";
import * as claimed from "./warranty-lists.ts";
import * as ways from "./way-lists.ts";

/** All of them, however different their filters are. */
type AnyList = ExportList<object>;
const any = <Filter extends object>(list: ExportList<Filter>): AnyList =>
  list as unknown as AnyList;
const all = (lists: Readonly<Record<string, unknown>>): AnyList[] =>
  Object.values(lists) as AnyList[];

export const EXPORT_LISTS: readonly AnyList[] = [
  ...[any(customers), any(sites), any(units), any(instruments), any(people), any(jobs)],
  ...[any(visits), any(snags), any(notices), any(warranty), any(fleetLevels), any(warrantyDays)],
  ...all(record),
  ...all(firm),
  ...all(kit),
  ...all(rules),
  ...all(claimed),
  ...all(proof),
  ...all(ways),
  ...all(held),
  ...[any(auditSample), any(keptAuditSample), any(auditLooks)],
];
/** The due list beside them is written by the firmware's own hand. */
export const EXPORT_NAMES: readonly string[] = [...EXPORT_LISTS.map(({ name }) => name), "due"];
