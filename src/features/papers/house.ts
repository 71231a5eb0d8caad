// How a firm's papers look: its mark and colour, how it is reached, its language, units and sheet.
import sharp from "sharp";
import type { FirmTransaction } from "../../db/scope.ts";
import { isLanguage, type Language } from "../../language/languages.ts";
import { readBranding } from "../firms/branding-store.ts";
import { readFirm } from "../firms/store.ts";
import { OPENING } from "../photos/picture.ts";
import type { PaperSize } from "./block.ts";
import type { PaperSource } from "./record.ts";

/** How a paper is wanted; what is left out is the firm's own. */
export interface PaperWish {
  language?: Language | undefined;
  size?: PaperSize | undefined;
}

export type House = Pick<PaperSource, "language" | "unitSystem" | "size" | "branding">;

/** US customary units go with Letter, metric ones with A4 (ISO 216). */
export async function readHouse(tx: FirmTransaction, wish: PaperWish = {}): Promise<House> {
  const firm = await readFirm(tx);
  const unitSystem = firm.unitSystem === "us" ? "us" : "metric";
  const { mark, colour, addressLines, ...brand } = await readBranding(tx);
  const { phone, email, website, registrations } = brand;
  return {
    language: wish.language ?? (isLanguage(firm.language) ? firm.language : "en"),
    unitSystem,
    size: wish.size ?? (unitSystem === "us" ? "letter" : "a4"),
    branding: {
      ...{ colour, phone, mark: mark && (await opaque(mark)) },
      lines: [...addressLines, phone, email, website, registrations].filter(Boolean),
    },
  };
}

const MARK_BOX = { width: 600, height: 180 } as const;

/** On white: what shines through is no part of an archive's page. */
async function opaque(mark: Buffer) {
  const { data, info } = await sharp(mark, OPENING)
    .resize({ ...MARK_BOX, fit: "inside", withoutEnlargement: true })
    .flatten({ background: "#ffffff" })
    .toColourspace("srgb")
    .jpeg({ quality: 92, chromaSubsampling: "4:4:4" })
    .toBuffer({ resolveWithObject: true });
  return { jpeg: new Uint8Array(data), widthPx: info.width, heightPx: info.height };
}
