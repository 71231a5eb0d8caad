import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { CsvCell } from "../../web/csv.ts";
import { StandingFields, type UnitWarranty } from "../warranty/schemas.ts";
import { standings } from "../warranty/standings.ts";
import { A_PAGE, type ExportList } from "./list.ts";
import { SORTED } from "./lists.ts";

const Query = StandingFields.extend(SORTED);

/** Cell by column; what stands several times in one cell is parted by spaces. */
const COLUMNS: Readonly<Record<string, (row: UnitWarranty) => CsvCell>> = {
  serial: (row) => row.serial,
  model: (row) => row.modelCode,
  site: (row) => row.siteReference,
  state: (row) => row.state,
  reasons: (row) => row.reasons.join(" "),
  gaps: (row) => row.gaps.join(" "),
  termsVersion: (row) => row.terms?.number,
  commissionedOn: (row) => row.commissionedOn,
  endsOn: (row) => row.endsOn,
  registerBy: (row) => row.registerBy,
  registeredOn: (row) => row.registration?.registeredOn,
  reference: (row) => row.registration?.reference,
  firmwareBy: (row) => row.firmwareBy,
  throughputKwh: (row) => row.throughput?.usedKwh,
  throughputReadOn: (row) => row.throughput?.readOn,
  limitOn: (row) => row.throughput?.limitOn,
};

export const warranty: ExportList<z.output<typeof Query>> = {
  ...{ name: "warranty", operationId: "exportWarranties" },
  summary: "Take away how the warranty of each installed unit stands",
  query: Query,
  columns: Object.keys(COLUMNS),
  async *pages({ db, firmId, now }, { sort: _sort, ...filter }) {
    for (let after: string | undefined; ; ) {
      const page = { ...filter, after, most: A_PAGE };
      const rows = await inFirm(db, firmId, (tx) => standings(tx, page, now));
      if (rows.length > 0) {
        yield rows.map((row) => Object.values(COLUMNS).map((cell) => cell(row)));
      }
      after = rows.at(-1)?.unitId;
      if (rows.length < A_PAGE) return;
    }
  },
};
