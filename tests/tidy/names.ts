import type { ProjectFile } from "./project-files.ts";
import { isGenerated } from "./syntax.ts";

const FOLDERS = /^(?:src|tests|bench|templates|prisma)\//;
const NAMED_FILES = /\.(?:ts|mjs|js|hbs|css|sql|prisma)$/;
// Prisma names a migration's folder by time and words: 20260314092653_add_units.
const MIGRATIONS = /^prisma\/migrations\//;
const KEBAB = /^[a-z0-9]+(?:-[a-z0-9]+)*(?:\.[a-z0-9]+(?:-[a-z0-9]+)*)*$/;

const EMPTY_WORDS = ["util", "utils", "helper", "helpers", "manager", "managers", "service"];
const CATCH_ALLS = ["services", "misc", "common"];

/**
 * Names are kebab-case and say what is inside. A "service worker" keeps the web standard's name; in
 * templates "manager" is the role.
 */
export function checkNames(files: readonly ProjectFile[]): string[] {
  return files.flatMap(({ path }) => {
    if (!FOLDERS.test(path) || isGenerated(path) || MIGRATIONS.test(path)) return [];
    return [...kebabProblems(path), ...wordProblems(path)];
  });
}

function kebabProblems(path: string): string[] {
  const parts = path.split("/");
  const named = NAMED_FILES.test(path) ? parts : parts.slice(0, -1);
  return named
    .filter((part) => !KEBAB.test(part))
    .map((part) => `${path}:1: "${part}" is not kebab-case`);
}

function wordProblems(path: string): string[] {
  if (!/\.(?:ts|mjs|js)$/.test(path)) return [];
  const words = path.replace(/service-worker/g, "worker").split(/[/.-]/);
  const empty = words.filter((word) => [...EMPTY_WORDS, ...CATCH_ALLS].includes(word));
  return empty.map((word) => `${path}:1: "${word}" says nothing about what is inside; name that`);
}
