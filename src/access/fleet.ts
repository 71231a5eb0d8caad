import type { AccessRule } from "../web/access.ts";

/** What is installed, and its firmware. */
export const FLEET_ACCESS: Record<string, AccessRule> = {
  // Product models
  listProductModels: "everyone",
  addProductModel: ["owner", "office"],
  readProductModel: "everyone",
  editProductModel: ["owner", "office"],

  // Units
  listUnits: "everyone",
  receiveUnit: ["owner", "office", "installer"],
  readUnit: "everyone",
  readUnitLife: "everyone",
  editUnit: ["owner", "office", "installer"],
  installUnit: ["owner", "office", "installer"],
  removeUnit: ["owner", "office", "installer"],
  swapUnit: ["owner", "office", "installer"],

  // Banks
  listBanks: "everyone",
  addBank: ["owner", "office", "installer"],
  readBank: "everyone",
  editBank: ["owner", "office", "installer"],
  putBankPacks: ["owner", "office", "installer"],
  readBankSettings: "everyone",
  drawBankSettings: "everyone",
  tryBankSettings: "everyone",

  // Firmware
  listFirmwareReleases: "everyone",
  addFirmwareRelease: ["owner", "manager"],
  readFirmwareRelease: "everyone",
  editFirmwareRelease: ["owner", "manager"],
  withdrawFirmwareRelease: ["owner", "manager"],
  readFirmwareTarget: "everyone",
  setFirmwareTarget: ["owner", "manager"],
  addFirmwareReading: ["installer", "office", "manager"],
  listFirmwareDue: "everyone",
  countFirmwareDue: "everyone",

  // Update rounds
  proposeUpdateRounds: ["owner", "office", "manager"],
  listUpdateRounds: ["owner", "office", "manager", "auditor"],
  readUpdateRound: ["owner", "office", "manager", "auditor"],
  drawUpdateRound: ["owner", "office", "manager", "auditor"],
  acceptUpdateRound: ["owner", "office", "manager"],
  dropUpdateRound: ["owner", "office", "manager"],
  roundsPage: ["owner", "office", "manager", "auditor"],
  roundPage: ["owner", "office", "manager", "auditor"],
  proposeRoundsForm: ["owner", "office", "manager"],
  acceptRoundForm: ["owner", "office", "manager"],
  dropRoundForm: ["owner", "office", "manager"],
};
