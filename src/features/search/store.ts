import type { FirmTransaction } from "../../db/scope.ts";
import type { FoundKind } from "./schemas.ts";

export interface Hit {
  kind: FoundKind;
  id: string;
  score: number;
}

/** Where more is alike than this, what was typed says too little to put all of it in order. */
const ALIKE_MOST = 2000;
const OF_A_KIND_MOST = 10;
const EXACT = 10;
/** What a word that stands there whole adds to a score of at most 1. */
export const WORD_WHOLE = 0.2;

export interface WordQuestion {
  /** One to three words; the entry must have something like each. */
  needed: readonly string[];
  /** How alike a word of the entry must be to a word sought (pg_trgm's word similarity). */
  alike: number;
  /** All words, for the order of what is found. */
  words: readonly string[];
  kinds: readonly FoundKind[];
}

/** Entries with words like these, the most alike first. */
export async function seekWords(tx: FirmTransaction, question: WordQuestion): Promise<Hit[]> {
  const { needed, words, kinds, alike } = question;
  // The policy of the table reads what is sought from here: see the migration of the registry.
  await tx.$executeRaw`SELECT set_config('app.search', ${needed.join(" ")}, true),
    set_config('pg_trgm.word_similarity_threshold', ${String(alike)}, true)`;
  const hits = await tx.$queryRaw<Hit[]>`
    SELECT kind, id, score FROM (
      SELECT kind, id, score, row_number() OVER (PARTITION BY kind ORDER BY score DESC, id) AS place
      FROM (SELECT kind, subject_id AS id, words FROM search_entry
          WHERE kind = ANY(${[...kinds]}::text[]) LIMIT ${ALIKE_MOST}::int) found
        CROSS JOIN LATERAL (
          SELECT avg(word_similarity(word, found.words)) + ${WORD_WHOLE}::float * count(*)
            FILTER (WHERE strpos(' ' || found.words || ' ', ' ' || word || ' ') > 0) AS score
          FROM unnest(${[...words]}::text[]) word) judged) placed
    WHERE place <= ${OF_A_KIND_MOST}::int ORDER BY score DESC, id`;
  await tx.$executeRaw`SELECT set_config('app.search', '', true)`;
  return hits;
}

/** What has one of these spoken references, or this very code as its reference or serial number. */
export async function seekReferences(
  tx: FirmTransaction,
  references: readonly string[],
  code: string,
): Promise<Hit[]> {
  const names = [...new Set([...references, code])].filter(Boolean);
  return tx.$queryRaw<Hit[]>`
    SELECT kind, id, ${EXACT}::int AS score FROM (
      SELECT 'customer' AS kind, id FROM customer
        WHERE firm_id = ${tx.firmId}::uuid AND reference = ANY(${names}::text[])
      UNION ALL SELECT 'site', id FROM site
        WHERE firm_id = ${tx.firmId}::uuid AND reference = ANY(${names}::text[])
      UNION ALL SELECT 'job', id FROM job
        WHERE firm_id = ${tx.firmId}::uuid AND reference = ANY(${names}::text[])
      UNION ALL SELECT 'unit', id FROM unit
        WHERE firm_id = ${tx.firmId}::uuid AND serial = ${code}
      UNION ALL SELECT 'instrument', id FROM instrument WHERE firm_id = ${tx.firmId}::uuid
        AND ${code} <> '' AND ${code} IN (upper(reference), upper(replace(serial, ' ', '')))) exact
    ORDER BY id DESC LIMIT 50`;
}

/** Units whose serial number begins or ends so. */
export async function seekSerialParts(tx: FirmTransaction, part: string): Promise<Hit[]> {
  const reversed = [...part].reverse().join("");
  return tx.$queryRaw<Hit[]>`
    SELECT 'unit' AS kind, id, 2 AS score FROM (
      (SELECT id FROM unit WHERE firm_id = ${tx.firmId}::uuid
        AND serial ~>=~ ${part} AND serial ~<~ ${afterAll(part)} LIMIT ${OF_A_KIND_MOST}::int)
      UNION
      (SELECT id FROM unit WHERE firm_id = ${tx.firmId}::uuid AND serial_reversed ~>=~ ${reversed}
        AND serial_reversed ~<~ ${afterAll(reversed)} LIMIT ${OF_A_KIND_MOST}::int)) found
    ORDER BY id LIMIT ${OF_A_KIND_MOST}::int`;
}

/** Units with one of these serial numbers; put in order, all units of the firm would be read. */
export async function seekSerials(tx: FirmTransaction, serials: string[]): Promise<Hit[]> {
  return tx.$queryRaw<Hit[]>`
    SELECT 'unit' AS kind, u.id, 1.5 AS score FROM unnest(${serials}::text[]) one (serial)
      JOIN unit u ON u.firm_id = ${tx.firmId}::uuid AND u.serial = one.serial
    LIMIT ${OF_A_KIND_MOST}::int`;
}

/** The first text after all that begin so, in the order of their bytes. */
const afterAll = (start: string): string =>
  start.slice(0, -1) + String.fromCharCode(start.charCodeAt(start.length - 1) + 1);

/** Sites of these customers, for those who see sites alone. */
export async function sitesOfCustomers(tx: FirmTransaction, ids: string[]): Promise<string[]> {
  const rows = await tx.site.findMany({
    where: { firmId: tx.firmId, customerId: { in: ids }, archivedAt: null },
    select: { id: true },
    orderBy: { id: "asc" },
    take: OF_A_KIND_MOST,
  });
  return rows.map(({ id }) => id);
}
