import { posix } from "node:path";
import { importsOf } from "./imports.ts";
import type { ProjectFile } from "./project-files.ts";

const DOOR_LINES_MAX = 40;

/** An index.ts is its folder's only door, and small: nobody outside imports past it. */
export function checkDoors(files: readonly ProjectFile[]): string[] {
  return files
    .filter(({ path }) => /^(?:src|tests|bench)\/(?:.*\/)?index\.ts$/.test(path))
    .flatMap((door) => [...sizeProblem(door), ...waysPast(door, files)]);
}

function sizeProblem(door: ProjectFile): string[] {
  const lines = door.text.trimEnd().split("\n").length;
  if (lines <= DOOR_LINES_MAX) return [];
  return [`${door.path}:1: a door of ${lines} lines, at most ${DOOR_LINES_MAX}`];
}

function waysPast(door: ProjectFile, files: readonly ProjectFile[]): string[] {
  const inside = `${posix.dirname(door.path)}/`;
  const outside = files.filter(({ path }) => path.startsWith("src/") && !path.startsWith(inside));
  return outside
    .flatMap((file) => importsOf(file))
    .filter(({ file }) => file?.startsWith(inside) && file !== door.path)
    .map((imported) => imported.report(`imports past the door ${door.path}; one of the two goes`));
}
