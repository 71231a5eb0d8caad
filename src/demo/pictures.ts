// Drawn stand-ins for the photographs that the plans ask for: no camera has seen what is invented.
import { createHash } from "node:crypto";
import sharp from "sharp";

export const PICTURES = ["lock", "labels", "front", "side", "place"] as const;
export type PictureName = (typeof PICTURES)[number];

export interface Picture {
  sha256: string;
  bytes: Buffer;
}

const WIDTH_PX = 800;
const HEIGHT_PX = 600;

/** A JPEG; the shade makes one crew's pictures differ from another's. */
export async function drawPicture(name: PictureName, shade: number): Promise<Picture> {
  const wall = `hsl(${28 + shade * 7}, 18%, ${74 - shade * 5}%)`;
  const floor = `hsl(${28 + shade * 7}, 12%, ${42 - shade * 3}%)`;
  const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH_PX}"
    height="${HEIGHT_PX}"><rect width="800" height="600" fill="${wall}"/>
    <rect y="500" width="800" height="100" fill="${floor}"/>${SCENES[name]}</svg>`;
  const bytes = await sharp(Buffer.from(drawing)).jpeg({ quality: 80 }).toBuffer();
  return { bytes, sha256: createHash("sha256").update(bytes).digest("hex") };
}

/** Which pictures belong to an item; the first ones are taken. */
export function picturesOf(itemId: string): readonly PictureName[] {
  if (itemId === "isolated") return ["lock"];
  if (itemId === "labels_photo") return ["labels"];
  return itemId.startsWith("finished") ? ["front", "side"] : ["place", "side"];
}

const box = (x: number, y: number, width: number, height: number, fill: string): string =>
  `<rect x="${x}" y="${y}" width="${width}" height="${height}" rx="8" fill="${fill}"/>`;

const SCENES: Readonly<Record<PictureName, string>> = {
  lock: `${box(300, 120, 200, 320, "#e9e6df")}${box(350, 180, 100, 120, "#b3261e")}
    <path d="M365 330 v-30 a35 35 0 0 1 70 0 v30" fill="none" stroke="#3b3b3b" stroke-width="16"/>
    ${box(345, 325, 110, 90, "#c8a13a")}${box(470, 330, 60, 110, "#f4d35e")}`,
  labels: `${box(180, 140, 180, 240, "#e9e6df")}${box(440, 140, 180, 240, "#e9e6df")}
    <path d="M270 190 l50 90 h-100 z" fill="#f4c20d" stroke="#222" stroke-width="6"/>
    <path d="M530 190 l50 90 h-100 z" fill="#f4c20d" stroke="#222" stroke-width="6"/>
    ${box(210, 305, 120, 40, "#ffffff")}${box(470, 305, 120, 40, "#ffffff")}`,
  front: `${box(120, 130, 170, 290, "#f3f3f0")}${box(330, 130, 170, 290, "#f3f3f0")}
    ${box(560, 180, 130, 200, "#5c6770")}${box(140, 385, 130, 10, "#3f9d62")}
    ${box(350, 385, 130, 10, "#3f9d62")}
    <path d="M290 440 h270 v-60" fill="none" stroke="#444" stroke-width="10"/>`,
  side: `${box(90, 100, 70, 350, "#f3f3f0")}${box(160, 120, 16, 310, "#777")}
    <path d="M176 460 h560" stroke="#444" stroke-width="10"/>${box(600, 150, 110, 250, "#5c6770")}`,
  place: `${box(60, 170, 120, 330, "#8a6f52")}<circle cx="160" cy="340" r="8" fill="#ddd"/>
    ${box(520, 90, 180, 130, "#bcd3e0")}<path d="M260 130 h200 v280 h-200 z" fill="none"
    stroke="#1d4e89" stroke-width="6" stroke-dasharray="18 12"/>`,
};
