import type { FirmTransaction } from "../../db/scope.ts";
import type { FirmEdit } from "./schemas.ts";
import { readFirm } from "./store.ts";

export const USUAL_COLOUR = "#14524d";
const NOTHING = {
  ...{ address: "", phone: "", email: "", website: "", registrations: "" },
  ...{ colour: USUAL_COLOUR, mark: null },
};

/** The firm with what stands on its documents. */
export async function readFirmFacts(tx: FirmTransaction) {
  const firm = await readFirm(tx);
  const found = await tx.branding.findUnique({ where: { firmId: tx.firmId } });
  const { address, phone, email, website, registrations, colour, mark } = found ?? NOTHING;
  return {
    ...{ id: firm.id, name: firm.name, timeZone: firm.timeZone, version: firm.version },
    unitSystem: firm.unitSystem as "metric" | "us",
    language: firm.language as "en" | "es",
    base:
      firm.baseLatitude === null || firm.baseLongitude === null
        ? null
        : { latitude: firm.baseLatitude, longitude: firm.baseLongitude },
    ...{ address, phone, email, website, registrations, colour },
    hasMark: mark !== null,
  };
}

/** False when the firm has another version by now. */
export async function editFirmFacts(
  tx: FirmTransaction,
  version: number,
  { name, timeZone, unitSystem, language, base, ...branding }: FirmEdit,
): Promise<boolean> {
  const { firmId } = tx;
  const { count } = await tx.firm.updateMany({
    where: { id: firmId, version },
    data: {
      ...{ name, timeZone, unitSystem, language },
      ...(base === undefined
        ? {}
        : { baseLatitude: base?.latitude ?? null, baseLongitude: base?.longitude ?? null }),
      version: { increment: 1 },
    },
  });
  if (count === 0) return false;
  await tx.branding.upsert({
    where: { firmId },
    create: { firmId, ...branding },
    update: branding,
  });
  return true;
}

export async function writeMark(
  tx: FirmTransaction,
  mark: Uint8Array<ArrayBuffer> | null,
): Promise<void> {
  const { firmId } = tx;
  await tx.branding.upsert({ where: { firmId }, create: { firmId, mark }, update: { mark } });
  await tx.firm.updateMany({ where: { id: firmId }, data: { version: { increment: 1 } } });
}

export async function readMark(tx: FirmTransaction): Promise<Buffer | undefined> {
  const row = await tx.branding.findUnique({
    where: { firmId: tx.firmId },
    select: { mark: true },
  });
  return row?.mark ? Buffer.from(row.mark) : undefined;
}

export interface Branding {
  name: string;
  addressLines: string[];
  phone: string;
  email: string;
  website: string;
  registrations: string;
  colour: string;
  /** A PNG. */
  mark: Buffer | undefined;
}

/** What stands on the firm's documents. */
export async function readBranding(tx: FirmTransaction): Promise<Branding> {
  const { name, address, phone, email, website, registrations, colour } = await readFirmFacts(tx);
  const addressLines = address.split("\n").filter((line) => line.trim() !== "");
  const mark = await readMark(tx);
  return { name, addressLines, phone, email, website, registrations, colour, mark };
}

/** What stands at the foot of a letter, below the firm's name. */
export interface Letterhead {
  colour: string;
  lines: string[];
}

export async function readLetterhead(tx: FirmTransaction): Promise<Letterhead> {
  // The mark is large and stays where it is.
  const row = await tx.branding.findUnique({
    where: { firmId: tx.firmId },
    omit: { mark: true },
  });
  const { colour, address, phone, email, website, registrations } = row ?? NOTHING;
  const lines = [address, phone, email, website, registrations].join("\n").split("\n");
  return { colour, lines: lines.map((line) => line.trim()).filter(Boolean) };
}
