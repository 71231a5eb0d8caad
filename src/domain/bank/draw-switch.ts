// One switch as it looks on the board: which way the arrow points, where each lever stands. A
// position is told by place and by word; nothing depends on colour.
import { type Attributes, drawn, element, INK, PAPER, textElement } from "../siting/svg.ts";
import type { Switch } from "./switch-map.ts";

const thin: Attributes = { stroke: INK, "stroke-width": 1.2 };
const heavy: Attributes = { stroke: INK, "stroke-width": 2 };
const centred: Attributes = { "text-anchor": "middle" };
const RADIUS = 34;
const LEVER_WIDTH = 30;
const SLOT_HEIGHT = 44;

/** Room a switch takes on the page, label included. */
export function switchSize(one: Switch): { width: number; height: number } {
  if (one.kind === "rotary") return { width: 2 * (RADIUS + 34), height: 2 * (RADIUS + 22) + 40 };
  const levers = one.kind === "dip" ? one.levers : 1;
  return { width: Math.max(130, levers * LEVER_WIDTH + 44), height: 2 * (RADIUS + 22) + 40 };
}

/** The switch at a position, its upper left corner at (x, y). */
export function drawSwitch(one: Switch, position: string, x: number, y: number): string {
  const { width } = switchSize(one);
  const centre = x + width / 2;
  const label = textElement(centre, y + 14, one.label, { ...centred, "font-size": 13 });
  const body =
    one.kind === "rotary"
      ? drawRotary(one.positions, position, centre, y + 30 + RADIUS + 16)
      : drawLevers(one, position, x, y + 34);
  return element("g", { class: `bank-${one.kind}` }, label, body);
}

function drawRotary(
  positions: readonly string[],
  position: string,
  cx: number,
  cy: number,
): string {
  const at = positions.indexOf(position);
  const around = (index: number, radius: number) => {
    const angle = (2 * Math.PI * index) / positions.length - Math.PI / 2;
    return { x: drawn(cx + radius * Math.cos(angle)), y: drawn(cy + radius * Math.sin(angle)) };
  };
  const marks = positions.map((text, index) => {
    const place = around(index, RADIUS + 13);
    const chosen = index === at;
    const ring = chosen ? element("circle", { cx: place.x, cy: place.y, r: 10, ...heavy }) : "";
    const style = { ...centred, "font-size": 12, "font-weight": chosen ? 700 : 400 };
    return ring + textElement(place.x, place.y + 4.5, text, style);
  });
  const tip = around(at, RADIUS - 4);
  const left = around(at + positions.length / 4, 8);
  const right = around(at - positions.length / 4, 8);
  const arrow = `M${tip.x} ${tip.y}L${left.x} ${left.y}L${right.x} ${right.y}z`;
  return (
    element("circle", { cx, cy, r: RADIUS, fill: PAPER, ...heavy }) +
    marks.join("") +
    (at < 0 ? "" : element("path", { d: arrow, fill: INK })) +
    element("circle", { cx, cy, r: 3, fill: PAPER, ...thin })
  );
}

function drawLevers(
  one: Extract<Switch, { kind: "dip" | "termination" }>,
  position: string,
  x: number,
  y: number,
): string {
  const digits = one.kind === "dip" ? [...position] : [position === "on" ? "1" : "0"];
  const width = digits.length * LEVER_WIDTH + 8;
  const left = x + (switchSize(one).width - width - 28) / 2 + 28;
  const onY = one.onIs === "up" ? y + 22 : y + SLOT_HEIGHT + 10;
  const onSign = one.onIs === "up" ? "↑" : "↓";
  return (
    element("rect", { x: left, y, width, height: SLOT_HEIGHT + 24, rx: 3, fill: PAPER, ...heavy }) +
    textElement(left - 6, onY, `ON ${onSign}`, { "text-anchor": "end", "font-size": 11 }) +
    digits.map((digit, at) => drawLever(one.onIs, digit === "1", at, left, y)).join("")
  );
}

function drawLever(onIs: "up" | "down", on: boolean, at: number, left: number, y: number): string {
  const x = left + 4 + at * LEVER_WIDTH + 6;
  const slot = { x, y: y + 12, width: LEVER_WIDTH - 12, height: SLOT_HEIGHT };
  const up = (onIs === "up") === on;
  const half = SLOT_HEIGHT / 2;
  const slider = { ...slot, y: up ? slot.y : slot.y + half, height: half };
  const middle = x + slot.width / 2;
  const below = y + SLOT_HEIGHT + 24;
  const word = on ? "on" : "off";
  return (
    element("rect", { ...slot, ...thin }) +
    element("rect", { ...slider, fill: INK }) +
    textElement(middle, below + 14, String(at + 1), { ...centred, "font-size": 12 }) +
    textElement(middle, below + 30, word, {
      ...centred,
      "font-size": 12,
      "font-weight": on ? 700 : 400,
    })
  );
}
