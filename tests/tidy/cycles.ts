import { importsOf } from "./imports.ts";
import type { ProjectFile } from "./project-files.ts";

/** No file may lead back to itself by imports, types included: two such files are one in truth. */
export function checkCycles(files: readonly ProjectFile[]): string[] {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const done = new Set<string>();
  const found: string[] = [];
  const visit = (file: ProjectFile, trail: readonly string[]) => {
    const start = trail.indexOf(file.path);
    if (start >= 0) {
      const circle = [...trail.slice(start), file.path].join(" → ");
      found.push(`${file.path}:1: imports lead in a circle: ${circle}`);
      return;
    }
    if (done.has(file.path)) return;
    for (const { file: target } of importsOf(file)) {
      const next = target === undefined ? undefined : byPath.get(target);
      if (next) visit(next, [...trail, file.path]);
    }
    done.add(file.path);
  };
  for (const file of files) visit(file, []);
  return found;
}
