// The settings of a bank as they pass between the table, the picture, the tablet and the record.

export interface Setting {
  /** Id of the switch in the map. */
  switch: string;
  /** Rotary: printed position. DIP: `1010`, lever 1 first, 1 is on. Termination: `on` or `off`. */
  position: string;
}
export interface PackSettings {
  /** Pack position in the bank, from 1. */
  position: number;
  settings: Setting[];
}
export type BankSettings =
  | { ok: true; packs: PackSettings[]; addresses: number[] }
  | { ok: false; problem: string };

/** Positions of one pack by switch id, or why there are none. */
export type Positions = { ok: true; byId: Map<string, string> } | { ok: false; problem: string };
