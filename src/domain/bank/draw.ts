// The picture an installer holds next to the board: every pack of the bank, every switch, as it has
// to stand. Differences found on site are marked by a diamond and by their sentence.
import {
  BREACH,
  drawn,
  element,
  PAPER,
  shorten,
  svgDocument,
  textElement,
  textLines,
  wrapText,
} from "../siting/svg.ts";
import { BANK_CAUTION } from "./bank-settings.ts";
import type { Difference } from "./compare.ts";
import { drawSwitch, switchSize } from "./draw-switch.ts";
import type { PackSettings } from "./settings.ts";
import type { SwitchMap } from "./switch-map.ts";

const PAGE_WIDTH = 960;
const LEFT = 24;
const FIRST_SWITCH = 130;
const LINE = 20;

export interface SettingsDrawing {
  map: SwitchMap;
  packs: readonly PackSettings[];
  /** Address of each pack, in the same order; left out of the picture where not given. */
  addresses?: readonly number[];
  differences?: readonly Difference[];
  /** Keeps ids unique where a page shows several drawings. */
  idPrefix?: string;
}

/** SVG text, 960 units wide; labels are escaped, colours follow the page. */
export function drawSettings(drawing: SettingsDrawing): string {
  const { map, packs, differences = [] } = drawing;
  const title = `Switch settings: ${map.productModel}`;
  const style = { "font-size": 20, "font-weight": 700 };
  const parts = [textElement(LEFT, 34, shorten(title, 80), style)];
  let y = 54;
  packs.forEach((pack, at) => {
    const row = drawPack(drawing, pack, drawing.addresses?.[at], y);
    parts.push(row.svg);
    y = row.bottom;
  });
  for (const line of [...differences.map(({ sentence }) => sentence), BANK_CAUTION]) {
    const lines = wrapText(line, 112);
    parts.push(...textLines(LEFT, y + LINE, lines, LINE));
    y += lines.length * LINE;
  }
  const idPrefix = drawing.idPrefix ?? "bank";
  const description = describe(drawing);
  return svgDocument({ width: PAGE_WIDTH, height: y + 24, title, description, idPrefix }, ...parts);
}

function drawPack(
  { map, differences = [] }: SettingsDrawing,
  pack: PackSettings,
  address: number | undefined,
  top: number,
): { svg: string; bottom: number } {
  const parts = [
    element("path", {
      d: `M${LEFT} ${top}H${PAGE_WIDTH - LEFT}`,
      stroke: "currentColor",
      "stroke-opacity": 0.4,
    }),
    textElement(LEFT, top + 40, `Pack ${pack.position}`, { "font-size": 18, "font-weight": 700 }),
    address === undefined ? "" : textElement(LEFT, top + 62, `address ${address}`),
  ];
  let x = FIRST_SWITCH;
  let y = top + 10;
  let height = 0;
  for (const one of map.switches) {
    const setting = pack.settings.find((each) => each.switch === one.id);
    if (!setting) continue;
    const size = switchSize(one);
    if (x + size.width > PAGE_WIDTH - LEFT && x > FIRST_SWITCH) {
      x = FIRST_SWITCH;
      y += height;
    }
    parts.push(drawSwitch({ ...one, label: shorten(one.label, 18) }, setting.position, x, y));
    const differs = differences.some(
      (each) => each.position === pack.position && each.switch === one.id,
    );
    if (differs) parts.push(drawDifference(x + size.width - 14, y + 10));
    x += size.width + 12;
    height = Math.max(height, size.height);
  }
  return { svg: parts.join(""), bottom: y + height + 10 };
}

function drawDifference(x: number, y: number): string {
  const path = `M${drawn(x)} ${drawn(y - 14)}l14 14l-14 14l-14 -14z`;
  const text = { "text-anchor": "middle", "font-weight": 700, fill: BREACH };
  return (
    element("path", { d: path, fill: PAPER, stroke: BREACH, "stroke-width": 3 }) +
    textElement(x, y + 5, "!", text)
  );
}

function describe({ map, packs, differences = [] }: SettingsDrawing): string {
  const lines = packs.map((pack) => {
    const settings = pack.settings.map((setting) => {
      const label = map.switches.find(({ id }) => id === setting.switch)?.label ?? setting.switch;
      return `${label} ${setting.position}`;
    });
    return `Pack ${pack.position}: ${settings.join(", ")}.`;
  });
  return [...lines, ...differences.map(({ sentence }) => sentence)].join(" ");
}
