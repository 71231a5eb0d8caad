// Requirement: what a picture of rounds shows also stands beside it as text (WCAG 2.2, 1.1.1).
import type { RoundsPlan } from "./rounds-plan.ts";

export interface RoundsTable {
  columns: readonly string[];
  rows: readonly (readonly string[])[];
}

const DAY_MIN = 24 * 60;

/** "08:05", or "day 2 08:05" from the second day on. */
export function clockText(minutes: number): string {
  const whole = Math.round(minutes);
  const day = Math.floor(whole / DAY_MIN);
  const inDay = whole - day * DAY_MIN;
  const two = (number: number): string => String(number).padStart(2, "0");
  const time = `${two(Math.floor(inDay / 60))}:${two(inDay % 60)}`;
  return day === 0 ? time : `day ${day + 1} ${time}`;
}

/** One row a stop, numbered as in the picture, then one for the way home; then what is left out. */
export function roundsTable(plan: RoundsPlan, timeText = clockText): RoundsTable {
  const columns = ["Round", "Stop", "Site", "Drive min", "Arrives", "Begins", "Leaves"];
  const rows = plan.rounds.flatMap((round, index) => [
    ...round.stops.map((stop, at) => [
      `${index + 1} ${round.label}`,
      `${index + 1}.${at + 1}`,
      stop.label,
      String(Math.round(stop.driveMin)),
      timeText(stop.arrivesMin),
      timeText(stop.beginsMin),
      timeText(stop.leavesMin),
    ]),
    homeRow(`${index + 1} ${round.label}`, round, timeText),
  ]);
  const left = plan.leftOut.map(({ label, sentence }) => [
    "left out",
    "",
    label,
    sentence,
    "",
    "",
    "",
  ]);
  return { columns, rows: [...rows, ...left] };
}

function homeRow(
  name: string,
  round: RoundsPlan["rounds"][number],
  timeText: (minutes: number) => string,
): string[] {
  const out = round.stops.reduce((sum, { driveMin }) => sum + driveMin, 0);
  const drive = String(Math.round(round.driveMin - out));
  return [name, "end", "", drive, timeText(round.returnsMin), "", ""];
}

/** The table as plain text in columns. */
export function tableText({ columns, rows }: RoundsTable): string {
  const all = [columns, ...rows];
  const widths = columns.map((_, at) => Math.max(...all.map((row) => row[at]?.length ?? 0)));
  return all
    .map((row) =>
      row
        .map((cell, at) => cell.padEnd(widths[at] ?? 0))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}
