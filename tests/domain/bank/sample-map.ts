// An invented pack family with the three ways maps are printed: a rotary switch by rule, DIP levers
// in binary by rule, and a table of rows. Names and numbers resemble no maker's.
import { parseSwitchMap } from "../../../src/domain/bank/parse-switch-map.ts";
import type { SwitchMap, SwitchMapInput } from "../../../src/domain/bank/switch-map.ts";

type ProtocolInput = SwitchMapInput["protocols"][number];

export const HEX = [..."0123456789ABCDEF"];

export const rotaryProtocol: ProtocolInput = {
  id: "rotary",
  name: "Rotary by rule",
  packCount: { minimum: 1, maximum: 16 },
  settings: {
    form: "formula",
    parts: [
      { switch: "dial", rule: { by: "position", add: -1 } },
      { switch: "levers", rule: { by: "fixed", position: "000000" } },
      { switch: "end", rule: { by: "ends", which: "both" } },
    ],
  },
  address: { switch: "dial" },
  gapsAllowed: false,
};

export const binaryProtocol: ProtocolInput = {
  id: "binary",
  name: "Binary on levers 1 to 4",
  packCount: { minimum: 1, maximum: 16 },
  settings: {
    form: "formula",
    parts: [
      { switch: "dial", rule: { by: "fixed", position: "0" } },
      { switch: "levers", levers: [1, 2, 3, 4], rule: { by: "position", add: -1 } },
      { switch: "levers", levers: [5], rule: { by: "ends", which: "last" } },
      { switch: "levers", levers: [6], rule: { by: "fixed", position: "1" } },
      { switch: "end", rule: { by: "ends", which: "last" } },
    ],
  },
  address: { switch: "levers", levers: [1, 2, 3, 4] },
  gapsAllowed: false,
};

const row = (position: number | "last", dial: string, more: Record<string, string> = {}) => ({
  position,
  settings: { dial, levers: "000000", end: "off", ...more },
});

export const rowsProtocol: ProtocolInput = {
  id: "rows",
  name: "By table",
  packCount: { minimum: 2, maximum: 4 },
  settings: {
    form: "rows",
    rows: [
      row(1, "1", { levers: "110000" }),
      row(2, "2"),
      row(3, "3"),
      row(4, "4"),
      { position: "last", settings: { end: "on" } },
    ],
  },
  address: { switch: "dial" },
  gapsAllowed: false,
};

export const mapInput = (...protocols: ProtocolInput[]): SwitchMapInput => ({
  schema: "switch-map/1",
  id: "sample",
  productModel: "Sample pack",
  source: "Sample install sheet, edition 1",
  switches: [
    { kind: "rotary", id: "dial", label: "Address", positions: HEX },
    { kind: "dip", id: "levers", label: "Mode", levers: 6, onIs: "up" },
    { kind: "termination", id: "end", label: "Termination", onIs: "down" },
  ],
  protocols: protocols.length > 0 ? protocols : [rotaryProtocol, binaryProtocol, rowsProtocol],
});

export function sampleMap(...protocols: ProtocolInput[]): SwitchMap {
  const parsed = parseSwitchMap(mapInput(...protocols));
  if (!parsed.ok) throw new Error(parsed.problem);
  return parsed.map;
}
