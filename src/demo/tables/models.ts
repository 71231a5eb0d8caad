// Makers, families and figures are invented; none is taken from a real maker's sheet.
import type { SwitchMapInput } from "../../domain/bank/switch-map.ts";
import type { FirmwareScheme } from "../../domain/firmware/levels.ts";
import type { CheckScheme } from "../../domain/identifiers/check-schemes.ts";
import type { ModelKitLine } from "../../domain/kit/line.ts";

import { GATEWAY_KIT, INVERTER_KIT, STACK_KIT, WALL_KIT } from "./kit.ts";

export interface DemoModel {
  code: string;
  name: string;
  maker: string;
  kind: "battery-pack" | "inverter" | "gateway";
  attributes: Record<string, string | number | boolean>;
  serialMask: string;
  serialCheck: CheckScheme;
  firmwareScheme: FirmwareScheme;
  switchMap?: SwitchMapInput;
  kit: readonly ModelKitLine[];
  /** As printed on the label. */
  hardwareRevision: string;
  /** Level of units in the field, and of those that are behind a target. */
  levels: { current: string; behind?: string };
}

const DIAL = { kind: "rotary", positions: [..."0123456789"] } as const;

const wallMap = (code: string): SwitchMapInput => ({
  schema: "switch-map/1",
  id: code.toLowerCase(),
  productModel: code,
  source: "Quillmere installation sheet, edition 4",
  switches: [
    { ...DIAL, positions: [...DIAL.positions], id: "address", label: "Address" },
    { kind: "termination", id: "termination", label: "Termination", onIs: "up" },
  ],
  protocols: [wallProtocol("bus-a", "Bus A", 6, -1), wallProtocol("bus-b", "Bus B", 4, 0)],
});

function wallProtocol(id: string, name: string, packs: number, add: number) {
  return {
    id,
    name,
    packCount: { minimum: 1, maximum: packs },
    settings: {
      form: "formula" as const,
      parts: [
        { switch: "address", rule: { by: "position" as const, add } },
        { switch: "termination", rule: { by: "ends" as const, which: "last" as const } },
      ],
    },
    address: { switch: "address" },
    gapsAllowed: false,
  };
}

const stackMap = (code: string): SwitchMapInput => ({
  schema: "switch-map/1",
  id: code.toLowerCase(),
  productModel: code,
  source: "Thistlefold stacking guide, edition 2",
  switches: [
    { ...DIAL, positions: [...DIAL.positions], id: "module", label: "Module" },
    { kind: "dip", id: "mode", label: "Mode", levers: 2, onIs: "up" },
    { kind: "termination", id: "end", label: "End", onIs: "down" },
  ],
  protocols: [
    {
      id: "stack-bus",
      name: "Stack bus",
      packCount: { minimum: 2, maximum: 8 },
      settings: {
        form: "formula",
        parts: [
          { switch: "module", rule: { by: "position", add: 0 } },
          { switch: "mode", rule: { by: "fixed", position: "10" } },
          { switch: "end", rule: { by: "ends", which: "last" } },
        ],
      },
      address: { switch: "module" },
      gapsAllowed: false,
    },
  ],
});

const WALL = {
  kit: WALL_KIT,
  maker: "Quillmere Cellworks",
  kind: "battery-pack",
  serialCheck: "gs1-mod10",
  firmwareScheme: "semver",
} as const;

const WALL_FIGURES = {
  nominalVoltageV: 51.2,
  ocvMinV: 49.7,
  ocvMaxV: 54.3,
  parallelDifferenceMaxV: 0.35,
  anchorDepthMm: 72,
  anchorTorqueNm: 11,
  bracketTorqueNm: 4.4,
  terminalTorqueNm: 8.6,
  earthTorqueNm: 3.3,
  storageChargeMaxPercent: 28,
  coverTorqueNm: 1.7,
  rearGapMm: 23,
  sideGapMm: 185,
  caseTemperatureMaxC: 47,
  topAnchors: 2,
  centreOfGravityMm: 118,
  leverArmMm: 430,
};

const STACK = {
  kit: STACK_KIT,
  maker: "Thistlefold Storage",
  kind: "battery-pack",
  serialCheck: "mod37-36",
  firmwareScheme: "dotted",
} as const;

const STACK_FIGURES = {
  nominalVoltageV: 44.8,
  ocvMinV: 43.2,
  ocvMaxV: 47.4,
  linkTorqueNm: 7.4,
  terminalTorqueNm: 7.4,
  earthTorqueNm: 3.7,
  storageChargeMaxPercent: 32,
  wallGapMm: 55,
  caseTemperatureMaxC: 45,
};

const INVERTER_FIGURES = {
  mountTorqueNm: 12.5,
  acTerminalTorqueNm: 2.1,
  dcTerminalTorqueNm: 9.2,
  earthTorqueNm: 3.3,
  pvVoltageMaxV: 570,
  sideGapMm: 220,
  aboveGapMm: 340,
  dischargeWaitS: 300,
  caseTemperatureMaxC: 62,
};

const GATEWAY_FIGURES = {
  terminalTorqueNm: 3.4,
  earthTorqueNm: 3.1,
  changeoverMaxS: 7,
};

const HYBRID = {
  kit: INVERTER_KIT,
  maker: "Oddmill Electric",
  kind: "inverter",
  serialCheck: "luhn",
  firmwareScheme: "semver",
} as const;

export const MODELS: readonly DemoModel[] = [
  {
    ...WALL,
    code: "BRACKEN-W5",
    name: "Bracken W5 wall pack",
    attributes: { ...WALL_FIGURES, usableEnergyKwh: 4.7, massKg: 53 },
    serialMask: "BW5#{9}",
    switchMap: wallMap("BRACKEN-W5"),
    hardwareRevision: "C",
    levels: { current: "2.4.1", behind: "2.3.6" },
  },
  {
    ...WALL,
    code: "BRACKEN-W9",
    name: "Bracken W9 wall pack",
    attributes: { ...WALL_FIGURES, usableEnergyKwh: 8.9, massKg: 87, anchorTorqueNm: 17 },
    serialMask: "BW9#{9}",
    switchMap: wallMap("BRACKEN-W9"),
    hardwareRevision: "B",
    levels: { current: "2.4.1" },
  },
  {
    ...STACK,
    code: "DRYSTONE-S4",
    name: "Drystone S4 module",
    attributes: { ...STACK_FIGURES, usableEnergyKwh: 4.1, massKg: 39 },
    serialMask: "DS4@#{6}*",
    switchMap: stackMap("DRYSTONE-S4"),
    hardwareRevision: "2",
    levels: { current: "7.12" },
  },
  {
    ...STACK,
    code: "DRYSTONE-S6",
    name: "Drystone S6 module",
    attributes: { ...STACK_FIGURES, usableEnergyKwh: 6.2, massKg: 56 },
    serialMask: "DS6@#{6}*",
    switchMap: stackMap("DRYSTONE-S6"),
    hardwareRevision: "2",
    levels: { current: "7.12" },
  },
  {
    ...HYBRID,
    code: "MILLRACE-H5",
    name: "Millrace H5 hybrid inverter",
    attributes: { ...INVERTER_FIGURES, acPowerKw: 5, massKg: 24, dataBus: "Bus A" },
    serialMask: "MH5-##-#{6}",
    hardwareRevision: "1.1",
    levels: { current: "3.1.2" },
  },
  {
    ...HYBRID,
    code: "MILLRACE-H8",
    name: "Millrace H8 hybrid inverter",
    attributes: {
      ...INVERTER_FIGURES,
      acPowerKw: 8,
      massKg: 31,
      dataBus: "Bus A",
      mountTorqueNm: 14.5,
    },
    serialMask: "MH8-##-#{6}",
    hardwareRevision: "1.0",
    levels: { current: "3.2.0" },
  },
  {
    code: "TOLLGATE-A4",
    name: "Tollgate A4 battery inverter",
    maker: "Larkholm Drives",
    kit: INVERTER_KIT,
    kind: "inverter",
    attributes: {
      ...INVERTER_FIGURES,
      acPowerKw: 3.6,
      massKg: 18,
      dataBus: "Bus B",
      pvVoltageMaxV: 480,
    },
    serialMask: "TG#{9}",
    serialCheck: "mod11-2",
    firmwareScheme: "semver",
    hardwareRevision: "D",
    levels: { current: "1.6.0" },
  },
  {
    code: "TOLLGATE-A7",
    name: "Tollgate A7 battery inverter",
    maker: "Larkholm Drives",
    kit: INVERTER_KIT,
    kind: "inverter",
    attributes: {
      ...INVERTER_FIGURES,
      acPowerKw: 7,
      massKg: 22,
      dataBus: "Bus B",
      pvVoltageMaxV: 480,
    },
    serialMask: "TG#{9}",
    serialCheck: "mod11-2",
    firmwareScheme: "semver",
    hardwareRevision: "A",
    levels: { current: "1.6.0" },
  },
  {
    code: "LANTERN-G1",
    name: "Lantern G1 changeover gateway",
    maker: "Oddmill Electric",
    kit: GATEWAY_KIT,
    kind: "gateway",
    attributes: { ...GATEWAY_FIGURES, ratedCurrentA: 63, massKg: 11 },
    serialMask: "LG@#{7}",
    serialCheck: "none",
    firmwareScheme: "dotted",
    hardwareRevision: "1",
    levels: { current: "0.9.5" },
  },
];
