// The page's icons, drawn once as SVG and rendered here in the sizes that home screens ask for.
import { readFile } from "node:fs/promises";
import sharp from "sharp";
import { hashOf } from "../../web/bundle-file.ts";

export interface Icon {
  path: string;
  bytes: Buffer;
  sizePx: number;
  /** maskable: may be cut to any shape by the home screen. */
  purpose: "any" | "maskable" | "apple";
}

const WANTED = [
  { drawing: "icon", sizePx: 192, purpose: "any" },
  { drawing: "icon", sizePx: 512, purpose: "any" },
  { drawing: "icon-maskable", sizePx: 192, purpose: "maskable" },
  { drawing: "icon-maskable", sizePx: 512, purpose: "maskable" },
  { drawing: "icon-maskable", sizePx: 180, purpose: "apple" },
] as const;

export const appIcons = (): Promise<Icon[]> =>
  Promise.all(
    WANTED.map(async ({ drawing, sizePx, purpose }) => {
      const file = new URL(`../../../templates/tablet/${drawing}.svg`, import.meta.url);
      const drawn = sharp(await readFile(file), { density: (72 * sizePx) / 64 });
      const bytes = await drawn.resize(sizePx, sizePx).png({ compressionLevel: 9 }).toBuffer();
      const mark = hashOf(bytes).slice(0, 8);
      return { path: `/tablet/assets/${drawing}-${sizePx}-${mark}.png`, bytes, sizePx, purpose };
    }),
  );
