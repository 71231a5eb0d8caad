// A backup is a tar file (POSIX.1, pax), so that it can be read without this program:
//   backup.json                   what it is of: migrations, tables with their columns
//   folder/…                      files of the data folder, photos and documents among them
//   database/TABLE/000001.copy.gz rows in PostgreSQL's text format, by gzip; the numbers' order
//   sums/000001.txt               SHA-256 of what came before, as sha256sum checks it
//   end.json                      counts, and the hash over all sums: without it, it was cut off
import { z } from "zod";

export const FORMAT = "holdpoint-backup/1";
export const HEAD = "backup.json";
export const END = "end.json";
export const FOLDER = "folder/";
export const DATABASE = "database/";
export const SUMS = "sums/";

const Table = z.object({
  name: z.string(),
  columns: z.array(z.string()),
  firmColumn: z.string().nullable(),
  key: z.array(z.string()),
});

export const Head = z.object({
  format: z.literal(FORMAT),
  madeAt: z.iso.datetime(),
  version: z.string(),
  serverVersion: z.string(),
  migrations: z.array(z.object({ name: z.string(), checksum: z.string() })),
  tables: z.array(Table),
});
export type Head = z.infer<typeof Head>;

export const End = z.object({
  entries: z.number().int(),
  bytes: z.number().int(),
  rows: z.record(z.string(), z.number().int()),
  files: z.number().int(),
  missing: z.array(z.string()),
  sums: z.string(),
});
export type End = z.infer<typeof End>;

/** What an entry may be called: no path leads out of the folder. */
export const isEntryName = (name: string): boolean =>
  /^[A-Za-z0-9._/-]+$/.test(name) && !name.split("/").some((part) => /^\.{0,2}$/.test(part));

export const sumLine = (sha256: string, name: string): string => `${sha256}  ${name}\n`;

/** So many lines at once are kept in memory, in making as in checking. */
export const SUMS_A_FILE = 4096;
export const HEAD_BYTES_MOST = 4 * 1024 * 1024;
