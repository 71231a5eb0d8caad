import { createReadStream } from "node:fs";
import { parseArgs } from "node:util";
import { findPersonByEmail } from "../features/session/store.ts";
import type { OutboxSummary } from "../features/tablet/outbox-schemas.ts";
import { receiveOutbox } from "../features/tablet/receive-outbox.ts";
import { withDatabase } from "./database.ts";

/** Brings in an outbox file that a tablet saved; what did not go in makes it fail. */
export async function importOutbox(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    options: { as: { type: "string" } },
    allowPositionals: true,
  });
  const [verb, file] = positionals;
  if (verb !== "import" || file === undefined || values.as === undefined) {
    throw new Error("Say: tablet import FILE --as ADDRESS, the address of who brings it in.");
  }
  const address = values.as;
  await withDatabase(async (db, config) => {
    const person = await findPersonByEmail(db, address);
    if (!person?.active) throw new Error(`Nobody who may sign in has the address ${address}.`);
    const receiver = {
      db,
      firmId: person.firmId,
      personId: person.id,
      home: config,
      now: () => new Date(),
      onFault: (error: unknown, opId: string) => console.error(`${opId}:`, error),
    };
    tell(await receiveOutbox(receiver, createReadStream(file)));
  });
}

function tell({ ops, photos, unreadable, notes }: OutboxSummary): void {
  const counted = (counts: object): string =>
    Object.entries(counts)
      .map(([what, count]) => `${count} ${what}`)
      .join(", ");
  console.log(`Operations: ${counted(ops)}`);
  console.log(`Photos: ${counted(photos)}`);
  for (const { line, sentence } of notes) console.log(`line ${line}: ${sentence}`);
  const left = unreadable + ops.early + ops.refused + photos.refused;
  if (left > 0) throw new Error(`Not everything went in: ${left} of the lines above.`);
}
