// What a good day's readings look like, by item of the demo's plans. Where an item is not listed,
// the middle of its limit is taken.

/** The reading is `around` plus or minus up to `spread`, written with so many decimals. */
export interface TypicalReading {
  around: number;
  spread: number;
  decimals: number;
  /** The reading counts from the limit of the job at hand: `around` is added to it. */
  from?: "low" | "high";
}

export const READINGS: Readonly<Record<string, TypicalReading>> = {
  opening_clearance: { from: "low", around: 420, spread: 260, decimals: 0 },
  hole_depth: { from: "low", around: 4, spread: 2.5, decimals: 1 },
  rear_gap: { from: "low", around: 4, spread: 3, decimals: 0 },
  side_gap: { from: "low", around: 70, spread: 55, decimals: 0 },
  above_gap: { from: "low", around: 90, spread: 70, decimals: 0 },
  wall_gap: { from: "low", around: 9, spread: 6, decimals: 0 },
  floor_fall: { around: 2.5, spread: 1.5, decimals: 0 },
  working_depth: { around: 1450, spread: 300, decimals: 0 },
  path_width: { around: 830, spread: 80, decimals: 0 },
  discharge_waited: { from: "low", around: 45, spread: 40, decimals: 0 },
  proved_dead: { around: 0.2, spread: 0.2, decimals: 1 },
  open_circuit_voltage: { from: "low", around: 2.3, spread: 0.1, decimals: 1 },
  module_voltage: { from: "low", around: 2.3, spread: 0.1, decimals: 1 },
  parallel_difference: { around: 0.1, spread: 0.1, decimals: 1 },
  earth_continuity: { around: 0.04, spread: 0.01, decimals: 2 },
  ac_insulation: { around: 320, spread: 140, decimals: 0 },
  string_insulation: { around: 64, spread: 30, decimals: 1 },
  zs: { around: 0.46, spread: 0.12, decimals: 2 },
  electrode_resistance: { around: 74, spread: 31, decimals: 0 },
  rcd_trip_time: { around: 23, spread: 5, decimals: 0 },
  rcd_half_current: { around: 2000, spread: 0, decimals: 0 },
  ac_voltage: { around: 238, spread: 5, decimals: 1 },
  bus_termination: { around: 60.2, spread: 0.8, decimals: 1 },
  case_temperature: { around: 33, spread: 3.5, decimals: 1 },
  cell_temperature: { around: 31, spread: 6, decimals: 1 },
  unit_temperature: { around: 17, spread: 4, decimals: 1 },
  module_voc: { around: 41.3, spread: 0, decimals: 1 },
  module_coefficient: { around: -0.26, spread: 0, decimals: 2 },
  charge_level: { around: 62, spread: 14, decimals: 0 },
  islanding_stop: { around: 0.6, spread: 0.3, decimals: 1 },
  changeover_time: { around: 3.4, spread: 1.5, decimals: 1 },
};

/** Counts that their limit does not name. */
export const COUNTS: Readonly<Record<string, number>> = {
  modules: 11,
  steps: 2,
  files_on_medium: 1,
};

/** Choices where several are accepted, or none is named. */
export const CHOICES: Readonly<Record<string, string>> = {
  breaker_curve: "B",
  breaker_rating: "32",
  wall_kind: "Solid brick or block",
  room: "Garage",
  main_fuse: "100",
};

/** Notes where the plan asks for one. */
export const NOTES: Readonly<Record<string, string>> = {
  button_held: "Held for 8 seconds by the watch, as the notice says.",
  wall_kind: "Rendered block, sounds full; nothing hollow at shoulder height.",
};
