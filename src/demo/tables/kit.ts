// What the invented makers put into their boxes and what they do not, and what lies in the depot.
import type { ModelKitLine } from "../../domain/kit/line.ts";
import type { NewConsumable } from "../../features/stock/consumable-schemas.ts";

const QUILLMERE = "Quillmere installation sheet, edition 4";
const THISTLEFOLD = "Thistlefold stacking guide, edition 2";
const ODDMILL = "Oddmill mounting sheet, edition 7";

export const WALL_KIT: readonly ModelKitLine[] = [
  {
    ...{ id: "anchor", category: "anchor", name: "Through-bolt M10 × 90, zinc plated" },
    ...{ amount: 4, countedIn: "piece", stockCode: "BOLT-M10-90", supplied: false },
    note: "For solid brick and concrete. Another wall needs another anchor, with its own assessment.",
    source: QUILLMERE,
  },
  {
    ...{ id: "bracket", category: "consumable", name: "Wall bracket with locking screws" },
    ...{ amount: 1, countedIn: "set", supplied: true, source: QUILLMERE },
  },
  {
    ...{ id: "link", category: "cable", name: "Data link cable, 0.6 m" },
    ...{ amount: 1, countedIn: "piece", supplied: true, source: QUILLMERE },
  },
  {
    ...{ id: "lug", category: "consumable", name: "Cable lugs 35 mm², M8" },
    ...{ amount: 4, countedIn: "piece", stockCode: "LUG-35-8", supplied: false },
    source: QUILLMERE,
  },
];

export const STACK_KIT: readonly ModelKitLine[] = [
  {
    ...{ id: "tether", category: "anchor", name: "Frame anchor 8 × 100 for the wall tether" },
    ...{ amount: 1, countedIn: "piece", stockCode: "ANCHOR-8-100", supplied: false },
    source: THISTLEFOLD,
  },
  {
    ...{ id: "link-bar", category: "consumable", name: "Link bar with screws" },
    ...{ amount: 1, countedIn: "set", supplied: true, source: THISTLEFOLD },
  },
];

export const INVERTER_KIT: readonly ModelKitLine[] = [
  {
    ...{ id: "anchor", category: "anchor", name: "Frame anchor 8 × 100" },
    ...{ amount: 4, countedIn: "piece", stockCode: "ANCHOR-8-100", supplied: false },
    source: ODDMILL,
  },
  {
    ...{ id: "battery-cable", category: "cable", name: "Battery cable 35 mm², black and red" },
    ...{ amount: 3, countedIn: "m", stockCode: "BATT-35", supplied: false, source: ODDMILL },
  },
  {
    ...{ id: "plate", category: "consumable", name: "Mounting plate with its screws" },
    ...{ amount: 1, countedIn: "set", supplied: true, source: ODDMILL },
  },
];

export const GATEWAY_KIT: readonly ModelKitLine[] = [
  {
    ...{ id: "anchor", category: "anchor", name: "Frame anchor 8 × 100" },
    ...{ amount: 4, countedIn: "piece", stockCode: "ANCHOR-8-100", supplied: false },
    source: ODDMILL,
  },
  {
    ...{ id: "glands", category: "consumable", name: "Cable glands M32" },
    ...{ amount: 2, countedIn: "piece", stockCode: "GLAND-M32", supplied: true, source: ODDMILL },
  },
];

export const RACK = "Depot, rack 1";
export const SHELF = "Depot, shelf";

interface DemoConsumable extends NewConsumable {
  received: number;
  /** What was counted afterwards, where somebody did. */
  counted?: number;
  /** Taken along on a crew's van. */
  onVan?: number;
}

/** The frame anchors do not last for tomorrow's inverter and gateway. */
export const CONSUMABLES: readonly DemoConsumable[] = [
  {
    ...{ code: "BOLT-M10-90", name: "Through-bolt M10 × 90, zinc plated", countedIn: "piece" },
    ...{ leastAmount: 40, received: 120, onVan: 16 },
  },
  {
    ...{ code: "ANCHOR-8-100", name: "Frame anchor 8 × 100", countedIn: "piece" },
    ...{ leastAmount: 30, received: 25, counted: 6 },
  },
  {
    ...{ code: "BATT-35", name: "Battery cable 35 mm², black and red", countedIn: "m" },
    ...{ leastAmount: 20, received: 100, counted: 73.5, onVan: 12.5 },
  },
  {
    ...{ code: "EARTH-16", name: "Earthing cable 16 mm², green and yellow", countedIn: "m" },
    ...{ leastAmount: 25, received: 50, counted: 41 },
  },
  { code: "LUG-35-8", name: "Cable lugs 35 mm², M8", countedIn: "piece", received: 100 },
  { code: "LABEL-SET", name: "Label set, battery storage", countedIn: "set", received: 12 },
  { code: "FIRE-SEAL", name: "Fire sealant, cartridge", countedIn: "piece", received: 6 },
  { code: "TERM-CAP", name: "Insulating terminal caps", countedIn: "piece", received: 60 },
];
