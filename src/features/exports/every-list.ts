import { auditSample } from "./audit-list.ts";
import {
  absences,
  consumables,
  crews,
  plans,
  productModels,
  qualifications,
  recurringInspections,
  updateRounds,
} from "./firm-lists.ts";
import { keptAuditSample } from "./kept-sample-list.ts";
import type { ExportList } from "./list.ts";
import { customers, notices, people, sites, snags, units } from "./lists.ts";
import { auditLooks } from "./look-list.ts";
import { concessions, mails, nonconformances, releases, stock } from "./record-lists.ts";
import { instruments, jobs, visits } from "./ruled-lists.ts";
import { warranty } from "./warranty-list.ts";

/** All of them, however different their filters are. */
type AnyList = ExportList<object>;
const any = <Filter extends object>(list: ExportList<Filter>): AnyList =>
  list as unknown as AnyList;

export const EXPORT_LISTS: readonly AnyList[] = [
  ...[any(customers), any(sites), any(units), any(instruments), any(people), any(jobs)],
  ...[any(visits), any(snags), any(concessions), any(notices)],
  ...[any(nonconformances), any(stock), any(mails), any(releases)],
  ...[any(productModels), any(plans), any(crews), any(consumables)],
  ...[any(qualifications), any(absences), any(recurringInspections), any(warranty)],
  any(updateRounds),
  any(auditSample),
  any(keptAuditSample),
  any(auditLooks),
];
/** The due list beside them is written by the firmware's own hand. */
export const EXPORT_NAMES: readonly string[] = [...EXPORT_LISTS.map(({ name }) => name), "due"];
