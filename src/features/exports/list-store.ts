// Lists read straight off their tables, a page at a time in the order of ids: flat, with references
// and names where the interface has ids.
import type { FirmTransaction } from "../../db/scope.ts";
import type { CsvCell } from "../../web/csv.ts";

export interface SqlList {
  /** Expression by column; all of them text, number or truth. */
  columns: Readonly<Record<string, string>>;
  from: string;
  /** The table's alias: its firm_id and its key bound the list and order it. */
  alias: string;
  /** What a row is known and ordered by, where that is not its id. */
  key?: { column: string; type: "uuid" | "int" };
  /** Condition by filter; `?` stands for the filter's value. */
  conditions: Readonly<Record<string, string>>;
}

export interface SqlPage {
  filter: Readonly<Record<string, unknown>>;
  after?: string | undefined;
  /** These rows alone. */
  ids?: readonly string[] | undefined;
  most: number;
}

export async function readSqlPage(
  tx: FirmTransaction,
  list: SqlList,
  { filter, after, ids, most }: SqlPage,
): Promise<{ id: string; cells: CsvCell[] }[]> {
  const { alias, key = { column: "id", type: "uuid" } } = list;
  const values: unknown[] = [tx.firmId];
  const place = (value: unknown): string => `$${values.push(value)}`;
  const where = [`${alias}.firm_id = $1::uuid`];
  if (after !== undefined) where.push(`${alias}.${key.column} > ${place(after)}::${key.type}`);
  if (ids !== undefined) where.push(`${alias}.id = ANY (${place(ids)}::uuid[])`);
  for (const [name, value] of Object.entries(filter)) {
    const condition = value === undefined ? undefined : list.conditions[name];
    if (condition !== undefined) where.push(condition.replaceAll("?", place(value)));
  }
  const names = Object.keys(list.columns);
  const select = names.map((name, index) => `${list.columns[name]} AS c${index}`).join(", ");
  const rows = await tx.$queryRawUnsafe<Record<string, CsvCell>[]>(
    `SELECT ${alias}.${key.column} AS id, ${select} FROM ${list.from} WHERE ${where.join(" AND ")}
     ORDER BY ${alias}.${key.column} LIMIT ${place(most)}::int`,
    ...values,
  );
  return rows.map((row) => ({
    id: String(row.id),
    cells: names.map((_name, index) => row[`c${index}`]),
  }));
}

export const moment = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;
export const holds = (expression: string): string =>
  `strpos(lower(${expression}), lower(?::text)) > 0`;
export const equals = (expression: string, type: string): string => `${expression} = ?::${type}`;
export const isArchived = (alias: string): string =>
  `(${alias}.archived_at IS NOT NULL) = ?::boolean`;

export const CUSTOMERS: SqlList = {
  alias: "c",
  from: "customer c",
  columns: {
    ...{ reference: "c.reference", name: "c.name", email: "c.email", phone: "c.phone" },
    ...{ address: "c.address", note: "c.note", language: "c.language" },
    ...{ archivedAt: moment("c.archived_at"), createdAt: moment("c.created_at") },
  },
  conditions: { name: holds("c.name"), archived: isArchived("c") },
};

export const SITES: SqlList = {
  alias: "s",
  from: "site s JOIN customer c ON c.firm_id = s.firm_id AND c.id = s.customer_id",
  columns: {
    ...{ reference: "s.reference", customer: "c.reference", customerName: "c.name" },
    ...{ name: "s.name", addressLine: "s.address_line", locality: "s.locality" },
    ...{ postcode: "s.postcode", country: "s.country", latitude: "s.latitude" },
    ...{ longitude: "s.longitude", timeZone: "s.time_zone", supply: "s.supply" },
    ...{ region: "s.region", archivedAt: moment("s.archived_at") },
  },
  conditions: {
    customerId: equals("s.customer_id", "uuid"),
    locality: holds("s.locality"),
    postcode: "strpos(lower(s.postcode), lower(?::text)) = 1",
    region: equals("s.region", "text"),
    archived: isArchived("s"),
    place: `strpos(fold_text(concat_ws(' ', s.name, s.address_line, s.locality, s.postcode)),
      fold_text(?::text)) > 0`,
  },
};

export const UNITS: SqlList = {
  alias: "u",
  from: `unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    LEFT JOIN site s ON s.firm_id = u.firm_id AND s.id = u.site_id
    LEFT JOIN bank b ON b.firm_id = u.firm_id AND b.id = u.bank_id`,
  columns: {
    ...{ model: "m.code", serial: "u.serial", kind: "m.kind", state: "u.state" },
    ...{ hardwareRevision: "u.hardware_revision", site: "s.reference", locality: "s.locality" },
    ...{ bank: "b.name", bankPosition: "u.bank_position", firmwareLevel: "u.firmware_level" },
    ...{ firmwareReadAt: moment("u.firmware_read_at"), stockPlace: "u.stock_place" },
    ...{ quarantinedAt: moment("u.quarantined_at"), note: "u.note" },
  },
  conditions: {
    serial: "strpos(u.serial, ?::text) > 0",
    modelId: equals("u.model_id", "uuid"),
    siteId: equals("u.site_id", "uuid"),
    state: equals("u.state", "text"),
    firmwareLevel: equals("u.firmware_level", "text"),
  },
};

const OPEN_SNAGS = `(SELECT count(*)::int FROM snag n WHERE n.firm_id = j.firm_id
  AND n.job_id = j.id AND n.state = 'open')`;

export const JOBS: SqlList = {
  alias: "j",
  from: `job j JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    JOIN customer c ON c.firm_id = s.firm_id AND c.id = s.customer_id
    JOIN plan_version v ON v.firm_id = j.firm_id AND v.id = j.plan_version_id
    JOIN plan p ON p.firm_id = v.firm_id AND p.id = v.plan_id`,
  columns: {
    ...{ reference: "j.reference", kind: "j.kind", title: "j.title", state: "j.state" },
    ...{ customer: "c.reference", customerName: "c.name", site: "s.reference" },
    ...{ addressLine: "s.address_line", locality: "s.locality", plan: "p.code" },
    ...{ planVersion: "v.number", openSnags: OPEN_SNAGS, createdAt: moment("j.created_at") },
  },
  conditions: {
    state: equals("j.state", "text"),
    kind: equals("j.kind", "text"),
    siteId: equals("j.site_id", "uuid"),
    customerId: equals("s.customer_id", "uuid"),
    reference: "j.reference = upper(?::text)",
    title: holds("j.title"),
    crewId: `EXISTS (SELECT FROM visit w WHERE w.firm_id = j.firm_id AND w.job_id = j.id
      AND w.state = 'booked' AND w.crew_id = ?::uuid)`,
    q: holds(`concat_ws(' ', j.reference, j.title, c.name, s.reference, s.address_line,
      s.locality, s.postcode)`),
  },
};

export const JOB_SOURCE = `JOIN job j ON j.firm_id = n.firm_id AND j.id = n.job_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id`;

export const SNAGS: SqlList = {
  alias: "n",
  from: `snag n ${JOB_SOURCE}
    JOIN person r ON r.firm_id = n.firm_id AND r.id = n.raised_by_id
    LEFT JOIN person m ON m.firm_id = n.firm_id AND m.id = n.mended_by_id
    LEFT JOIN job f ON f.firm_id = n.firm_id AND f.id = n.follow_up_job_id`,
  columns: {
    ...{ job: "j.reference", site: "s.reference", title: "n.title", detail: "n.detail" },
    ...{ state: "n.state", raisedAt: moment("n.raised_at"), raisedBy: "r.name" },
    ...{ mendedAt: moment("n.mended_at"), mendedBy: "m.name", mendedNote: "n.mended_note" },
    ...{ followUpJob: "f.reference" },
  },
  conditions: {
    state: equals("n.state", "text"),
    jobId: equals("n.job_id", "uuid"),
    siteId: equals("j.site_id", "uuid"),
    title: holds("n.title"),
  },
};

export const PEOPLE: SqlList = {
  alias: "p",
  from: "person p",
  columns: {
    ...{ name: "p.name", email: "p.email", roles: "array_to_string(p.roles, ' ')" },
    ...{ active: "p.active", createdAt: moment("p.created_at") },
  },
  conditions: {
    name: holds("p.name"),
    role: "?::text = ANY (p.roles)",
    active: equals("p.active", "boolean"),
  },
};

export const NOTICES: SqlList = {
  alias: "n",
  from: `notice n JOIN person p ON p.firm_id = n.firm_id AND p.id = n.person_id
    LEFT JOIN mail m ON m.firm_id = n.firm_id AND m.id = n.mail_id`,
  columns: {
    ...{ day: "n.day::text", kind: "n.kind", person: "p.name", email: "p.email" },
    ...{ subject: "n.subject", mailState: "m.state", seenAt: moment("n.seen_at") },
    ...{ contentSha256: "n.content_sha256" },
  },
  conditions: {
    day: equals("n.day", "date"),
    kind: equals("n.kind", "text"),
    personId: equals("n.person_id", "uuid"),
  },
};
