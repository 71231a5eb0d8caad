import type { FirmTransaction } from "../../db/scope.ts";

export interface MailSettings {
  senderName: string | null;
  replyTo: string | null;
  confirmation: boolean;
  change: boolean;
  cancellation: boolean;
  reminder: boolean;
  reminderHour: number;
  holdBackMinutes: number;
  quietFrom: string | null;
  quietTo: string | null;
  version: number;
}

/** What holds until a firm changes it; the database has the same defaults. */
const DEFAULTS: MailSettings = {
  senderName: null,
  replyTo: null,
  confirmation: true,
  change: true,
  cancellation: true,
  reminder: true,
  reminderHour: 10,
  holdBackMinutes: 5,
  quietFrom: null,
  quietTo: null,
  version: 1,
};

export async function readMailSettings(tx: FirmTransaction): Promise<MailSettings> {
  const { firmId } = tx;
  const row = await tx.mailSettings.findUnique({ where: { firmId }, omit: { firmId: true } });
  return row ?? DEFAULTS;
}

/** Undefined when they have another version by now. */
export async function editMailSettings(
  tx: FirmTransaction,
  version: number,
  change: Partial<Omit<MailSettings, "version">>,
): Promise<MailSettings | undefined> {
  const { firmId } = tx;
  await tx.mailSettings.createMany({ data: [{ firmId }], skipDuplicates: true });
  const [row] = await tx.mailSettings.updateManyAndReturn({
    where: { firmId, version },
    data: { ...change, version: { increment: 1 } },
    omit: { firmId: true },
  });
  return row;
}
