import { z } from "zod";
import { DELIMITERS } from "../../domain/tables/delimiter.ts";
import { ENCODINGS } from "../../domain/tables/encoding.ts";
import { shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const IMPORT_KINDS = [
  "customers",
  "sites",
  "units",
  "instruments",
  "firmware-levels",
] as const;
export type ImportKindName = (typeof IMPORT_KINDS)[number];

export const IMPORT_STATES = [
  "waiting",
  "uploaded",
  "checking",
  "checked",
  "importing",
  "imported",
  "failed",
  "cancelled",
] as const;
export type ImportState = (typeof IMPORT_STATES)[number];

export const FILE_BYTES_MOST = 64 * 1024 * 1024;
export const ROWS_MOST = 500_000;
export const COLUMNS_MOST = 100;
export const HEADER_MOST = 200;
/** What a row of so many cells may hold in all, and what is read of a file at a time. */
export const RECORD_BYTES_MOST = 256 * 1024;

export const NewImport = z.strictObject({
  kind: z.enum(IMPORT_KINDS).describe("what the rows are"),
  fileName: shortText(200).meta({ examples: ["customers-2026.csv"] }),
});

const field = z.string().min(1).max(40);

export const DryRun = z.strictObject({
  columns: z
    .array(field.nullable())
    .max(COLUMNS_MOST)
    .optional()
    .describe("field of each column, null for a column that is left out; as suggested if absent")
    .meta({ examples: [["reference", "name", null, "email"]] }),
  constants: z
    .record(field, z.string().max(300))
    .default({})
    .describe("what every row has of a field that no column holds")
    .meta({ examples: [{ country: "GB" }] }),
  delimiter: z.enum(DELIMITERS).optional().describe("as detected if absent"),
  encoding: z.enum(ENCODINGS).optional().describe("as detected if absent"),
});

export const Confirmation = z.strictObject({
  badRows: z
    .enum(["refuse", "leave"])
    .describe(
      "refuse: nothing is imported while a row is bad; leave: the good rows are, all of them or " +
        "none, and the bad ones stay in the rejects file",
    )
    .meta({ examples: ["leave"] }),
});

const moment = () => z.iso.datetime({ offset: true });

const Figures = z.object({
  rows: z.number().int().optional(),
  new: z.number().int().optional(),
  changed: z.number().int().optional(),
  unchanged: z.number().int().optional(),
  bad: z.number().int().optional(),
  flagged: z
    .number()
    .int()
    .optional()
    .describe("firmware levels kept with a flag: backwards, or not orderable"),
});
export type Figures = z.infer<typeof Figures>;

export const Import = z
  .object({
    id: z.guid(),
    kind: z.enum(IMPORT_KINDS),
    fileName: z.string(),
    state: z.enum(IMPORT_STATES),
    bytes: z.number().int().nullable(),
    sha256: z.string().nullable().describe("of the file as it came"),
    encoding: z.string().nullable(),
    delimiter: z.string().nullable(),
    headers: z.array(z.string()).describe("the names in the file's first row"),
    samples: z.array(z.array(z.string())).describe("the first rows under them"),
    columns: z.array(z.string().nullable()).describe("field of each column"),
    constants: z.record(z.string(), z.string()),
    badRows: z.enum(["refuse", "leave"]).nullable(),
    figures: Figures.describe("by the dry run, or by the import once it is done"),
    progress: z.object({
      done: z.number().int(),
      total: z.number().int().describe("bytes while checking, rows while importing"),
    }),
    problem: z.string().nullable().describe("why it stands where it stands"),
    personId: z.guid(),
    personName: z.string(),
    createdAt: moment(),
    checkedAt: moment().nullable(),
    finishedAt: moment().nullable(),
    version: z.number().int(),
  })
  .meta({ id: "Import" });

export const ImportPage = pageOf(Import);
export const ImportQuery = z.strictObject({
  ...PAGE_QUERY,
  kind: z.enum(IMPORT_KINDS).optional(),
  state: z.enum(IMPORT_STATES).optional(),
});

export const BadRow = z
  .object({
    line: z.number().int().describe("of the file, on which the record begins; the header is on 1"),
    reason: z.string(),
    cells: z.array(z.string()),
  })
  .meta({ id: "BadRow" });
export const BadRowPage = pageOf(BadRow);
export const BadRowQuery = z.strictObject(PAGE_QUERY);

export const ImportFields = z
  .object({
    kind: z.enum(IMPORT_KINDS),
    fields: z.array(
      z.object({
        name: z.string(),
        cell: z.enum(["text", "number", "moment", "yes-no"]),
        words: z.array(z.string()).describe("names of columns that are taken for it"),
        requirement: z
          .enum(["key", "new", "optional"])
          .describe("key: in every row; new: in rows of things that are not there yet"),
      }),
    ),
  })
  .meta({ id: "ImportFields" });
