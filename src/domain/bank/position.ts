// A switch position as text (`A`, `1010`, `on`) and as the value it stands for. A DIP switch is
// binary, the first-listed lever counting one.
import type { Switch } from "./switch-map.ts";

/** Whether a text names a position that the switch has. */
export function isPositionOf(one: Switch, position: string): boolean {
  if (one.kind === "rotary") return one.positions.includes(position);
  if (one.kind === "termination") return position === "on" || position === "off";
  return position.length === one.levers && /^[01]+$/.test(position);
}

/** Value of a position: rotary by its order, DIP in binary over `levers`, termination 0 or 1. */
export function positionValue(one: Switch, position: string, levers?: readonly number[]): number {
  if (one.kind === "rotary") return one.positions.indexOf(position);
  if (one.kind === "termination") return position === "on" ? 1 : 0;
  const order = levers ?? allLevers(one.levers);
  return order.reduce((sum, lever, at) => sum + (position[lever - 1] === "1" ? 2 ** at : 0), 0);
}

/** Binary digits of a value, one a lever, least significant first; nothing if too large. */
export function binaryDigits(value: number, levers: number): ("0" | "1")[] | undefined {
  if (value < 0 || value >= 2 ** levers) return undefined;
  return Array.from({ length: levers }, (_, at) => (Math.floor(value / 2 ** at) % 2 ? "1" : "0"));
}

/** Levers 1 to n, in order. */
export function allLevers(levers: number): number[] {
  return Array.from({ length: levers }, (_, at) => at + 1);
}
