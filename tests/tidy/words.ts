import type { ProjectFile } from "./project-files.ts";

// Pieces in brackets keep this file from finding itself. A machine path begins a word, which keeps
// addresses of the program's own out.
const FORBIDDEN = [
  {
    pattern: /\b(?:TO(?:DO)|FIX(?:ME))\b/,
    problem: "do it, or say in a sentence what is not done",
  },
  {
    pattern: /(?<![\w.)}\]/-])\/(?:work|root)(?![\w-])|(?<![\w.)}\]/-])\/(?:home|Users)\/\w/,
    problem: "a path of one machine",
  },
  {
    pattern:
      /\b(?:registry\.[a-z0-9.-]+\.(?:com|org|net|io|dev)|registry\.npmjs|npmjs\.(?:com|org))\b/,
    problem: "a package registry's host",
  },
  {
    pattern:
      /\b(?:deb\.debian\.org|pypi\.org|files\.pythonhosted\.org|proxy\.golang\.org|ghcr\.io)\b/,
    problem: "a package registry's host",
  },
];

/** Words that no text file of the project holds: unfinished work, machine paths, registry hosts. */
export function checkWords(files: readonly ProjectFile[]): string[] {
  return files.flatMap((file) =>
    file.text
      .split("\n")
      .flatMap((line, index) =>
        FORBIDDEN.filter(({ pattern }) => pattern.test(line)).map(
          ({ pattern, problem }) =>
            `${file.path}:${index + 1}: "${pattern.exec(line)?.[0]}": ${problem}`,
        ),
      ),
  );
}
