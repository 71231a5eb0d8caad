// A bit turned at one place after the other of a bag's files, in as many copies of the bag side by
// side as the machine has processors.
import { cpSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { join } from "node:path";
import { flipBit } from "./evidence-tampering.ts";

const TOLD_EACH = 10_000;

interface Flip {
  file: string;
  place: number;
  bit: number;
}

/** Places of every file, at most so many of each, first and last always among them. */
export function flipsIn(folder: string, files: readonly string[], mostEach: number): Flip[] {
  const places = files.flatMap((file) =>
    placesIn(statSync(join(folder, file)).size, mostEach).map((place) => ({ file, place })),
  );
  return places.map((place, index) => ({ ...place, bit: (index + 1) % 8 }));
}

function placesIn(size: number, most: number): number[] {
  if (size <= most) return Array.from({ length: size }, (_, place) => place);
  return Array.from({ length: most }, (_, index) => Math.round((index * (size - 1)) / (most - 1)));
}

/** What was overlooked, by place; `overlookedBy` names who found a changed copy whole. */
export async function flipEach(
  folder: string,
  flips: readonly Flip[],
  overlookedBy: (changed: string) => Promise<string[]>,
): Promise<string[]> {
  const overlooked: string[] = [];
  const left = flips.values();
  let done = 0;
  const lane = async (_: unknown, number: number): Promise<void> => {
    const copy = `${folder}-lane-${number}`;
    cpSync(folder, copy, { recursive: true });
    for (const { file, place, bit } of left) {
      const path = join(copy, file);
      const whole = readFileSync(path);
      flipBit(path, place, bit);
      for (const who of await overlookedBy(copy))
        overlooked.push(`${file}@${place}.${bit}: ${who}`);
      writeFileSync(path, whole);
      done += 1;
      if (done % TOLD_EACH === 0) process.stdout.write(`${done} of ${flips.length} places\n`);
    }
    rmSync(copy, { recursive: true });
  };
  await Promise.all(Array.from({ length: availableParallelism() }, lane));
  process.stdout.write(`flipped bits: ${done} places, ${overlooked.length} overlooked\n`);
  return overlooked;
}
