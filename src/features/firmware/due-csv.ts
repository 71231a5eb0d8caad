import { forReading } from "../../db/scope.ts";
// The whole due list as CSV, a page of it in memory at a time.

import type { Database } from "../../db/client.ts";
import { CSV_MARK, csvLines } from "../../web/csv.ts";
import { type DueRequest, dueSites, type SiteDue } from "./due-list.ts";

const A_PAGE = 500;

const COLUMNS = [
  ...["site", "address", "locality", "region", "serial", "model", "from", "to", "severity"],
  ...["due_on", "days_left", "state", "held", "next_visit", "job"],
];

export async function* dueCsv(db: Database, asked: DueRequest): AsyncGenerator<string> {
  yield CSV_MARK + csvLines([COLUMNS]);
  for (let after: string | undefined; ; ) {
    const sites = await dueSites(forReading(db), asked, { after, most: A_PAGE });
    if (sites.length > 0) yield csvLines(sites.flatMap(rowsOf));
    after = sites.at(-1)?.id;
    if (sites.length < A_PAGE) return;
  }
}

function rowsOf(site: SiteDue): (string | number)[][] {
  const { reference, addressLine, locality, region, nextVisit } = site;
  return [...site.units, ...site.unclear].map((unit) => [
    ...[reference, addressLine, locality, region, unit.serial, unit.modelCode, unit.from ?? ""],
    ...[unit.to, unit.severity, unit.dueOn, unit.daysLeft, unit.state, unit.isHeld ? "yes" : ""],
    ...[nextVisit?.startsAt ?? "", nextVisit?.jobReference ?? ""],
  ]);
}
